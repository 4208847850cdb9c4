"""Flat outlines of straight lines and arcs: where they run, what they enclose.

Apart from the CAD kernel so that a fault is found before any solid is cut, and a volume is known beforehand.
Units: those of the points (mm).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

Flat = tuple[float, float]

ROOM = 1e-6
"""A line shorter than this is none: two arcs may meet in its middle."""


@dataclass(frozen=True)
class Corner:
    """One corner of an outline: where it lies, and the radius to which it is rounded (0: sharp).

    With `arc` the way to it from the corner before is no line but an arc of that radius, hollowed into the outline.
    """

    at: Flat
    radius: float = 0.0
    arc: float = 0.0


@dataclass(frozen=True)
class Piece:
    """A stretch of an outline: a line, or an arc by way of `through`."""

    start: Flat
    end: Flat
    through: Flat | None = None


def pieces(corners: Sequence[Corner]) -> tuple[Piece, ...]:
    """The outline in order, with its corners rounded."""
    bends = [_bend(corners, index) for index in range(len(corners))]
    turn = math.copysign(1.0, _enclosed([corner.at for corner in corners]))
    found: list[Piece] = []
    for index, (corner, (start, through, end)) in enumerate(zip(corners, bends, strict=True)):
        before = bends[index - 1][2]
        if corner.arc:
            found.append(Piece(before, start, _hollow(before, start, corner.arc, turn)))
        elif math.dist(before, start) > ROOM:
            found.append(Piece(before, start))
        if corner.radius:
            found.append(Piece(start, end, through))
    return tuple(found)


def area(corners: Sequence[Corner]) -> float:
    """What an outline encloses, arcs counted."""
    run = pieces(corners)
    found = _enclosed([piece.start for piece in run])
    for piece in run:
        if piece.through:
            side = _cross(piece.start, piece.end, piece.through)
            found -= math.copysign(_segment(piece.start, piece.through, piece.end), side)
    return abs(found)


def without_room(corners: Sequence[Corner]) -> int | None:
    """The first corner whose radius has no room on the lines that meet there, or None."""
    for index, corner in enumerate(corners):
        for other in (index - 1, (index + 1) % len(corners)):
            room = math.dist(corner.at, corners[other].at) + ROOM
            if corner.radius and _tangent(corners, index) + _tangent(corners, other) > room:
                return index
    return None


def _tangent(corners: Sequence[Corner], index: int) -> float:
    """How much of its lines a rounded corner takes."""
    corner = corners[index]
    if not corner.radius:
        return 0.0
    return corner.radius / math.tan(_angle(corners, index) / 2)


def _angle(corners: Sequence[Corner], index: int) -> float:
    """Between the two lines of a corner, the smaller way (radians)."""
    first, second = _ways(corners, index)
    return math.acos(max(-1.0, min(1.0, first[0] * second[0] + first[1] * second[1])))


def _ways(corners: Sequence[Corner], index: int) -> tuple[Flat, Flat]:
    """Unit vectors from a corner to the one before and to the next."""
    at = corners[index].at
    return _unit(at, corners[index - 1].at), _unit(at, corners[(index + 1) % len(corners)].at)


def _unit(start: Flat, end: Flat) -> Flat:
    size = math.dist(start, end)
    return (end[0] - start[0]) / size, (end[1] - start[1]) / size


def _bend(corners: Sequence[Corner], index: int) -> tuple[Flat, Flat, Flat]:
    """Where a corner's rounding begins, its middle, and where it ends; three times the corner itself if it is sharp."""
    corner = corners[index]
    if not corner.radius:
        return corner.at, corner.at, corner.at
    (first, second), tangent = _ways(corners, index), _tangent(corners, index)
    middle = _unit((0.0, 0.0), (first[0] + second[0], first[1] + second[1]))
    inward = corner.radius / math.sin(_angle(corners, index) / 2) - corner.radius
    return _on(corner.at, first, tangent), _on(corner.at, middle, inward), _on(corner.at, second, tangent)


def _on(start: Flat, way: Flat, by: float) -> Flat:
    return start[0] + way[0] * by, start[1] + way[1] * by


def _hollow(start: Flat, end: Flat, radius: float, turn: float) -> Flat:
    """The middle of an arc that bends into an outline which runs round with `turn` (1 anticlockwise)."""
    along, half = _unit(start, end), math.dist(start, end) / 2
    rise = radius - math.sqrt(max(0.0, radius * radius - half * half))
    middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    return _on(middle, (-along[1] * turn, along[0] * turn), rise)


def _enclosed(points: Sequence[Flat]) -> float:
    """Area within straight lines, negative if they run clockwise (the surveyor's formula)."""
    pairs = zip(points, [*points[1:], points[0]], strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2


def _cross(start: Flat, end: Flat, point: Flat) -> float:
    """Positive if a point lies left of the way from start to end."""
    return (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])


def _segment(start: Flat, middle: Flat, end: Flat) -> float:
    """Area between an arc and its chord; the arc is no more than half a circle."""
    half = math.dist(start, end) / 2
    rise = math.dist(middle, ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2))
    radius = (half * half + rise * rise) / (2 * rise)
    angle = math.asin(min(1.0, half / radius))
    return radius * radius * (angle - math.sin(angle) * math.cos(angle))
