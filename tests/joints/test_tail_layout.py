"""The row of tails as pure numbers: whatever comes out can be cut, and fills the width."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from planbuild.core.geometry import Span1
from planbuild.joints.dovetails.layout import Limits, Row, Unfit, Wish, laid_out

LIMITS = Limits(pin=0.125, neck=0.25, beside=0.0625)
PLAIN = Wish(4.0, 0.0625, 0.25, False, 0.25, 1.25, 1 / 32, LIMITS)
"""Inches: a drawer side, tails 1/2 long at 1:8."""


def pins(row: Row, width: float) -> list[float]:
    return [row[0].low, *(after.low - before.high for before, after in pairwise(row)), width - row[-1].high]


@pytest.mark.parametrize(("width", "count"), [(1.0, 1), (2.5, 2), (4.0, 3), (6.0, 5), (10.0, 8)])
def test_by_pitch(width: float, count: int) -> None:
    """About 1-1/4 from tail to tail."""
    row = laid_out(replace(PLAIN, width=width))
    assert len(row) == count
    assert all(0.8 < after.low - before.low < 1.6 for before, after in pairwise(row))


def test_tails_have_printed_sizes_and_what_is_left_goes_where_nothing_was_said() -> None:
    row = laid_out(replace(PLAIN, width=3.875))
    assert row[0].size == pytest.approx(0.9375) and pins(row, 3.875) == pytest.approx([0.28125, 0.25, 0.25, 0.28125])
    firm = laid_out(replace(PLAIN, width=3.875, firm=True))
    assert pins(firm, 3.875) == pytest.approx([0.25, 0.28125, 0.28125, 0.25])


@given(
    width=st.integers(12, 200), lean=st.integers(0, 4), half=st.integers(4, 16), firm=st.booleans(),
    tails=st.one_of(st.none(), st.integers(1, 12)), low=st.integers(0, 150), band=st.integers(0, 16),
)  # fmt: skip
def test_whatever_comes_out_can_be_cut(
    width: int, lean: int, half: int, firm: bool, tails: int | None, low: int, band: int
) -> None:
    """In sixteenths of an inch (the lean in thirty-seconds)."""
    groove = Span1(low / 16, (low + band) / 16) if band else None
    wish = replace(PLAIN, width=width / 16, lean=lean / 32, half_pin=half / 16, firm=firm, tails=tails, band=groove)
    try:
        row = laid_out(wish)
    except Unfit as unfit:
        assert unfit.what in ("pin", "tail", "hide")
        return
    assert len(row) == wish.count
    assert min(pins(row, wish.width)) >= LIMITS.pin - 0.01
    assert all(tail.size - 2 * wish.lean >= LIMITS.neck - 0.01 for tail in row)
    if groove:
        more = wish.lean + LIMITS.beside - 0.02
        assert any(tail.low < groove.low - more and tail.high > groove.high + more for tail in row)
    else:
        assert row[0].low == pytest.approx(wish.width - row[-1].high)


@given(widths=st.lists(st.integers(4, 30), min_size=1, max_size=6), width=st.integers(16, 160))
def test_widths_that_are_said_are_kept(widths: list[int], width: int) -> None:
    wish = replace(PLAIN, width=width / 16, tails=tuple(each / 16 for each in widths))
    try:
        row = laid_out(wish)
    except Unfit:
        assume(False)
    assert [tail.size for tail in row] == pytest.approx([each / 16 for each in widths])
    assert min(pins(row, wish.width)) >= LIMITS.pin - 0.01
