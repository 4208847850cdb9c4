"""Board measure against the published definition, and the wood that the bench wants."""

from __future__ import annotations

import pytest

from planbuild.derive.lists.to_buy import board_feet, to_buy
from planbuild.records.edition import Edition
from planbuild.records.piece import Piece


@pytest.mark.parametrize(
    ("thickness", "width", "length", "published"),
    [
        (1, 6, 96, 4),  # a hardwood dealer's worked example
        (1, 6.5, 8 * 12, 4 + 1 / 3),  # NHLA guide: surface measure before rounding
        (1, 8, 12 * 12, 8),  # NHLA guide
        (1, 10, 13 * 12, 10 + 10 / 12),  # NHLA guide
        (2, 6, 96, 8),  # twice as thick is twice as much
    ],
)
def test_published_examples(thickness: float, width: float, length: float, published: float) -> None:
    assert board_feet(thickness, width, length) == pytest.approx(published)


def test_thin_boards_count_as_an_inch() -> None:
    """NHLA: under 1 in counts as 1 in."""
    assert board_feet(0.5, 6, 96) == board_feet(1, 6, 96)


def test_a_cubic_metre() -> None:
    """1 m3 = 423.776 board feet (1 in = 25.4 mm)."""
    side = 1000 / 25.4
    assert board_feet(side, side, side) == pytest.approx(423.776, abs=0.001)


def test_legs_of_the_bench_by_hand(bench_piece: Piece, letter: Edition) -> None:
    """Four blanks of 2 x 2 x 17-1/2 in: 4 x 70 / 144 = 1.944, and a quarter more is 2.43, sold by the half."""
    (legs,) = (each for each in to_buy(bench_piece, letter) if each.for_parts == ("leg",))
    assert legs.net == pytest.approx(4 * 2 * 2 * 17.5 / 144)
    assert legs.buy == pytest.approx(legs.net * 1.25)
    assert (legs.title, legs.buy_text, legs.unit) == ("8/4 white ash, rift sawn", "2.5 board feet", "board feet")
    assert "25 %" in legs.waste_text


def test_what_is_one_board_at_the_yard_is_one_line(bench_piece: Piece, letter: Edition) -> None:
    """Seat strips and rails come from the same 5/4 flat-sawn ash under two names of the design."""
    (line,) = (each for each in to_buy(bench_piece, letter) if each.quarters == "5/4")
    assert line.for_parts == ("seat", "long_rail", "short_rail", "lower_rail")
    strips, rails = 4 * 45 * 4, 2 * (39.75 + 13) * 3.25 + 2 * 14.5 * 2.25
    assert line.net == pytest.approx((strips + rails) * 1.25 / 144)
    assert line.longest_text == "longest piece 45, widest 4"


def test_wedges_come_from_an_offcut(bench_piece: Piece, letter: Edition) -> None:
    (walnut,) = (each for each in to_buy(bench_piece, letter) if "walnut" in each.title)
    assert walnut.buy_text == "an offcut"


def test_millimetre_editions_buy_cubic_metres(bench_piece: Piece, a4: Edition) -> None:
    legs = to_buy(bench_piece, a4)[0]
    assert legs.unit == "m3"
    assert legs.net == pytest.approx(4 * 0.0508 * 0.0508 * 0.4445)
    assert legs.net_text.endswith("m³")


def test_every_part_is_bought_once(bench_piece: Piece, letter: Edition) -> None:
    bought = [part for line in to_buy(bench_piece, letter) for part in line.for_parts]
    assert sorted(bought) == sorted(each.id for each in bench_piece.parts)
