"""The two large pictures, and how parts are moved apart."""

from __future__ import annotations

import pytest

from planbuild.core.geometry import Axis
from planbuild.derive.pictures.cover import cover
from planbuild.derive.pictures.exploded import moved_apart
from planbuild.derive.pictures.explosion import links, offsets, standing
from planbuild.derive.pictures.studio import Studio
from planbuild.records import rooms
from planbuild.records.drawing import Drawing, Pen
from planbuild.records.edition import Edition
from planbuild.records.piece import Piece

from .inks import marks, used_paper

CLEAR = dict.fromkeys(Axis, 50.0)


def test_cover_fills_the_width_and_bears_no_mark(of_piece: dict[str, Drawing]) -> None:
    drawing = of_piece["cover"]
    left, _, right, _ = used_paper(drawing)
    assert right - left > drawing.width - 3 and not drawing.texts


def test_every_part_is_marked_in_the_exploded_view(of_piece: dict[str, Drawing], bench_piece: Piece) -> None:
    assert sorted(marks(of_piece["exploded"])) == sorted(part.id for part in bench_piece.parts)


def test_exploded_view_uses_the_page(of_piece: dict[str, Drawing]) -> None:
    drawing = of_piece["exploded"]
    left, _, right, _ = used_paper(drawing)
    assert right - left > 0.9 * drawing.width


def test_the_exploded_view_keeps_a_room_however_many_parts_there_are(letter: Edition) -> None:
    """Below it the table of the parts runs on to the next page."""
    few, many = (rooms.exploded(letter, count)[1] for count in (8, 100))
    assert few > many == rooms.LEAST_EXPLODED


def test_chains_stand_on_bare_paper_only(of_piece: dict[str, Drawing]) -> None:
    assert any(stroke.pen is Pen.GUIDE for stroke in of_piece["exploded"].strokes)


def test_same_piece_gives_the_same_pictures(studio: Studio, of_piece: dict[str, Drawing]) -> None:
    assert cover(studio, 183.9, 132.4) == cover(studio, 183.9, 132.4)
    assert list(moved_apart(studio)) == [of_piece["exploded"]]


@pytest.fixture(scope="module")
def moved(bench_piece: Piece) -> dict:
    return offsets(standing(bench_piece), links(bench_piece), CLEAR)


def test_parts_leave_along_the_directions_in_which_they_go_home(moved: dict) -> None:
    assert moved[("leg", 0)][0] < moved[("long_rail", 0)][0] < moved[("leg", 1)][0]
    assert moved[("leg", 0)][1] < moved[("short_rail", 0)][1] < moved[("leg", 2)][1]
    assert all(moved[("seat", 0)][2] > moved[key][2] for key in moved if key[0] != "seat")
    assert moved[("wedge", 0)][1] < moved[("leg", 0)][1], "a wedge is driven in from outside"


def test_a_symmetrical_piece_is_moved_apart_symmetrically(moved: dict) -> None:
    for axis in (0, 1):
        assert sum(moved[("leg", i)][axis] for i in range(4)) == pytest.approx(0, abs=1e-6)
    assert moved[("seat", 0)][:2] == pytest.approx((0, 0))


def test_what_was_joined_stands_clear(bench_piece: Piece, moved: dict) -> None:
    for link in links(bench_piece):
        parted = moved[link.moving][link.axis.value] - moved[link.mate][link.axis.value]
        assert -link.sign * parted > link.engaged, link


def test_parts_joined_across_stay_in_line(moved: dict) -> None:
    """A long rail is joined left and right, so it goes forward with its legs."""
    assert moved[("long_rail", 0)][1] == moved[("leg", 0)][1] == moved[("leg", 1)][1]
