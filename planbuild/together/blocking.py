"""What is in whose way: how far each body can go along each direction before it meets each other one.

Source of the idea: directional blocking graphs (Wilson and Latombe 1994).  A set of bodies can leave along a direction if
none of them meets any body outside the set, however far it goes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planbuild.core.geometry import Vec
from planbuild.together.columns import Columns, Mesh, columns, spacing_for

TOUCH = 0.05
"""What overlaps by less, mm, only touches: faces of a mesh are as true as this."""


@dataclass(frozen=True)
class Blocking:
    """`gaps[way][i, j]`: how far body i goes along the way before it meets body j, mm; infinite if it never does.

    `shared[i, j]`: how deep two bodies stand in each other as they are, mm; such pairs block each other everywhere.
    """

    ways: tuple[Vec, ...]
    gaps: tuple[NDArray[np.float64], ...]
    shared: NDArray[np.float64]
    spacing: float
    """How far apart the lines of sight stood at most, mm."""

    @property
    def count(self) -> int:
        return len(self.shared)

    def gap(self, way: Vec) -> NDArray[np.float64]:
        return self.gaps[self.ways.index(way)]

    def joined(self, groups: Sequence[Iterable[int]]) -> Blocking:
        """The same of groups that are moved as one; bodies that are in none are gone."""
        members = [sorted(each) for each in groups]
        gaps = tuple(_merged(gap, members, np.min) for gap in self.gaps)
        return Blocking(self.ways, gaps, _merged(self.shared, members, np.max), self.spacing)

    def reach(self, set_: Iterable[int], rest: Iterable[int], way: Vec) -> float:
        """How far a set goes along a way before any of it meets the rest, mm."""
        rows, others = sorted(set_), sorted(rest)
        if not rows or not others:
            return float("inf")
        return float(self.gap(way)[np.ix_(rows, others)].min())


def opposite(way: Vec) -> Vec:
    x, y, z = (0.0 - each for each in way)
    return (x, y, z)


def blocking(bodies: Sequence[Mesh], ways: Iterable[Vec]) -> Blocking:
    """Bodies against each other along each way and its opposite.  Ways are unit vectors, each given once."""
    count, spacing = len(bodies), spacing_for(bodies)
    shared = np.zeros((count, count))
    found: dict[Vec, NDArray[np.float64]] = {}
    for way in ways:
        if way in found:
            continue
        onward = _gaps(columns(bodies, way, spacing), count, shared)
        found[way], found[opposite(way)] = onward, onward.T.copy()
    for gap in found.values():
        gap[shared > 0] = 0.0
        np.fill_diagonal(gap, np.inf)
    return Blocking(tuple(found), tuple(found.values()), shared, spacing)


def _gaps(held: Columns, count: int, shared: NDArray[np.float64]) -> NDArray[np.float64]:
    """The least way from the end of one body to the beginning of another behind it in the same cell."""
    gaps = np.full((count, count), np.inf)
    for step in range(1, _longest(held.cell)):
        same = held.cell[step:] == held.cell[:-step]
        near, far = held.owner[:-step][same], held.owner[step:][same]
        apart = (held.start[step:] - held.stop[:-step])[same]
        common = (np.minimum(held.stop[:-step], held.stop[step:]) - held.start[step:])[same]
        between = np.where(apart >= 0, apart, -common)
        other = near != far
        near, far, between = near[other], far[other], between[other]
        clear = between >= -TOUCH
        np.minimum.at(gaps, (near[clear], far[clear]), np.maximum(between[clear], 0.0))
        deep = -between[~clear]
        np.maximum.at(shared, (near[~clear], far[~clear]), deep)
        np.maximum.at(shared, (far[~clear], near[~clear]), deep)
    return gaps


def _longest(cell: NDArray[np.int64]) -> int:
    """The most pieces of wood in one cell."""
    return int(np.unique(cell, return_counts=True)[1].max()) if len(cell) else 0


def _merged(matrix: NDArray[np.float64], members: Sequence[Sequence[int]], how: object) -> NDArray[np.float64]:
    assert callable(how)
    found = np.array([[float(how(matrix[np.ix_(one, other)])) for other in members] for one in members])
    found = found.reshape(len(members), len(members))
    np.fill_diagonal(found, np.inf if how is np.min else 0.0)
    return found
