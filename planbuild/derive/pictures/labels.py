"""Where marks stand: in circles outside the picture or inside a large visible face, leaders short and straight.

Every mark has candidate places, each with a cost; a search takes the cheapest set in which no circle
meets another and no leader crosses another.  The costs are a heuristic; the result is deterministic.
Criteria after the survey of Bekos, Niedermann and Noellenburg 2019.  Units: paper mm, y down.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from shapely import Geometry

from planbuild.core.lettering import text_width
from planbuild.records.drawing import Point
from planbuild.records.legibility import PaperBox

RADIUS = 3.4
HEIGHT = 2.5
"""Circle and capital height of a mark."""
AIR = 1.0
_DIRECTIONS = 24
_LENGTHS = np.arange(1.5, 30.0, 1.5)
_KEPT = 30
_COPIES = 3
_SPOTS = 3
_EASY = 1.2
_GOOD = 12.0
_DOT_ROOM = 0.45
"""A leader ends where there is at least this much of the face around its dot."""


@dataclass(frozen=True)
class Site:
    """What is to be marked: the text, the part, and where it is seen (the visible faces of each copy that shows)."""

    text: str
    refers: str
    copies: tuple[tuple[Geometry, ...], ...]


@dataclass(frozen=True)
class Label:
    """A mark at `centre`; its leader ends at `end` inside the part, None where the circle stands on the part itself."""

    text: str
    refers: str
    centre: Point
    end: Point | None
    cost: float = 0.0
    """How bad this place is: about the length of the leader where it is good."""

    @property
    def half_width(self) -> float:
        return half_width(self.text)


def half_width(text: str) -> float:
    """Half the width of the outline round a mark: a circle, drawn out to both sides for long marks."""
    return max(RADIUS, text_width(text, HEIGHT, True) / 2 + 1.3)


@dataclass(frozen=True)
class _Spot:
    """A good end for a leader and the radius of the free circle around it."""

    at: Point
    room: float
    rank: int
    """0 for the copy that shows best."""


def place(sites: Sequence[Site], drawn: Geometry, room: PaperBox) -> list[Label]:
    """A label for each site that is seen at all; `drawn` is all that the picture covers."""
    coarse = _sound(drawn.simplify(0.05))
    shapely.prepare(coarse)
    choices = [sorted(_choices(site, coarse, room), key=lambda c: (c.cost, c.centre))[:_KEPT] for site in sites]
    return _cheapest([each for each in choices if each])


def _sound(shape: Geometry) -> Geometry:
    """An outline rounded to the paper may touch itself, which nothing can be cut with."""
    return shape if shape.is_valid else shapely.make_valid(shape)


def flaws(labels: Sequence[Label], sites: Sequence[Site]) -> float:
    """0 if every site is marked, nothing clashes and no leader is long or runs over other parts; else by how much not."""
    clashing = int((_clashes(labels) & ~np.eye(len(labels), dtype=bool)).sum()) // 2
    missing = len(sites) - len(labels)
    return _CLASH * (clashing + missing) + sum(max(label.cost - _GOOD, 0.0) for label in labels)


# ---------------------------------------------------------------- candidates


def _choices(site: Site, drawn: Geometry, room: PaperBox) -> Iterator[Label]:
    size = half_width(site.text)
    for rank, faces in enumerate(sorted(site.copies, key=lambda copy: -sum(face.area for face in copy))[:_COPIES]):
        own = shapely.union_all([_sound(face) for face in faces])
        for spot in _spots(faces, rank):
            if spot.room > size + AIR:
                yield Label(site.text, site.refers, spot.at, None, 0.5 * rank)
            yield from _around(site, spot, own, drawn, room)


def _spots(faces: Sequence[Geometry], rank: int) -> list[_Spot]:
    """The roomiest place of the largest face, and of each of its quarters across or down the paper."""
    largest = max(faces, key=lambda face: face.area)
    left, top, right, bottom = largest.bounds
    if right - left > bottom - top:
        cuts = np.linspace(left, right, _SPOTS + 1)
        strips = shapely.intersection(largest, shapely.box(cuts[:-1], top, cuts[1:], bottom))
    else:
        cuts = np.linspace(top, bottom, _SPOTS + 1)
        strips = shapely.intersection(largest, shapely.box(left, cuts[:-1], right, cuts[1:]))
    pieces = [max(shapely.get_parts(strip), key=lambda p: p.area) for strip in strips if not strip.is_empty]
    found = [_inner(piece) for piece in (largest, *pieces) if piece.geom_type == "Polygon" and piece.area > 0]
    return [_Spot(at, free, rank) for at, free in found if free > min(_DOT_ROOM, found[0][1] / 2)]


def _inner(polygon: Geometry) -> tuple[Point, float]:
    """Centre and radius of the largest inscribed circle."""
    line = shapely.maximum_inscribed_circle(polygon, tolerance=0.1)
    (x, y), *_ = line.coords
    return (round(x, 2), round(y, 2)), float(line.length)


_WAYS = np.array([(math.cos(2 * math.pi * k / _DIRECTIONS), math.sin(2 * math.pi * k / _DIRECTIONS)) for k in range(_DIRECTIONS)])


def _around(site: Site, spot: _Spot, own: Geometry, drawn: Geometry, room: PaperBox) -> Iterator[Label]:
    """In each direction the nearest place where the circle stands free of everything drawn."""
    size = half_width(site.text)
    centres = np.array(spot.at) + _WAYS[:, None, :] * (_LENGTHS + size)[None, :, None]
    low, high = np.array([room[0] + size, room[1] + RADIUS]), np.array([room[2] - size, room[3] - RADIUS])
    inside = ((centres > low) & (centres < high)).all(axis=2)
    free = inside & ~shapely.dwithin(drawn, shapely.points(centres), size + AIR)
    ways = np.flatnonzero(free.any(axis=1))
    nearest = free.argmax(axis=1)[ways]
    ends = np.round(centres[ways, nearest], 2)
    lines = shapely.linestrings(np.stack([np.broadcast_to(spot.at, ends.shape), ends], axis=1))
    across = shapely.length(shapely.intersection(lines, drawn)) - shapely.length(shapely.intersection(lines, own))
    tight = 4.0 * max(0.0, _EASY - spot.room)
    for way, step, end, over in zip(ways, nearest, ends, across, strict=True):
        skew = 0.0 if way % 3 == 0 else 0.6
        crossing = 3.0 * over + (8.0 if over > 0.2 else 0.0)
        cost = float(_LENGTHS[step]) + crossing + tight + 0.5 * spot.rank + skew
        yield Label(site.text, site.refers, (float(end[0]), float(end[1])), spot.at, cost)


# ---------------------------------------------------------------- search

_BEAM = 60
_CLASH = 1000.0


def _cheapest(choices: Sequence[Sequence[Label]]) -> list[Label]:
    """Beam search over one choice a mark, the marks with the fewest choices first: of all partial sets the cheapest go on."""
    order = sorted(range(len(choices)), key=lambda i: (len(choices[i]), choices[i][0].text))
    flat = [choice for i in order for choice in choices[i]]
    clash = _clashes(flat)
    beam: list[tuple[float, tuple[int, ...]]] = [(0.0, ())]
    start = 0
    for i in order:
        rows = range(start, start + len(choices[i]))
        grown = []
        for cost, taken in beam:
            met = clash[start : rows.stop, list(taken)].sum(axis=1)
            grown += [(cost + flat[row].cost + _CLASH * float(met[row - start]), (*taken, row)) for row in rows]
        beam = sorted(grown)[:_BEAM]
        start = rows.stop
    chosen = dict(zip(order, beam[0][1], strict=True))
    return [flat[chosen[i]] for i in range(len(choices))]


def _clashes(labels: Sequence[Label]) -> Any:
    """Which labels may not stand together: circles too near, leaders that meet, a leader through a circle."""
    if not labels:
        return np.zeros((0, 0), dtype=bool)
    centres = np.array([label.centre for label in labels])
    points, sizes = shapely.points(centres), np.array([label.half_width for label in labels])
    leaders = np.array([_leader(label) for label in labels], dtype=object)
    gaps = np.hypot(*(centres[:, None, :] - centres[None, :, :]).transpose(2, 0, 1))
    near = gaps < sizes[:, None] + sizes[None, :] + AIR
    crossed = shapely.dwithin(leaders[:, None], leaders[None, :], AIR)
    through = shapely.dwithin(points[:, None], leaders[None, :], (sizes + AIR / 2)[:, None])
    return near | crossed | through | through.T


def _leader(label: Label) -> Geometry:
    return shapely.LineString([label.centre, label.end]) if label.end else shapely.Point(label.centre)
