"""Half lap: two parts that cross or meet in one plane, each losing half of what they share.

Corner, T or cross is what the bodies make it; a lattice is every crossing of two repeated bars.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import ClassVar

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.bars import Bar, square_to_both, that_overlap
from planbuild.joints.base import Board, Chosen, Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.copies import Struck, settled
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import share_rule, used
from planbuild.joints.touching import crossed_width, plane_of
from planbuild.records.design import JointSaid, Said
from planbuild.records.features import Groove
from planbuild.records.piece import Contact, Joint


class HalfLapSaid(JointSaid):
    """`front` is the part that is seen whole, `depth` what is cut from it."""

    parts: tuple[Said, ...]
    front: Said | None = None
    depth: Said | None = None


@dataclass(frozen=True)
class _Lap:
    """One crossing: `front` keeps the part of `shared` that looks to `view`, `depth` is cut from behind it."""

    front: Bar
    back: Bar
    view: Face
    shared: Box
    depth: float

    @property
    def plane(self) -> Box:
        """Where the two halves lie on each other, a box without thickness."""
        place = self.shared.at(self.view.opposite) + self.view.sign * self.depth
        return self.shared.with_span(self.view.axis, Span1(place, place))

    def half(self, face: Face) -> Box:
        """What lies between the plane of the lap and one side of what is shared."""
        ends = sorted((self.plane.along(self.view.axis).low, self.shared.at(face)))
        return self.shared.with_span(self.view.axis, Span1(*ends))


class HalfLap:
    """The kind: bodies placed to their full outside share wood; the lap divides it."""

    name = "half lap"
    family = Family.SHARING
    said: ClassVar[type[JointSaid]] = HalfLapSaid

    def join(self, id: str, said: HalfLapSaid, site: Site) -> Joined | None:
        """Reports `joint-wrong-family`, `joint-lap-along`, `joint-lap-depth`, `joint-lap-inside`, `joint-copies-differ`."""
        common = commons(said, self.name, glued=True, site=site)
        laps = _laps(said, site)
        if common is None or laps is None:
            return None
        why = said.why.text if said.why else ""
        struck = [cut for lap in laps for cut in _cuts(id, lap, why)]
        features = settled(id, struck, site)
        return Joined(_told(id, said, common, laps, site), features)


# ---------------------------------------------------------------- finding the crossings


def _laps(said: HalfLapSaid, site: Site) -> list[_Lap] | None:
    """Every crossing of two of the named parts; None after reporting."""
    chosen = [site.words.part(each) for each in said.parts]
    front = site.words.part(said.front) if said.front else chosen[0] if chosen else None
    depth = site.words.length(said.depth) if said.depth else None
    if front is None or any(each is None for each in chosen) or (said.depth and depth is None):
        return None
    bars = [Bar(each.board, copy, each.span) for each in chosen if each for copy in each.copies]
    pairs = that_overlap(combinations(bars, 2))
    if not pairs:
        _no_crossing([each for each in chosen if each], site)
        return None
    laps = [_lap(one, other, front.board, depth, said, site) for one, other in pairs]
    return None if any(lap is None for lap in laps) else [lap for lap in laps if lap]


def _lap(one: Bar, other: Bar, front: Board, depth: float | None, said: HalfLapSaid, site: Site) -> _Lap | None:
    if one.grain is other.grain:
        message = f'"{one.board.id}" and "{other.board.id}" overlap along their grain, which a half lap cannot hold.'
        refuse(site, "joint-lap-along", other.span, message, "two parts that cross")
        return None
    first, second = (other, one) if other.board is front else (one, other)
    axis = square_to_both(one, other)
    view, shared = _view(first, axis), first.body.meet(second.body)
    cut = shared.size(axis) * share_rule("lap_depth", site.ruler) if depth is None else depth
    if cut >= shared.size(axis) - TINY:
        size = site.ruler.plain(shared.size(axis))
        message = f'A lap {site.ruler.plain(cut)} deep leaves nothing: "{first.board.id}" and "{second.board.id}" share {size}.'
        refuse(site, "joint-lap-depth", (said.depth or said.kind).span, message, f"less than {size}")
        return None
    lap = _Lap(first, second, view, shared, cut)
    return lap if _opens(lap, site) else None


def _view(front: Bar, axis: Axis) -> Face:
    """The side from which the front one is seen whole: its face side, else the front, the top, the left."""
    if front.face_side.axis is axis:
        return front.face_side
    return axis.high if axis is Axis.BOTTOM_TOP else axis.low


def _opens(lap: _Lap, site: Site) -> bool:
    """Each cut must come out at a face of its part, or the other part could not get in."""
    for bar, side in ((lap.front, lap.view.opposite), (lap.back, lap.view)):
        if abs(bar.body.at(side) - lap.shared.at(side)) > TINY:
            other = lap.back if bar is lap.front else lap.front
            message = f'"{other.board.id}" lies inside "{bar.board.id}": the {side.value} of "{bar.board.id}" stands beyond it.'
            hint = "Let the faces lie in one plane, or name the other part as `front`."
            refuse(site, "joint-lap-inside", bar.span, message, "a lap that is open to one side", hint)
            return False
    return True


def _no_crossing(chosen: Sequence[Chosen], site: Site) -> None:
    names = " and ".join(f'"{each.board.id}"' for each in chosen)
    message = f"{names} do not overlap. A half lap shares wood."
    hint = "Place both to the full outside of the crossing."
    refuse(site, "joint-wrong-family", chosen[-1].span, message, "bodies that overlap", hint)


# ---------------------------------------------------------------- both sides


def _cuts(joint: str, lap: _Lap, why: str) -> Iterator[Struck]:
    for bar, mate, face in ((lap.front, lap.back, lap.view.opposite), (lap.back, lap.front, lap.view)):
        void = lap.half(face)
        cut = Groove(id="", origin=bar.span, joint=joint, why=why, face=face, void=void, what="lap")
        words = (mate.board.id, mate.hand)
        yield Struck(bar.board, bar.copy, cut, words, mate.key, bar.span)


def _contact(lap: _Lap, glue: bool) -> Contact:
    """The front part goes home square to the lap; its half lies on the other over the whole crossing."""
    insert = lap.view.opposite.normal
    area = lap.plane.size(lap.view.axis.others[0]) * lap.plane.size(lap.view.axis.others[1])
    width = crossed_width(plane_of(lap.plane, lap.view), lap.view.axis, lap.front.grain, lap.back.grain)
    return Contact(lap.front.key, lap.back.key, insert, lap.plane, width, area if glue else 0.0, face_glued=True)


def _told(id: str, said: HalfLapSaid, common: Commons, laps: Sequence[_Lap], site: Site) -> Joint:
    lap = laps[0]
    behind = lap.shared.size(lap.view.axis) - lap.depth
    numbers = (
        (f"cut from {lap.front.board.name}", round(lap.depth, 6)),
        (f"cut from {lap.back.board.name}", round(behind, 6)),
    )
    return Joint(
        id=id,
        kind=HalfLap.name,
        name=common.name,
        origin=said.origin,
        contacts=tuple(_contact(each, common.glue) for each in laps),
        glue=common.glue,
        fit=common.fit,
        numbers=numbers,
        operations=("lap",),
        tools=("marking gauge", "tenon saw", "shoulder plane"),
        defaults=() if said.depth else (used("Depth of the lap", "lap_depth", site.ruler),),
        note=common.note,
        why=common.why,
    )
