"""Section 6: shapes as features, of a leg 1-3/4 square and 20 long and of a level board."""

from __future__ import annotations

import pytest

from planbuild.core.geometry import Axis, Face
from planbuild.records.features import Arch, Bevel, Chamfer, Curve, Hole, RoundOver, Taper

FRAME = "frame: {width: 40, depth: 16, height: 20}\nparts:\n"
LEG = """
  leg:
    stock: post
    grain: up
    width: 1-3/4
    bottom: 0
    top: 0
    left: 2
    front: 1
    mirror: [left-right, front-back]
    shape: [SHAPE]
"""
RAIL = """
  rail:
    stock: board
    grain: left-right
    face: front
    left: 4
    right: 4
    front: 2
    width: 3
    bottom: 5
    shape: [SHAPE]
"""


@pytest.fixture
def shaped(lay):
    """The features of a leg or rail with one shape."""

    def features(text: str, shape: str):
        part = lay(FRAME + text.replace("SHAPE", shape)).laid.parts[0]
        return part.features

    return features


def test_inside_faces_look_to_the_middle(shaped) -> None:
    (taper,) = shaped(LEG, "{taper: {faces: inside, from: 5 below top, to: bottom, leaving: 1}}")
    assert isinstance(taper, Taper)
    assert taper.faces == (Face.RIGHT, Face.BACK)
    assert taper.leaving == ((Axis.LEFT_RIGHT, 25.4), (Axis.FRONT_BACK, 25.4))
    assert taper.start == pytest.approx(15 * 25.4)
    (outside,) = shaped(LEG, "{taper: {faces: outside, leaving: 1}}")
    assert outside.faces == (Face.LEFT, Face.FRONT)
    assert (outside.start, outside.end) == (pytest.approx(20 * 25.4), Face.BOTTOM)


@pytest.mark.parametrize(
    ("words", "edges"),
    [
        ("front left", [{"left", "front"}]),
        ("long", [{"left", "front"}, {"left", "back"}, {"right", "front"}, {"right", "back"}]),
        ("around top", [{"top", "left"}, {"top", "right"}, {"top", "front"}, {"top", "back"}]),
    ],
)
def test_groups_of_edges(shaped, words: str, edges: list[set[str]]) -> None:
    (chamfer,) = shaped(LEG, f"{{chamfer: {{edges: {words}, size: 1/8}}}}")
    assert isinstance(chamfer, Chamfer)
    assert [{face.value for face in edge} for edge in chamfer.edges] == edges
    assert (chamfer.size, chamfer.group, chamfer.reach) == (3.175, words, None)


@pytest.mark.parametrize(("words", "count"), [("ends", 8), ("all", 12), ("[long, around top, around bottom]", 12)])
def test_counts_of_edges(shaped, words: str, count: int) -> None:
    """A board has twelve edges, four along the grain and four round each end."""
    (chamfer,) = shaped(LEG, f"{{chamfer: {{edges: {words}, size: 1/8}}}}")
    assert len({frozenset(edge) for edge in chamfer.edges}) == len(chamfer.edges) == count


def test_stopped_edges(shaped) -> None:
    (edge,) = shaped(LEG, "{round_over: {edges: long, radius: 1/4, from: 2 above bottom, to: 3 below top}}")
    assert isinstance(edge, RoundOver)
    assert edge.reach == pytest.approx((2 * 25.4, 17 * 25.4))


def test_arch_and_crown(shaped) -> None:
    (arch,) = shaped(RAIL, "{arch: {edge: bottom, rise: 1/2, from: 4 inside left, to: 4 inside right}}")
    assert isinstance(arch, Arch)
    assert (arch.face, arch.rise, arch.crown) == (Face.BOTTOM, 12.7, False)
    assert (arch.start, arch.stop) == pytest.approx((8 * 25.4, 32 * 25.4))
    (crown,) = shaped(RAIL, "{arch: {edge: top, rise: 1, crown: yes}}")
    assert (crown.start, crown.stop, crown.crown) == (pytest.approx(4 * 25.4), pytest.approx(36 * 25.4), True)


def test_curve_is_told_from_the_low_end_and_the_face(shaped) -> None:
    (curve,) = shaped(RAIL, "{curve: {edge: bottom, through: [[0, 0], [16, 3/4], [32, 0]]}}")
    assert isinstance(curve, Curve)
    assert curve.points == ((0, 0), (pytest.approx(16 * 25.4), 19.05), (pytest.approx(32 * 25.4), 0))


def test_bevel_of_a_face_and_of_an_end(shaped) -> None:
    (edge,) = shaped(RAIL, "{bevel: {edge: top, angle: 5 deg, toward: front}}")
    (end,) = shaped(RAIL, "{bevel: {end: left, angle: 1:8, toward: top}}")
    assert (edge.face, edge.keeps, edge.angle) == (Face.TOP, Face.FRONT, 5)
    assert isinstance(end, Bevel)
    assert end.angle == pytest.approx(7.125, abs=0.001)  # atan(1/8) in degrees


def test_holes_in_a_row_are_counterbored_alike(shaped) -> None:
    """Four, from 3 below the top upward in steps of 1/2: the last stands 1-1/2 below it."""
    row = "counterbore: {diameter: 3/4, depth: 1/4}, repeat: {count: 4, along: up, apart: 1/2}"
    found = shaped(LEG, f"{{hole: {{face: right, at: {{bottom-top: 3 below top}}, diameter: 3/8, depth: 1, {row}}}}}")
    assert [each.id for each in found] == ["hole.right", "hole.right.2", "hole.right.3", "hole.right.4"]
    assert [round(each.centre[2] / 25.4, 6) for each in found] == [17, 17.5, 18, 18.5]
    assert {each.counterbore for each in found} == {(19.05, 6.35)}


def test_hole_in_the_middle_unless_said(shaped) -> None:
    (hole,) = shaped(LEG, "{hole: {face: right, at: {bottom-top: 3 below top}, diameter: 3/8, depth: 1}}")
    assert isinstance(hole, Hole)
    assert hole.centre == pytest.approx((3.75 * 25.4, 1.875 * 25.4, 17 * 25.4))
    assert (hole.diameter, hole.depth) == (pytest.approx(9.525), 25.4)
    (through,) = shaped(LEG, "{hole: {face: right, diameter: 3/8, through: yes}}")
    assert through.depth is None


def test_ids_are_made_of_names(shaped) -> None:
    holes = "{hole: {face: front, at: {bottom-top: 3 below top}, diameter: 3/8, depth: 1}}, "
    holes += "{hole: {face: front, diameter: 3/8, depth: 1}}, {chamfer: {edges: around bottom, size: 1/8}}"
    assert [feature.id for feature in shaped(LEG, holes)] == ["hole.front", "hole.front.2", "chamfer.around_bottom"]


def test_a_chamfer_has_less_room_at_the_foot_of_a_taper(lay) -> None:
    """1/2 on both sides of 1-3/4 is fine; of the 1 that a taper leaves it takes all."""
    foot = "{chamfer: {edges: around bottom, size: 1/2}}"
    assert "shape-eats" not in lay(FRAME + LEG.replace("SHAPE", foot)).codes
    tapered = "{taper: {faces: inside, from: 5 below top, leaving: 1}}, " + foot
    assert "shape-eats" in lay(FRAME + LEG.replace("SHAPE", tapered)).codes
    top = "{taper: {faces: inside, from: 5 below top, leaving: 1}}, " + foot.replace("bottom", "top")
    assert "shape-eats" not in lay(FRAME + LEG.replace("SHAPE", top)).codes
