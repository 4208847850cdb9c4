"""Plant stand: H. H. Windsor, Mission Furniture: How to Make It, Part I (Popular Mechanics Co., Chicago 1909), pp. 109-112.

Assumed where the book is silent: the taper of the feet (drawn from about 2-1/2 up to 3/4), four top screws, the sizes of
the shelf screws and of the pins that hold the slats, the grain of the top from left to right.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from planbuild.records.features import Hole, Mortise

NAME = "plant-stand"
INCH = 25.4
THE_BOOK_S_SLATS = (
    ("1/4 x 2 x 12-3/4, parts: [outer_slat]", "1/4 x 2 x 12-1/4, parts: [outer_slat]"),
    ("1/4 x 2 x 13-1/4, parts: [centre_slat]", "1/4 x 2 x 12-3/4, parts: [centre_slat]"),
)


def test_sizes_joints_and_board_feet_are_those_of_the_book(published: Callable[..., Any]) -> None:
    stand = published(NAME)
    assert stand.errors == []
    assert stand.overall == (15.5, 15.5, 20.75)
    assert (stand.pieces, len(stand.boards)) == (18, 8)
    for part, size in {
        "stand_top": (0.75, 15.5, 15.5),
        "post": (1.25, 1.25, 20),
        "side_rail": (0.75, 3, 11),
        "cross_rail": (0.75, 3, 11),
        "lower_rail": (0.75, 2, 11),
        "shelf": (0.75, 6, 10),
    }.items():
        assert stand.finished(part) == size
    assert {stand.between_shoulders(each) for each in ("side_rail", "cross_rail", "lower_rail")} == {10}


def test_the_mortises_are_those_of_the_book(published: Callable[..., Any]) -> None:
    """8 upper ones 3/8 x 2 x 1/2, 4 lower 3/8 x 1 x 1/2, 6 for slats 1/4 x 2 x 1/4; each a sixteenth deeper than its tenon."""
    stand = published(NAME)
    found: dict[tuple[float, ...], int] = {}
    for part in stand.boards:
        for mortise in (each for each in part.features if isinstance(each, Mortise)):
            mouth = sorted(mortise.void.size(axis) / INCH for axis in mortise.face.axis.others)
            size = (*(round(each, 4) for each in mouth), round(mortise.void.size(mortise.face.axis) / INCH - 1 / 16, 4))
            found[size] = found.get(size, 0) + len(part.copies)
    assert found == {(0.375, 2, 0.5): 8, (0.375, 1, 0.5): 4, (0.25, 2, 0.25): 6}


def test_the_slats_of_the_book_s_bill_are_half_an_inch_short(refused: Callable[..., Any]) -> None:
    """Its heights ask for 12-3/4 and 13-1/4; bill and drawing say 12-1/4 and 12-3/4."""
    found = refused(NAME, *THE_BOOK_S_SLATS)
    assert [each.code for each in found] == ["bill-size", "bill-size"]
    assert all("1/2 too short" in each.message for each in found)


def test_the_bill_comes_to_what_the_book_s_lines_come_to(published: Callable[..., Any]) -> None:
    """3.607 and 5.210 with the book's slats; six slats half an inch longer add 6 x 1/4 x 2 x 1/2 / 144, and four times that."""
    by_volume, counted = published(NAME).board_feet
    longer = 6 * 0.25 * 2 * 0.5 / 144
    assert by_volume == pytest.approx(3.607 + longer, abs=0.001)
    assert counted == pytest.approx(5.210 + 4 * longer, abs=0.002)


def test_the_seven_lines_of_the_bill(published: Callable[..., Any]) -> None:
    """All of them finished sizes; the slats half an inch longer than in the book."""
    assert published(NAME).bill_lines == [
        (4, (1.25, 1.25, 20)), (1, (0.75, 15.5, 15.5)), (1, (0.75, 6, 10)), (4, (0.75, 3, 11)), (2, (0.75, 2, 11)),
        (2, (0.25, 2, 13.25)), (4, (0.25, 2, 12.75)),
    ]  # fmt: skip


def test_the_screws_of_the_top_leave_a_quarter_above_their_points(published: Callable[..., Any]) -> None:
    """A rail of 3 less 1-1/2 is 1-1/2 under the head; a screw of 2 goes 1/2 into a top of 3/4."""
    piece = published(NAME).piece
    (top,) = (each for each in piece.joints if each.id == "top")
    numbers = {name: value / INCH for name, value in top.numbers if isinstance(value, float)}
    (rail, board) = (piece.part(each).body.z.size / INCH for each in ("side_rail", "stand_top"))
    assert numbers["screw length"] == pytest.approx(2) and (rail, board) == pytest.approx((3, 0.75))
    counterbores = [each.counterbore for each in piece.part("side_rail").features if isinstance(each, Hole) and each.counterbore]
    assert counterbores and {round(deep / INCH, 5) for _, deep in counterbores} == {1.5}
    assert board - (2 - (rail - 1.5)) == pytest.approx(0.25)


def test_where_two_mortises_of_a_post_end_no_wood_is_left(published: Callable[..., Any]) -> None:
    """The book's tenons end where their neighbours begin.  As one joint they are mitred.  As two, with mortises (a sixteenth
    deeper than the tenons) of the book's 1/2, they meet along an edge: that is told, and does not stop the build."""
    joined = "  upper_rails:\n    kind: mortise and tenon\n    tenon: [side_rail, cross_rail]\n"
    rest = "    thickness: 3/8\n    length: {}\n    bare: inside\n    shoulders: {{top: 1/2, bottom: 1/2}}\n"
    apart = joined.replace("[side_rail, cross_rail]", "side_rail") + rest.format("7/16")
    apart += "  cross_rails:\n    kind: mortise and tenon\n    tenon: cross_rail\n" + rest.format("7/16")
    stand = published(NAME, (joined + rest.format("1/2"), apart), ("size: 3/4 x 3 x 11", "size: 3/4 x 3 x 10-7/8"))
    assert stand.errors == []
    (told,) = (each for each in stand.piece.warnings if each.code == "joint-corners-meet")
    assert '"side_rail" and "cross_rail"' in told.message and '"post"' in told.message


def test_the_posts_frame_and_the_heights(published: Callable[..., Any]) -> None:
    """12-1/2 outside, 10 clear; rails 17 to 20 and 5-1/2 to 7-1/2, the shelf 6-1/8 to 6-7/8; slats lie on the lower rail."""
    stand = published(NAME)
    spans = {id: stand.piece.part(id).body for id in ("side_rail", "lower_rail", "shelf")}
    found = {id: (round(body.z.low / INCH, 4), round(body.z.high / INCH, 4)) for id, body in spans.items()}
    assert found == {"side_rail": (17, 20), "lower_rail": (5.5, 7.5), "shelf": (6.125, 6.875)}
    left, right = (stand.piece.part("post").box(copy, stand.piece.part("post").body) for copy in (0, 1))
    assert abs(right.x.high - left.x.low) / INCH == pytest.approx(12.5)
    assert stand.gap("outer_slat", "lower_rail") == 0
