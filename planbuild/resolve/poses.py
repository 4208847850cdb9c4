"""How a part stands that is not square to the piece: its section turned about its own length, or its length leaning."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import Axis, Box, Face, Span1, Vec
from planbuild.core.poses import Pose, along, cross, dot, unit
from planbuild.records.design import LeanSaid, PartSaid, Said
from planbuild.records.slanted import EndCut
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.sayings import Sayings

MOST_TURN = 45.0
"""Degrees; a part that is turned further lies with another of its faces where the first was."""

MOST_LEAN = 30.0
"""Degrees to one side; a leg that leans more is a brace (a choice of ours)."""

FINEST = 10**6
"""Places on slanted faces are no fractions; they are kept to a millionth of a mm."""

WAYS = (Face.LEFT, Face.RIGHT, Face.FRONT, Face.BACK)


@dataclass(frozen=True)
class Stance:
    """A part that does not stand square: its straight body, the pose that brings it to its place, its slanted ends."""

    body: Box
    pose: Pose
    ends: tuple[EndCut, ...] = ()

    def place(self, face: Face, spot: dict[Axis, float]) -> float:
        """Where a face (by its own name) lies along the direction of its name, over a spot given by its two other places."""
        normal = self.pose.direction(face.normal)
        over = self.pose.point(_with(self.body.centre, face.axis, self.body.at(face)))
        off = sum(normal[axis.value] * (spot[axis] - over[axis.value]) for axis in face.axis.others)
        return over[face.axis.value] - off / normal[face.axis.value]

    def centre(self, grain: Axis, level: float) -> Vec:
        """The point of the centre line at a place along the direction of the grain."""
        way = self.pose.direction(grain.high.normal)
        middle = self.pose.point(self.body.centre)
        return along(middle, way, (level - middle[grain.value]) / way[grain.value])


def _with(point: Vec, axis: Axis, place: float) -> Vec:
    x, y, z = (place if each is axis else point[each.value] for each in Axis)
    return x, y, z


def exact(mm: float) -> Fraction:
    return Fraction(mm).limit_denominator(FINEST)


def is_askew(said: PartSaid) -> bool:
    """True if the part is not square to the piece."""
    return said.turn is not None or said.lean is not None


def has_one_place(said: PartSaid, grain: Axis, face: Face) -> bool:
    """True for a face that lies at one place though the part is turned or leans: an end that is cut level."""
    if said.lean:
        return face.axis is grain and (said.lean.ends is None or said.lean.ends.text == "level")
    return face.axis is grain or said.turn is None


def stance_of(id: str, said: PartSaid, grain: Axis, body: Box, sayings: Sayings) -> Stance:
    """How a part stands.  Reports `place-turn`, `place-lean`; raises Poisoned."""
    if said.lean and said.turn:
        message = f'"{id}" is turned and leans; one of the two is built so far.'
        raise sayings.refuse("place-lean", said.turn, message, "`turn` or `lean`")
    if said.lean:
        return _leaning(id, said.lean, grain, body, sayings)
    if said.turn is None:
        raise Poisoned
    return Stance(body, _turned(id, said.turn, grain, body, sayings))


def _turned(id: str, said: Said, grain: Axis, body: Box, sayings: Sayings) -> Pose:
    angle = sayings.degrees(said)
    if not 0 < abs(angle) <= MOST_TURN:
        message = f'"{id}" cannot be turned by {angle:g} degrees.'
        hint = "For more, say another `face` and turn it the other way." if angle else "Leave `turn` out."
        raise sayings.refuse("place-turn", said, message, f"up to {MOST_TURN:g} deg, or down to -{MOST_TURN:g} deg", (hint,))
    return Pose.turning(about(grain), angle, body.centre)


def about(grain: Axis) -> Vec:
    """The axis about which a turn is anticlockwise for one who looks from the right, the front or above."""
    x, y, z = (0.0 if axis is not grain else -1.0 if axis is Axis.FRONT_BACK else 1.0 for axis in Axis)
    return x, y, z


# ---------------------------------------------------------------- leaning


def _leaning(id: str, said: LeanSaid, grain: Axis, body: Box, sayings: Sayings) -> Stance:
    """Turned about the middle of the end that stays, in the one plane that holds both the straight and the leaning
    centre line: so no face is twisted.  With level ends it is as much longer as it leans."""
    end = _end(id, said, grain, sayings)
    way = direction(end, _ways(id, said, grain, sayings))
    level = said.ends is None or sayings.choice(said.ends, ("level", "square"), "way to cut the ends") == "level"
    cos = dot(way, end.normal)
    stays = _with(body.centre, grain, body.at(end.opposite))
    pose = Pose.turning(cross(end.normal, way), math.degrees(math.acos(cos)), stays)
    if not level:
        return Stance(body, pose)
    far = body.at(end.opposite) + end.sign * body.size(grain) / cos
    long = body.with_span(grain, Span1(*sorted((body.at(end.opposite), far))))
    return Stance(long, pose, level_ends(long, grain, pose, said.origin))


def _end(id: str, said: LeanSaid, grain: Axis, sayings: Sayings) -> Face:
    end = sayings.face(said.end)
    if end.axis is not grain:
        message = f'The {end.value} is no end of "{id}", whose grain runs {grain.words}.'
        raise sayings.refuse("place-lean", said.end, message, f"{grain.low.value} or {grain.high.value}")
    return end


def _ways(id: str, said: LeanSaid, grain: Axis, sayings: Sayings) -> dict[Face, float]:
    """The angle by direction, degrees."""
    told: dict[Face, Said | None] = {face: getattr(said, face.value) for face in WAYS}
    angles = {face: sayings.degrees(each) for face, each in told.items() if each}
    sound = angles and all(0 < angle <= MOST_LEAN and face.axis is not grain for face, angle in angles.items())
    if sound and len({face.axis for face in angles}) == len(angles):
        return angles
    message = f'It is not clear how "{id}" leans.'
    words = ", ".join(face.value for face in WAYS if face.axis is not grain)
    expected = f"one or two of {words}, one a direction, each above 0 and up to {MOST_LEAN:g} deg"
    raise sayings.refuse("place-lean", said.end, message, expected)


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
