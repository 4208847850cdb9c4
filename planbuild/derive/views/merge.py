"""Each line once: coincident pieces of different bodies or faces become one, touching pieces in one line are joined.

Flush parts and faces that share an edge each bring their own copy of it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from planbuild.derive.views.faces import Points
from planbuild.derive.views.lines import Run
from planbuild.derive.views.view import LineKind

TOGETHER = 0.03
"""Lines nearer to each other than this (mm) are one."""
_STRAIGHT = 0.004
_LEAST = 0.4
"""A line shorter than this (mm) is a crumb that the kernel leaves where lines meet."""
RANK = {LineKind.OUTLINE: 0, LineKind.EDGE: 1, LineKind.SMOOTH: 2, LineKind.HIDDEN: 3}
"""Where two lines coincide the lower rank is drawn."""


def merged(runs: Sequence[Run]) -> list[Run]:
    """No two of the lines that come back share a stretch; order: straight lines, then curved ones."""
    plain = [_simplified(run) for run in runs]
    plain = [run for run in plain if _length(run.points) > TOGETHER]
    straight = [run for run in plain if len(run.points) == 2]
    curved = [run for run in plain if len(run.points) > 2]
    lines = [run for group in _collinear(straight) for run in _swept(group)]
    return [run for run in [*lines, *_once(curved, lines)] if _length(run.points) > _LEAST]


def _simplified(run: Run) -> Run:
    if len(run.points) == 2:
        return run
    points = np.array(shapely.LineString(run.points).simplify(_STRAIGHT).coords)
    return Run(run.kind, run.key, points)


def _length(points: Points) -> float:
    return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())


# ---------------------------------------------------------------- straight lines


def _collinear(runs: Sequence[Run]) -> list[list[Run]]:
    """Groups of straight runs that lie in one line and hang together, in order of their first member."""
    if not runs:
        return []
    ends = np.array([run.points for run in runs])
    root = list(range(len(runs)))

    def find(i: int) -> int:
        while root[i] != i:
            root[i] = root[root[i]]
            i = root[i]
        return i

    for i, j in _pairs_in_line(ends):
        a, b = sorted((find(i), find(j)))
        root[b] = a
    groups: dict[int, list[Run]] = defaultdict(list)
    for i, run in enumerate(runs):
        groups[find(i)].append(run)
    return list(groups.values())


def _pairs_in_line(ends: Points) -> Iterator[tuple[int, int]]:
    lines = shapely.linestrings(ends)
    first, second = shapely.STRtree(lines).query(lines, predicate="dwithin", distance=TOGETHER)
    longer = shapely.length(lines)[first] >= shapely.length(lines)[second]
    once = (first != second) & longer
    base, other = first[once], second[once]
    start, way = ends[base, 0], ends[base, 1] - ends[base, 0]
    way = way / np.linalg.norm(way, axis=1, keepdims=True)
    off = [np.abs(way[:, 0] * (p - start)[:, 1] - way[:, 1] * (p - start)[:, 0]) for p in (ends[other, 0], ends[other, 1])]
    for k in np.flatnonzero((off[0] < TOGETHER) & (off[1] < TOGETHER)):
        yield int(base[k]), int(other[k])


@dataclass(frozen=True)
class _Stretch:
    low: float
    high: float
    rank: int
    order: int


def _swept(group: Sequence[Run]) -> Iterator[Run]:
    """The stretches of one line, each with the best kind that covers it, joined where kind and body go on."""
    if len(group) == 1:
        yield group[0]
        return
    base = max(group, key=lambda run: _length(run.points))
    start, way = base.points[0], (base.points[1] - base.points[0]) / _length(base.points)
    level = [run for run in group if _off(run, start, way) < 2 * TOGETHER]
    stops: dict[float, Points] = {}
    stretches = [_stretch(run, start, way, stops, i) for i, run in enumerate(level)]
    best = _best_between(sorted(stops), stretches)
    for (low, high), i in _joined(best, level):
        yield Run(level[i].kind, level[i].key, np.array([stops[low], stops[high]]))
    if len(level) < len(group):  # a hair between two lines that meet at an angle lies in both of them
        yield from _swept([run for run in group if not any(run is other for other in level)])


def _off(run: Run, start: Points, way: Points) -> float:
    """How far the farther end of a run lies from a line."""
    return max(abs(float(way[0] * (p - start)[1] - way[1] * (p - start)[0])) for p in run.points)


def _stretch(run: Run, start: Points, way: Points, stops: dict[float, Points], order: int) -> _Stretch:
    """Where a run lies along the line; each end is one of `stops`, near ones taken together."""
    found = []
    for point in run.points:
        place = float((point - start) @ way)
        near = min(stops, key=lambda known: abs(known - place), default=None)
        if near is None or abs(near - place) > TOGETHER:
            stops[place], near = point, place
        found.append(near)
    return _Stretch(min(found), max(found), RANK[run.kind], order)


def _best_between(stops: list[float], stretches: Sequence[_Stretch]) -> list[tuple[float, float, int]]:
    found = []
    for low, high in zip(stops, stops[1:], strict=False):
        over = [s for s in stretches if s.low <= low and s.high >= high]
        if over:
            found.append((low, high, min(over, key=lambda s: (s.rank, s.order)).order))
    return found


def _joined(best: Sequence[tuple[float, float, int]], group: Sequence[Run]) -> list[tuple[tuple[float, float], int]]:
    def same(i: int, j: int) -> bool:
        return group[i].kind is group[j].kind and group[i].key == group[j].key

    found: list[tuple[tuple[float, float], int]] = []
    for low, high, i in best:
        if found and found[-1][0][1] == low and same(found[-1][1], i):
            found[-1] = ((found[-1][0][0], high), found[-1][1])
        else:
            found.append(((low, high), i))
    return found


# ---------------------------------------------------------------- curves


def _once(runs: Sequence[Run], straight: Sequence[Run]) -> list[Run]:
    """Curved runs less the stretches that a straight or a better one already covers."""
    ordered = [*straight, *sorted(runs, key=lambda run: RANK[run.kind])]
    lines = [shapely.LineString(run.points) for run in ordered]
    tree = shapely.STRtree(lines)
    found: list[Run] = []
    for i in range(len(straight), len(ordered)):
        run, left = ordered[i], lines[i]
        for j in sorted(j for j in tree.query(lines[i], predicate="dwithin", distance=TOGETHER) if j < i):
            zone = lines[j].buffer(TOGETHER)
            if left.intersection(zone).length > 10 * TOGETHER:
                left = left.difference(zone)
        found += _pieces(run, left)
    return found


def _pieces(run: Run, left: shapely.Geometry) -> Iterator[Run]:
    for part in shapely.get_parts(left):
        if part.length > 10 * TOGETHER:
            yield Run(run.kind, run.key, np.array(part.coords))


