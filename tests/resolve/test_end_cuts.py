"""Section 6: ends sawn at one angle or two; the longest corner stays where the end was (in)."""

from __future__ import annotations

import math

import pytest
from timber import piece

from planbuild.core.geometry import Axis, Face
from planbuild.records.slanted import EndCut
from planbuild.shape import shape

POST = """\
frame: {width: 1-3/4, depth: 1-3/4, height: 20}
parts:
  leg:
    stock: post
    grain: up
    width: 1-3/4
    bottom: 0
    top: 0
    left: 0
    front: 0
    shape: [SHAPE]
"""
ONCE = "{end_cut: {end: top, angles: {left-right: 5 deg}}}"
WIDE = 1.75 * 25.4


@pytest.fixture
def leg(lay):
    def found(text: str):
        trial = lay(POST.replace("SHAPE", text))
        assert not [each for each in trial.found if each.stops], trial.found
        return trial.laid.parts[0]

    return found


def test_a_compound_cut_keeps_its_longest_corner(leg) -> None:
    (cut,) = leg("{end_cut: {end: top, angles: {left-right: 5 deg, front-back: -3 deg}}}").features
    assert isinstance(cut, EndCut)
    assert (cut.end, dict(cut.slopes)) == (Face.TOP, {Axis.LEFT_RIGHT: 5.0, Axis.FRONT_BACK: -3.0})
    low = WIDE / 2 * (math.tan(math.radians(5)) + math.tan(math.radians(3)))
    assert cut.at == pytest.approx(20 * 25.4 - low)
    corners = {(x > 1, y > 1): z for x, y, z in cut.outline(leg("{end_cut: {end: top, angles: {left-right: 5 deg}}}").body)}
    assert max(corners, key=lambda each: corners[each]) == (True, False), "the right front corner is the longest"
    assert max(corners.values()) == pytest.approx(20 * 25.4)


def test_the_solid_loses_half_of_the_block_between_its_longest_and_shortest_corner(leg) -> None:
    part = leg("{end_cut: {end: bottom, angles: {left-right: 10 deg, front-back: 6 deg}}}")
    lost = WIDE * (math.tan(math.radians(10)) + math.tan(math.radians(6)))
    made = shape(piece(part)).of["leg"]
    assert part.body.volume - made.volume == pytest.approx(WIDE**2 * lost / 2)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("{end_cut: {end: left, angles: {left-right: 5 deg}}}", "shape-face"),
        ("{end_cut: {end: top, angles: {bottom-top: 5 deg}}}", "shape-face"),
        ("{end_cut: {end: top, angles: {left-right: 80 deg}}}", "shape-end-cut"),
        ("{end_cut: {end: top, angles: {left-right: 0 deg}}}", "shape-end-cut"),
        ("{end_cut: {end: top, angles: {left-right: 5}}}", "sum-angle"),
        (f"{ONCE}, {ONCE}", "shape-edge-twice"),
    ],
)
def test_what_cannot_be_sawn_is_refused(lay, text: str, code: str) -> None:
    trial = lay(POST.replace("SHAPE", text))
    assert [each.code for each in trial.found if each.stops] == [code], trial.found
