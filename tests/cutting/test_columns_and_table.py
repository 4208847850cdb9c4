"""The guillotine table and column generation against small truths."""

from __future__ import annotations

import numpy as np

from planbuild.cutting.columns import generated, sums_within, table_of, traced, within
from planbuild.cutting.guillotine import value_table
from planbuild.cutting.model import Item, Problem, Stock
from planbuild.cutting.prepared import prepared


def test_sums_use_each_length_as_often_as_there_is() -> None:
    assert sums_within([(3, 2), (5, 1)], 12) == [0, 3, 5, 6, 8, 11]


def test_the_table_finds_the_fullest_sheet_and_tells_how() -> None:
    """Four of 20 x 10 round a hole cannot be cut; straight rows of three and turned ones fill 30 x 30 but for 100."""
    given = prepared(Problem((Stock(30, 30),), (Item(20, 10, 9, True),)))
    table = table_of(given)
    assert table is not None
    value, choice = value_table(table.xs, table.ys, table.rest_x, table.rest_y, table.shapes, np.full(2, 200.0))
    place = within(table.xs, 30), within(table.ys, 30)
    assert value[place] == 800.0
    assert len(traced(table, choice, *place, 0).spots) == 4


def test_the_bound_of_columns_is_that_of_the_textbook() -> None:
    """Chvatal's rolls: the linear programme gives 452.25, so 453 rolls are needed."""
    items = tuple(Item(length, 1, count) for length, count in ((45, 97), (36, 610), (31, 395), (14, 211)))
    columns = generated(prepared(Problem((Stock(100),), items)), 100)
    assert columns.closed and abs(columns.bound - 452.25) < 1e-6
