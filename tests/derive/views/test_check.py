"""A view with a fault is found out."""

from __future__ import annotations

from dataclasses import replace

import cadquery as cq
import pytest

from planbuild.derive.views import assembled, project
from planbuild.derive.views.check import suspects
from planbuild.derive.views.lines import lines_of
from planbuild.derive.views.regions import look
from planbuild.derive.views.view import Body, Line, LineKind, View, pictorial


@pytest.fixture(scope="module")
def view() -> View:
    return project([Body(("block", 0), cq.Workplane().box(60, 40, 20).val())], pictorial(-30, 30))


def test_a_sound_view_passes(view: View) -> None:
    assert suspects(view, "block") == ()


def test_a_view_without_lines(view: View) -> None:
    (found,) = suspects(replace(view, lines=()), "block")
    assert found.code == "view-suspect" and found.stops and "no lines" in found.message


def test_a_line_drawn_twice(view: View) -> None:
    assert "lie on each other" in suspects(replace(view, lines=(*view.lines, view.lines[0])), "block")[0].message


def test_a_line_that_should_be_hidden(view: View) -> None:
    inside = Line(LineKind.EDGE, ("block", 0), ((-2.0, 2.0), (3.0, 4.0)))
    assert "should be hidden" in suspects(replace(view, lines=(*view.lines, inside)), "block")[0].message


def test_a_gap_in_an_outline(view: View) -> None:
    outlines = [line for line in view.lines if line.kind is LineKind.OUTLINE]
    left = tuple(line for line in view.lines if line is not outlines[0])
    assert "has a gap" in suspects(replace(view, lines=left), "block")[0].message


def crossing() -> list[Body]:
    a, b = cq.Workplane().box(60, 40, 20).val(), cq.Workplane().box(20, 90, 60).translate((5, 3, 12)).val()
    return [Body(("a", 0), a), Body(("b", 0), b)]


def test_the_kernels_lines_of_overlapping_solids_are_suspect() -> None:
    """The kernel adds no line where two solids pass through each other."""
    camera = pictorial(-30, 30)
    view = assembled(camera, look(crossing(), camera), lines_of(crossing(), camera, False))
    assert suspects(view, "crossing")


def test_a_view_falls_back_on_the_borders_of_its_regions() -> None:
    assert suspects(project(crossing(), pictorial(-30, 30)), "crossing") == ()
