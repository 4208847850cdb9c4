"""One dimension as ink: where its lines, arrows and figure stand."""

from __future__ import annotations

import math

import pytest

from planbuild.derive.dimension_lines import ARROW, ARROW_HALF, GAP, PAST, Along, Tip, draw_dimension, fits_arrows, fits_text
from planbuild.records.drawing import Stroke
from planbuild.records.legibility import segments, text_box


def ends(stroke: Stroke) -> tuple:
    ((a, b),) = segments(stroke.path)
    return a, b


def test_extension_lines_start_off_the_edge_and_pass_the_line() -> None:
    ink = draw_dimension((10, 20), (60, 20), Along.ACROSS, 28, "2")
    left, right, level = (ends(stroke) for stroke in ink.strokes)
    assert left == ((10, 20 + GAP), (10, 28 + PAST)) and right == ((60, 20 + GAP), (60, 28 + PAST))
    assert level == ((10, 28), (60, 28))


def test_extension_lines_run_upward_to_a_line_above() -> None:
    ink = draw_dimension((10, 20), (60, 25), Along.ACROSS, 12, "2")
    assert ends(ink.strokes[1]) == ((60, 25 - GAP), (60, 12 - PAST))


def test_arrows_are_three_to_one_and_point_outward_inside() -> None:
    """ISO 129-1 habit."""
    ink = draw_dimension((10, 20), (60, 20), Along.ACROSS, 28, "2")
    for cover, at in zip(ink.covers, (10, 60), strict=True):
        points = [a for a, _ in segments(cover.path)]
        assert points[0] == (at, 28)
        assert all(10 <= x <= 60 for x, _ in points)
    assert pytest.approx(3.0) == ARROW / (2 * ARROW_HALF)


def test_narrow_ones_have_their_arrows_outside() -> None:
    ink = draw_dimension((10, 20), (14, 20), Along.ACROSS, 28, "1")
    (low, _), (high, _) = (min(segments(c.path)) for c in ink.covers)
    assert low[0] == pytest.approx(10 - ARROW) and high[0] == pytest.approx(14)
    a, b = ends(ink.strokes[2])
    assert a[0] < 10 - ARROW and b[0] > 14 + ARROW


def test_figure_stands_above_the_line_and_clear_of_the_arrows() -> None:
    ink = draw_dimension((10, 20), (20, 20), Along.ACROSS, 28, "8", "id")
    (text,) = ink.texts
    assert text.at[0] == 15 and text_box(text)[3] < 28 - ARROW_HALF and text.refers == "id"


def test_figure_of_an_upright_line_is_read_from_the_right() -> None:
    (text,) = draw_dimension((30, 10), (30, 60), Along.DOWN, 40, "8").texts
    assert text.angle == 90 and text.at[1] == 35 and text_box(text)[2] < 40


def test_a_figure_without_room_goes_where_it_is_told() -> None:
    assert not fits_text(4, "38 3/4") and not fits_arrows(4)
    high, low = (draw_dimension((10, 20), (14, 20), Along.ACROSS, 28, "38 3/4", spill_high=up).texts[0] for up in (True, False))
    assert text_box(high)[0] > 14 and text_box(low)[2] < 10


def test_the_line_reaches_under_an_outside_figure() -> None:
    ink = draw_dimension((10, 20), (14, 20), Along.ACROSS, 28, "38 3/4")
    assert ends(ink.strokes[2])[1][0] >= text_box(ink.texts[0])[2] - 1e-6


def test_a_dot_where_two_narrow_ones_meet() -> None:
    ink = draw_dimension((10, 20), (14, 20), Along.ACROSS, 28, "1", tips=(Tip.ARROW, Tip.DOT))
    points = [a for a, _ in segments(ink.covers[1].path)]
    assert max(math.dist(p, (14, 28)) for p in points) < 0.6


def test_shared_extension_lines_can_be_left_out() -> None:
    assert len(draw_dimension((10, 20), (60, 20), Along.ACROSS, 28, "2", extend=(False, True)).strokes) == 2
