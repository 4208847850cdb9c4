"""What is cut into parts that meet at other angles than square: slanted ends, and mortises that stand askew.

Measured on the drawn copy of a part in its own straight frame, like all features.  Units: mm, degrees.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import ClassVar

from planbuild.core.geometry import TINY, Axis, Box, Face, Motion, Span1, Vec
from planbuild.core.poses import Pose, along, dot, rim, unit
from planbuild.records.features import Feature, Mate

NO_ANGLE = 0.5
"""Degrees; lines that are farther from square by less cannot be told from square with a sliding bevel (common practice)."""


@dataclass(frozen=True)
class EndCut(Feature):
    """An end sawn to a plane that is not square to the grain.

    The plane crosses the centre line of the body at `at` (a place along the grain).  `slopes` has an entry for each of
    the two directions across the grain: the angle from square in which the cut runs on the faces that show that
    direction, above zero where it runs toward the high end on the high side.
    """

    kind: ClassVar[str] = "end cut"
    end: Face
    at: float
    slopes: tuple[tuple[Axis, float], ...]

    @property
    def normal(self) -> Vec:
        """Unit vector out of the wood."""
        parts = dict.fromkeys(Axis, 0.0) | {axis: -math.tan(math.radians(angle)) for axis, angle in self.slopes}
        parts[self.end.axis] = 1.0
        x, y, z = (self.end.sign * parts[axis] for axis in Axis)
        return unit((x, y, z))

    @property
    def from_square(self) -> float:
        """The angle between the cut and a square one, degrees: the tilt of the blade if the board lies at the mitre."""
        return math.degrees(math.acos(min(1.0, abs(self.normal[self.end.axis.value]))))

    def longer(self, axis: Axis) -> Face:
        """The face across the grain at which the part stays longer, of the two in a direction."""
        return axis.high if (dict(self.slopes)[axis] > 0) is (self.end.sign > 0) else axis.low

    def place(self, body: Box, point: Vec) -> float:
        """Where the cut lies along the grain, beside the centre line: over a point of the body."""
        off = [(point[axis.value] - body.along(axis).middle) * math.tan(math.radians(angle)) for axis, angle in self.slopes]
        return self.at + sum(off)

    def outline(self, body: Box) -> list[Vec]:
        """The corners of the cut end, in order round it."""
        return [drawn_back(corner, body, [self]) for corner in rim(body, self.end)]

    def beyond(self, body: Box) -> float:
        """How far the longest corner stands beyond the centre of the cut, along the grain."""
        return sum(body.size(axis) / 2 * abs(math.tan(math.radians(angle))) for axis, angle in self.slopes)

    def room(self, body: Box) -> Box:
        """The block in which it takes its wood, of a body that reaches to the longest corner."""
        short = self.at - self.end.sign * self.beyond(body)
        return body.with_span(self.end.axis, Span1(*sorted((short, body.at(self.end)))))

    def moved(self, motion: Motion) -> EndCut:
        """The same on a copy."""
        along = self.end.axis
        x, y, z = (self.at if axis is along else 0.0 for axis in Axis)
        end, at = motion.face(self.end), motion.point((x, y, z))[motion.axis(along).value]
        turns = motion.face(along.high).sign
        slopes = [(motion.axis(axis), angle * turns * motion.face(axis.high).sign) for axis, angle in self.slopes]
        return replace(self, end=end, at=at, slopes=tuple(sorted(slopes, key=lambda each: each[0].value)))


def drawn_back(corner: Vec, body: Box, cuts: Iterable[EndCut]) -> Vec:
    """A corner of a straight body, or of a block in it, where the slanted cuts of its ends leave it."""
    places = dict(zip(Axis, corner, strict=True))
    for cut in cuts:
        axis = cut.end.axis
        if abs(places[axis] - body.at(cut.end)) < TINY:
            places[axis] = cut.place(body, corner)
    x, y, z = (places[axis] for axis in Axis)
    return x, y, z


@dataclass(frozen=True)
class AngledMortise(Feature):
    """A square-cornered or a bored mortise whose sides are not square to the faces of the part.

    `void` is the mortise as if it were square to the part, its mouth on `face`; `pose` turns it about the middle of
    the mouth into its place.  One that is only turned in the face has its entry square to the face.  A through one
    reaches the opposite face along its own way.  One that is `round` is the cylinder within that block.
    """

    kind: ClassVar[str] = "angled mortise"
    face: Face
    void: Box
    pose: Pose
    mate: Mate
    through: bool = False
    round: bool = False

    @property
    def mouth(self) -> Vec:
        """The middle of the mouth, on the face."""
        x, y, z = (self.void.at(self.face) if axis is self.face.axis else self.void.along(axis).middle for axis in Axis)
        return x, y, z

    @property
    def way(self) -> Vec:
        """Unit vector into the wood, along the mortise."""
        return self.pose.direction(self.face.opposite.normal)

    @property
    def depth(self) -> float:
        """Along its own way."""
        return self.void.size(self.face.axis)

    @property
    def long_axis(self) -> Axis:
        first, second = self.face.axis.others
        return first if round(self.void.size(first), 6) >= round(self.void.size(second), 6) else second

    @property
    def length(self) -> float:
        return self.void.size(self.long_axis)

    @property
    def breadth(self) -> float:
        first, second = self.face.axis.others
        return self.void.size(second if self.long_axis is first else first)

    def off(self, axis: Axis) -> float:
        """The angle between the long side of the mouth and a direction in its face, 0 to 90 degrees; of a round one 0."""
        if self.round:
            return 0.0
        run = self.pose.direction(self.long_axis.high.normal)
        across = next(other for other in self.face.axis.others if other is not axis)
        return math.degrees(math.atan2(abs(run[across.value]), abs(run[axis.value])))

    def lean(self, axis: Axis) -> float:
        """How far the way in leans from square toward the high face of an axis in the face, as it shows seen along the
        other one, degrees."""
        inward = dot(self.way, self.face.opposite.normal)
        return math.degrees(math.atan2(self.way[axis.value], inward))

    @property
    def from_square(self) -> float:
        """The angle between the way in and a square one, degrees."""
        return math.degrees(math.acos(min(1.0, abs(self.way[self.face.axis.value]))))

    @property
    def is_square_in(self) -> bool:
        """True if it goes in square to the face, only turned in it."""
        return all(abs(self.lean(axis)) < 1e-6 for axis in self.face.axis.others)

    @property
    def reach(self) -> Box:
        """The box around all its wood, ends square to its own way."""
        if not self.round:
            return self.pose.around(self.void)
        ends = [self.mouth, along(self.mouth, self.way, self.depth)]
        out = [self.breadth / 2 * math.sqrt(max(0.0, 1.0 - part**2)) for part in self.way]
        x, y, z = (Span1(min(p) - r, max(p) + r) for *p, r in zip(*ends, out, strict=True))
        return Box(x, y, z)

    @property
    def rim(self) -> list[Vec]:
        """The four corners of the mouth where the sides, drawn on, cross the face."""
        level = self.void.at(self.face)
        found = []
        for corner in rim(self.void, self.face):
            start = self.pose.point(corner)
            far = (level - start[self.face.axis.value]) / (self.way[self.face.axis.value])
            found.append(along(start, self.way, far))
        return found
