"""Views on paper: tones by direction, one path a pen and a tint, lines that would clot left out."""

from __future__ import annotations

import cadquery as cq
import pytest
import shapely

from planbuild.derive.paint import BOLD, LIGHT, NEW, WOOD, Frame, centred, fills, scale_to_fit, strokes, thinned, tint_of
from planbuild.derive.views import project
from planbuild.derive.views.view import Body, LineKind, View, pictorial
from planbuild.records.drawing import Pen, Tint
from planbuild.records.legibility import segments


@pytest.fixture(scope="module")
def view() -> View:
    board = cq.Workplane().box(200, 60, 20).edges("|X").chamfer(1.5).val()
    return project([Body(("board", 0), board)], pictorial(-30, 25))


def test_upward_is_lightest_then_front_then_side() -> None:
    assert tint_of((0, 0, 1)) is Tint.UP and tint_of((0, -1, 0)) is Tint.FRONT and tint_of((-1, 0, 0)) is Tint.SIDE
    assert tint_of((0, 0, -1)) is Tint.SIDE and tint_of((0, -1, 0), NEW) is Tint.NEW_FRONT


def test_one_fill_a_tint_and_one_stroke_a_pen(view: View) -> None:
    frame = Frame(0.5, 80, 60)
    tints = [fill.tint for fill in fills(view, frame, lambda key, normal: WOOD)]
    pens = [stroke.pen for stroke in strokes(view, frame, lambda key: BOLD)]
    assert len(tints) == len(set(tints)) and len(pens) == len(set(pens))


def test_fills_cover_what_is_seen(view: View) -> None:
    frame = Frame(0.5, 80, 60)
    areas = [shapely.Polygon([a for a, _ in segments(f.path)]).area for f in fills(view, frame, lambda key, normal: WOOD)]
    assert sum(areas) == pytest.approx(0.25 * view.visible[("board", 0)].area, rel=1e-3)


def test_worked_faces_take_the_accent(view: View) -> None:
    top = next(region for region in view.regions if region.normal[2] > 0.99)
    tints = {f.tint for f in fills(view, Frame(0.5, 80, 60), lambda key, normal: WOOD, {("board", 0): frozenset({top.face})})}
    assert Tint.NEW_UP in tints


def test_a_chamfer_is_one_line_when_small_and_two_when_large(view: View) -> None:
    small, large = (len([x for x in thinned(view, scale) if x.kind is LineKind.EDGE]) for scale in (0.1, 1.0))
    assert small < large


def test_background_is_drawn_with_lighter_pens(view: View) -> None:
    pens = {stroke.pen for stroke in strokes(view, Frame(0.5, 80, 60), lambda key: LIGHT)}
    assert Pen.OUTLINE not in pens and Pen.VISIBLE in pens


def test_a_view_is_centred_in_its_room(view: View) -> None:
    scale = scale_to_fit(view.box, 100, 80)
    frame = centred(view.box, (10, 20, 110, 100), scale)
    (left, bottom), (right, top) = frame.point(view.box[:2]), frame.point(view.box[2:])
    assert (left + right) / 2 == pytest.approx(60) and (top + bottom) / 2 == pytest.approx(60)
    assert max((right - left) / 100, (bottom - top) / 80) == pytest.approx(1)
