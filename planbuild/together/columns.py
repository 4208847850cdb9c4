"""Bodies as columns: along one direction, over a fine grid square to it, where each body begins and ends.

A body is a closed mesh.  Each cell of the grid is looked through once along the direction, a little off the cell's corner, so
that faces flush with the grid are met or missed as a whole.  What is thinner than the grid and lies between two lines of
sight is missed; that is the resolution, and whoever reports a result says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planbuild.core.geometry import Vec

Mesh = NDArray[np.float64]
"""A closed surface: triangles x 3 corners x 3 coordinates, mm, corners counterclockwise seen from outside."""

_OFF = (0.3819, 0.2764)
"""Where in its cell a line of sight stands: off every plain fraction, so that it seldom runs along an edge."""
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


def columns(bodies: Sequence[Mesh], way: Vec, pitch: float) -> Columns:
    """All bodies along one direction (a unit vector), over a grid of `pitch` mm."""
    frame = _frame(way)
    cells, owners, depths, turns = [], [], [], []
    for owner, mesh in enumerate(bodies):
        for cell, depth, turn in _crossings(mesh @ frame.T, pitch):
            cells.append(cell)
            owners.append(np.full(len(cell), owner, dtype=np.int64))
            depths.append(depth)
            turns.append(turn)
    if not cells:
        none = np.empty(0)
        return Columns(way, none.astype(np.int64), none.astype(np.int64), none, none)
    return _paired(way, np.concatenate(cells), np.concatenate(owners), np.concatenate(depths), np.concatenate(turns))


def _frame(way: Vec) -> NDArray[np.float64]:
    """Three rows: two directions square to the way, and the way itself."""
    third = np.asarray(way, dtype=np.float64)
    first = np.zeros(3)
    first[int(np.argmin(np.abs(third)))] = 1.0
    first -= third * (first @ third)
    first /= np.linalg.norm(first)
    return np.stack([first, np.cross(third, first), third])


def _crossings(
    mesh: Mesh, pitch: float
) -> list[tuple[NDArray[np.int64], NDArray[np.float64], NDArray[np.int64]]]:
    """Where lines of sight cross a mesh: cell, depth, and +1 where they go in, -1 where they come out."""
    flat = mesh[:, :, :2]
    a, b, c = flat[:, 0], flat[:, 1], flat[:, 2]
    area = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    seen = np.abs(area) > 1e-9
    mesh, flat, area = mesh[seen], flat[seen], area[seen]
    off = np.asarray(_OFF)
    low = np.ceil(flat.min(axis=1) / pitch - off).astype(np.int64)
    high = np.floor(flat.max(axis=1) / pitch - off).astype(np.int64)
    wide, tall = np.maximum(high - low + 1, 0).T
    found, begin, counts = [], 0, wide * tall
    running = np.cumsum(counts)
    while begin < len(mesh):
        done = running[begin - 1] if begin else 0
        end = max(int(np.searchsorted(running, done + _AT_ONCE, side="right")), begin + 1)
        part = slice(begin, end)
        found.append(_crossed(mesh[part], area[part], low[part], wide[part], counts[part], pitch))
        begin = end
    return found


def _crossed(
    mesh: Mesh,
    area: NDArray[np.float64],
    low: NDArray[np.int64],
    wide: NDArray[np.int64],
    counts: NDArray[np.int64],
    pitch: float,
) -> tuple[NDArray[np.int64], NDArray[np.float64], NDArray[np.int64]]:
    """The crossings of some triangles: every cell under each, and those in which the line of sight is inside it."""
    which = np.repeat(np.arange(len(mesh)), counts)
    place = np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts)
    column, row = low[which, 0] + place % wide[which], low[which, 1] + place // wide[which]
    x, y = (column + _OFF[0]) * pitch, (row + _OFF[1]) * pitch
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
