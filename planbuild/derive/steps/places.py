"""Where joinery lies on a part, measured as a maker does: along the grain from one end or shoulder, across from one face."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planbuild.core.geometry import Face
from planbuild.derive.lists.measures import MortiseSize, mortise_size
from planbuild.derive.steps.job import Job
from planbuild.records.features import Mortise, Tenon
from planbuild.records.piece import Part


def datum_words(job: Job, part: Part, end: Face) -> str:
    """`the top end`, or `the front shoulder line (1 7/8 from the end)` where a tenon will be: the line is drawn, not yet cut."""
    tenons = [f.block.size(part.grain) for f in part.features if isinstance(f, Tenon) and f.end is end]
    if not tenons:
        return f"the {end.value} end"
    return f"the {end.value} shoulder line ({job.size(max(tenons))} from the end)"


def reach(part: Part, mortise: Mortise, end: Face) -> tuple[float, float]:
    """Nearer and farther wall of a mortise from that end.  Units: mm."""
    at = part.body.at(end)
    one, other = (abs(at - mortise.void.at(face)) for face in (part.grain.low, part.grain.high))
    return min(one, other), max(one, other)


@dataclass(frozen=True)
class MortiseKind:
    """Mortises of one part that are cut alike."""

    mates: tuple[str, ...]
    size: MortiseSize
    through: bool
    flare: float
    mortises: tuple[Mortise, ...]


def mortise_kinds(job: Job, mortises: Sequence[Mortise]) -> tuple[MortiseKind, ...]:
    """By printed size and whether they go through, in the order of the first of each kind."""
    kinds: dict[tuple[str, ...], list[Mortise]] = {}
    for each in mortises:
        size = mortise_size(each)
        key = (job.sizes(size.width, size.length, size.depth), str(each.through), job.size(each.flare))
        kinds.setdefault(key, []).append(each)
    return tuple(_kind(each) for each in kinds.values())


def _kind(alike: list[Mortise]) -> MortiseKind:
    mates = tuple(dict.fromkeys(each.mate.part for each in alike))
    return MortiseKind(mates, mortise_size(alike[0]), alike[0].through, alike[0].flare, tuple(alike))
