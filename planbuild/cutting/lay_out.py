"""From a problem to a layout: what is impossible is said at once, the rest is searched for."""

from __future__ import annotations

import numpy as np

from planbuild.cutting.columns import Filling
from planbuild.cutting.cuts import sawn
from planbuild.cutting.model import USUAL, Effort, Layout, Placed, Problem, Sheet, Verdict, Way
from planbuild.cutting.prepared import Prepared, homeless, prepared


def lay_out(problem: Problem, effort: Effort = USUAL) -> Layout:
    """The cheapest layout that was found within the effort, with what no layout can be cheaper than.

    Sheets: `Problem((Stock(24400, 12200, cost=60.0),), (Item(7200, 3000, count=4), Item(3000, 3000, turn=True)), kerf=32,
    trim=100)`; an item lies with its length along that of the stock unless it may be turned (give grain as `turn=False`,
    and an item whose grain runs across the sheet with its sides exchanged). Sheets of several sizes are several stocks.

    Boards: `way=Way.BOARDS`; length along the grain. Boards on hand are stocks with `copies` (those with flaws one each)
    and a cost of 0, boards sold cost their price: so what is on hand is used first, and only the missing is bought.

    Sticks: `way=Way.STICKS`; widths are not looked at.

    Verdicts: `OPTIMAL` (the value is the bound), `FOUND`, `NOT_FOUND` (the search ended without a layout, which says
    nothing on whether there is one), `IMPOSSIBLE` (with the reason). The same call gives the same layout everywhere.
    """
    if not any(item.count for item in problem.items):
        return Layout(Verdict.OPTIMAL, 0.0, 0.0)
    given = prepared(problem)
    refused = impossible(problem, given)
    if refused:
        return refused
    return answer(problem, given, effort)


def impossible(problem: Problem, given: Prepared) -> Layout | None:
    from planbuild.cutting.boards import homeless_on_boards
    from planbuild.cutting.bounds import holds_enough

    alone = homeless_on_boards(problem) if problem.way is Way.BOARDS else homeless(given)
    if alone:
        return Layout(Verdict.IMPOSSIBLE, 0.0, 0.0, reason="a piece fits no stock", left_out=alone)
    if not holds_enough(given.sizes, given.pieces):
        return Layout(Verdict.IMPOSSIBLE, 0.0, 0.0, reason="all stock together has less area than the pieces")
    return None


def answer(problem: Problem, given: Prepared, effort: Effort) -> Layout:
    from planbuild.cutting.boards import boards_laid_out
    from planbuild.cutting.search import MANY, first_bound, searched

    if problem.way is Way.BOARDS:
        found = boards_laid_out(problem, given, first_bound(given), effort)
    else:
        found = searched(without_idle(given), effort)
    bound = found.bound / given.scale
    if found.cost >= MANY:
        return Layout(Verdict.NOT_FOUND, 0.0, bound)
    sheets = tuple(sheet_of(problem, filling) for filling in sorted(found.fillings, key=order_of))
    verdict = Verdict.FOUND if found.open else Verdict.OPTIMAL
    value = sum(problem.stocks[sheet.stock].cost for sheet in sheets)
    return Layout(verdict, value, min(bound, value), sheets)


def without_idle(given: Prepared) -> Prepared:
    """A piece that cannot be turned within any stock is not tried turned; stock that holds nothing stays, it does no harm."""
    kinds = given.kinds.copy()
    for k, (w, h, _) in enumerate(given.kinds):
        if not np.any((given.sizes[:, 0] >= h) & (given.sizes[:, 1] >= w)):
            kinds[k, 2] = 0
    return Prepared(given.sizes, kinds, given.demand, given.scale, given.step)


def order_of(filling: Filling) -> tuple[int, int, tuple[tuple[int, int, int, int], ...]]:
    return filling.stock, -len(filling.spots), filling.spots


def sheet_of(problem: Problem, filling: Filling) -> Sheet:
    """A sheet in its own measure: from its corner, trim and all."""
    trim = problem.trim
    across = 0 if problem.way is Way.STICKS else trim
    spots = sorted(filling.spots, key=lambda spot: spot[1:3])
    pieces = tuple(Placed(k, x + trim, y + across, bool(turned)) for k, x, y, turned in spots)
    return sawn(problem, problem.stocks[filling.stock], filling.stock, pieces)
