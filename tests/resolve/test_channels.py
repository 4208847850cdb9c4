"""Section 6: rabbets and grooves, of a level board 32 long, 3 high, 3/4 thick (its face side to the front)."""

from __future__ import annotations

import pytest

from planbuild.core.geometry import Axis, Box, Face, Span1
from planbuild.records.features import Groove, Rabbet

RAIL = """frame: {width: 32, depth: 3/4, height: 3}
parts:
  rail: {stock: board, grain: left-right, face: front, left: 0, right: 0, front: 0, width: 3, bottom: 0, shape: [SHAPE]}
"""


def inches(x0: float, x1: float, y0: float, y1: float, z0: float, z1: float) -> Box:
    return Box(*(Span1(low * 25.4, high * 25.4) for low, high in ((x0, x1), (y0, y1), (z0, z1))))


def alike(one: Box, other: Box) -> bool:
    return all(
        (one.along(axis).low, one.along(axis).high) == pytest.approx((other.along(axis).low, other.along(axis).high))
        for axis in Axis
    )


@pytest.fixture
def cut(lay):
    def features(shape: str):
        trial = lay(RAIL.replace("SHAPE", shape))
        assert trial.found == ()
        return trial.laid.parts[0].features

    return features


@pytest.fixture
def refused(lay):
    def codes(shape: str) -> list[str]:
        return [each.code for each in lay(RAIL.replace("SHAPE", shape)).found]

    return codes


def test_the_width_of_a_rabbet_is_counted_from_the_face_named_first(cut) -> None:
    (one,) = cut("{rabbet: {edge: back top, width: 1/4, depth: 1/2}}")
    (other,) = cut("{rabbet: {edge: top back, width: 1/4, depth: 1/2}}")
    assert isinstance(one, Rabbet)
    assert alike(one.void, inches(0, 32, 0.5, 0.75, 2.5, 3))
    assert alike(other.void, inches(0, 32, 0.25, 0.75, 2.75, 3))


def test_a_rabbet_along_two_edges_is_cut_twice_and_may_be_stopped(cut) -> None:
    top, bottom = cut("{rabbet: {edge: [back top, back bottom], width: 1/4, depth: 1/2, from: 6 inside left}}")
    assert alike(top.void, inches(6, 32, 0.5, 0.75, 2.5, 3))
    assert alike(bottom.void, inches(6, 32, 0.5, 0.75, 0, 0.5))


def test_a_rabbet_across_an_end(cut) -> None:
    (end,) = cut("{rabbet: {edge: left back, width: 1, depth: 3/8}}")
    assert alike(end.void, inches(0, 1, 0.375, 0.75, 0, 3))


@pytest.mark.parametrize(("at", "low"), [("3/4 above bottom", 0.75), ("1/2 below top", 2.25)])
def test_a_groove_is_placed_by_its_nearer_wall(cut, at: str, low: float) -> None:
    """Nearer to the side that it is counted from: up from below, down from above."""
    (groove,) = cut(f"{{groove: {{face: back, at: {at}, width: 1/4, depth: 3/8}}}}")
    assert isinstance(groove, Groove)
    assert alike(groove.void, inches(0, 32, 0.375, 0.75, low, low + 0.25))


def test_a_groove_across_the_grain_and_one_in_the_middle(cut) -> None:
    across, middle = cut(
        "{groove: {face: back, at: 6 inside left, width: 3/4, depth: 1/4}}, "
        "{groove: {face: top, centred: front-back, width: 1/4, depth: 1/4, from: 1 inside left, to: 1 inside right}}"
    )
    assert alike(across.void, inches(6, 6.75, 0.5, 0.75, 0, 3))
    assert alike(middle.void, inches(1, 31, 0.25, 0.5, 2.75, 3))
    assert (across.face, middle.face) == (Face.BACK, Face.TOP)


@pytest.mark.parametrize(
    ("shape", "code"),
    [
        ("{rabbet: {edge: top bottom, width: 1/4, depth: 1/4}}", "shape-edge"),
        ("{rabbet: {edge: long, width: 1/4, depth: 1/4}}", "shape-edge"),
        ("{rabbet: {edge: [back top, top back], width: 1/4, depth: 1/4}}", "shape-edge-twice"),
        ("{rabbet: {edge: back top, width: 3/4, depth: 1/4}}", "shape-eats"),
        ("{rabbet: {edge: back top, width: 1/4, depth: 3}}", "shape-eats"),
        ("{groove: {face: back, width: 1/4, depth: 1/4}}", "shape-groove"),
        ("{groove: {face: back, at: 1 below top, centred: bottom-top, width: 1/4, depth: 1/4}}", "shape-groove"),
        ("{groove: {face: back, at: 1-1/2 above bottom, width: 1/4, depth: 1/4}}", "shape-groove"),
        ("{groove: {face: back, at: 1/4 behind front, width: 1/4, depth: 1/4}}", "shape-face"),
        ("{groove: {face: back, at: 1/2, width: 1/4, depth: 1/4}}", "shape-plain"),
        ("{groove: {face: back, at: 4 above bottom, width: 1/4, depth: 1/4}}", "shape-outside"),
        ("{groove: {face: back, centred: front-back, width: 1/4, depth: 1/4}}", "shape-face"),
        ("{groove: {face: back, centred: bottom-top, width: 3, depth: 1/4}}", "shape-eats"),
        ("{groove: {face: back, at: 1 below top, width: 1/4, depth: 3/4}}", "shape-eats"),
    ],
)
def test_what_cannot_be_cut_is_refused(refused, shape: str, code: str) -> None:
    assert refused(shape) == [code]
