"""The search for sheets: rounds of ruin and recreate in two chains, then set covering over all that they have seen."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from planbuild.cutting.bounds import area_bound, rounded_up, sheet_bound
from planbuild.cutting.columns import Columns, Filling, generated
from planbuild.cutting.cover import cheapest_cover
from planbuild.cutting.model import Effort
from planbuild.cutting.prepared import Prepared, Whole

MOST_FILLINGS, MOST_SPOTS, TABLE = 6000, 200_000, 1 << 14
FIRST_ROUND = 400_000
MANY = 10**17
MOST_OUT, BLINK = 12, 50
HEAT, SPAN = (0.05, 0.02), (100_000, 15_000)
"""How much worse a step may be at first, and steps till it may not: for chains by turns."""
COLUMN_ROUNDS, COVER_NODES = 250, 20


@dataclass(eq=False)
class Found:
    """The best so far (none: `cost` is MANY) and the bound, in whole costs."""

    cost: int
    bound: int
    fillings: list[Filling] = field(default_factory=list)

    @property
    def open(self) -> bool:
        return self.cost > self.bound

    def offer(self, given: Prepared, fillings: list[Filling]) -> None:
        """Keep a layout if it is cheaper; an empty one is none."""
        if not fillings:
            return
        cost = sum(int(given.sizes[filling.stock, 2]) for filling in fillings)
        if cost < self.cost:
            self.cost, self.fillings = cost, fillings


class Chain:
    """One search with dice of its own; it keeps its sheets from round to round."""

    def __init__(self, given: Prepared, number: int) -> None:
        from planbuild.cutting import kernel

        self.kernel = kernel
        pieces, count = given.pieces, len(given.pieces)
        self.kind_of = given.kind_of
        area = (given.sizes[:, 0] * given.sizes[:, 1]).astype(np.float64)
        marks = np.random.Generator(np.random.PCG64(7)).integers(1, 2**62, len(given.kinds), np.int64)
        self.given = kernel.Given(
            given.sizes,
            pieces,
            rankings(pieces),
            marks[self.kind_of],
            int(pieces[:, :2].min()),
            float(area.max()),
            float((given.sizes[:, 2] / area).min()),
        )
        self.needed = float((pieces[:, 0] * pieces[:, 1]).sum())
        most = count + 1
        self.states = [blank_state(kernel, count, len(given.sizes), most) for _ in range(3)]
        self.states[0].sums[kernel.LEFT] = count
        rows = len(self.states[0].tree)
        self.pool = kernel.Pool(
            np.zeros(TABLE, np.int64),
            np.zeros(MOST_FILLINGS, np.int64),
            np.zeros(MOST_FILLINGS + 1, np.int64),
            np.zeros((MOST_SPOTS, 4), np.int32),
            np.zeros(2, np.int64),
            np.zeros((rows, 2), np.int64),
        )
        self.pace = HEAT[number % 2], SPAN[number % 2]
        self.dice = np.array([number * 7919 + 13], np.int64)
        self.numbers = np.array([MANY, 0, given.step, 0, 0, 0], np.int64)

    def run(self, budget: int, bound: int, work: int) -> None:
        self.numbers[0], self.numbers[1], self.numbers[3] = min(budget, self.numbers[0]), bound, work
        now, trial, best = self.states
        self.kernel.search(
            now, trial, best, self.given, self.pool, self.dice, self.numbers, MOST_OUT, BLINK, *self.pace, self.needed
        )

    def best(self) -> list[Filling]:
        """Its best layout; nothing as long as it has found none."""
        if self.numbers[5] == 0:
            return []
        state, kernel = self.states[2], self.kernel
        found = []
        spots = np.zeros((len(state.where), 4), np.int32)
        pool = self.pool._replace(spots=spots)
        for k in range(int(state.sums[kernel.SHEETS])):
            high = kernel.write_down(state, pool, state.roots[k], 0)
            found.append(self.filling(int(state.stock_of[k]), spots[:high]))
        return found

    def seen(self) -> list[Filling]:
        starts = self.pool.starts
        return [
            self.filling(int(self.pool.stocks[k]), self.pool.spots[starts[k] : starts[k + 1]])
            for k in range(int(self.pool.counts[0]))
        ]

    def filling(self, stock: int, spots: NDArray[np.int32]) -> Filling:
        return Filling(stock, tuple((int(self.kind_of[item]), int(x), int(y), int(t)) for item, x, y, t in spots))


def rankings(pieces: Whole) -> Whole:
    """Places of the pieces by area, longer side, width, length, shorter side and both sides: large ones first."""
    w, h = pieces[:, 0], pieces[:, 1]
    keys = (-w * h, -np.maximum(w, h), -h, -w, -np.minimum(w, h), -(w + h))
    return np.array([np.argsort(np.argsort(key, kind="stable"), kind="stable") for key in keys], np.int64)


def blank_state(kernel, count: int, stocks: int, most: int):  # type: ignore[no-untyped-def]
    rows = 6 * count + 4 * most + 10
    return kernel.State(
        np.zeros((rows, 8), np.int64),
        np.array([0, -1, 0, 0, 0], np.int64),
        np.full(count, -1, np.int64),
        np.arange(count, dtype=np.int64),
        np.zeros(most, np.int64),
        np.zeros(most, np.int64),
        np.zeros(stocks, np.int64),
        np.zeros(rows, np.int64),
        np.zeros((kernel.AMONG, 4), np.int64),
        np.zeros(kernel.CELLS + 1),
        np.zeros((kernel.AMONG, kernel.CELLS + 1), np.bool_),
    )


def searched(given: Prepared, effort: Effort) -> Found:
    """The best fillings that hold all pieces, and the bound."""
    found = Found(MANY, first_bound(given))
    chains = [Chain(given, number) for number in range(1, effort.chains + 1)]
    columns = Columns([], 0.0, False)
    covered = 0
    for number, work in enumerate(rounds(effort.work // max(1, effort.chains))):
        run_side_by_side(given, chains, found, work)
        if number == 0 and found.open:
            columns = generated(given, COLUMN_ROUNDS)
            found.bound = max(found.bound, rounded_up(columns.bound, given.step))
        fillings = columns.fillings + [filling for chain in chains for filling in chain.seen()]
        if number >= 1 and found.open and len(fillings) > covered * 4:
            covered = len(fillings)
            found.offer(given, cheapest_cover(given, fillings, found.cost, COVER_NODES) or [])
        if not found.open:
            break
    return found


def rounds(work: int) -> list[int]:
    """Rounds that double, so that easy problems end at once and hard ones are not held up by covering."""
    sizes, size = [], FIRST_ROUND
    while work > 0:
        sizes.append(min(size, work))
        work -= size
        size *= 2
    return sizes


def run_side_by_side(given: Prepared, chains: list[Chain], found: Found, work: int) -> None:
    budget = found.cost - int(chains[0].numbers[2]) if found.cost < MANY else MANY
    with ThreadPoolExecutor(len(chains)) as pool:
        list(pool.map(lambda chain: chain.run(budget, found.bound, work), chains))
    for chain in chains:
        found.offer(given, chain.best())


def first_bound(given: Prepared) -> int:
    bound = area_bound(given.sizes, given.pieces, given.step)
    if len(given.sizes) == 1:
        wide, high, cost, _ = (int(x) for x in given.sizes[0])
        bound = max(bound, cost * sheet_bound((wide, high), given.pieces))
    return bound
