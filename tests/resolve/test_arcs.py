"""Section 6: a bow that follows the edge of another part has its arc about the same centre."""

from __future__ import annotations

import math

import pytest

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.geometry import Face
from planbuild.records.features import Arch

INCH = 25.4
DESIGN = """
frame: {width: 40, depth: 16, height: 20}
parts:
  table_top: {stock: board, grain: left-right, face: top, fills: frame, top: 0, glue_up: {widest_strip: 4}, shape: [TOP]}
  apron:
    stock: board
    grain: left-right
    face: front
    centred: {left-right: PLACE}
    length: LENGTH
    width: 3
    top: table_top.bottom
    front: 1/2 inside table_top.front
    shape: [{bow: {toward: front, FOLLOWS}}]
"""
CROWN = "{arch: {edge: front, rise: 2, crown: yes}}"
FOLLOWS = "follows: table_top.front, inside: 1/2"


def said(top: str = CROWN, follows: str = FOLLOWS, length: str = "20", place: str = "middle") -> str:
    text = DESIGN.replace("TOP", top).replace("FOLLOWS", follows).replace("LENGTH", length)
    return text.replace("centred: {left-right: PLACE}", "centred: left-right" if place == "middle" else f"left: {place}")


def told(trial) -> list[Diagnostic]:
    """The apron and the top do not reach the frame."""
    return [each for each in trial.found if each.stops and each.code != "place-frame"]


def arcs(trial) -> tuple[Arch, Arch]:
    assert not told(trial), trial.found
    full, hollow = next(part for part in trial.laid.parts if part.id == "apron").features
    return full, hollow


@pytest.mark.parametrize(
    ("top", "follows"),
    [
        (CROWN, FOLLOWS),
        (CROWN, "follows: table_top.front"),
        ("{bow: {toward: front, rise: 2}}", FOLLOWS),
        ("{arch: {edge: front, rise: 2, crown: yes}}, {arch: {edge: back, rise: 1, crown: yes}}", FOLLOWS),
    ],
)
def test_a_bow_stays_as_far_inside_all_along(lay, top: str, follows: str) -> None:
    """An edge that rises 2 over 40 has a radius of (20 x 20 + 2 x 2) / 4 = 101; 1/2 inside that are 100-1/2."""
    full, hollow = arcs(lay(said(top, follows)))
    assert (full.face, full.crown, hollow.face, hollow.crown) == (Face.FRONT, True, Face.BACK, False)
    assert full.radius == pytest.approx(100.5 * INCH) and hollow.radius == pytest.approx(100.5 * INCH)
    assert full.rise == pytest.approx((100.5 - math.sqrt(100.5**2 - 10**2)) * INCH)


def test_what_follows_a_shorter_arc_ends_within_it(lay) -> None:
    part_way = "{arch: {edge: front, rise: 2, crown: yes, from: 4 inside left, to: 4 inside right}}"
    full, _ = arcs(lay(said(part_way, length="18")))
    assert full.radius == pytest.approx((65 - 0.5) * INCH)
    found = told(lay(said(part_way, length="32")))
    assert [each.code for each in found] == ["shape-follows"] and "longer than the arc" in found[0].message


@pytest.mark.parametrize(
    ("design", "code", "words"),
    [
        (said(top="{curve: {edge: front, through: [[0, 1], [20, 0], [40, 1]]}}"), "shape-follows", "no single rounded arc"),
        (said(top="{arch: {edge: front, rise: 2}}"), "shape-follows", "no single rounded arc"),
        (said(top="{arch: {edge: back, rise: 2, crown: yes}}"), "shape-follows", "no single rounded arc"),
        (said(follows="follows: table_top.back"), "shape-follows", "follows the front of another part"),
        (said(follows="follows: table_top"), "shape-follows", "follows the front of another part"),
        (said(follows="follows: tabel_top.front"), "ref-unknown", "tabel_top"),
        (said(follows="follows: table_top.front, inside: 3/4"), "shape-follows", "stands 1/2 inside the front"),
        (said(follows="rise: 1/4, follows: table_top.front"), "shape-bow", "How far"),
        (said(follows="rise: 1/4, inside: 1/2"), "shape-bow", "How far"),
        (said(place="9"), "shape-follows", "middle"),
        (said(length="26"), "shape-eats", "leaves nothing"),
    ],
)  # fmt: skip
def test_what_is_not_followed_is_told_at_its_place(lay, design: str, code: str, words: str) -> None:
    (found,) = told(lay(design))
    assert found.code == code and words in found.message
    assert found.span is not None and found.span.line == 8 + design.count("\n")  # the last line, below the head


def test_a_bow_that_says_nothing_is_asked_how_far(lay) -> None:
    (found,) = told(lay(said(follows="note: gently")))
    assert found.code == "shape-bow" and "`follows`" in found.expected


def test_a_bow_follows_no_bow_that_follows(lay) -> None:
    """No circle can come of it."""
    circle = said(top="{bow: {toward: front, follows: apron.front}}")
    found = told(lay(circle))
    assert {each.code for each in found} == {"shape-follows"} and len(found) == 2


def test_a_part_with_copies_is_not_followed(lay) -> None:
    design = said().replace("fills: frame, top: 0", "left: 0, right: 0, front: 0, width: 6, top: 0, mirror: front-back")
    found = told(lay(design))
    assert [each.code for each in found] == ["shape-follows"] and "has copies" in found[0].message
