"""Gaps by the day, against the handbook's grid of moisture and its equation of movement, by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from moving_wood import door, framed

from planbuild.core.units import Ruler, Unit
from planbuild.derive.lists.seasons import seasons
from planbuild.records.edition import Edition


def test_a_panel(letter: Edition) -> None:
    """Wood Handbook GTR-190, Table 4-2, at 70 F: 6.2, 7.7, 9.2 and 11.0 % in air of 30, 40, 50 and 60 %."""
    (row,) = seasons(framed(300, 10, 3), letter)
    gaps = {each.humidity: each for each in row.gaps}
    assert {air: gaps[air].moisture for air in (30, 40, 50, 60)} == pytest.approx({30: 6.2, 40: 7.7, 50: 9.2, 60: 11.0}, abs=0.1)
    for each in row.gaps:
        assert each.gap == pytest.approx(3 - 300 * 0.00274 * (each.moisture - 8) / 2, abs=0.03)  # moisture to a tenth
        assert each.text == Ruler(Unit.INCH, Fraction(1, 64)).printed(each.gap)
    assert [each.gap for each in row.gaps] == sorted((each.gap for each in row.gaps), reverse=True)
    assert row.part == "panel" and "each edge" in row.where


def test_a_door_swells_by_both_stiles(letter: Edition) -> None:
    (row,) = seasons(door(2.0), letter)
    assert (row.part, row.name, row.where) == ("", "door", "gap to the right_side")
    for each in row.gaps:
        assert each.gap == pytest.approx(max(2.0 - 120 * 0.00274 * (each.moisture - 8), 0), abs=0.03)


def test_all_that_is_printed_lies_in_the_climate(letter: Edition) -> None:
    whole = replace(framed(300, 10, 3), moisture=(5.0, 18.0, 9.0))
    (row,) = seasons(whole, letter)
    assert len(row.gaps) <= 8 and all(5 - 0.3 <= each.moisture <= 18 + 0.3 and each.gap >= 0 for each in row.gaps)


def test_sheets_have_no_row(letter: Edition) -> None:
    whole = framed(300, 10, 3)
    assert seasons(replace(whole, stock=(replace(whole.stock[0], sheet=True),)), letter) == ()  # type: ignore[arg-type]
