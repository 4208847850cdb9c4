"""Enough sizes and none too many: the planes of a part are a graph, the printed sizes its edges.

Complete means that every plane hangs together with every other; redundant, that an edge closes a circle.
Both by union-find, the choice by Kruskal's method with the weights of `Measure` (minimum spanning tree).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis
from planbuild.derive.dimensions.measure import Measure, Style, Weight

Ends = tuple[float, float]


class Planes:
    """The planes of one part along one axis, nearer than `TINY` to each other being one, and what joins them."""

    def __init__(self, positions: Iterable[float]) -> None:
        self._levels: list[float] = []
        for position in sorted(positions):
            if not self._levels or position - self._levels[-1] > TINY:
                self._levels.append(position)
        self._parent = list(range(len(self._levels)))

    def _root(self, position: float) -> int:
        node = min(range(len(self._levels)), key=lambda i: abs(self._levels[i] - position))
        while self._parent[node] != node:
            node = self._parent[node]
        return node

    def join(self, ends: Ends) -> bool:
        """Joins two planes; False if they hang together already, so that this size says nothing new."""
        one, other = self._root(ends[0]), self._root(ends[1])
        self._parent[max(one, other)] = min(one, other)
        return one != other

    def groups(self) -> tuple[tuple[float, ...], ...]:
        """Planes that hang together, in rising order; one group if the sizes are complete."""
        found: dict[int, list[float]] = {}
        for level in self._levels:
            found.setdefault(self._root(level), []).append(level)
        return tuple(tuple(each) for each in found.values())


def groups(positions: Iterable[float], sizes: Iterable[Ends]) -> tuple[tuple[float, ...], ...]:
    """What hangs together if these sizes are printed.  Units: mm along one axis."""
    planes = Planes(positions)
    for ends in sizes:
        planes.join(ends)
    return planes.groups()


def redundant(positions: Iterable[float], sizes: Sequence[Ends]) -> tuple[Ends, ...]:
    """The sizes that follow from those before them."""
    planes = Planes(positions)
    return tuple(ends for ends in sizes if not planes.join(ends))


@dataclass(frozen=True)
class Chosen:
    """`printed` fixes the part, each once; `bracketed` are references that follow from them."""

    printed: tuple[Measure, ...]
    bracketed: tuple[Measure, ...]

    @property
    def all(self) -> tuple[Measure, ...]:
        return self.printed + self.bracketed


def choose(measures: Sequence[Measure]) -> Chosen:
    """The measures to print: the heaviest that fix everything, and in brackets those that follow from them.

    Nothing is dropped but a number whose two planes another one connects already, so that no maker adds up.
    """
    kept: set[int] = set()
    for axis in Axis:
        along = [i for i, each in enumerate(measures) if each.axis is axis]
        planes = Planes(end for i in along for end in measures[i].ends)
        for i in sorted(along, key=lambda i: measures[i].weight):
            if planes.join(measures[i].ends):
                kept.add(i)
    kept |= {i for i, each in enumerate(measures) if each.axis is None and each.weight is not Weight.REFERENCE}
    printed = tuple(each for i, each in enumerate(measures) if i in kept)
    return Chosen(printed, _once(printed, [each for i, each in enumerate(measures) if i not in kept]))


def _once(printed: Sequence[Measure], rest: Sequence[Measure]) -> tuple[Measure, ...]:
    """References less those whose two planes a size connects already."""
    found: list[Measure] = []
    for each in rest:
        if not any(_same(each, other) for other in (*printed, *found)):
            found.append(each)
    return tuple(found)


def _same(one: Measure, other: Measure) -> bool:
    if one.axis is None or one.axis is not other.axis or other.style is Style.NOTE:
        return False
    return all(abs(a - b) <= TINY for a, b in zip(sorted(one.ends), sorted(other.ends), strict=True))
