"""Fillings by column generation: the linear programme asks, the guillotine table answers, until nothing is worth adding.

The answer is a set of good fillings, and a lower bound that holds for any number of stages and copies.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planbuild.cutting.prepared import Prepared, Whole

Real = NDArray[np.float64]
MOST_TABLE_WORK = 25_000_000
MOST_POINTS = 6000


@dataclass(frozen=True)
class Filling:
    """One stock with pieces of kinds: (kind, x, y, turned)."""

    stock: int
    spots: tuple[tuple[int, int, int, int], ...]

    def counts(self, kinds: int) -> Whole:
        return np.bincount([spot[0] for spot in self.spots], minlength=kinds).astype(np.int64)


@dataclass(frozen=True, eq=False)
class Table:
    """Cutting places in both directions, what is within two of them, and all ways a kind may lie."""

    xs: Whole
    ys: Whole
    rest_x: NDArray[np.int32]
    rest_y: NDArray[np.int32]
    shapes: Whole
    kind_of: Whole
    turned: Whole


def sums_within(lengths: list[tuple[int, int]], whole: int) -> list[int]:
    """All sums of lengths (each so many times) up to `whole`, from 0."""
    reach, mask = 1, (1 << (whole + 1)) - 1
    for length, count in lengths:
        for _ in range(min(count, whole // length)):
            grown = (reach | reach << length) & mask
            if grown == reach:
                break
            reach = grown
    text = bin(reach)[:1:-1]
    return [at for at, bit in enumerate(text) if bit == "1"]


def table_of(given: Prepared) -> Table | None:
    """None where there are too many cutting places for exact tables."""
    from planbuild.cutting.guillotine import rests

    wide, high = int(given.sizes[:, 0].max()), int(given.sizes[:, 1].max())
    if max(wide, high) > 300_000:
        return None
    along, across, shapes = [], [], []
    for k, (w, h, turn) in enumerate(given.kinds.tolist()):
        for turned in range(1 + turn):
            size = (h, w) if turned else (w, h)
            shapes.append((*size, k, turned))
            along.append((size[0], int(given.demand[k])))
            across.append((size[1], int(given.demand[k])))
    xs, ys = sums_within(sorted(along), wide), sums_within(sorted(across), high)
    if len(xs) * len(ys) * (len(xs) + len(ys)) // 4 > MOST_TABLE_WORK or max(len(xs), len(ys)) > MOST_POINTS:
        return None
    all_shapes = np.array(shapes, np.int64)
    px, py = np.array(xs, np.int64), np.array(ys, np.int64)
    return Table(px, py, rests(px), rests(py), all_shapes[:, :2].copy(), all_shapes[:, 2], all_shapes[:, 3])


def within(points: Whole, size: int) -> int:
    return int(np.searchsorted(points, size, "right")) - 1


def traced(table: Table, choice: NDArray[np.int32], i: int, j: int, stock: int) -> Filling:
    """The filling that the table chose for a rectangle."""
    from planbuild.cutting.guillotine import CUT_X, CUT_Y, NOTHING, SMALLER_X, SMALLER_Y

    spots = []
    todo = [(i, j, 0, 0)]
    while todo:
        i, j, x, y = todo.pop()
        what = int(choice[i, j])
        if what == SMALLER_X:
            todo.append((i - 1, j, x, y))
        elif what == SMALLER_Y:
            todo.append((i, j - 1, x, y))
        elif what >= CUT_Y:
            a = what - CUT_Y
            todo += [(i, a, x, y), (i, int(table.rest_y[j, a]), x, y + int(table.ys[a]))]
        elif what >= CUT_X:
            a = what - CUT_X
            todo += [(a, j, x, y), (int(table.rest_x[i, a]), j, x + int(table.xs[a]), y)]
        elif what != NOTHING:
            spots.append((int(table.kind_of[what]), x, y, int(table.turned[what])))
    return Filling(stock, tuple(spots))


@dataclass(eq=False)
class Columns:
    """Fillings, the lower bound they prove, and whether nothing better could be added."""

    fillings: list[Filling]
    bound: float
    closed: bool


def generated(given: Prepared, most_rounds: int) -> Columns:
    """Columns and bound, within so many rounds."""
    from planbuild.cutting.guillotine import value_table

    table = table_of(given)
    if table is None:
        return Columns([], 0.0, False)
    costs = given.sizes[:, 2].astype(np.float64)
    places = [(within(table.xs, int(w)), within(table.ys, int(h))) for w, h, _, _ in given.sizes]
    fillings = alone(given)
    bound, prices = 0.0, worth_of_pieces(given, fillings, costs)
    for _ in range(most_rounds):
        value, choice = value_table(table.xs, table.ys, table.rest_x, table.rest_y, table.shapes, prices[table.kind_of])
        asked = np.array([value[place] for place in places])
        bound = max(bound, float(prices @ given.demand) / max(1.0, float((asked / costs).max())))
        new = [k for k in range(len(places)) if asked[k] > costs[k] * (1 + 1e-7)]
        if not new:
            return Columns(fillings, bound, True)
        fillings += [traced(table, choice, *places[k], k) for k in new]
        prices = worth_of_pieces(given, fillings, costs)
    return Columns(fillings, bound, False)


def alone(given: Prepared) -> list[Filling]:
    """Every kind by itself on the cheapest stock that it fits."""
    found = []
    for k, kind in enumerate(given.kinds):
        ways = [
            (int(size[2]), stock, turned)
            for stock, size in enumerate(given.sizes)
            for turned in range(1 + int(kind[2]))
            if kind[turned] <= size[0] and kind[1 - turned] <= size[1]
        ]
        _, stock, turned = min(ways)
        found.append(Filling(stock, ((k, 0, 0, turned),)))
    return found


def worth_of_pieces(given: Prepared, fillings: list[Filling], costs: Real) -> Real:
    """Prices of the kinds by the linear programme over the fillings known (no limit of copies)."""
    from scipy.optimize import linprog

    holds = np.array([filling.counts(len(given.kinds)) for filling in fillings], np.float64).T
    charge = np.array([costs[filling.stock] for filling in fillings])
    answer = linprog(charge, A_ub=-holds, b_ub=-given.demand.astype(np.float64), method="highs")
    return np.maximum(0.0, -np.asarray(answer.ineqlin.marginals, np.float64))
