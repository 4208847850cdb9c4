"""Section 6: beads, coves, raised fields, turned parts and dishes as features, by hand from their numbers (in)."""

from __future__ import annotations

import pytest
from timber import board, box, piece

from planbuild.core.geometry import Face
from planbuild.records.features import EdgeBevel, Feature
from planbuild.records.shaped import Dished, Moulding, Station, Turned
from planbuild.shape import shape

HEAD = "frame: {width: 40, depth: 16, height: 20}\nparts:\n"
SHELF = """
  shelf:
    stock: board
    grain: left-right
    face: top
    left: 0
    right: 0
    front: 0
    back: 0
    bottom: 8
    glue_up: {widest_strip: 4}
    shape: [SHAPE]
"""
LEG = """
  leg:
    stock: post
    grain: up
    width: 1-3/4
    bottom: 0
    top: 0
    left: 2
    front: 2
    shape: [SHAPE]
"""


def faults(trial) -> list[str]:
    """A part alone does not reach the frame."""
    return [each.code for each in trial.found if each.stops and each.code != "place-frame"]


@pytest.fixture
def shaped(lay):
    def found(text: str, shape: str) -> tuple[Feature, ...]:
        trial = lay(HEAD + text.replace("SHAPE", shape))
        assert not faults(trial), trial.found
        return trial.laid.parts[0].features

    return found


def test_a_bead_lies_on_the_face_named_first(shaped) -> None:
    (bead,) = shaped(SHELF, "{bead: {edges: top front, size: 1/4}}")
    assert isinstance(bead, Moulding)
    assert (bead.edges, bead.form) == (((Face.TOP, Face.FRONT),), "bead")
    assert (bead.size, bead.quirk) == (0.25 * 25.4, 0.0625 * 25.4)
    (other,) = shaped(SHELF, "{bead: {edges: front top, size: 1/4, quirk: 1/8}}")
    assert other.edges == ((Face.FRONT, Face.TOP),)
    assert other.quirk == 0.125 * 25.4


def test_a_stopped_cove(shaped) -> None:
    (cove,) = shaped(SHELF, "{cove: {edges: [front top, back top], radius: 1/4, from: 2 inside left, to: 2 inside right}}")
    assert (cove.form, cove.size, len(cove.edges)) == ("cove", 0.25 * 25.4, 2)
    assert cove.reach == pytest.approx((2 * 25.4, 38 * 25.4))


def test_a_raised_field_has_a_bevel_along_each_edge(shaped) -> None:
    bevels = shaped(SHELF, "{raised: {faces: top, margin: 2, edge_thickness: 1/4, step: 1/8}}")
    assert all(isinstance(each, EdgeBevel) for each in bevels)
    assert {each.edge for each in bevels} == {(side, Face.TOP) for side in (Face.LEFT, Face.RIGHT, Face.FRONT, Face.BACK)}
    assert {(each.margin, each.depth, each.step) for each in bevels} == {(50.8, 12.7, 3.175)}


def test_a_field_on_both_faces_halves_the_depth(shaped) -> None:
    bevels = shaped(SHELF, "{raised: {faces: [top, bottom], margin: 2, edge_thickness: 1/4}}")
    assert (len(bevels), {each.depth for each in bevels}) == (8, {6.35})


def test_a_turned_leg_counts_from_its_low_end(shaped) -> None:
    (turned,) = shaped(LEG, "{turned: {profile: [[0, 1], [4, 1-3/4 cove], [12, 7/8]]}}")
    assert isinstance(turned, Turned)
    inch = 25.4
    assert turned.stations == (
        Station(0.0, inch), Station(pytest.approx(4 * inch), pytest.approx(1.75 * inch), "cove"),
        Station(pytest.approx(12 * inch), pytest.approx(0.875 * inch)),
    )  # fmt: skip


def test_a_dish_in_the_middle_of_a_seat(shaped) -> None:
    (dish,) = shaped(SHELF, "{dish: {face: top, diameter: 12, depth: 1/2}}")
    assert isinstance(dish, Dished)
    assert [round(place / 25.4, 6) for place in dish.centre] == [20, 8, 8.75]


@pytest.mark.parametrize(
    ("part", "shape", "code"),
    [
        (SHELF, "{raised: {faces: front, margin: 2, edge_thickness: 1/4}}", "shape-face"),
        (SHELF, "{raised: {faces: top, margin: 8, edge_thickness: 1/4}}", "shape-eats"),
        (SHELF, "{raised: {faces: top, margin: 2, edge_thickness: 3/4}}", "shape-eats"),
        (SHELF, "{raised: {faces: top, margin: 2, edge_thickness: 1/4, step: 1/2}}", "shape-eats"),
        (SHELF, "{cove: {edges: long, radius: 3/8}}", "shape-eats"),
        (SHELF, "{bead: {edges: front top, size: 1/4}}, {chamfer: {edges: front top, size: 1/8}}", "shape-edge-twice"),
        (SHELF, "{dish: {face: top, diameter: 17, depth: 1/2}}", "shape-outside"),
        (SHELF, "{dish: {face: top, diameter: 12, depth: 3/4}}", "shape-eats"),
        (SHELF, "{dish: {face: top, at: {bottom-top: 8 above bottom}, diameter: 12, depth: 1/2}}", "shape-face"),
        (SHELF, "{bow: {toward: top, rise: 3/4}}", "shape-eats"),
        (SHELF, "{bow: {toward: left, rise: 1/4}}", "shape-face"),
        (SHELF, "{bow: {toward: top, rise: 1/4, how: laminated}}", "word-unknown"),
        (LEG, "{turned: {profile: [[0, 1]]}}", "shape-turned"),
        (LEG, "{turned: {profile: [[0, 1], [21, 1]]}}", "shape-outside"),
        (LEG, "{turned: {profile: [[0, 1], [4, 2]]}}", "shape-eats"),
        (LEG, "{turned: {profile: [[4, 1], [3, 1-1/2]]}}", "shape-turned"),
        (LEG, "{turned: {profile: [[4, 1], [4, 1]]}}", "shape-turned"),
        (LEG, "{turned: {profile: [[4, 1], [4, 1-1/2]]}}", "shape-turned"),
        (LEG, "{turned: {profile: [[0, 1], [1/8, 1-1/2 cove], [3, 1]]}}", "shape-turned"),
        (LEG, "{turned: {profile: [[0, 1-3/4], [1, 1-3/4 bead]]}}", "shape-turned"),
        (LEG, "{turned: {profile: [[0, 1], [1, 1 cove]]}}", "shape-turned"),
        (LEG, "{turned: {profile: [[0, 1], [1, 1 swirl]]}}", "word-unknown"),
    ],
)
def test_what_cannot_be_cut_is_refused_once(lay, part: str, shape: str, code: str) -> None:
    trial = lay(HEAD + part.replace("SHAPE", shape))
    assert faults(trial) == [code], trial.found


def test_a_bow_is_one_arc_twice(shaped) -> None:
    """Full toward the front, hollow behind: 3/4 less 1/4 is left everywhere."""
    full, hollow = shaped(SHELF, "{bow: {toward: front, rise: 1/4}}")
    assert (full.face, full.crown, hollow.face, hollow.crown) == (Face.FRONT, True, Face.BACK, False)
    assert full.rise == hollow.rise == 6.35
    assert full.radius == hollow.radius


def test_a_bow_leaves_its_thickness(shaped) -> None:
    """Between two arcs of one radius, shifted by what is left: the cross-section is the same all along."""
    full, hollow = shaped(SHELF, "{bow: {toward: top, rise: 1/4}}")
    part = board(full, hollow, body=box(0, 40 * 25.4, 0, 16 * 25.4, 8 * 25.4, 8.75 * 25.4))
    solid = shape(piece(part)).of["board"]
    assert solid.volume == pytest.approx(40 * 16 * 0.5 * 25.4**3)
