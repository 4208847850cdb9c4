"""Turning by any angle: how a part stands that is not square to the piece, and how such blocks lie to each other.

Plain numbers, apart from the CAD kernel.  Rotations follow the right-hand rule.  Units: mm, degrees.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product

from planbuild.core.geometry import TINY, Axis, Box, Face, Motion, Span1, Vec

Rows = tuple[Vec, Vec, Vec]
SQUARE: Rows = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))

STRAIGHT = 1e-9
"""Directions nearer to each other than this (as unit vectors) are one: far below what any tool can cut."""


def dot(a: Sequence[float], b: Sequence[float]) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def same_way(a: Vec, b: Vec) -> bool:
    """True if two unit vectors point alike, the noise of turning apart."""
    return dot(a, b) > 1.0 - 1e-6


def cross(a: Vec, b: Vec) -> Vec:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def unit(a: Vec) -> Vec:
    length = math.hypot(*a)
    return a[0] / length, a[1] / length, a[2] / length


def along(point: Vec, way: Vec, far: float) -> Vec:
    """The point `far` from another one, in a direction."""
    return point[0] + way[0] * far, point[1] + way[1] * far, point[2] + way[2] * far


def placed_at(point: Vec, axis: Axis, place: float) -> Vec:
    """A point moved to a place along an axis."""
    x, y, z = (place if each is axis else point[each.value] for each in Axis)
    return x, y, z


@dataclass(frozen=True)
class Pose:
    """A rigid motion by any angle: a point p goes to `rows` times p, plus `shift`."""

    rows: Rows = SQUARE
    shift: Vec = (0.0, 0.0, 0.0)

    @staticmethod
    def of(motion: Motion) -> Pose:
        x, y, z = (tuple(float(s) if o == i else 0.0 for i in range(3)) for s, o in zip(motion.sign, motion.order, strict=True))
        return Pose(((x[0], x[1], x[2]), (y[0], y[1], y[2]), (z[0], z[1], z[2])), motion.shift)

    @staticmethod
    def turning(way: Vec, angle: float, about: Vec) -> Pose:
        """A rotation by `angle` degrees about an axis in direction `way` through a point (Rodrigues' formula)."""
        ax, ay, az = unit(way)
        sin, cos = math.sin(math.radians(angle)), math.cos(math.radians(angle))
        rest = 1.0 - cos
        rows: Rows = (
            (cos + ax * ax * rest, ax * ay * rest - az * sin, ax * az * rest + ay * sin),
            (ay * ax * rest + az * sin, cos + ay * ay * rest, ay * az * rest - ax * sin),
            (az * ax * rest - ay * sin, az * ay * rest + ax * sin, cos + az * az * rest),
        )
        moved = Pose(rows).point(about)
        return Pose(rows, (about[0] - moved[0], about[1] - moved[1], about[2] - moved[2]))

    def direction(self, v: Vec) -> Vec:
        return dot(self.rows[0], v), dot(self.rows[1], v), dot(self.rows[2], v)

    def point(self, p: Vec) -> Vec:
        x, y, z = self.direction(p)
        return x + self.shift[0], y + self.shift[1], z + self.shift[2]

    def after(self, first: Pose) -> Pose:
        """This motion done after another one."""
        columns = [self.direction(column) for column in zip(*first.rows, strict=True)]
        x, y, z = zip(*columns, strict=True)
        return Pose((x, y, z), self.point(first.shift))

    @property
    def inverse(self) -> Pose:
        x, y, z = zip(*self.rows, strict=True)
        back = Pose((x, y, z))
        sx, sy, sz = back.direction(self.shift)
        return Pose((x, y, z), (-sx, -sy, -sz))

    @property
    def quarter_turned(self) -> Motion | None:
        """The same as a motion of the squares, None if it turns by any other angle."""
        order = tuple(max(range(3), key=lambda axis: abs(row[axis])) for row in self.rows)
        if sorted(order) != [0, 1, 2] or any(abs(abs(row[o]) - 1.0) > STRAIGHT for row, o in zip(self.rows, order, strict=True)):
            return None
        sx, sy, sz = (1 if row[o] > 0 else -1 for row, o in zip(self.rows, order, strict=True))
        return Motion((sx, sy, sz), self.shift, (order[0], order[1], order[2]))

    @property
    def mirrors(self) -> bool:
        return dot(cross(self.rows[0], self.rows[1]), self.rows[2]) < 0

    def around(self, box: Box) -> Box:
        """The box around a block after the motion."""
        return around(self.point(corner) for corner in corners(box))


def corners(box: Box) -> list[Vec]:
    return [
        (x, y, z) for x, y, z in product(*((span.low, span.high) for span in (box.x, box.y, box.z)))
    ]


def around(points: Iterable[Vec]) -> Box:
    """The smallest box around points; there must be at least one."""
    x, y, z = (Span1(min(places), max(places)) for places in zip(*points, strict=True))
    return Box(x, y, z)


def standing(box: Box, pose: Pose | None, motion: Motion) -> Box:
    """The box around an own block of a part, where a copy of it stands."""
    return motion.box(pose.around(box) if pose else box)


def rim(box: Box, face: Face) -> list[Vec]:
    """The corners of a face of a block, in order round it."""
    first, second = face.axis.others
    turns = ((first.low, second.low), (first.high, second.low), (first.high, second.high), (first.low, second.high))
    found = []
    for a, b in turns:
        places = {face.axis: box.at(face), first: box.at(a), second: box.at(b)}
        x, y, z = (places[axis] for axis in Axis)
        found.append((x, y, z))
    return found


# ---------------------------------------------------------------- how two lie to each other


def blocks_meet(one: Box, how_one: Pose, other: Box, how_other: Pose) -> bool:
    """True if two turned blocks share wood: no direction parts them (separating axes, plane geometry)."""
    first, second = ([pose.point(corner) for corner in corners(box)] for box, pose in ((one, how_one), (other, how_other)))
    own, its = (list(zip(*pose.rows, strict=True)) for pose in (how_one, how_other))
    ways = [*own, *its, *(cross(a, b) for a in own for b in its)]
    return all(_overlap(first, second, unit(way)) > TINY for way in ways if math.hypot(*way) > 1e-6)


def _overlap(one: Sequence[Vec], other: Sequence[Vec], way: Vec) -> float:
    first, second = [dot(p, way) for p in one], [dot(p, way) for p in other]
    return min(max(first), max(second)) - max(min(first), min(second))


def common(one: Sequence[Vec], other: Sequence[Vec], normal: Vec) -> list[Vec]:
    """What two convex outlines in one plane have in common, as an outline (each side of one cuts the other)."""
    left = list(one)
    middle = _middle(other)
    for a, b in zip(other, [*other[1:], other[0]], strict=True):
        inward = cross(normal, (b[0] - a[0], b[1] - a[1], b[2] - a[2]))
        sign = 1.0 if dot(inward, middle) > dot(inward, a) else -1.0
        left = _kept(left, [sign * (dot(inward, p) - dot(inward, a)) for p in left])
    return left


def _kept(outline: Sequence[Vec], depth: Sequence[float]) -> list[Vec]:
    """The part of a convex outline where `depth`, given at its corners, is above zero."""
    found: list[Vec] = []
    for index, (p, d) in enumerate(zip(outline, depth, strict=True)):
        q, e = outline[index - 1], depth[index - 1]
        if (d > 0) is not (e > 0):
            share = e / (e - d)
            found.append((q[0] + (p[0] - q[0]) * share, q[1] + (p[1] - q[1]) * share, q[2] + (p[2] - q[2]) * share))
        if d > 0:
            found.append(p)
    return found


def _middle(outline: Sequence[Vec]) -> Vec:
    x, y, z = (sum(places) / len(outline) for places in zip(*outline, strict=True))
    return x, y, z


def area(outline: Sequence[Vec]) -> float:
    """Area of a flat outline, mm2."""
    if len(outline) < 3:
        return 0.0
    first = outline[0]
    arms = [(p[0] - first[0], p[1] - first[1], p[2] - first[2]) for p in outline[1:]]
    total = [sum(parts) for parts in zip(*(cross(a, b) for a, b in zip(arms, arms[1:], strict=False)), strict=True)]
    return math.hypot(*total) / 2
