"""Lines taken from visible regions are those that the kernel finds where the kernel is right."""

from __future__ import annotations

import cadquery as cq
import pytest
import shapely

from planbuild.derive.views import assembled
from planbuild.derive.views.borders import border_lines
from planbuild.derive.views.check import suspects
from planbuild.derive.views.lines import lines_of
from planbuild.derive.views.regions import look
from planbuild.derive.views.view import Body, Camera, LineKind, View, pictorial

CAMERAS = [pictorial(turn, tilt) for turn, tilt in ((-35, 25), (20, 60), (130, -15))]


def both(shape: cq.Shape, camera: Camera) -> tuple[View, View]:
    """The view with the kernel's lines and with border lines."""
    bodies = [Body(("part", 0), shape)]
    seen = look(bodies, camera)
    return assembled(camera, seen, lines_of(bodies, camera, False)), assembled(camera, seen, border_lines(seen))


def ink(view: View, *kinds: LineKind) -> shapely.Geometry:
    return shapely.union_all([shapely.LineString(line.points) for line in view.lines if line.kind in kinds])


SHAPES = {
    "mortised": lambda: cq.Workplane().box(40, 40, 120).faces("<Y").workplane().rect(10, 40).cutBlind(-20).val(),
    "chamfered": lambda: cq.Workplane().box(80, 40, 20).edges("|X").chamfer(5).val(),
    "bored": lambda: cq.Workplane().box(60, 40, 20).faces(">Z").workplane().hole(16).val(),
}


@pytest.mark.parametrize("camera", CAMERAS)
@pytest.mark.parametrize("name", SHAPES)
def test_borders_agree_with_the_kernel(name: str, camera: Camera) -> None:
    kernel, border = both(SHAPES[name](), camera)
    for kinds in ((LineKind.OUTLINE,), (LineKind.EDGE, LineKind.SMOOTH, LineKind.OUTLINE)):
        one, other = ink(kernel, *kinds), ink(border, *kinds)
        assert one.length == pytest.approx(other.length, rel=0.01)
        assert one.difference(other.buffer(0.15)).length < 0.01 * one.length
    assert suspects(border, name) == ()


def test_a_rounded_edge_runs_smoothly_into_its_faces() -> None:
    _, border = both(cq.Workplane().box(80, 40, 20).edges("|X and >Z").fillet(6).val(), pictorial(-35, 25))
    assert ink(border, LineKind.SMOOTH).length > 80
