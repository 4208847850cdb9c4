"""Splines and keys of mitres: the slots in both parts, and the small parts that fill them.  Units: mm."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from planbuild.core.geometry import TINY, Axis, Box, Span1, Vec
from planbuild.core.outlines import Corner as Point
from planbuild.core.poses import Pose, cross
from planbuild.joints.base import Site
from planbuild.joints.copies import Struck, carried
from planbuild.joints.corners import Corner
from planbuild.joints.mitre.cutting import Mitred, cell, halves, length
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.features import Mate
from planbuild.records.piece import Contact, Copy, Part, Stock
from planbuild.records.shaped import Sawn


@dataclass(frozen=True)
class Filling:
    """All splines or keys of a joint: `spans` are their places along the edge of each corner, the rest is alike in all.

    Along the mitre each lies from `start` to `stop`, and `deep` in either part (None: out to the faces).
    """

    part: str
    what: str
    stock: Stock
    spans: tuple[tuple[Corner, Span1], ...]
    start: float
    stop: float
    deep: float | None
    thickness: float

    def slot(self, joint: str, half: Mitred, across: Span1) -> CornerSlot:
        """In the frame of the piece."""
        name, mate = f"{self.what} slot", Mate(self.part)
        return CornerSlot(
            "", half.bar.span, joint, "", half.end, half.side, half.reach, across, self.start, self.stop, self.deep, name, mate
        )

    def struck(self, joint: str) -> Iterator[Struck]:
        for number, (corner, across) in enumerate(self.spans):
            for half in halves(corner):
                bar, slot = half.bar, self.slot(joint, half, across)
                end = bar.board.copies[bar.copy].motion.inverse.face(half.end)
                words = (self.part, end.value, str(self._rank(corner, across)))
                yield Struck(bar.board, bar.copy, slot, words, (self.part, number), bar.span)

    def _rank(self, corner: Corner, across: Span1) -> int:
        """Which it is of those at a corner, counted from the low end."""
        return sorted(span.low for other, span in self.spans if other is corner).index(across.low) + 1

    def area(self, corner: Corner) -> float:
        """What its slots take from the mitre faces of a corner."""
        wide = sum(across.size for other, across in self.spans if other is corner)
        return wide * (min(self.stop, length(corner)) - max(self.start, 0.0))


# ---------------------------------------------------------------- the small part


def part_of(filling: Filling, joint: str, site: Site) -> Part:
    """Drawn straight, its grain square to the mitre, and turned into the corner by its pose."""
    corner, across = filling.spans[0]
    half, mate = halves(corner)
    rim = _rim(filling, half, mate, across)
    straight = [_straight(half, u, v) for u, v in rim]
    body = _body(half, straight, across)
    thick = corner.across if filling.deep is None or across.size < corner.shared.size(corner.across) - TINY else half.side.axis
    edge = next(axis for axis in Axis if axis not in (half.end.axis, thick))
    first = cell(corner, across.low, across.high)
    motions = [carried(first, (corner.end, corner.far), cell(c, s.low, s.high), (c.end, c.far)) for c, s in filling.spans]
    part = Part(
        id=filling.part,
        mark="",
        name=filling.part.replace("_", " "),
        origin=corner.one.span,
        stock=filling.stock.id,
        grain=half.end.axis,
        face=thick.high,
        edge=edge.high,
        body=body,
        features=(),
        copies=tuple(Copy(str(number), motion) for number, motion in enumerate(motions, start=1)),
        rough_length=site.practice.rough_length,
        rough_width=site.practice.rough_width,
        made_by=joint,
        why="its grain runs across the mitre, so that it does not split along it",
        pose=_pose(half),
    )
    return part if len(rim) == 4 and _fills(rim) else _sawn(part, straight, corner.across)


def _rim(filling: Filling, half: Mitred, mate: Mitred, across: Span1) -> list[tuple[float, float]]:
    """The outline of the whole, both halves put together, as (along the mitre, square to it into the first part)."""
    own = filling.slot("", half, across).profile(half.bar.body)
    other = [(u, -v) for u, v in filling.slot("", mate, across).profile(mate.bar.body)]
    top = sorted((p for p in own if p[1] > TINY), key=lambda p: p[0])
    below = sorted((p for p in other if p[1] < -TINY), key=lambda p: -p[0])
    ends = sorted(u for u, v in own if abs(v) <= TINY)
    first = [] if any(abs(p[0] - ends[0]) < TINY for p in top) else [(ends[0], 0.0)]
    last = [] if any(abs(p[0] - ends[-1]) < TINY for p in top) else [(ends[-1], 0.0)]
    return [*first, *top, *last, *below]


def _fills(rim: Sequence[tuple[float, float]]) -> bool:
    """True for a plain rectangle."""
    return len({round(u, 4) for u, _ in rim}) == 2 and len({round(v, 4) for _, v in rim}) == 2


def _straight(half: Mitred, u: float, v: float) -> dict[Axis, float]:
    """Where a point of the small part lies before it is turned: its grain along that of the first part."""
    body = half.bar.body
    return {half.end.axis: body.at(half.end) - half.end.sign * v, half.side.axis: body.at(half.side) - half.side.sign * u}


def _body(half: Mitred, straight: Sequence[dict[Axis, float]], across: Span1) -> Box:
    (run,) = (axis for axis in Axis if axis not in (half.end.axis, half.side.axis))
    spans = {run: across}
    for axis in (half.end.axis, half.side.axis):
        places = [each[axis] for each in straight]
        spans[axis] = Span1(min(places), max(places))
    return Box.of(spans)


def _sawn(part: Part, straight: Sequence[dict[Axis, float]], through: Axis) -> Part:
    first, second = through.others
    corners = tuple(Point((each[first], each[second])) for each in straight)
    return replace(part, features=(Sawn("outline", part.origin, part.made_by, "", through.high, corners, "outline", keeps=True),))


def _pose(half: Mitred) -> Pose:
    """Turns the grain from that of the first part to square to the mitre, about the outer corner."""
    body, beside = half.bar.body, half.bar.body.size(half.side.axis)
    places = {axis: body.along(axis).middle for axis in Axis}
    places |= {half.end.axis: body.at(half.end), half.side.axis: body.at(half.side)}
    about = (places[Axis.LEFT_RIGHT], places[Axis.FRONT_BACK], places[Axis.BOTTOM_TOP])
    return Pose.turning(cross(half.end.opposite.normal, _into(half)), math.degrees(math.atan2(half.reach, beside)), about)


# ---------------------------------------------------------------- how it goes in


def contacts(filling: Filling, glue: bool) -> Iterator[Contact]:
    """A spline goes into both mitre faces square to them, a key into both parts along the mitre."""
    for number, (corner, across) in enumerate(filling.spans):
        for half in halves(corner):
            slot = filling.slot("", half, across)
            way = _into(half) if filling.deep is not None else _along(half)
            area = 2.0 * _enclosed(slot.profile(half.bar.body)) if filling.deep is None else 2.0 * _cheek(filling, corner, across)
            box = slot.region(half.bar.body)
            yield Contact((filling.part, number), half.bar.key, way, box, 0.0, area if glue else 0.0)


def _cheek(filling: Filling, corner: Corner, across: Span1) -> float:
    """One broad side of a spline in one part, as far as the wood surely covers it."""
    assert filling.deep is not None
    if across.size > corner.shared.size(corner.across) - TINY:
        return filling.deep * across.size
    return filling.deep * (length(corner) - 2 * filling.deep)


def _into(half: Mitred) -> Vec:
    """Square to the mitre, into the wood of a part."""
    beside = half.bar.body.size(half.side.axis)
    long = math.hypot(half.reach, beside)
    inward, aside = half.end.opposite.normal, half.side.normal
    x, y, z = (inward[i] * beside / long + aside[i] * half.reach / long for i in range(3))
    return x, y, z


def _along(half: Mitred) -> Vec:
    """Along the mitre, from the outer corner inward."""
    beside = half.bar.body.size(half.side.axis)
    long = math.hypot(half.reach, beside)
    inward, back = half.end.opposite.normal, half.side.opposite.normal
    x, y, z = (inward[i] * half.reach / long + back[i] * beside / long for i in range(3))
    return x, y, z


def _enclosed(rim: Sequence[tuple[float, float]]) -> float:
    pairs = zip(rim, [*rim[1:], rim[0]], strict=True)
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2

