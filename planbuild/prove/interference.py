"""No two parts claim the same wood: every pair of standing solids is compared."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

from planbuild.core.diagnostics import Diagnostic, Related
from planbuild.core.geometry import Axis, Box
from planbuild.prove.measuring import THIN, Shared, shared_wood
from planbuild.prove.standing import Standing
from planbuild.prove.telling import size_of_box, told
from planbuild.records.findings import Findings, Proof
from planbuild.records.solids import Key


@dataclass(frozen=True)
class _Overlap:
    pair: tuple[Key, Key]
    shared: Shared

    @property
    def depth(self) -> float:
        return min(self.shared.box.size(axis) for axis in Axis)


def no_overlaps(standing: Standing) -> Findings:
    """Reports `joint-overlap` once for two parts, with their worst place."""
    near = list(_near(standing.boxes))
    compared = ((pair, shared_wood(*(standing.solid(key) for key in pair))) for pair in near)
    overlaps = [_Overlap(pair, shared) for pair, shared in compared if shared]
    count = len(standing.boxes)
    deepest = told(standing.ruler, max((each.depth for each in overlaps), default=0.0))
    saying = f"{len(near)} of them near enough to be cut against each other; deepest overlap {deepest}"
    proof = Proof("No two parts claim the same wood", count * (count - 1) // 2, saying)
    return Findings(tuple(_told(standing, overlaps)), (proof,))


def _near(boxes: Mapping[Key, Box]) -> Iterator[tuple[Key, Key]]:
    for (one, box), (other, against) in combinations(boxes.items(), 2):
        both = box.meet(against)
        if all(both.size(axis) > THIN for axis in Axis):
            yield one, other


def _told(standing: Standing, overlaps: list[_Overlap]) -> Iterator[Diagnostic]:
    """One finding for each two parts, in the order of the parts."""
    together: dict[tuple[str, str], list[_Overlap]] = {}
    for each in overlaps:
        (one, _), (other, _) = each.pair
        together.setdefault((one, other), []).append(each)
    for (one, other), found in together.items():
        yield _finding(standing, one, other, found)


def _finding(standing: Standing, one: str, other: str, found: list[_Overlap]) -> Diagnostic:
    piece, worst = standing.piece, max(found, key=lambda each: each.shared.volume)
    first, second = (standing.name(key) for key in worst.pair)
    places = "" if len(found) == 1 else f", and so in {len(found)} places"
    joint = next((j for j in piece.joints if any({c.a[0], c.b[0]} == {one, other} for c in j.contacts)), None)
    return Diagnostic(
        "joint-overlap",
        f"{first} and {second} claim the same wood: a block of {size_of_box(piece.ruler, worst.shared.box)}{places}.",
        span=joint.origin if joint else piece.part(other).origin,
        expected="parts that touch and do not enter each other",
        hints=(f"move one of them by {told(piece.ruler, worst.depth)}, or join them so that one makes room",),
        related=tuple(Related(piece.part(id).origin, f"{piece.part(id).name} is placed here") for id in sorted({one, other})),
    )
