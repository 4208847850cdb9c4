"""The cut of a mitre on both parts, where they stand: the plane through the outer and the inner corner.  Units: mm."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from planbuild.core.geometry import Axis, Box, Face, Vec
from planbuild.joints.bars import Bar
from planbuild.joints.copies import Struck
from planbuild.joints.corners import Corner
from planbuild.records.slanted import EndCut


@dataclass(frozen=True)
class Mitred:
    """One part at its corner: its end, its outer side there, and how much shorter the cut leaves the inner side."""

    bar: Bar
    mate: Bar
    end: Face
    side: Face
    reach: float

    @property
    def slope(self) -> float:
        """The angle of the cut from square as an end cut counts it, degrees."""
        rise = self.end.sign * self.reach
        return math.degrees(math.atan(rise / (self.side.sign * self.bar.body.size(self.side.axis))))

    def cut(self, joint: str, why: str) -> EndCut:
        """In the frame of the piece."""
        slopes = tuple((axis, self.slope if axis is self.side.axis else 0.0) for axis in self.end.axis.others)
        at = self.bar.body.at(self.end) - self.end.sign * self.reach / 2
        return EndCut("", self.bar.span, joint, why, self.end, at, slopes)


def halves(corner: Corner) -> tuple[Mitred, Mitred]:
    """Both parts of a corner: each is as much shorter inside as the other is thick there."""
    one = Mitred(corner.one, corner.other, corner.end, corner.far, corner.shared.size(corner.end.axis))
    return one, Mitred(corner.other, corner.one, corner.far, corner.end, corner.shared.size(corner.far.axis))


def length(corner: Corner) -> float:
    """Of the mitre, from the outer corner to the inner one."""
    return math.hypot(corner.shared.size(corner.end.axis), corner.shared.size(corner.far.axis))


def outline(corner: Corner) -> tuple[Vec, ...]:
    """The corners of the plane on which both lie on each other, in order."""
    box, across = corner.shared, corner.across
    outer = {corner.end.axis: box.at(corner.end), corner.far.axis: box.at(corner.far)}
    inner = {corner.end.axis: box.at(corner.end.opposite), corner.far.axis: box.at(corner.far.opposite)}
    low, high = box.along(across).low, box.along(across).high
    found = [{**corner_at, across: place} for corner_at, place in ((outer, low), (inner, low), (inner, high), (outer, high))]
    return tuple((each[Axis.LEFT_RIGHT], each[Axis.FRONT_BACK], each[Axis.BOTTOM_TOP]) for each in found)


def cuts(joint: str, corner: Corner, why: str) -> Iterator[Struck]:
    for half in halves(corner):
        own = half.bar.board.copies[half.bar.copy].motion.inverse.face(half.end)
        words = (half.mate.board.id, own.value)
        yield Struck(half.bar.board, half.bar.copy, half.cut(joint, why), words, half.mate.key, half.bar.span)


def is_frame(corner: Corner) -> bool:
    """True where the parts lie flat in the plane of the corner, as those of a picture frame; False for the sides of a box."""
    return corner.one.face_side.axis is corner.across and corner.other.face_side.axis is corner.across


def cell(corner: Corner, low: float, high: float) -> Box:
    """The part of the shared block between two places along the edge of the corner."""
    span = corner.shared.along(corner.across)
    return corner.shared.with_span(corner.across, type(span)(low, high))
