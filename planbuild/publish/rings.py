"""Rings of a filled region turned so that many regions can share one path.

An even-odd path of two overlapping regions would show a hole where they overlap.  With outer rings
running one way and holes the other, the non-zero rule fills their union instead.
"""

from __future__ import annotations

from planbuild.records.drawing import Path, Point, Step


def wound(path: Path) -> Path:
    """The same even-odd region with outer rings clockwise on paper and holes the other way."""
    rings = _rings(path)
    if len(rings) == 1:
        return _turned(rings[0], outer=True)
    corners = [_corners(ring) for ring in rings]
    depth = [sum(_inside(mine[0], other) for other in corners if other is not mine) for mine in corners]
    return tuple(step for ring, level in zip(rings, depth, strict=True) for step in _turned(ring, outer=level % 2 == 0))


def _rings(path: Path) -> list[Path]:
    rings: list[list[Step]] = []
    for step in path:
        if step.verb == "M":
            rings.append([])
        rings[-1].append(step)
    return [tuple(ring) for ring in rings]


def _corners(ring: Path) -> list[Point]:
    """The points of a ring with its control points: good enough to tell its way and what lies inside."""
    return [point for step in ring for point in step.points]


def _turned(ring: Path, outer: bool) -> Path:
    return ring if (_area(_corners(ring)) > 0) is outer else _reversed(ring)


def _area(points: list[Point]) -> float:
    """Twice the signed area; positive is clockwise with y down."""
    pairs = zip(points, [*points[1:], points[0]], strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)


def _reversed(ring: Path) -> Path:
    """The ring run backwards, curves with their control points exchanged."""
    drawn = [step for step in ring if step.verb != "Z"]
    back: list[Step] = [Step("M", (drawn[-1].points[-1],))]
    for step, before in zip(reversed(drawn[1:]), reversed(drawn[:-1]), strict=True):
        back.append(Step(step.verb, (*reversed(step.points[:-1]), before.points[-1])))
    return (*back, Step("Z"))


def _inside(point: Point, corners: list[Point]) -> bool:
    """Crossing rule: an odd number of edges to the right of the point."""
    x, y = point
    crossings = 0
    for (x1, y1), (x2, y2) in zip(corners, [*corners[1:], corners[0]], strict=True):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) / (y2 - y1) * (x2 - x1):
            crossings += 1
    return crossings % 2 == 1
