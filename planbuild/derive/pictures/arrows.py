"""Arrows that show the way home: behind the part that moves, on bare paper where there is any.  Units: paper mm."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely
from shapely import Geometry

from planbuild.derive.dimension_lines import Ink
from planbuild.records.drawing import Fill, Pen, Point, Stroke, Tint, line, ring
from planbuild.records.legibility import PaperBox

SHAFT, HEAD = 6.0, 3.2
_HALF = 1.4
OFF = 1.6
"""An arrow stands this far from the part."""
_AIR = 0.8


def arrow(tail: Point, tip: Point) -> Ink:
    """A shaft and a filled head in the accent."""
    start, end = np.array(tail), np.array(tip)
    way = (end - start) / np.linalg.norm(end - start)
    base, side = end - way * HEAD, np.array([-way[1], way[0]]) * _HALF
    shaft = line(tail, _point(base + way * 0.3))
    return Ink((Stroke(Pen.MOVE, shaft),), (Fill(Tint.ACCENT, ring(tip, _point(base + side), _point(base - side))),))


def place_arrow(moving: Geometry, way: Point, taken: Geometry, room: PaperBox) -> tuple[Point, Point] | None:
    """Tail and tip of an arrow along `way` for what moves; None if it moves straight at the viewer."""
    size = float(np.hypot(*way))
    if size < 0.2 or moving.is_empty:
        return None
    along = np.array(way) / size
    tries = list(_tries(moving, along))
    inside = [each for each in tries if _within(each, room)] or tries
    return min(inside, key=lambda each: round(_overlap(each, taken), 2))


def _tries(moving: Geometry, along: np.ndarray) -> Iterator[tuple[Point, Point]]:
    """Behind the part in the middle, then nearer to its sides, then beside it, then inside it."""
    square = np.array([-along[1], along[0]])
    corners = shapely.get_coordinates(moving)
    low, high = np.min(corners @ square), np.max(corners @ square)
    back, front = np.min(corners @ along), np.max(corners @ along)
    middle, half = (low + high) / 2, (high - low) / 2
    for share in (0.0, 0.3, -0.3, 0.6, -0.6, 0.85, -0.85):
        across = middle + share * half
        ray = shapely.LineString([square * across + along * (back - 1), square * across + along * (front + 1)])
        met = shapely.get_coordinates(ray.intersection(moving))
        start = float(np.min(met @ along)) if len(met) else back
        yield _arrow_at(along, square, start - OFF, across)
    for side in (high + 3.0, low - 3.0):
        for share in (0.25, 0.5, 0.75, 0.0, 1.0):
            yield _arrow_at(along, square, back + share * (front - back) + (SHAFT + HEAD) / 2, side)


def _arrow_at(along: np.ndarray, square: np.ndarray, tip: float, across: float) -> tuple[Point, Point]:
    end = along * tip + square * across
    return _point(end - along * (SHAFT + HEAD)), _point(end)


def _overlap(found: tuple[Point, Point], taken: Geometry) -> float:
    return float(arrow_area(*found).intersection(taken).area)


def stands_free(tail: Point, tip: Point, taken: Geometry, room: PaperBox) -> bool:
    """True if the arrow covers nothing and lies on the paper."""
    return _overlap((tail, tip), taken) < 0.5 and _within((tail, tip), room)


def arrow_area(tail: Point, tip: Point) -> Geometry:
    """The paper an arrow takes up, with some air."""
    return shapely.LineString([tail, tip]).buffer(_HALF + _AIR, cap_style="flat")


def _within(found: tuple[Point, Point], room: PaperBox) -> bool:
    return all(room[0] + _HALF < x < room[2] - _HALF and room[1] + _HALF < y < room[3] - _HALF for x, y in found)


def _point(p: np.ndarray) -> Point:
    return round(float(p[0]), 3), round(float(p[1]), 3)
