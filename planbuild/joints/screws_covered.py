"""Screws that come where another joint lets a part in: a driver cannot reach them, and there is no wood for them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import permutations

from planbuild.core.diagnostics import Diagnostic, Related
from planbuild.core.geometry import TINY
from planbuild.joints.base import Joined, Site
from planbuild.records.features import Feature, Groove, Hole, Mortise, Rabbet

_Room = Groove | Mortise | Rabbet


def refuse_covered(joined: Sequence[Joined], site: Site) -> None:
    """Reports `joint-screw-covered` once for each two joints and a part."""
    for screwed, other in permutations(joined, 2):
        for part, features in screwed.features.items():
            met = next(_covered(features, other.features.get(part, ())), None)
            if met:
                _tell(part, screwed, other, *met, site)


def _covered(features: Iterable[Feature], others: Iterable[Feature]) -> Iterator[tuple[Hole, _Room]]:
    rooms = [each for each in others if isinstance(each, _Room) and each.mate]
    for hole in features:
        if isinstance(hole, Hole) and hole.gauge:
            yield from ((hole, room) for room in rooms if _lies_over(room, hole))


def _lies_over(room: _Room, hole: Hole) -> bool:
    """True if a head comes where the room opens, or a thread where there is nothing but the room."""
    wide = max(hole.diameter, *(each[0] for each in (hole.counterbore, hole.countersink) if each), 0.0)
    axis, mouth = hole.face.axis, hole.reach(wide)
    depth, plane = room.void.along(axis), hole.centre[axis.value]
    if not depth.low - TINY < plane < depth.high + TINY:
        return False
    common = [room.void.along(each).meet(mouth.along(each)).size for each in axis.others]
    return all(size > (wide - TINY if hole.purpose == "pilot" else TINY) for size in common)


def _tell(part: str, screwed: Joined, other: Joined, hole: Hole, room: _Room, site: Site) -> None:
    assert room.mate is not None
    what = room.what if isinstance(room, Groove) else room.kind
    message = f'A screw of "{screwed.joint.id}" comes where "{room.mate.part}" stands in its {what} in "{part}".'
    hints = ("Choose another `count` or `spacing`, so that none comes there, or let the screws come `from` the other side.",)
    related = (Related(other.joint.origin, f'"{other.joint.id}" cuts the {what}'),)
    told = Diagnostic("joint-screw-covered", message, span=hole.origin, expected="screws beside it", hints=hints, related=related)
    site.report.add(told)
