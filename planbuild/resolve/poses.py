"""How a part stands that is not square to the piece: its section turned about its own length, or its length leaning."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import Axis, Box, Face, Vec
from planbuild.core.poses import Pose, along, placed_at, unit
from planbuild.records.design import PartSaid
from planbuild.records.slanted import EndCut

FINEST = 10**6
"""Places on slanted faces are no fractions; they are kept to a millionth of a mm."""


@dataclass(frozen=True)
class Stance:
    """A part that does not stand square: its straight body, the pose that brings it to its place, its slanted ends."""

    body: Box
    pose: Pose
    ends: tuple[EndCut, ...] = ()

    def place(self, face: Face, spot: dict[Axis, float]) -> float:
        """Where a face (by its own name) lies along the direction of its name, over a spot given by its two other places."""
        normal = self.pose.direction(face.normal)
        over = self.pose.point(placed_at(self.body.centre, face.axis, self.body.at(face)))
        off = sum(normal[axis.value] * (spot[axis] - over[axis.value]) for axis in face.axis.others)
        return over[face.axis.value] - off / normal[face.axis.value]

    def centre(self, grain: Axis, level: float) -> Vec:
        """The point of the centre line at a place along the direction of the grain."""
        way = self.pose.direction(grain.high.normal)
        middle = self.pose.point(self.body.centre)
        return along(middle, way, (level - middle[grain.value]) / way[grain.value])


def exact(mm: float) -> Fraction:
    return Fraction(mm).limit_denominator(FINEST)


def is_askew(said: PartSaid) -> bool:
    """True if the part is not square to the piece."""
    return said.turn is not None or said.lean is not None


def leans_across(said: PartSaid, grain: Axis) -> bool:
    """True for a shelf that leans: not one of its ends goes aside, but one of its long sides.  What stands is turned."""
    sides = {face.value for axis in grain.others for face in (axis.low, axis.high)}
    return said.lean is not None and grain is not Axis.BOTTOM_TOP and said.lean.end.text in sides


def slant_of(said: PartSaid, grain: Axis, face: Face) -> Axis:
    """The direction along which a slanted face changes its place."""
    return next(axis for axis in grain.others if axis is not face.axis) if leans_across(said, grain) else grain


def has_one_place(said: PartSaid, grain: Axis, face: Face) -> bool:
    """True for a face that lies at one place though the part is turned or leans: an end that is cut level."""
    if said.lean and not leans_across(said, grain):
        return face.axis is grain and (said.lean.ends is None or said.lean.ends.text == "level")
    return face.axis is grain or not is_askew(said)


def about(grain: Axis) -> Vec:
    """The axis about which a turn is anticlockwise for one who looks from the right, the front or above."""
    x, y, z = (0.0 if axis is not grain else -1.0 if axis is Axis.FRONT_BACK else 1.0 for axis in Axis)
    return x, y, z


def direction(end: Face, ways: dict[Face, float]) -> Vec:
    """The way from the end that stays to the one that moves, from its angles in two views square to each other: the
    tangents of both are what it goes aside for each unit along (plane geometry)."""
    parts = {end.axis: float(end.sign)} | {face.axis: face.sign * math.tan(math.radians(angle)) for face, angle in ways.items()}
    x, y, z = (parts.get(axis, 0.0) for axis in Axis)
    return unit((x, y, z))


def level_ends(body: Box, grain: Axis, pose: Pose, origin: Span) -> tuple[EndCut, ...]:
    """Both ends cut as they would be if the part stood straight: parallel to each other, each on two faces at an angle."""
    slopes = slopes_of(pose.inverse.direction(grain.high.normal), grain)
    return tuple(EndCut(f"end.{end.value}", origin, "", "", end, body.at(end), slopes) for end in (grain.low, grain.high))


def slopes_of(normal: Vec, grain: Axis) -> tuple[tuple[Axis, float], ...]:
    """The angles at which a plane across the grain shows on the faces of a part, from its normal in the part's own frame."""
    first, second = (math.degrees(math.atan(-normal[axis.value] / normal[grain.value])) for axis in grain.others)
    return (grain.others[0], first), (grain.others[1], second)


Over = Callable[[Axis], Fraction]
"""Where the middle of the part that asks lies in a direction: slanted faces are met there."""
