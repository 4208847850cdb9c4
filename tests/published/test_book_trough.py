"""Book trough: H. H. Windsor, Mission Furniture: How to Make It, Part Three (Popular Mechanics Co., Chicago 1912), pp. 28-30.

Assumed where the book is silent: corners rounded to 1 in, red oak (it says oak or chestnut), key mortises that begin 1/16
inside the ends, tips broken by 1/32 instead of the chamfer of 1/4 that is drawn.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest

from planbuild.core.geometry import Face
from planbuild.derive.lists.joints import joint_facts
from planbuild.pipeline import choose_edition
from planbuild.records.features import Mortise, Tenon
from planbuild.records.piece import Joint, Piece
from planbuild.records.slanted import AngledMortise

NAME = "book-trough"
INCH = 25.4
ROOT = math.sqrt(2)


def test_sizes_and_counts_are_those_of_the_book(published: Callable[..., Any]) -> None:
    trough = published(NAME)
    assert trough.errors == []
    assert trough.overall == (35, 10, 30)
    assert (trough.pieces, len(trough.boards)) == (13, 4)
    assert trough.finished("end_board") == (0.875, 10, 30)
    assert {trough.finished(each) for each in ("near_trough", "far_trough")} == {(0.875, 4, 35)}
    assert trough.finished("shelf") == (0.875, 10, 35)
    assert {trough.between_shoulders(each) for each in ("shelf", "near_trough", "far_trough")} == {30}
    assert {trough.finished(each) for each in ("key", "trough_keys_key")} == {(0.625, 0.625, 3)}


def test_the_bill_comes_to_what_the_book_s_lines_come_to(published: Callable[..., Any]) -> None:
    by_volume, counted = published(NAME).board_feet
    assert by_volume == pytest.approx(7.661, abs=0.002)
    assert counted == pytest.approx(8.785, abs=0.002)


def test_four_mortises_in_each_end_two_of_them_turned(published: Callable[..., Any]) -> None:
    """1-3/4 x 7/8, right through; along a line at 45 degrees from 24 up, from 3 to 4-3/4 and from 2-1/2 to 4-1/4."""
    end = published(NAME).piece.part("end_board")
    straight = [each for each in end.features if isinstance(each, Mortise)]
    turned = [each for each in end.features if isinstance(each, AngledMortise)]
    assert len(straight) == len(turned) == 2 and all(each.through for each in (*straight, *turned))
    assert {tuple(round(size / INCH, 4) for size in (each.length, each.breadth)) for each in turned} == {(1.75, 0.875)}
    assert {tuple(round(each.void.size(axis) / INCH, 4) for axis in each.face.axis.others) for each in straight} == {
        (1.75, 0.875)
    }
    for mortise, near, far, toward in zip(turned, (3, 2.5), (4.75, 4.25), (-1, 1), strict=True):
        runs = [(toward * (y / INCH - 5) + (z / INCH - 24)) / ROOT for _, y, z in mortise.rim]
        assert (min(runs), max(runs)) == pytest.approx((near, far), abs=1e-3)


def test_where_the_boards_of_the_trough_end(published: Callable[..., Any]) -> None:
    """Upper outer corners 4.77 and 4.42 from the middle, highest point at 28.15."""
    piece = published(NAME).piece
    near, far = (part.box(0, part.body) for part in (piece.part("near_trough"), piece.part("far_trough")))
    assert 5 - near.y.low / INCH == pytest.approx((5.875 + 0.875) / ROOT, abs=1e-3)
    assert far.y.high / INCH - 5 == pytest.approx((5.375 + 0.875) / ROOT, abs=1e-3)
    assert near.z.high / INCH == pytest.approx(28.15, abs=0.01)


def _joint(piece: Piece, id: str) -> Joint:
    return next(each for each in piece.joints if each.id == id)


def test_the_keys(published: Callable[..., Any]) -> None:
    """5/8 at the head, 3/8 at the tip; 0.536 where it goes into the tenon and 0.464 where it comes out, 1.09 of wood beyond."""
    piece = published(NAME).piece
    for joint, part in (("shelf_keys", "shelf"), ("trough_keys", "near_trough"), ("trough_keys", "far_trough")):
        sizes = {name: value / INCH for name, value in _joint(piece, joint).numbers if isinstance(value, float)}
        assert (sizes["key width at the head"], sizes["key width at the tip"]) == pytest.approx((0.625, 0.375))
        for tenon in (each for each in piece.part(part).features if isinstance(each, Tenon)):
            way = tenon.keyway
            assert way and way.face is Face.TOP
            wide = [(way.start + way.length_at(depth * INCH)) / INCH - 0.875 for depth in (0, 0.875)]
            assert wide == pytest.approx([0.536, 0.464], abs=1e-3)
            assert 1.625 - wide[0] == pytest.approx(1.09, abs=0.002)


def test_the_keys_of_both_boards_are_named_on_the_page_of_joints(published: Callable[..., Any]) -> None:
    piece = published(NAME).piece
    (facts,) = (each for each in joint_facts(piece, choose_edition(piece)) if each.id == "trough_keys")
    keys = facts.where.split(";")[-1]
    assert "near trough" in keys and "far trough" in keys and keys.count("twice") == 2


def test_ends_of_31_are_only_right_as_a_rough_line(refused: Callable[..., Any]) -> None:
    """The drawing has 30, and 30 fits 7 and what stands above it."""
    (fault,) = refused(NAME, ("    rough: {length: 1}\n", ""))
    assert fault.code == "bill-size" and "1 too long" in fault.message


def test_the_v_of_the_drawing_stays_open(published: Callable[..., Any]) -> None:
    """With tenons in the middle of their boards these begin 1-7/8 and 1-3/8 from the point: between them is a gap of 2.33,
    and the trough is lopsided by 1/2.  No rule is broken by that, so nothing tells the designer: what a V is for is not
    said in the design.  Only the pictures show it."""
    solids = published(NAME).solids
    gap = solids.placed["near_trough", 0].distance(solids.placed["far_trough", 0]) / INCH
    assert gap == pytest.approx(math.hypot(1.875, 1.375), abs=1e-3)


def test_a_v_that_closes(published: Callable[..., Any], refused: Callable[..., Any]) -> None:
    """The far board stands on the near one, which goes on under it: tenons from 1/4 to 2 and 1-1/8 to 2-7/8 from the point.
    That they touch must be said."""
    moved = (("near_out: {value: 3-7/8,", "near_out: {value: 1-1/8,"), ("far_out: {value: 3-3/8,", "far_out: {value: 2,"))
    (fault,) = refused(NAME, *moved)
    assert fault.code == "joint-missing" and '"near_trough" touches "far_trough"' in fault.message
    trough = published(NAME, *moved, ("\nloads:", "  v: {kind: loose, part: far_trough, on: near_trough}\n\nloads:"))
    assert trough.errors == []
    near, far = (trough.solids.placed[each, 0] for each in ("near_trough", "far_trough"))
    assert near.distance(far) / INCH == pytest.approx(0, abs=1e-3)


def test_the_four_lines_of_the_bill_only_the_ends_are_rough(published: Callable[..., Any]) -> None:
    lines = published(NAME).bill_lines
    assert lines == [(1, (0.875, 10, 35)), (2, (0.875, 10, 31)), (2, (0.875, 4, 35)), (8, (0.625, 0.625, 3))]


def test_the_foot_and_the_shelf(published: Callable[..., Any]) -> None:
    """31-3/4 over the ends, 30 between them; the underside of the shelf is 7 from the floor."""
    piece = published(NAME).piece
    end, shelf = piece.part("end_board"), piece.part("shelf").body
    left, right = sorted((end.box(copy, end.body) for copy in (0, 1)), key=lambda box: box.x.low)
    assert ((right.x.low - left.x.high) / INCH, (right.x.high - left.x.low) / INCH) == pytest.approx((30, 31.75))
    assert shelf.z.low / INCH == pytest.approx(7)
