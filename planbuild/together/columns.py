"""Bodies as columns: along one direction, through lines of sight square to it, where each body begins and ends.

A body is a closed mesh.  Lines of sight stand between every two planes that any body has (so that no flat shoulder, however
small, is looked past), and nowhere farther apart than a spacing.  What is slanted or round and narrower than the spacing may
be missed; whoever reports a result says how far apart the lines were.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planbuild.core.geometry import Vec

Mesh = NDArray[np.float64]
"""A closed surface: triangles x 3 corners x 3 coordinates, mm, corners counterclockwise seen from outside."""

SPACING = 6.0
"""Lines of sight are at most so far apart, mm, in a piece of ordinary size."""
MOST_CELLS = 3_000_000
"""More crossings than about this many a direction are too many: the lines are set wider then."""
_OFF = (0.4639, 0.5271)
"""Where between two planes a line of sight stands: off the middle, so that it does not run along a diagonal of a square."""
_NEAR = 0.02
"""Planes nearer to each other than this, mm, are one."""
_AT_ONCE = 2_000_000
"""Cells looked at in one go: bounds the memory."""


@dataclass(frozen=True)
class Columns:
    """The wood of all bodies along `way`: in `cell`, body `owner` reaches from `start` to `stop` (mm along the way).

    Sorted by cell, then by start.
    """

    way: Vec
    cell: NDArray[np.int64]
    owner: NDArray[np.int64]
    start: NDArray[np.float64]
    stop: NDArray[np.float64]


def columns(bodies: Sequence[Mesh], way: Vec, spacing: float) -> Columns:
    """All bodies along one direction (a unit vector), through lines at most `spacing` mm apart."""
    frame = _frame(way)
    turned = [mesh @ frame.T for mesh in bodies]
    lines = (_lines(turned, 0, spacing), _lines(turned, 1, spacing))
    cells, owners, depths, turns = [], [], [], []
    for owner, mesh in enumerate(turned):
        for cell, depth, turn in _crossings(mesh, lines):
            cells.append(cell)
            owners.append(np.full(len(cell), owner, dtype=np.int64))
            depths.append(depth)
            turns.append(turn)
    if not cells:
        none = np.empty(0)
        return Columns(way, none.astype(np.int64), none.astype(np.int64), none, none)
    return _paired(way, np.concatenate(cells), np.concatenate(owners), np.concatenate(depths), np.concatenate(turns))


def spacing_for(bodies: Sequence[Mesh]) -> float:
    """How far apart the lines may stand, mm: `SPACING`, doubled while there would be too many crossings."""
    spans = np.array([mesh.reshape(-1, 3).max(axis=0) - mesh.reshape(-1, 3).min(axis=0) for mesh in bodies])
    x, y, z = spans.T if len(spans) else np.zeros((3, 1))
    widest = max((first * second).sum() for first, second in ((x, y), (y, z), (z, x)))
    spacing = SPACING
    while widest / spacing**2 > MOST_CELLS:
        spacing *= 2
    return spacing


def _lines(bodies: Sequence[Mesh], axis: int, spacing: float) -> NDArray[np.float64]:
    """Where lines of sight stand along an axis of the grid: between every two planes, several where these are far apart."""
    planes = np.unique(np.concatenate([_planes(mesh, axis) for mesh in bodies]).round(3)) if bodies else np.empty(0)
    planes = planes[np.r_[True, np.diff(planes) > _NEAR]] if len(planes) else planes
    gaps = np.diff(planes)
    counts = np.maximum(np.ceil(gaps / spacing), 1).astype(np.int64)
    which = np.repeat(np.arange(len(gaps)), counts)
    place = np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts)
    found: NDArray[np.float64] = planes[which] + (place + _OFF[axis]) * (gaps / counts)[which]
    return found


def _planes(mesh: Mesh, axis: int) -> NDArray[np.float64]:
    """Places of the flat faces square to an axis, and both ends."""
    along = mesh[:, :, axis]
    flat = np.ptp(along, axis=1) < 1e-6
    found: NDArray[np.float64] = np.r_[along[flat, 0], along.min(), along.max()]
    return found


def _frame(way: Vec) -> NDArray[np.float64]:
    """Three rows: two directions square to the way, and the way itself."""
    third = np.asarray(way, dtype=np.float64)
    first = np.zeros(3)
    first[int(np.argmin(np.abs(third)))] = 1.0
    first -= third * (first @ third)
    first /= np.linalg.norm(first)
    return np.stack([first, np.cross(third, first), third])


Lines = tuple[NDArray[np.float64], NDArray[np.float64]]


def _crossings(
    mesh: Mesh, lines: Lines
) -> list[tuple[NDArray[np.int64], NDArray[np.float64], NDArray[np.int64]]]:
    """Where lines of sight cross a mesh: cell, depth, and +1 where they go in, -1 where they come out."""
    flat = mesh[:, :, :2]
    a, b, c = flat[:, 0], flat[:, 1], flat[:, 2]
    area = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    seen = np.abs(area) > 1e-9
    mesh, flat, area = mesh[seen], flat[seen], area[seen]
    ends = flat.min(axis=1), flat.max(axis=1)
    low = np.stack([np.searchsorted(lines[axis], ends[0][:, axis]) for axis in (0, 1)], axis=1)
    high = np.stack([np.searchsorted(lines[axis], ends[1][:, axis], side="right") - 1 for axis in (0, 1)], axis=1)
    wide, tall = np.maximum(high - low + 1, 0).T
    found, begin, counts = [], 0, wide * tall
    running = np.cumsum(counts)
    while begin < len(mesh):
        done = running[begin - 1] if begin else 0
        end = max(int(np.searchsorted(running, done + _AT_ONCE, side="right")), begin + 1)
        part = slice(begin, end)
        found.append(_crossed(mesh[part], area[part], low[part], wide[part], counts[part], lines))
        begin = end
    return found


def _crossed(
    mesh: Mesh,
    area: NDArray[np.float64],
    low: NDArray[np.int64],
    wide: NDArray[np.int64],
    counts: NDArray[np.int64],
    lines: Lines,
) -> tuple[NDArray[np.int64], NDArray[np.float64], NDArray[np.int64]]:
    """The crossings of some triangles: every cell under each, and those in which the line of sight is inside it."""
    which = np.repeat(np.arange(len(mesh)), counts)
    place = np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts)
    column, row = low[which, 0] + place % wide[which], low[which, 1] + place // wide[which]
    x, y = lines[0][column], lines[1][row]
    a, b, c = (mesh[which, corner] for corner in range(3))
    size = area[which]
    at_b = ((x - a[:, 0]) * (c[:, 1] - a[:, 1]) - (y - a[:, 1]) * (c[:, 0] - a[:, 0])) / size
    at_c = ((b[:, 0] - a[:, 0]) * (y - a[:, 1]) - (b[:, 1] - a[:, 1]) * (x - a[:, 0])) / size
    within = (at_b >= 0) & (at_c >= 0) & (at_b + at_c <= 1)
    depth = a[:, 2] + at_b * (b[:, 2] - a[:, 2]) + at_c * (c[:, 2] - a[:, 2])
    turn = np.where(size > 0, -1, 1)
    return (column[within] << 32) + row[within], depth[within], turn[within]


def _paired(
    way: Vec,
    cell: NDArray[np.int64],
    owner: NDArray[np.int64],
    depth: NDArray[np.float64],
    turn: NDArray[np.int64],
) -> Columns:
    """Begin and end of the wood of each body in each cell; a line of sight that met an edge is left out."""
    order = np.lexsort((-turn, depth.round(6), owner, cell))
    cell, owner, depth, turn = cell[order], owner[order], depth[order], turn[order]
    fresh = np.flatnonzero(np.r_[True, (cell[1:] != cell[:-1]) | (owner[1:] != owner[:-1])])
    inside = np.cumsum(turn)
    before = np.repeat(np.r_[0, inside[fresh[1:] - 1]] if len(fresh) else inside[:0], np.diff(np.r_[fresh, len(cell)]))
    inside = inside - before
    sound = np.repeat(inside[np.r_[fresh[1:] - 1, len(cell) - 1]] == 0, np.diff(np.r_[fresh, len(cell)]))
    begins = sound & (inside == 1) & (turn == 1)
    ends = sound & (inside == 0) & (turn == -1)
    held, start, stop, whose = cell[begins], depth[begins], depth[ends], owner[begins]
    order = np.lexsort((start, held))
    return Columns(way, held[order], whose[order], start[order], stop[order])
