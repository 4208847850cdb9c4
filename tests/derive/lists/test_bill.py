"""The bill in board feet, against examples printed in handbooks."""

from __future__ import annotations

import pytest
from timber import board, box, piece

from planbuild.derive.lists.bill import bill
from planbuild.records.facts import BillLine

INCH = 25.4


def line(thick: float, wide: float, long: float) -> BillLine:
    part = board(body=box(0, long * INCH, 0, wide * INCH, 0, thick * INCH))
    (found,) = bill(piece(part))
    return found


@pytest.mark.parametrize(
    ("thick", "wide", "feet_long", "board_feet"),
    [
        # William Noyes, Handwork in Wood (1910), pp. 49, 109-110
        (1, 6, 15, 7.5),
        (1, 11, 14, 12 + 10 / 12),
        (1, 9, 5, 3 + 9 / 12),
        # Edwin W. Foster, Carpentry and Woodwork (1911), p. 503
        (6, 12, 16, 96),
        (9, 6, 14, 63),
        (8, 4, 18, 48),
    ],
)
def test_board_feet_of_what_is_an_inch_thick_or_more(thick: float, wide: float, feet_long: float, board_feet: float) -> None:
    allowance_long, allowance_wide = 25.0 / INCH, 6.0 / INCH  # those of the boards by hand
    found = line(thick, wide - allowance_wide, feet_long * 12 - allowance_long)
    assert found.by_volume == pytest.approx(board_feet)
    assert found.counted == pytest.approx(board_feet)
    assert found.size == pytest.approx((thick * INCH, wide * INCH, feet_long * 12 * INCH))


def test_thin_stock_by_both_published_rules() -> None:
    """Half-inch stock, 10 ft by 1 ft: counted as an inch it is 10 (Noyes p. 48); Foster (p. 503) counts the half, 5."""
    found = line(0.5, 12 - 6.0 / INCH, 120 - 25.0 / INCH)
    assert (found.by_volume, found.counted) == (pytest.approx(5), pytest.approx(10))
