"""Grooves of other joints that come out at a corner in sight: beside a tail, or in its end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import permutations

from planbuild.core.geometry import TINY, Box, Face, Span1
from planbuild.joints.base import Joined, Site
from planbuild.joints.faults import warn
from planbuild.records.features import Groove
from planbuild.records.tails import Sockets, Tails

_COVERED = ("half-blind dovetail",)
"""Kinds of corner at which the ends of the tails are hidden."""


def tell_grooves_that_show(joined: Sequence[Joined], site: Site) -> None:
    """Reports `joint-groove-shows` (warning) once for each two joints and a part."""
    for corner, other in permutations(joined, 2):
        for part, features in corner.features.items():
            grooves = [each for each in other.features.get(part, ()) if isinstance(each, Groove) and each.what == "groove"]
            face = next(_shown(corner, features, grooves, site.boards[part].body), None)
            if face:
                _tell(corner, other, part, face, site)


def _shown(corner: Joined, features: Sequence[object], grooves: Sequence[Groove], body: Box) -> Iterator[Face]:
    """The ends of a part at which one of the grooves is seen."""
    for cut in features:
        for groove in grooves:
            if isinstance(cut, Sockets) and not _behind_a_tail(cut, groove):
                yield from (face for face in _open_ends(cut, body) if _comes_out(cut, groove, face, body))
            if isinstance(cut, Tails) and corner.joint.kind not in _COVERED and not _between_tails(cut, groove):
                yield from (face for face in (cut.end,) if _comes_out(cut, groove, face, body))


def _open_ends(cut: Sockets, body: Box) -> list[Face]:
    run = cut.comb.run
    return [face for face in (run.low, run.high) if abs(cut.comb.block.at(face) - body.at(face)) < TINY]


def _comes_out(cut: Sockets | Tails, groove: Groove, face: Face, body: Box) -> bool:
    reaches = abs(groove.void.at(face) - body.at(face)) < TINY
    return reaches and groove.void.meet(cut.comb.block).is_solid


def _behind_a_tail(cut: Sockets, groove: Groove) -> bool:
    band = groove.void.along(cut.comb.spread)
    return any(_holds(cut.comb.neck(tail), band) for tail in cut.comb.tails)


def _between_tails(cut: Tails, groove: Groove) -> bool:
    band = groove.void.along(cut.comb.spread)
    return any(_holds(Span1(*tips), band) for _, tips in cut.comb.gaps)


def _holds(outer: Span1, inner: Span1) -> bool:
    return outer.low < inner.low + TINY and outer.high > inner.high - TINY


def _tell(corner: Joined, other: Joined, part: str, face: Face, site: Site) -> None:
    name = other.joint.id.rpartition(".")[2]
    message = f'The groove of "{name}" comes out at the {face.value} end of "{part}", in sight beside "{corner.joint.id}".'
    hide = f"Write `hide: {name}` in \"{corner.joint.id}\", or " if corner.joint.kind in _COVERED else ""
    hint = f"{hide}{'w' if hide else 'W'}rite `stopped: yes` in \"{name}\"."
    warn(site, "joint-groove-shows", corner.joint.origin, message, "a groove that ends behind a tail, or stops", hint)
