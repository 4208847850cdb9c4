"""Joints enlarged: the corner that shows, sizes in the section, wood kept and cut."""

from __future__ import annotations

import math

import cadquery as cq
import pytest
import shapely

from planbuild.core.geometry import Axis, Box, Face, Span1
from planbuild.derive.pictures.cutting import half, kept_inside, sawn_faces
from planbuild.derive.pictures.hatching import end_grain, long_grain
from planbuild.derive.pictures.joint_pictures import pulled_apart
from planbuild.derive.pictures.joint_places import place_of
from planbuild.derive.pictures.studio import USUAL, Studio
from planbuild.derive.views.view import STRAIGHT, Body
from planbuild.records.drawing import Drawing, TextRole
from planbuild.records.legibility import segments
from planbuild.records.piece import Joint, Piece

from .inks import marks


def joint(piece: Piece, id: str) -> Joint:
    return next(each for each in piece.joints if each.id == id)


def test_mouths_face_the_viewer(studio: Studio, bench_piece: Piece) -> None:
    """Both rails of the chosen leg go home away from the viewer, so its mortises are in sight."""
    place = place_of(studio, joint(bench_piece, "rails"))
    assert place is not None
    assert {link.moving[0] for link in place.links} == {"long_rail", "short_rail"}
    assert all(link.sign * USUAL.toward[link.axis.value] < 0 for link in place.links)


def test_a_joint_that_cuts_nothing_has_no_picture(studio: Studio, bench_piece: Piece) -> None:
    assert place_of(studio, joint(bench_piece, "seat_on_legs")) is None


def test_halves_are_clear_of_each_other(studio: Studio, bench_piece: Piece) -> None:
    place = place_of(studio, joint(bench_piece, "wedged_rails"))
    assert place is not None
    moved = pulled_apart(place, studio.boxes)
    for link in place.links:
        assert abs(moved[link.moving][link.axis.value]) > link.engaged + 10


def test_all_that_belongs_to_a_joint_is_marked(of_piece: dict[str, Drawing]) -> None:
    assert set(marks(of_piece["joint.rails"])) == {"leg", "long_rail", "short_rail"}
    assert set(marks(of_piece["joint.wedged_rails"])) == {"leg", "lower_rail", "wedge"}
    assert set(marks(of_piece["joint.seat"])) == {"seat", "long_rail", "button"}


def test_section_states_the_numbers_of_the_joint(of_piece: dict[str, Drawing], bench_piece: Piece, letter) -> None:
    numbers = dict(joint(bench_piece, "rails").numbers)
    told = {text.text for text in of_piece["joint.rails.section"].texts if text.role is TextRole.DIMENSION}
    for word in ("tenon thickness", "tenon length", "mortise depth", "shoulder beside each cheek"):
        assert letter.ruler.printed(float(numbers[word])) in told, word


def test_sawing_keeps_the_half_beyond_the_plane() -> None:
    block = Body(("block", 0), cq.Workplane().box(100, 40, 20, centered=False).val())
    boxes = {block.key: Box(Span1(0, 100), Span1(0, 40), Span1(0, 20))}
    (kept,) = kept_inside([block], boxes, half(Axis.LEFT_RIGHT, 30.0, +1))
    assert kept.shape.Volume() == pytest.approx(70 * 40 * 20)
    faces = sawn_faces([kept], STRAIGHT[Face.LEFT], (30.0, 0.0, 0.0))
    assert faces[block.key].area == pytest.approx(40 * 20)


def test_what_lies_before_the_plane_is_left_out() -> None:
    block = Body(("block", 0), cq.Workplane().box(100, 40, 20, centered=False).val())
    boxes = {block.key: Box(Span1(0, 100), Span1(0, 40), Span1(0, 20))}
    assert kept_inside([block], boxes, half(Axis.LEFT_RIGHT, 130.0, +1)) == []


def test_grain_lines_stay_inside_the_wood() -> None:
    area = shapely.box(10, 10, 40, 22)
    along = [*long_grain(area, (1.0, 0.0), 0), *long_grain(area, (0.3, 1.0), 2)]
    for stroke in (*end_grain(area, 0), *end_grain(area, 1, strips=4), *along):
        lines = [shapely.LineString(each) for each in segments(stroke.path)]
        assert lines and all(area.buffer(0.05).covers(line) for line in lines)


def test_a_strip_of_which_the_section_shows_nothing_has_no_rings() -> None:
    """Through two tenons of a glued panel, with air between them."""
    area = shapely.box(0, 0, 10, 6).union(shapely.box(50, 0, 60, 6))
    strokes = end_grain(area, 0, strips=6)
    lines = [shapely.LineString(each) for stroke in strokes for each in segments(stroke.path)]
    assert lines and all(area.buffer(0.05).covers(line) for line in lines)


def test_long_grain_runs_along_the_grain() -> None:
    (lines,) = long_grain(shapely.box(0, 0, 30, 20), (2.0, 1.0), 0)
    for a, b in segments(lines.path):
        assert math.atan2(b[1] - a[1], b[0] - a[0]) == pytest.approx(math.atan2(1, 2), abs=1e-3)
