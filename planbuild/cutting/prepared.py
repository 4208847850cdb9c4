"""A problem in the numbers that the search reckons with: kerf and trim taken up, costs whole, every piece by itself.

A piece at the edge of a sheet needs no kerf there. So a problem with kerf k equals one without, where k is added to
every piece and every stock in both directions.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from planbuild.cutting.model import Problem, Way

Whole = NDArray[np.int64]
ENDLESS = 10**6


@dataclass(frozen=True, eq=False)
class Prepared:
    """`sizes`: stocks (length, width, cost, copies); `kinds`: pieces of one item (length, width, may turn) and `demand`."""

    sizes: Whole
    kinds: Whole
    demand: Whole
    scale: int
    """Whole costs are costs times this."""
    step: int
    """All costs are multiples of this."""

    @property
    def kind_of(self) -> Whole:
        return np.repeat(np.arange(len(self.kinds)), self.demand)

    @property
    def pieces(self) -> Whole:
        return self.kinds[self.kind_of]


def prepared(problem: Problem) -> Prepared:
    """Kerf and trim only where the way of cutting asks for them: a stick has no width."""
    across = 0 if problem.way is Way.STICKS else 1
    grown = problem.kerf
    off = 2 * problem.trim
    scale = cost_scale([stock.cost for stock in problem.stocks])
    sizes = [
        (
            stock.length - off + grown,
            stock.width - off + grown if across else 1,
            round(stock.cost * scale),
            ENDLESS if stock.copies is None else min(stock.copies, ENDLESS),
        )
        for stock in problem.stocks
    ]
    kinds = [
        (item.length + grown, item.width + grown if across else 1, int(item.turn and bool(across) and item.length != item.width))
        for item in problem.items
    ]
    costs = [size[2] for size in sizes]
    return Prepared(
        np.array(sizes, np.int64).reshape(-1, 4),
        np.array(kinds, np.int64).reshape(-1, 3),
        np.array([item.count for item in problem.items], np.int64),
        scale,
        math.gcd(*costs) or 1,
    )


def cost_scale(costs: list[float]) -> int:
    """What makes all costs whole; costs finer than a ten-thousandth are rounded."""
    return min(math.lcm(*(Fraction(cost).limit_denominator(10_000).denominator for cost in costs)), 10_000)


def fits(kind: Whole, size: Whole) -> bool:
    straight = kind[0] <= size[0] and kind[1] <= size[1]
    return bool(straight or (kind[2] and kind[1] <= size[0] and kind[0] <= size[1]))


def homeless(given: Prepared) -> tuple[int, ...]:
    """Items that fit no stock of which there is any."""
    return tuple(
        k
        for k, kind in enumerate(given.kinds)
        if given.demand[k] and not any(size[3] > 0 and fits(kind, size) for size in given.sizes)
    )
