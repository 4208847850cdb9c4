"""The best set of places for marks: a beam search, then each mark and each pair that clashes put where it is best.

Every step is bounded and has one order, so the same picture always gets the same marks.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from typing import Any

import numpy as np
import shapely
from shapely import Geometry

from planbuild.derive.pictures.label_places import candidates
from planbuild.derive.pictures.labels import AIR, Label, Site
from planbuild.records.legibility import PaperBox

_GOOD = 12.0
_BEAM = 60
_CLASH, _CROSSING = 1000.0, 400.0
"""What it costs if a mark stands on a mark or a leader, and if two leaders meet."""
_SWEEPS = 12


def place(sites: Sequence[Site], drawn: Geometry, room: PaperBox) -> list[Label]:
    """A label for each site that is seen at all; `drawn` is all that the picture covers."""
    choices = candidates(sites, drawn, room)
    if not choices:
        return []
    flat = [choice for each in choices for choice in each]
    ends = np.cumsum([0, *(len(each) for each in choices)])
    rows = [np.arange(low, high) for low, high in zip(ends, ends[1:], strict=False)]
    costs, price = np.array([label.cost for label in flat]), _prices(flat)
    return [flat[row] for row in _improved(rows, costs, price, _by_beam(rows, costs, price, flat))]


def flaws(labels: Sequence[Label], sites: Sequence[Site]) -> float:
    """0 if every site is marked, nothing clashes and no leader is long or runs over other parts; else by how much not."""
    clashing = float(np.triu(_prices(labels), 1).sum()) if labels else 0.0
    missing = len(sites) - len(labels)
    return clashing + _CLASH * missing + sum(max(label.cost - _GOOD, 0.0) for label in labels)


# ---------------------------------------------------------------- search


def _by_beam(rows: Sequence[Any], costs: Any, price: Any, flat: Sequence[Label]) -> list[int]:
    """One choice a mark, the marks with the fewest choices first: of all partial sets the cheapest go on."""
    order = sorted(range(len(rows)), key=lambda i: (len(rows[i]), flat[rows[i][0]].text))
    totals, taken = np.zeros(1), np.zeros((1, 0), dtype=int)
    for i in order:
        met = price[rows[i]][:, taken].sum(axis=2).T if taken.size else np.zeros((len(taken), len(rows[i])))
        grown = totals[:, None] + costs[rows[i]][None, :] + met
        best = np.argsort(grown, axis=None, kind="stable")[:_BEAM]
        sets, chosen = np.unravel_index(best, grown.shape)
        totals = grown[sets, chosen]
        taken = np.column_stack([taken[sets], rows[i][chosen]])
    found = dict(zip(order, taken[0], strict=True))
    return [int(found[i]) for i in range(len(rows))]


def _improved(rows: Sequence[Any], costs: Any, price: Any, chosen: list[int]) -> list[int]:
    """The set after each mark, and each pair of marks that are in each other's way, was put where it is best."""
    for _ in range(_SWEEPS):
        before = list(chosen)
        for i in range(len(rows)):
            others = [row for k, row in enumerate(chosen) if k != i]
            chosen[i] = int(rows[i][np.argmin(costs[rows[i]] + price[np.ix_(rows[i], others)].sum(axis=1))])
        for i in _in_trouble(chosen, price):
            for j in range(len(rows)):
                if j != i:
                    chosen[i], chosen[j] = _best_pair(rows, costs, price, chosen, i, j)
        if chosen == before:
            break
    return chosen


def _in_trouble(chosen: Sequence[int], price: Any) -> list[int]:
    pairs = [(i, j) for i, j in combinations(range(len(chosen)), 2) if price[chosen[i], chosen[j]]]
    return sorted({i for pair in pairs for i in pair})


def _best_pair(rows: Sequence[Any], costs: Any, price: Any, chosen: Sequence[int], i: int, j: int) -> tuple[int, int]:
    others = [row for k, row in enumerate(chosen) if k not in (i, j)]
    one, two = (costs[rows[k]] + price[np.ix_(rows[k], others)].sum(axis=1) for k in (i, j))
    both = one[:, None] + two[None, :] + price[np.ix_(rows[i], rows[j])]
    a, b = np.unravel_index(int(np.argmin(both)), both.shape)
    return int(rows[i][a]), int(rows[j][b])


def _prices(labels: Sequence[Label]) -> Any:
    """What it costs to have two labels together: circles too near, a leader through a circle, leaders that meet."""
    count = len(labels)
    points = shapely.points(np.array([label.centre for label in labels]))
    sizes = np.array([label.half_width for label in labels])
    leaders = np.array([_leader(label) for label in labels], dtype=object)
    discs, lines = shapely.STRtree(points), shapely.STRtree(leaders)
    price = np.zeros((count, count))
    one, two = lines.query(leaders, predicate="dwithin", distance=AIR)
    price[one, two] = _CROSSING
    one, two = lines.query(points, predicate="dwithin", distance=sizes + AIR / 2)
    price[one, two] = price[two, one] = _CLASH
    one, two = discs.query(points, predicate="dwithin", distance=sizes + float(sizes.max()) + AIR)
    near = shapely.distance(points[one], points[two]) < sizes[one] + sizes[two] + AIR
    price[one[near], two[near]] = _CLASH
    np.fill_diagonal(price, 0.0)
    return price


def _leader(label: Label) -> Geometry:
    return shapely.LineString([label.centre, label.end]) if label.end else shapely.Point(label.centre)
