"""Candidate places for marks: around each good end of a leader, in every direction, where the circle stands free.

What a leader runs over is read from a fine grid of the paper, on which every copy that shows has a number.
Units: paper mm, y down.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from shapely import Geometry

from planbuild.derive.pictures.labels import AIR, RADIUS, Label, Site, half_width
from planbuild.records.drawing import Point
from planbuild.records.legibility import PaperBox

_DIRECTIONS = 24
_STEP, _LONGEST = 1.5, 30.0
_LENGTHS = np.arange(_STEP, _LONGEST, _STEP)
_TRIED = 3
"""Free places tried in each direction: the nearest, and two further out, for a crowd."""
_APART = 2 * RADIUS + AIR
"""Between two places tried in one direction."""
_A_WAY = 3
"""The best so many places in each direction go on, so that the search can choose among all of them."""
_COPIES = 3
_FACES = 2
"""Of a copy the largest faces bear ends of leaders."""
_SPOTS = 3
_EASY = 1.2
_DOT_ROOM = 0.45
"""A leader ends where there is at least this much of the face around its dot."""
_CELL = 0.4
_OTHER, _BARE = -1, -2
_ANY_FACE = 0.25
"""A further face must be this share of the largest."""


@dataclass(frozen=True)
class _Spot:
    """A good end for a leader and the radius of the free circle around it; `rank` is 0 for the copy that shows best."""

    at: Point
    room: float
    rank: int
    copy: int
    """Its number on the grid."""


def candidates(sites: Sequence[Site], drawn: Geometry, room: PaperBox) -> list[list[Label]]:
    """For each site that is seen at all its places, the cheapest first; `drawn` is all that the picture covers."""
    coarse = sound(drawn.simplify(0.05))
    best = [_best_copies(site) for site in sites]
    grid = _Grid(coarse, room, [copy for copies in best for copy in copies])
    taken: dict[float, Geometry] = {}
    found, first = [], 0
    for site, copies in zip(sites, best, strict=True):
        size = half_width(site.text)
        if size not in taken:
            taken[size] = coarse.buffer(size + AIR, quad_segs=6)
            shapely.prepare(taken[size])
        spots = [spot for rank, faces in enumerate(copies) for spot in _spots(faces, rank, first + rank)]
        first += len(copies)
        every = [*_on_the_part(site, spots), *_around(site, spots, grid, taken[size], room)]
        if every:
            found.append(sorted(every, key=lambda label: (label.cost, label.centre)))
    return found


def sound(shape: Geometry) -> Geometry:
    """An outline rounded to the paper may touch itself, which nothing can be cut with."""
    return shape if shape.is_valid else shapely.make_valid(shape)


def _best_copies(site: Site) -> list[tuple[Geometry, ...]]:
    ranked = sorted(site.copies, key=lambda copy: -sum(face.area for face in copy))[:_COPIES]
    return [tuple(sound(face) for face in faces) for faces in ranked]


# ---------------------------------------------------------------- the paper


class _Grid:
    """Which copy covers a place of the paper: its number, `_OTHER` for what is not asked for, `_BARE` for free paper."""

    def __init__(self, drawn: Geometry, room: PaperBox, copies: Sequence[Sequence[Geometry]]) -> None:
        self._left, self._top = room[0], room[1]
        self._shape = (math.ceil((room[3] - room[1]) / _CELL) + 1, math.ceil((room[2] - room[0]) / _CELL) + 1)
        self._of = np.full(self._shape, _BARE, dtype=np.int32)
        self._fill(drawn, _OTHER)
        for number, faces in enumerate(copies):
            for face in faces:
                self._fill(face, number)

    def _fill(self, area: Geometry, number: int) -> None:
        if area.is_empty:
            return
        left, top, right, bottom = area.bounds
        rows, columns = self._cells(np.array([left, right]), np.array([top, bottom]))
        ys, xs = np.mgrid[rows[0] : rows[1] + 1, columns[0] : columns[1] + 1]
        shapely.prepare(area)
        inside = shapely.contains_xy(area, xs * _CELL + self._left, ys * _CELL + self._top)
        self._of[ys[inside], xs[inside]] = number

    def _cells(self, xs: Any, ys: Any) -> tuple[Any, Any]:
        columns = np.clip(np.rint((xs - self._left) / _CELL).astype(int), 0, self._shape[1] - 1)
        rows = np.clip(np.rint((ys - self._top) / _CELL).astype(int), 0, self._shape[0] - 1)
        return rows, columns

    def at(self, xs: Any, ys: Any) -> Any:
        return self._of[self._cells(xs, ys)]


# ---------------------------------------------------------------- ends of leaders


def _spots(faces: Sequence[Geometry], rank: int, copy: int) -> list[_Spot]:
    """The roomiest place of each large face, and of each third of it across or down the paper."""
    largest, *others = sorted(faces, key=lambda face: -face.area)[:_FACES]
    found = [spot for face in (largest, *others) if face.area > _ANY_FACE * largest.area for spot in _spots_of(face)]
    return [_Spot(at, free, rank, copy) for at, free in found if free > min(_DOT_ROOM, found[0][1] / 2)]


def _spots_of(face: Geometry) -> list[tuple[Point, float]]:
    left, top, right, bottom = face.bounds
    if right - left > bottom - top:
        cuts = np.linspace(left, right, _SPOTS + 1)
        strips = shapely.intersection(face, shapely.box(cuts[:-1], top, cuts[1:], bottom))
    else:
        cuts = np.linspace(top, bottom, _SPOTS + 1)
        strips = shapely.intersection(face, shapely.box(left, cuts[:-1], right, cuts[1:]))
    pieces = [max(shapely.get_parts(each), key=lambda p: p.area) for each in (face, *strips) if not each.is_empty]
    return [_inner(piece) for piece in pieces if piece.geom_type == "Polygon" and piece.area > 0]


def _inner(polygon: Geometry) -> tuple[Point, float]:
    """Centre and radius of the largest inscribed circle."""
    line = shapely.maximum_inscribed_circle(polygon, tolerance=0.1)
    (x, y), *_ = line.coords
    return (round(x, 2), round(y, 2)), float(line.length)


# ---------------------------------------------------------------- places


_WAYS = np.array([(math.cos(2 * math.pi * k / _DIRECTIONS), math.sin(2 * math.pi * k / _DIRECTIONS)) for k in range(_DIRECTIONS)])


def _on_the_part(site: Site, spots: Sequence[_Spot]) -> Iterator[Label]:
    """The circle on the part itself, where a face has room for it."""
    for spot in spots:
        if spot.room > half_width(site.text) + AIR:
            yield Label(site.text, site.refers, spot.at, None, 0.5 * spot.rank)


def _around(site: Site, spots: Sequence[_Spot], grid: _Grid, taken: Geometry, room: PaperBox) -> Iterator[Label]:
    """In each direction the places where the circle stands free of everything drawn, those that are best of all spots."""
    size = half_width(site.text)
    by_way: dict[int, list[tuple[float, int, int]]] = {}
    if not spots:
        return
    ends = np.array([spot.at for spot in spots])
    centres = np.round(ends[:, None, None] + _WAYS[None, :, None, :] * (_LENGTHS + size)[None, None, :, None], 2)
    low, high = np.array([room[0] + size, room[1] + RADIUS]), np.array([room[2] - size, room[3] - RADIUS])
    free: Any = ((centres > low) & (centres < high)).all(axis=3)
    free[free] = ~shapely.contains_xy(taken, centres[free])
    over = _run_over(spots, grid, size)
    for spot, way in zip(*np.nonzero(free.any(axis=2)), strict=True):
        for step in _tried(np.flatnonzero(free[spot, way])):
            cost = _cost(spots[spot], way, _LENGTHS[step], over[spot, way, step])
            by_way.setdefault(int(way), []).append((cost, int(spot), int(step)))
    for way, found in by_way.items():
        for cost, spot, step in sorted(found)[:_A_WAY]:
            x, y = centres[spot, way, step]
            yield Label(site.text, site.refers, (float(x), float(y)), spots[spot].at, cost)


def _tried(free: Any) -> list[int]:
    """Of the free steps of one direction the nearest, and some at a distance of a circle from each other."""
    found: list[int] = []
    for step in free:
        if len(found) < _TRIED and (not found or (step - found[-1]) * _STEP >= _APART):
            found.append(int(step))
    return found


def _cost(spot: _Spot, way: int, length: float, over: float) -> float:
    """About the length of the leader, more where it runs over other parts, ends in a narrow place or lies askew."""
    skew = 0.0 if way % 3 == 0 else 0.6
    crossing = 3.0 * over + (8.0 if over > 0.5 else 0.0)
    return float(length + crossing) + 4.0 * max(0.0, _EASY - spot.room) + 0.5 * spot.rank + skew


def _run_over(spots: Sequence[_Spot], grid: _Grid, size: float) -> Any:
    """How far the leader of each spot, way and length runs over wood that is not the spot's own."""
    along = np.arange(0.0, _LONGEST + size, _CELL)
    ends = np.array([spot.at for spot in spots])
    points = ends[:, None, None] + _WAYS[None, :, None, :] * along[None, None, :, None]
    met = grid.at(points[..., 0], points[..., 1])
    own = np.array([spot.copy for spot in spots])[:, None, None]
    run = np.cumsum((met != _BARE) & (met != own), axis=2) * _CELL
    return run[:, :, np.minimum(np.rint((_LENGTHS + size) / _CELL).astype(int), len(along) - 1)]
