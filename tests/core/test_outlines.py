"""Outlines in the plane, against areas worked out by hand and by another library (shapely)."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from planbuild.core.outlines import Corner, area, pieces, without_room


def square(size: float, radius: float = 0.0) -> tuple[Corner, ...]:
    return tuple(Corner(at, radius) for at in ((0.0, 0.0), (size, 0.0), (size, size), (0.0, size)))


def test_sharp_corners_give_lines_alone() -> None:
    run = pieces(square(10))
    assert [piece.through for piece in run] == [None] * 4
    assert area(square(10)) == 100


def test_rounded_corners_lose_the_square_less_its_quarter_circle() -> None:
    assert area(square(10, 2)) == pytest.approx(100 - 4 * (4 - math.pi))
    assert area(square(10, 5)) == pytest.approx(math.pi * 25)
    assert len(pieces(square(10, 5))) == 4, "arcs that meet in the middle of a side leave no line"


def test_an_inside_corner_gains_what_an_outside_corner_loses() -> None:
    step = [(0.0, 0.0), (10.0, 0.0), (10.0, 5.0), (5.0, 5.0), (5.0, 10.0), (0.0, 10.0)]
    corners = tuple(Corner(at, 2.0 if at == (5.0, 5.0) else 0.0) for at in step)
    assert area(corners) == pytest.approx(75 + 4 - math.pi)


@pytest.mark.parametrize("turn", [1, -1])
def test_a_corner_cut_to_an_arc_whichever_way_round(turn: int) -> None:
    """What a rounded corner loses: the square on its radius less a quarter circle."""
    points = [Corner((3.0, 0.0), arc=3.0), Corner((0.0, 0.0)), Corner((0.0, 3.0))]
    if turn < 0:
        points = [Corner((0.0, 3.0), arc=3.0), Corner((0.0, 0.0)), Corner((3.0, 0.0))]
    assert area(points) == pytest.approx(9 - math.pi * 9 / 4)
    (arc,) = [piece for piece in pieces(points) if piece.through]
    assert arc.through == pytest.approx((3 - 3 / math.sqrt(2), 3 - 3 / math.sqrt(2)))


def test_a_radius_needs_room_on_both_its_lines() -> None:
    assert without_room(square(10, 5)) is None
    assert without_room(square(10, 5.01)) == 0
    assert without_room((*square(10)[:3], Corner((0.0, 10.0), 10.5))) == 3


@settings(max_examples=30)
@given(st.lists(st.tuples(st.integers(20, 60), st.sampled_from((0.0, 0.5, 2.0, 4.0))), min_size=4, max_size=9), st.booleans())
def test_rounding_agrees_with_another_library(spokes: list[tuple[int, float]], clockwise: bool) -> None:
    """A star-shaped outline; arcs are followed by many short lines."""
    step = 2 * math.pi / len(spokes)
    corners = [Corner((r * math.cos(i * step), r * math.sin(i * step)), radius) for i, (r, radius) in enumerate(spokes)]
    corners = corners[::-1] if clockwise else corners
    if without_room(corners) is not None:
        return
    outline = [point for piece in pieces(corners) for point in _followed(piece.start, piece.through, piece.end)]
    polygon = shapely.Polygon(outline)
    assert polygon.is_valid
    assert area(corners) == pytest.approx(polygon.area, rel=1e-4)


def _followed(start, through, end, lines: int = 64):  # type: ignore[no-untyped-def]
    """Points of an arc from its chord and rise."""
    if through is None:
        return [start]
    (ax, ay), (bx, by), (cx, cy) = start, through, end
    d = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    squares = [x * x + y * y for x, y in (start, through, end)]
    ox = (squares[0] * (by - cy) + squares[1] * (cy - ay) + squares[2] * (ay - by)) / d
    oy = (squares[0] * (cx - bx) + squares[1] * (ax - cx) + squares[2] * (bx - ax)) / d
    radius = math.dist((ox, oy), start)
    first, last = math.atan2(ay - oy, ax - ox), math.atan2(cy - oy, cx - ox)
    sweep = (last - first + math.pi) % (2 * math.pi) - math.pi
    turns = (first + sweep * k / lines for k in range(lines))
    return [(ox + radius * math.cos(turn), oy + radius * math.sin(turn)) for turn in turns]
