"""Sheets in the lists: sawn to size, counted by area, weighed by the table."""

from __future__ import annotations

from dataclasses import replace

import pytest
from timber import HERE, board, box, piece

from planbuild.core.geometry import Motion
from planbuild.derive.lists.blanks import blank_of
from planbuild.derive.lists.cut_list import allowance_note, board_title, stock_title, strips_text
from planbuild.derive.lists.piece import sources
from planbuild.derive.lists.to_buy import to_buy
from planbuild.joints.weights import density, part_mass, stock_density
from planbuild.records.edition import Edition
from planbuild.records.piece import GlueUp, Piece
from planbuild.records.stock import Price, Sheet, Stock
from planbuild.shape import shape

INCH = 25.4
SIZE = (96 * INCH, 48 * INCH)
PLY = Stock("ply", HERE, "birch plywood", "", 18.0, 18.0, "", sheet=Sheet("3/4 in", SIZE, True, "", 2, True))
ASH = Stock("ash", HERE, "white ash", "4/4", INCH, 19.0, "flat")


def case(count: int = 1) -> Piece:
    """A side of plywood 1000 x 400, and a rail of ash."""
    sides = board(body=box(0, 1000, 0, 400, 0, 18), id="side", stock="ply")
    sides = replace(sides, rough_length=0.0, rough_width=0.0, copies=sides.copies * count)
    rail = board(body=box(0, 500, 0, 60, 100, 119), id="rail")
    return piece(sides, rail, stock=(PLY, ASH))


def test_a_sheet_is_sawn_to_its_finished_size(letter: Edition) -> None:
    whole = case()
    assert blank_of(whole, whole.part("side"), letter.ruler).each == (1000, 400, 18)
    assert blank_of(whole, whole.part("rail"), letter.ruler).each == (525, 66, INCH)
    assert "Sheet goods are cut to their finished size." in allowance_note(whole, letter)


def test_titles_of_sheets(a4: Edition) -> None:
    assert stock_title(PLY, a4) == "3/4 in birch plywood, 18 thick"
    guess = replace(PLY, sheet=Sheet("3/4 in", SIZE, True, "mdf", 1, False))
    assert board_title(guess) == "3/4 in birch plywood, MDF core, one good face"
    assert stock_title(guess, a4).endswith("18 thick if it is as usual")


@pytest.mark.parametrize(("count", "sheets"), [(1, "one sheet"), (6, "one sheet"), (7, "two sheets")])
def test_sheets_to_buy_by_area_and_waste(a4: Edition, count: int, sheets: str) -> None:
    """48 x 96 in is 2.973 m2; six parts of 0.4 m2 and 12 % are 2.69, seven 3.14."""
    ash, ply = to_buy(case(count), a4)
    assert (ash.title, ply.buy_text) == ("4/4 white ash, flat sawn", sheets)
    assert ply.net_text == f"{0.4 * count:.2f} m²"
    assert ply.net == pytest.approx(0.4 * count / 2.9729, rel=1e-4)
    assert ply.waste_text.startswith("12 % added to sheets")


def test_what_it_costs(letter: Edition) -> None:
    """A rail of 525 x 66 counted an inch thick is 0.37 board feet; a quarter more at 10 is 5 (rounded up)."""
    whole = case()
    priced = replace(whole, stock=(replace(PLY, price=Price(80.0, "sheet")), replace(ASH, price=Price(10.0, "board foot"))))
    assert [line.cost_text for line in to_buy(priced, letter)] == ["about 5", "about 80"]
    assert [line.cost_text for line in to_buy(whole, letter)] == ["", ""]


def test_leaves_share_a_board(letter: Edition) -> None:
    """Two leaves out of one board: half the board measure of two boards."""
    rail = board(body=box(0, 500, 0, 60, 0, 10), id="rail", copies=(Motion(), Motion()))
    whole = replace(ASH, thickness=10.0)
    plain, opened = (piece(rail, stock=(each,)) for each in (whole, replace(whole, leaves=2, leaf=11.9)))
    (line,), (thin,) = to_buy(plain, letter), to_buy(opened, letter)
    assert thin.net == pytest.approx(line.net / 2)
    assert stock_title(opened.stock[0], letter).startswith("4/4 white ash, flat sawn, resawn into two leaves")


def test_how_boards_are_sold_is_told_at_the_yard(a4: Edition) -> None:
    whole = piece(board(), stock=(replace(ASH, lengths=(2400.0, 3000.0), widths=(130.0, 230.0), note="from one log"),))
    (line,) = to_buy(whole, a4)
    assert line.title == "4/4 white ash, flat sawn; sold 2400, 3000 long and 130 to 230 wide; from one log"


def test_a_sheet_weighs_what_the_table_says() -> None:
    """Birch plywood 680 kg/m3 (suppliers' data); a core decides where one is said; solid wood by its moisture."""
    whole = case()
    side = whole.part("side")
    assert part_mass(whole, shape(whole), side) == pytest.approx(1.0 * 0.4 * 0.018 * 680)
    assert stock_density(replace(PLY, sheet=Sheet("3/4 in", SIZE, True, "mdf", 2, True)), 8) == 750
    assert stock_density(replace(PLY, species="white ash plywood"), 8) == 600
    assert stock_density(ASH, 8) == density(0.60, 8)
    with pytest.raises(LookupError):
        stock_density(replace(PLY, species="cardboard"), 8)
    with pytest.raises(LookupError):
        stock_density(replace(ASH, species="unobtainium"), 8)


def test_sources_name_the_sheets() -> None:
    found = sources(case())
    assert any(each.startswith("Weight of birch plywood: suppliers' data sheets") for each in found)
    assert sum(each.startswith("Woods:") for each in found) == 1


@pytest.mark.parametrize(
    ("glue_up", "words"),
    [
        (GlueUp(4, 95.25, "alternate"), "4 strips of 95.5, rings alternate"),
        (GlueUp(2, 100, "same", "bookmatched", 1, 6.0), "2 strips of 100, rings same, bookmatched, splines 6 thick"),
        (GlueUp(1, 60, "alternate", layers=2), "two layers of 10"),
        (GlueUp(3, 20, "alternate", layers=2), "two layers of 10, each of 3 strips of 20, rings alternate"),
    ],
)
def test_what_a_part_is_glued_up_of(a4: Edition, glue_up: GlueUp, words: str) -> None:
    part = board(glue_up=glue_up)
    assert strips_text(part, a4) == words
    assert blank_of(piece(part), part, a4.ruler).count == glue_up.strips * glue_up.layers
