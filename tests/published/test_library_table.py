"""Library table: H. H. Windsor, Mission Furniture: How to Make It, Part I (Popular Mechanics Co., Chicago 1909), pp. 29-35.

Assumed where the book is silent: how the keys taper (1 in 7, that of the same book's tabouret, p. 22), number and size of
the buttons, where the slats are let into the stretchers (under their tenons), tenons that meet in a leg mitred.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from planbuild.derive.lists.bill import bill
from planbuild.records.features import Mortise

NAME = "library-table"
INCH = 25.4
RAILS = "    thickness: 1/2\n    length: {}\n    bare: [inside, bottom]\n    shoulders: {{top: 1-1/2}}\n"
JOINED = f"    tenon: [side_rail, end_rail]\n{RAILS.format('1-1/2')}    meeting: mitred\n"


def apart(length: str) -> tuple[str, str]:
    """The rails as two joints: neither knows that the other's tenons come its way."""
    alone = RAILS.format(length)
    return JOINED, f"    tenon: side_rail\n{alone}  end_rails:\n    kind: mortise and tenon\n    tenon: end_rail\n{alone}"


def test_the_table_of_the_book_but_for_its_slips(published: Callable[..., Any]) -> None:
    table = published(NAME)
    assert table.errors == []
    assert table.overall == (46, 34, 31.375)
    assert sum(len(part.copies) for part in table.boards) == 22  # 26 with the keys
    assert {id: len(table.piece.part(id).copies) for id in ("leg", "slat", "key")} == {"leg": 4, "slat": 10, "key": 4}
    assert (table.finished("side_rail"), table.finished("end_rail")) == ((0.875, 6, 37), (0.875, 6, 25))
    assert (table.finished("stretcher"), table.finished("slat")) == ((1.125, 3.75, 25), (0.625, 1.5, 17))
    assert (table.between_shoulders("side_rail"), table.between_shoulders("end_rail")) == (34, 22)


def test_the_mortises_of_a_leg(published: Callable[..., Any]) -> None:
    """1/2 x 4-1/2 from 1-1/2 below the top, its near side 1-1/8 from the outside of the leg; 5/8 x 2-3/4 from 5 to 7-3/4."""
    leg = published(NAME).piece.part("leg")
    heights, insets = set(), set()
    for mortise in (each for each in leg.features if isinstance(each, Mortise)):
        across = next(axis for axis in mortise.face.axis.others if axis is not leg.grain)
        up = mortise.void.along(leg.grain)
        heights.add((round(up.low / INCH, 4), round(up.high / INCH, 4)))
        insets.add(round((mortise.void.along(across).low - leg.body.along(across).low) / INCH, 4))
    assert heights == {(24.25, 28.75), (5, 7.75)}
    assert insets == {1.125, 1}


def test_the_four_legs_that_the_book_forgot_to_order(refused: Callable[..., Any]) -> None:
    (fault,) = refused(NAME, ("  - {count: 4, size: 3 x 3 x 30-1/4, parts: [leg]}\n", ""))
    assert fault.code == "bill-part" and '"leg": 4 pieces, 3 x 3 x 30-1/4' in fault.message


def test_square_tenons_of_an_inch_and_a_half_collide_in_the_leg(refused: Callable[..., Any]) -> None:
    """They end 1-1/2 from the outside and the neighbour lies from 1-1/8 to 1-5/8: both claim 1/8 x 1/8 over 4-1/2, their
    mortises, a sixteenth deeper, 3/16 x 3/16."""
    found = refused(NAME, apart("1-1/2"))
    assert {each.code for each in found} == {"joint-collision"}
    assert "(3/16 x 3/16 x 4-1/2)" in found[0].message


def test_an_eighth_shorter_they_pass(published: Callable[..., Any]) -> None:
    """1-3/8 leaves their corners apart; their mortises, a sixteenth deeper, still meet, so 1-5/16 is the most."""
    orders = (("2, size: 7/8 x 6 x 37", "2, size: 7/8 x 6 x 36-5/8"), ("2, size: 7/8 x 6 x 25", "2, size: 7/8 x 6 x 24-5/8"))
    assert published(NAME, apart("1-5/16"), *orders).errors == []


def test_a_stretcher_as_thick_as_figure_two_letters_it(refused: Callable[..., Any]) -> None:
    found = refused(NAME, ("rough: 6/4, thickness: 1-1/8", "rough: 8/4, thickness: 1-1/2"))
    assert any(each.code == "bill-size" and '"stretcher"; it comes to 1-1/2' in each.message for each in found)


def test_a_shelf_of_36_between_its_shoulders_is_an_eighth_short_at_each_end(refused: Callable[..., Any]) -> None:
    lettered = "    length: 36\n    centred: [left-right, front-back]\n"
    found = refused(NAME, ("    between: stretcher\n    centred: front-back\n", lettered))
    assert any(each.code == "joint-no-mate" and "1/8 away" in each.message for each in found)


def test_a_shelf_as_wide_as_the_gap_between_the_legs_touches_them(refused: Callable[..., Any]) -> None:
    shoulders = ("shoulders: {front: 3-7/8, back: 3-7/8}", "shoulders: {front: 4, back: 4}")
    found = refused(NAME, ("    width: 21-3/4\n", "    width: 22\n"), shoulders, ("7/8 x 21-3/4 x 42", "7/8 x 22 x 42"))
    assert [each.code for each in found] == ["joint-missing"]
    assert '"leg" touches "shelf" (4 places)' in found[0].message


def test_the_bill_comes_to_what_the_book_s_lines_come_to(published: Callable[..., Any]) -> None:
    """25.001 and 27.138 without legs; theirs are 7.562; the shelf is 1/4 narrower; keys are cut from scrap and counted apart."""
    lines = [line for line in bill(published(NAME).piece) if line.part not in ("key", "button")]
    narrower, keys = 0.25 * 42 / 144, 4 * 0.75 * 1.25 * 2.875 / 144
    assert sum(line.by_volume for line in lines) == pytest.approx(25.001 + 7.562 - 0.875 * narrower - keys, abs=0.002)
    assert sum(line.counted for line in lines) == pytest.approx(27.138 + 7.562 - narrower - 4 * 1.25 * 2.875 / 144, abs=0.002)


def test_a_stretcher_tenon_as_wide_as_it_is_lettered_does_not_close_the_chain(refused: Callable[..., Any]) -> None:
    """2-1/2 with shoulders of 1/2 above and below is 3-1/2; the stretcher is 3-3/4, and its tenon so 2-3/4."""
    chain = "    tenon: stretcher\n    thickness: 5/8\n"
    (fault,) = refused(NAME, (chain, chain + "    width: 2-1/2\n"))
    assert fault.code == "joint-tenon-size" and "3-3/4" in fault.message


def test_a_shelf_that_cannot_move_in_its_mortises_is_told(published: Callable[..., Any]) -> None:
    """The book makes them 1/8 longer than the tenons on each side: a shelf of 22 swells and shrinks."""
    table = published(NAME)
    shelf = [each for each in table.piece.joints if each.id == "keyed_shelf"]
    numbers = {name: value / INCH for name, value in shelf[0].numbers if isinstance(value, float)}
    assert [value for name, value in numbers.items() if "play" in name] == pytest.approx([0.125])


def test_rails_stand_back_from_the_outside_of_the_legs(published: Callable[..., Any]) -> None:
    """3/4, not nearly flush as the text says: 1-1/8 to the mortise less the shoulder of 3/8."""
    piece = published(NAME).piece
    leg, rail = piece.part("leg").body, piece.part("side_rail").body
    assert (rail.y.low - leg.y.low) / INCH == pytest.approx(0.75)


def test_the_slats_begin_four_and_a_quarter_from_the_legs(published: Callable[..., Any]) -> None:
    """Five of 1-1/2, as far apart, in 22: 4-1/4 at each side; the print shows 4."""
    piece = published(NAME).piece
    slat, leg = piece.part("slat"), piece.part("leg").body
    assert min(slat.box(copy, slat.body).y.low for copy in range(10)) / INCH - leg.y.high / INCH == pytest.approx(4.25)


def test_the_lines_of_the_bill_and_the_legs(published: Callable[..., Any]) -> None:
    boards = [(4, (3, 3, 30.25)), (1, (1.125, 34, 46)), (2, (1.125, 3.75, 25)), (1, (0.875, 21.75, 42)), (2, (0.875, 6, 37)),
              (2, (0.875, 6, 25)), (10, (0.625, 1.5, 17))]  # fmt: skip
    keys = (4, (0.75, 1.25, 2.875))
    lines = published(NAME).bill_lines
    assert [each for each in lines if each in boards] == boards
    (made,) = (each for each in lines if each[0] == 4 and each[1][2] == 2.875)
    assert made[1][0] == keys[1][0] and made[1][1] <= keys[1][1], "the book's are wide enough to shape"


def test_it_weighs_what_its_volume_weighs(published: Callable[..., Any]) -> None:
    """White oak of the book's board feet (a twelfth of a cubic foot each), less what is cut away: no weight follows from the
    rule by which thin stock is bought."""
    table = published(NAME)
    feet, _ = table.board_feet
    solids = sum(table.solids.of[part.id].volume * len(part.copies) for part in table.piece.parts) / (INCH * 12) ** 3
    assert 0.95 * feet / 12 < solids < feet / 12
