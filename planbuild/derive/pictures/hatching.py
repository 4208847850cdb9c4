"""Cut wood on paper: rings where the saw crossed the grain, lines along it where it went with the grain, plies of a sheet.

Real strokes clipped to the area, because pattern fills print unevenly.  Spacings are a matter of looks, not a standard.
Units: paper mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import pairwise

import numpy as np
import shapely
from shapely import Geometry

from planbuild.core.geometry import Axis
from planbuild.derive.paint import Frame, path_of
from planbuild.derive.pictures.cutting import SawnFace
from planbuild.derive.views.view import Camera, View
from planbuild.records.drawing import Fill, Path, Pen, Point, Step, Stroke, Tint
from planbuild.records.solids import Key

_LINES = (1.3, 0.9, 1.7, 1.1, 1.5)
"""Uneven distances between the lines of long grain, so that it reads as wood and not as shading."""
_RING = 1.1
_PLY = 0.8
_PITH = 14.0
"""How far the middle of the rings lies below the area."""


def end_grain(area: Geometry, turn: int, strips: int = 1) -> list[Stroke]:
    """Rings about a pith outside the area; `turn` (a count) lets neighbours differ.

    The strips of a glued panel lie side by side across the paper or up it, their rings turned alternately.  Where the
    section goes through two tenons of the panel there may be nothing of a strip.
    """
    left, top, right, bottom = area.bounds
    lying = right - left > bottom - top
    cuts = np.linspace(left if lying else top, right if lying else bottom, strips + 1)
    boxes = [shapely.box(a, top, b, bottom) if lying else shapely.box(left, a, right, b) for a, b in pairwise(cuts)]
    glue = [shapely.LineString([(c, top), (c, bottom)] if lying else [(left, c), (right, c)]) for c in cuts[1:-1]]
    cut = [(area.intersection(box), turn + k) for k, box in enumerate(boxes)]
    rings = [stroke for strip, way in cut if strip.area > 0 for stroke in _rings(strip, way)]
    return [*rings, *_clipped(glue, area)]


def _rings(area: Geometry, turn: int) -> list[Stroke]:
    left, top, right, bottom = area.bounds
    side = 1 if turn % 2 else -1
    middle = (left + right) / 2 + side * 0.2 * (right - left)
    centre = (middle, bottom + _PITH if turn % 2 else top - _PITH)
    reach = math.hypot(right - left, bottom - top) + _PITH
    radii = np.arange(_PITH * 0.6, reach + 2 * _RING, _RING)
    return _clipped((shapely.Point(centre).buffer(r, quad_segs=24).exterior for r in radii), area)


def plies(area: Geometry, way: Point) -> list[Stroke]:
    """A sheet cut through its thickness: even lines, as its faces run on the paper."""
    return _lined(area, way, lambda k: _PLY, 0.5 * _PLY)


def ply_way(axis: Axis, camera: Camera) -> Point | None:
    """How the faces of a sheet run on the paper, `axis` being square to them; None where they are seen flat."""
    x, y = camera.flat(axis.high.normal)
    return None if math.hypot(x, y) < 0.1 else (y, x)


def long_grain(area: Geometry, way: Point, turn: int) -> list[Stroke]:
    """Lines along the grain, which runs in direction `way` on the paper."""
    return _lined(area, way, lambda k: _LINES[(turn + k) % len(_LINES)], 0.5 * _LINES[turn % len(_LINES)])


def _lined(area: Geometry, way: Point, apart: Callable[[int], float], first: float) -> list[Stroke]:
    """Lines in a direction, the k-th so far from the one before."""
    size = math.hypot(*way)
    along = np.array(way) / size
    square = np.array([-along[1], along[0]])
    corners = shapely.get_coordinates(area)
    (low, high), (start, stop) = ((np.min(corners @ v), np.max(corners @ v)) for v in (along, square))
    lines, at, k = [], start + first, 0
    while at < stop:
        lines.append(shapely.LineString([along * (low - 1) + square * at, along * (high + 1) + square * at]))
        at, k = at + apart(k), k + 1
    return _clipped(lines, area)


def _clipped(lines: Iterable[Geometry], area: Geometry) -> list[Stroke]:
    """One stroke; none where the area is a sliver too thin for any line."""
    inner = area.buffer(-0.15)
    steps: list[Step] = []
    for line in lines:
        for part in shapely.get_parts(line.intersection(inner)):
            if part.geom_type == "LineString" and part.length > 0.4:
                steps += _steps(part)
    return [Stroke(Pen.HATCH, tuple(steps))] if steps else []


def _steps(part: Geometry) -> Path:
    first, *rest = part.simplify(0.02).coords
    return (Step("M", (first,)), *(Step("L", (p,)) for p in rest))


# ---------------------------------------------------------------- ends where far wood was cut away


def end_fills(ends: Sequence[SawnFace], frame: Frame) -> tuple[Fill, ...]:
    return tuple(Fill(Tint.CUT, path_of(frame.shape(end.area))) for end in ends)


def end_strokes(ends: Sequence[SawnFace], grains: Mapping[Key, Axis], view: View, frame: Frame) -> tuple[Stroke, ...]:
    """Grain on those ends, so that nobody takes them for the ends of the part; `grains` as the parts lie in the view."""
    found: list[Stroke] = []
    for turn, end in enumerate(ends):
        grain = grains[end.key]
        area, way = frame.shape(end.area), (view.camera.right[grain.value], -view.camera.up[grain.value])
        found += end_grain(area, turn) if grain is end.axis else long_grain(area, way, turn)
    return tuple(found)
