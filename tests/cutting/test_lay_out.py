"""Layouts of small problems whose answers are known by hand, in all three ways of cutting."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from planbuild.cutting import Effort, Flaw, Item, Problem, Stock, Verdict, Way, complaints, lay_out

LITTLE = Effort(300_000)


def test_sheets_with_kerf_fill_to_the_edge() -> None:
    """Two by two pieces and one kerf each way: exactly one sheet; a hair more and it is two (or more)."""
    full = Problem((Stock(203, 103),), (Item(100, 50, 4),), kerf=3)
    layout = lay_out(full, LITTLE)
    assert (layout.verdict, layout.value, complaints(full, layout)) == (Verdict.OPTIMAL, 1.0, [])
    assert len(layout.sheets[0].cuts) == 3 and not layout.sheets[0].offcuts
    tight = Problem((Stock(202, 103),), (Item(100, 50, 4),), kerf=3)
    assert lay_out(tight, LITTLE).value == 2.0


def test_trim_is_cut_first_and_taken_off_all_edges() -> None:
    problem = Problem((Stock(120, 70),), (Item(100, 50),), kerf=3, trim=10)
    layout = lay_out(problem, LITTLE)
    assert complaints(problem, layout) == []
    assert [(p.x, p.y) for p in layout.sheets[0].pieces] == [(10, 10)]
    assert [(cut.across, cut.at) for cut in layout.sheets[0].cuts] == [(False, 7), (False, 60), (True, 7), (True, 110)]


def test_grain_keeps_a_piece_from_being_turned() -> None:
    """Six pieces of 40 x 20 fit 60 x 80 only if some are turned."""
    stock = (Stock(60, 80),)
    free = lay_out(Problem(stock, (Item(40, 20, 6, True),)), LITTLE)
    fixed = lay_out(Problem(stock, (Item(40, 20, 6),)), LITTLE)
    assert (free.value, fixed.value) == (1.0, 2.0)


def test_the_cheaper_mix_of_sizes_is_chosen_as_far_as_it_is_on_hand() -> None:
    stocks = (Stock(100, 100, 10.0), Stock(50, 100, 4.0, 1))
    problem = Problem(stocks, (Item(50, 100, 3),))
    layout = lay_out(problem, LITTLE)
    assert (layout.value, complaints(problem, layout)) == (14.0, [])
    assert lay_out(Problem((stocks[0], Stock(50, 100, 4.0)), (Item(50, 100, 3),)), LITTLE).value == 12.0


def test_sticks_of_two_lengths() -> None:
    """Pieces of 70 and 30 share a stick of 103 with a saw of 3."""
    stocks = (Stock(103, cost=5.0), Stock(70, cost=4.0, copies=1))
    problem = Problem(stocks, (Item(70, count=4), Item(30, count=3)), 3, way=Way.STICKS)
    layout = lay_out(problem, LITTLE)
    assert (layout.value, layout.verdict, complaints(problem, layout)) == (19.0, Verdict.OPTIMAL, [])


def test_impossible_and_not_found_are_told_apart() -> None:
    big = lay_out(Problem((Stock(100, 50),), (Item(60, 20), Item(50, 100))), LITTLE)
    assert (big.verdict, big.left_out) == (Verdict.IMPOSSIBLE, (1,))
    few = lay_out(Problem((Stock(100, 50, copies=1),), (Item(60, 50, 2),)), LITTLE)
    assert (few.verdict, few.reason) == (Verdict.IMPOSSIBLE, "all stock together has less area than the pieces")
    ring = (Item(20, 10, 2), Item(10, 20, 2), Item(10, 10))
    pinwheel = lay_out(Problem((Stock(30, 30, copies=1),), ring), LITTLE)
    assert pinwheel.verdict is Verdict.NOT_FOUND and not pinwheel.sheets
    assert lay_out(Problem((Stock(10, 10),), ())).verdict is Verdict.OPTIMAL


def test_the_same_layout_on_every_run() -> None:
    items = tuple(Item(300 + 37 * k, 200 + 23 * k, 2, k % 2 == 0) for k in range(12))
    problem = Problem((Stock(2440, 1220, 60.0), Stock(1220, 1220, 35.0, 2)), items, 3)
    assert lay_out(problem, LITTLE) == lay_out(problem, LITTLE)


def test_boards_on_hand_go_first_and_flaws_are_avoided() -> None:
    """The board on hand gives two legs beside its knot; what is missing is bought."""
    stocks = (Stock(1000, 150, 0.0, 1, (Flaw(450, 0, 60, 150),)), Stock(2000, 150, 20.0))
    problem = Problem(stocks, (Item(440, 70, 4), Item(900, 70, 2)), kerf=4, way=Way.BOARDS)
    layout = lay_out(problem, Effort(8_000_000))
    assert complaints(problem, layout) == []
    assert layout.value == 20.0
    assert [len(sheet.pieces) for sheet in layout.sheets if sheet.stock == 0] == [4]


def test_a_board_is_ripped_only_where_it_is_clear() -> None:
    stocks = (Stock(500, 100, 1.0, 1, (Flaw(200, 45, 30, 10),)),)
    problem = Problem(stocks, (Item(480, 44, 2),), kerf=4, way=Way.BOARDS)
    layout = lay_out(problem, LITTLE)
    assert (layout.verdict, complaints(problem, layout)) == (Verdict.OPTIMAL, [])
    wider = Problem(stocks, (Item(480, 46),), kerf=4, way=Way.BOARDS)
    assert lay_out(wider, LITTLE).verdict is Verdict.IMPOSSIBLE


def test_pieces_of_one_width_are_cut_end_to_end_from_a_strip() -> None:
    problem = Problem((Stock(1000, 104, 1.0),), (Item(1000, 50), Item(498, 50, 2)), kerf=4, way=Way.BOARDS)
    layout = lay_out(problem, LITTLE)
    assert (layout.value, complaints(problem, layout)) == (1.0, [])
    first = layout.sheets[0].cuts[0]
    assert not first.across and first.at == 50


SIZES = some.tuples(some.integers(5, 60), some.integers(5, 40), some.integers(1, 3), some.booleans())


@settings(max_examples=30)
@given(
    some.lists(SIZES, min_size=1, max_size=8),
    some.integers(0, 4),
    some.integers(0, 6),
    some.sampled_from(list(Way)),
    some.lists(some.tuples(some.integers(-5, 90), some.integers(-5, 60), some.integers(1, 30), some.integers(1, 9)), max_size=2),
)
def test_every_layout_passes_the_check(
    sizes: list[tuple[int, int, int, bool]], kerf: int, trim: int, way: Way, flaws: list[tuple[int, int, int, int]]
) -> None:
    trim += kerf if trim else 0
    marks = tuple(Flaw(*flaw) for flaw in flaws) if way is Way.BOARDS else ()
    stocks = (Stock(90, 60, 2.5, 1, marks), Stock(80, 70, 2.0))
    problem = Problem(stocks, tuple(Item(w, h, n, turn and way is Way.SHEETS) for w, h, n, turn in sizes), kerf, trim, way)
    layout = lay_out(problem, Effort(60_000))
    assert complaints(problem, layout) == []


@pytest.mark.parametrize("way", list(Way))
def test_more_work_is_never_worse(way: Way) -> None:
    problem = Problem((Stock(250, 130),), tuple(Item(40 + 7 * k, 25 + 5 * k, 2) for k in range(7)), 3, way=way)
    assert lay_out(problem, Effort(3_000_000)).value <= lay_out(problem, Effort(30_000)).value
