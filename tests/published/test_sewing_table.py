"""Sewing table: H. H. Windsor, Mission Furniture: How to Make It, Part Three (Popular Mechanics Co., Chicago 1912), pp. 84-88.

Assumed where the book is silent: white oak; rails flush with the outside of the posts (in their middle the tenons of side and
front rails would meet); a shoulder above the tenon of the highest front rail; room for panels and drawers; slides lying flat,
doweled to the front rails (its nails into the legs are not drawn, and at the front there is no leg to nail into); three
screws in the front rail under the top, buttons at the back (screws from below would come where the panels stand); sizes of
screws, knobs and small hinges; drawers glued at the corners as well as nailed.  The leaves hang; their hinges are shown as
things screwed on, since a butt hinge is let in only between faces that look at each other.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from planbuild.core.geometry import Axis
from planbuild.derive.lists.bill import bill

NAME = "sewing-table"
INCH = 25.4
GAPS = 1 / 32, 1 / 16
FRONT_RAILS = ("low_front_rail", "middle_front_rail", "high_front_rail")
RAILS = (*FRONT_RAILS, "low_side_rail", "high_side_rail", "low_back_rail", "high_back_rail")


def test_sizes_and_counts_are_those_of_the_book(published: Callable[..., Any]) -> None:
    table = published(NAME)
    assert table.errors == []
    assert table.overall == (19.75, 18, 27.875)
    assert sum(len(part.copies) for part in table.boards) == 35  # 37 with the buttons of the top
    assert {table.finished(each) for each in RAILS} == {(0.875, 2, 14.5)}
    assert {table.between_shoulders(each) for each in RAILS} == {13.5}
    assert {table.finished(each) for each in ("front_post", "rear_post")} == {(1.25, 1.25, 27)}
    assert {table.finished(each) for each in ("side_panel", "back_panel")} == {(0.375, 9.375, 14)}
    assert (table.finished("table_top"), table.finished("leaf")) == ((0.875, 18, 18), (0.875, 10, 18))


def test_eighteen_joints_of_rails_and_posts(published: Callable[..., Any]) -> None:
    piece = published(NAME).piece
    tenoned = [each for each in piece.joints if each.kind == "mortise and tenon"]
    assert sum(len(each.contacts) for each in tenoned) == 18
    assert {part for each in tenoned for part in (contact.a[0] for contact in each.contacts)} == set(RAILS)


def test_the_chain_of_the_front(published: Callable[..., Any]) -> None:
    """7/8 + 5 + 7/8 + 5 + 7/8 = 12-5/8 down from the top, so that the lowest rail is 14-3/8 from the floor."""
    piece = published(NAME).piece
    spans = [piece.part(each).body.z for each in FRONT_RAILS]
    places = [round(place / INCH, 4) for span in spans for place in (span.low, span.high)]
    assert [b - a for a, b in zip(places, places[1:], strict=False)] == [0.875, 5, 0.875, 5, 0.875]
    assert (places[0], places[-1] - places[0], places[-1]) == (14.375, 12.625, 27)


def test_the_drawers(published: Callable[..., Any]) -> None:
    """13-1/4 deep, 13-1/2 wide and 5 high less the room that the book does not leave; 12-3/4 between the sides less the same."""
    beside, above = GAPS
    table = published(NAME)
    front, side = (table.piece.part(f"drawer.drawer_{each}") for each in ("front", "side"))
    left, right = (side.box(copy, side.body) for copy in (0, 1))
    assert (right.x.high - left.x.low) / INCH == pytest.approx(13.5 - 2 * beside)
    assert (right.x.low - left.x.high) / INCH == pytest.approx(12.75 - 2 * beside)
    assert (side.body.y.high - front.body.y.low) / INCH == pytest.approx(13.25)
    assert table.finished("drawer.drawer_side") == (0.375, 5 - above, 13)
    assert table.finished("drawer.drawer_front") == (0.75, 5 - above, 13.5 - 2 * beside)
    assert table.finished("drawer.drawer_bottom") == (0.375, 12.75, 13 - 2 * beside)


def test_leaves_down_and_up(published: Callable[..., Any]) -> None:
    """19-3/4 and 38 wide.  A design has one state, so the second is reckoned: each leaf folds up about its upper edge."""
    piece = published(NAME).piece
    leaf, top = piece.part("leaf"), piece.part("table_top")
    assert leaf.body.z.high == pytest.approx(top.body.z.low) and leaf.body.x.high == pytest.approx(top.body.x.low)
    assert (top.body.x.size + 2 * leaf.body.x.size) / INCH == pytest.approx(19.75)
    assert (top.body.x.size + 2 * leaf.body.z.size) / INCH == pytest.approx(38)


def test_four_hinges_for_the_leaves_two_for_the_brackets(published: Callable[..., Any]) -> None:
    """ "Two 2 in hinges" for the leaves are two for each, as drawn.  A bracket is longer than high; its pin stands upright all
    the same, since its knuckle looks to the front."""
    piece = published(NAME).piece
    placed = {each.id: each for each in piece.hardware}
    assert {id: each.count for id, each in placed.items()} == {"leaf_hinges": 4, "bracket_hinge": 2, "pull": 2}
    *_, barrel = placed["bracket_hinge"].bought[0].lumps
    assert barrel.round is Axis.BOTTOM_TOP


def test_the_bill_comes_to_what_the_book_s_lines_come_to(published: Callable[..., Any]) -> None:
    """11.240 and 17.148, but for drawers that are narrower, lower and 1/4 higher at the back."""
    lines = [line for line in bill(published(NAME).piece) if line.part != "button"]
    by_volume, counted = sum(line.by_volume for line in lines), sum(line.counted for line in lines)
    beside, above = GAPS
    fronts = 2 * (5 * 13.5 - (5 - above) * (13.5 - 2 * beside))
    sides = 4 * above * 13
    backs = 2 * (4.125 * 13 - (4.375 - above) * (13 - 2 * beside))
    bottoms = 2 * 12.75 * 2 * beside
    thin = sides + backs + bottoms
    assert by_volume == pytest.approx(11.240 - (0.75 * fronts + 0.375 * thin) / 144, abs=0.002)
    assert counted == pytest.approx(17.148 - (fronts + thin) / 144, abs=0.002)


def only(found: Any, code: str) -> Any:
    assert {each.code for each in found} == {code}, [each.message for each in found]
    return found


@pytest.mark.parametrize(("offset", "short"), [("1/2", "1/4"), ("3/4", "1/2")])
def test_the_panels_are_too_low_for_the_offsets_of_the_drawing(refused: Callable[..., Any], offset: str, short: str) -> None:
    """It letters 1/2 between the undersides of front and sides, and writes 9-3/8 across the opening, which would be 3/4; a
    panel of 9-3/8 in grooves of 1/4 has 1/4."""
    found = only(refused(NAME, ("drop: {value: 1/4,", f"drop: {{value: {offset},")), "bill-size")
    assert len(found) == 2 and all(each.message.endswith(f": {short} too narrow.") for each in found)


def test_a_bottom_let_into_the_sides_by_a_quarter(refused: Callable[..., Any]) -> None:
    """As the text has it; by the bill an eighth goes into each side.  A groove of 1/4 would be two thirds of a side."""
    found = refused(NAME, ("depth: 5/32, play: 1/32", "depth: 9/32, play: 1/32"))
    assert "joint-groove-deep" in {each.code for each in found}
    assert any('"drawer.drawer_side", 3/8 thick' in each.message for each in found)


def test_the_backs_of_the_drawers_are_a_quarter_low(refused: Callable[..., Any]) -> None:
    """4-1/8 in the bill; standing on the bottom, level with the sides, they are 4-3/8 (less what the sides are lower here)."""
    (fault,) = only(refused(NAME, ("3/8 x 4-5/16 x 12-15/16", "3/8 x 4-1/16 x 12-15/16")), "bill-size")
    assert "1/4 too narrow" in fault.message


def test_drawers_as_large_as_their_openings_touch_all_round(refused: Callable[..., Any]) -> None:
    tight = (("side_gap: {value: 1/32,", "side_gap: {value: 0,"), ("top_gap: {value: 1/16,", "top_gap: {value: 0,"))
    told = [each.message for each in refused(NAME, *tight) if each.code == "joint-missing"]
    for front, side in (('"front_post" touches', "(4 places)"), ('"high_front_rail" touches', "(2 places)")):
        assert any(front in each and "drawer_front" in each for each in told)
        assert any(front in each and "drawer_side" in each and side in each for each in told)


def test_half_inch_tenons_pass_each_other_in_flush_rails_only(refused: Callable[..., Any]) -> None:
    """The side rail in the middle of its posts: its mortise runs into that of the front rail."""
    flush = "    left: front_post.left\n    width: 2\n    bottom: low_rail - drop above bottom\n"
    (fault,) = only(
        refused(NAME, (flush, flush.replace("left: front_post.left", "centred: {left-right: front_post}"))), "joint-collision"
    )
    assert '"low_front_rail" and "low_side_rail"' in fault.message


def test_a_tenon_as_high_as_the_highest_rail_opens_the_post(refused: Callable[..., Any]) -> None:
    """All three front tenons are 7/8 high in the book: the uppermost mortise would be a slot in the top of the post."""
    shouldered = "    shoulders: {front: 1/4, back: 1, top: 1/4}\n    bare: bottom\n"
    found = refused(NAME, (shouldered, "    shoulders: {front: 1/4, back: 1}\n    bare: [top, bottom]\n"))
    assert any(each.code == "joint-wall" and 'opens at the top of "front_post"' in each.message for each in found)


def test_an_opening_with_a_fact_too_many_is_told(refused: Callable[..., Any]) -> None:
    """Its drawers cannot be placed then, and what is said of them as a whole must wait."""
    (fault,) = (
        each for each in refused(NAME, ("    height: 5\n", "    height: 5\n    top: 1\n")) if each.code == "place-too-many"
    )
    assert '"drawer_space" has three facts' in fault.message


def test_the_eleven_lines_of_the_bill(published: Callable[..., Any]) -> None:
    """Those of the book, but for drawers that are less wide and high by the room that they need."""
    beside, above = GAPS
    lines = [each for each in published(NAME).bill_lines if each[1][2] > 3]
    of_the_book = [
        (4, (1.25, 1.25, 27)), (1, (0.875, 18, 18)), (2, (0.875, 10, 18)), (2, (0.875, 3, 4)), (9, (0.875, 2, 14.5)),
        (4, (0.875, 2, 13)), (2, (0.75, 5 - above, 13.5 - 2 * beside)), (2, (0.375, 12.75, 13 - 2 * beside)),
        (3, (0.375, 9.375, 14)), (4, (0.375, 5 - above, 13)), (2, (0.375, 4.375 - above, 13 - 2 * beside)),
    ]  # fmt: skip
    assert lines == of_the_book
    assert sum(count for count, _ in lines) == 35
