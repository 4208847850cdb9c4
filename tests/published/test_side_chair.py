"""Side chair: H. H. Windsor, Mission Furniture: How to Make It, Part Two (Popular Mechanics Co., Chicago 1910), pp. 62-66.

Assumed where the book is silent: rails in the middle of the posts, the slant of the back (drawn about 5/8 in its width) and
its tenons (three at each end, as drawn, 3/8 thick and as long as the others), even gaps between the slats, which are glued to
the cleats, and the cleats screwed to the rails.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from planbuild.records.features import Mortise, Tenon
from planbuild.records.slanted import AngledMortise

NAME = "side-chair"
INCH = 25.4
RAILS = {f"{side}_{level}_rail" for side in ("front", "back", "side") for level in ("seat", "lower")}
AS_THE_TEXT_HAS_IT = ("tenon: {value: 3/4,", "tenon: {value: 1,")


def apart(level: str) -> tuple[str, str]:
    """The rails of one level as two joints: neither knows that the other's tenons come its way."""
    whole = f"  {level}_rails: {{like: rail_joint, tenon: [front_{level}_rail, back_{level}_rail, side_{level}_rail]}}\n"
    cross = f"  {level}_rails: {{like: rail_joint, tenon: [front_{level}_rail, back_{level}_rail]}}\n"
    return whole, cross + f"  {level}_sides: {{like: rail_joint, tenon: side_{level}_rail}}\n"


def test_the_chair_of_the_drawing_and_the_bill(published: Callable[..., Any]) -> None:
    chair = published(NAME)
    assert chair.errors == []
    assert chair.piece.warnings == (), "no load is asked of a seat rail, which stands on edge"
    assert chair.overall == (18.5, 18.5, 37)
    assert chair.pieces == 19
    assert (chair.finished("front_post"), chair.finished("rear_post")) == ((1.5, 1.5, 18.5), (1.5, 1.5, 37))
    assert {chair.between_shoulders(each) for each in RAILS | {"back_panel"}} == {15.5}
    assert {chair.finished(each) for each in RAILS} == {(0.875, 2, 17), (0.75, 2, 17)}
    assert (chair.finished("cleat"), chair.finished("slat")) == ((0.375, 1, 15.5), (0.375, 2, 16))


def test_the_bill_comes_to_what_the_book_s_lines_come_to(published: Callable[..., Any]) -> None:
    by_volume, counted = published(NAME).board_feet
    assert by_volume == pytest.approx(4.661, abs=0.001)
    assert counted == pytest.approx(6.034, abs=0.002)


def test_sixteen_tenons_of_rails_and_the_chain_on_the_post(published: Callable[..., Any]) -> None:
    """3/8 thick and 1-1/4 wide; on the post 9-1/4 + 2 + 4 + 2 = 17-1/4."""
    chair = published(NAME)
    tenons = [
        (sorted(round(feature.block.size(axis) / INCH, 4) for axis in feature.end.axis.others), len(part.copies))
        for part in chair.boards if part.id in RAILS for feature in part.features if isinstance(feature, Tenon)
    ]  # fmt: skip
    assert all(size == [0.375, 1.25] for size, _ in tenons) and sum(count for _, count in tenons) == 16
    low, seat = (chair.piece.part(f"front_{level}_rail").body.z for level in ("lower", "seat"))
    assert [round(each / INCH, 4) for each in (low.low, low.high, seat.low, seat.high)] == [9.25, 11.25, 15.25, 17.25]


def test_the_slats_lie_five_eighths_below_the_rails(published: Callable[..., Any]) -> None:
    chair = published(NAME)
    slat, rail = (chair.piece.part(each).body.z.high / INCH for each in ("slat", "front_seat_rail"))
    assert (round(slat, 4), round(rail - slat, 4)) == (16.625, 0.625)


def test_the_back_slants_inside_its_posts(published: Callable[..., Any]) -> None:
    """Its mortises, three in each post, are turned with it; its top edge is 34-1/2 from the floor to the nearest 1/16."""
    chair = published(NAME)
    back, post = chair.piece.part("back_panel"), chair.piece.part("rear_post")
    stands = back.box(0, back.body)
    assert post.body.y.low < stands.y.low and stands.y.high < post.body.y.high
    assert stands.z.high / INCH == pytest.approx(34.5, abs=1 / 16)
    turned = [each for each in post.features if isinstance(each, AngledMortise)]
    assert len(turned) == 3 and {round(each.off(back.width_axis), 4) for each in turned} == {3.5}
    assert len([each for each in post.features if isinstance(each, Mortise)]) == 4


def test_square_tenons_on_one_level_collide_in_four_posts_on_two_levels(refused: Callable[..., Any]) -> None:
    """Four pairs of rails, each in a left and in a right post: eight places.  The inch of the text fills the same
    3/8 x 3/8 over 1-1/4; with 3/4 the tenons share 3/16 x 3/16 and their mortises, a sixteenth deeper, 1/4 x 1/4."""
    for changes, size in (((AS_THE_TEXT_HAS_IT,), "3/8 x 3/8"), ((), "1/4 x 1/4")):
        found = [each for each in refused(NAME, *changes, apart("seat"), apart("lower")) if each.code == "joint-collision"]
        assert len(found) == 4 and all(f"({size} x 1-1/4)" in each.message for each in found)
        where = [(post, level) for post in ("front_post", "rear_post") for level in ("seat", "lower")]
        assert all(any(post in each.message and f"_{level}_rail" in each.message for each in found) for post, level in where)


def test_nine_sixteenths_is_as_far_as_square_ends_pass(refused: Callable[..., Any]) -> None:
    """A tenon of 9/16 ends where its neighbour begins; only its mortise, a sixteenth deeper, still opens there.  At 1/2
    nothing meets any more, and what is left to tell is that the bill then orders too much."""
    nine = ("tenon: {value: 3/4,", "tenon: {value: 9/16,")
    half = ("tenon: {value: 3/4,", "tenon: {value: 1/2,")
    found = [each for each in refused(NAME, nine, apart("seat"), apart("lower")) if each.code == "joint-collision"]
    assert len(found) == 4 and all("(1/16 x 1/16 x 1-1/4)" in each.message for each in found)
    assert {each.code for each in refused(NAME, half, apart("seat"), apart("lower"))} == {"bill-size"}


def test_rails_with_tenons_of_an_inch_are_half_an_inch_short_in_the_bill(refused: Callable[..., Any]) -> None:
    """17-1/2 with the half inch for squaring leaves tenons of 3/4; the text asks for 1, and so for 18: nine pieces."""
    found = [each for each in refused(NAME, AS_THE_TEXT_HAS_IT, apart("seat"), apart("lower")) if each.code == "bill-size"]
    assert len(found) == len(RAILS | {"back_panel"})
    assert all("x 18: 1/2 too short" in each.message for each in found)


def test_the_seven_lines_of_the_bill_all_rough_by_half_an_inch_in_length(published: Callable[..., Any]) -> None:
    chair = published(NAME)
    assert chair.bill_lines == [
        (2, (1.5, 1.5, 37.5)), (2, (1.5, 1.5, 19)), (4, (0.875, 2, 17.5)), (1, (0.75, 9.75, 17.5)), (4, (0.75, 2, 17.5)),
        (4, (0.375, 2, 16.5)), (2, (0.375, 1, 16)),
    ]  # fmt: skip
    for part in chair.piece.parts:
        rough, cut = part.ordered, chair.finished(part.id)
        assert [round(a / INCH - b, 5) for a, b in zip(rough, cut, strict=True)] == [0, 0, 0.5], part.id


def test_slats_of_sixteen_have_an_eighth_of_play(published: Callable[..., Any]) -> None:
    """15-1/2 between the posts and 5/16 on either side, with the rails in the middle of the posts: 16-1/8."""
    piece = published(NAME).piece
    front, back = piece.part("front_seat_rail").body.y, piece.part("back_seat_rail").body.y
    assert (back.low - front.high) / INCH == pytest.approx(16.125)
    assert piece.part("slat").body.y.size / INCH == pytest.approx(16)
