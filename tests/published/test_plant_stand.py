"""Plant stand: H. H. Windsor, Mission Furniture: How to Make It, Part I (Popular Mechanics Co., Chicago 1909), pp. 109-112.

Assumed where the book is silent: the taper of the feet (drawn from about 2-1/2 up to 3/4), four top screws, the sizes of
the shelf screws and of the pins that hold the slats, the grain of the top from left to right.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from planbuild.records.features import Mortise

NAME = "plant-stand"
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
            mouth = sorted(mortise.void.size(axis) / 25.4 for axis in mortise.face.axis.others)
            size = (*(round(each, 4) for each in mouth), round(mortise.void.size(mortise.face.axis) / 25.4 - 1 / 16, 4))
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
