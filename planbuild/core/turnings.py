"""The curves of turned profiles, in the plane of the middle line: along it, and out from it.  Units: mm.

A cove is hollow and runs out level at its thin end; a bead is full and runs out level at its thick end; an ogee is a
cove that goes over into a bead half way.  Between two like diameters cove and bead are half rounds.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from planbuild.core.outlines import Flat, Piece

WAYS = ("straight", "cove", "bead", "ogee")


def curve_between(start: Flat, end: Flat, way: str) -> tuple[Piece, ...]:
    """From one station to the next."""
    if way == "straight" or end[0] == start[0]:
        return (Piece(start, end),)
    if way == "ogee":
        middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
        first, second = ("cove", "bead") if start[1] < end[1] else ("bead", "cove")
        return (*curve_between(start, middle, first), *curve_between(middle, end, second))
    if abs(start[1] - end[1]) < 1e-9:
        rise = (end[0] - start[0]) / 2 * (1 if way == "bead" else -1)
        return (Piece(start, end, ((start[0] + end[0]) / 2, start[1] + rise)),)
    return (Piece(start, end, _middle(start, end, way)),)


def radius_of(start: Flat, end: Flat, way: str) -> float | None:
    """The radius of the arcs between two stations, None where the way is straight."""
    along, out = abs(end[0] - start[0]), abs(end[1] - start[1])
    if way == "straight" or along == 0:
        return None
    if out < 1e-9:
        return along / 2
    radius = (along * along + out * out) / (2 * out)
    return radius / 2 if way == "ogee" else radius


def fits(start: Flat, end: Flat, way: str) -> bool:
    """A curve must be at least as long as it is deep, or it would overhang."""
    return way == "straight" or abs(end[0] - start[0]) >= abs(end[1] - start[1]) - 1e-9


def _middle(start: Flat, end: Flat, way: str) -> Flat:
    """The middle of an arc that runs out level at the thin end (cove) or the thick end (bead)."""
    thin, thick = (start, end) if start[1] < end[1] else (end, start)
    radius = radius_of(start, end, way)
    assert radius is not None
    level = thin if way == "cove" else thick
    centre = level[0], level[1] + (radius if way == "cove" else -radius)
    chord = (start[0] + end[0]) / 2 - centre[0], (start[1] + end[1]) / 2 - centre[1]
    size = math.hypot(*chord)
    return centre[0] + chord[0] * radius / size, centre[1] + chord[1] * radius / size


def volume(run: Sequence[Piece]) -> float:
    """What a profile encloses when it is turned about the middle line (Simpson's rule along each piece)."""
    return sum(_volume(piece) for piece in run)


def _volume(piece: Piece) -> float:
    (x0, _), (x1, _) = piece.start, piece.end
    if x1 == x0:
        return 0.0
    steps = 400
    places = [x0 + (x1 - x0) * index / steps for index in range(steps + 1)]
    squares = [_out(piece, x) ** 2 for x in places]
    inner = sum((4 if index % 2 else 2) * each for index, each in enumerate(squares[1:-1], start=1))
    return math.pi * (squares[0] + inner + squares[-1]) * (x1 - x0) / steps / 3


def _out(piece: Piece, x: float) -> float:
    """The radius of the part at a place along it."""
    (x0, r0), (x1, r1) = piece.start, piece.end
    if piece.through is None:
        return r0 + (r1 - r0) * (x - x0) / (x1 - x0)
    (cx, cy), radius = circle(piece)
    side = 1.0 if piece.through[1] > cy else -1.0
    return cy + side * math.sqrt(max(0.0, radius * radius - (x - cx) ** 2))


def circle(piece: Piece) -> tuple[Flat, float]:
    """Centre and radius of an arc through its three points."""
    assert piece.through is not None
    (ax, ay), (bx, by), (cx, cy) = piece.start, piece.through, piece.end
    d = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    a, b, c = ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy
    x = (a * (by - cy) + b * (cy - ay) + c * (ay - by)) / d
    y = (a * (cx - bx) + b * (ax - cx) + c * (bx - ax)) / d
    return (x, y), math.dist((x, y), piece.start)
