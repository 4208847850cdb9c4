"""Whole pieces with legs that lean, from the text of a design to the proofs: no wood claimed twice, every shoulder closed."""

from __future__ import annotations

import math
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planbuild.core.diagnostics import Refused, Severity
from planbuild.core.geometry import Face
from planbuild.prove import prove
from planbuild.read import read_design
from planbuild.records.features import Mortise
from planbuild.records.piece import Piece
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.resolve import resolve
from planbuild.shape import shape

HEAD = """\
format: 1
title: Trial
contact: trial@plans.example
licence: free
units: inch
frame: {width: 20, depth: 14, height: 17-1/2, beyond: [leg]}
stock:
  board: {species: white ash, rough: 4/4, thickness: 3/4}
  slab: {species: white ash, rough: 8/4, thickness: 1-1/2}
parts:
  seat: {stock: slab, grain: left-right, face: top, fills: frame, glue_up: {strips: 4}, top: 0}
  leg:
    {stock: slab, grain: up, width: 1-1/2, left: 2-1/2, front: 2-1/2, bottom: 0, top: seat.bottom,
    lean: {end: bottom, left: 6 deg, front: 4 deg}, mirror: [left-right, front-back]}
"""
RAILS = """\
  long_rail:
    {stock: board, grain: left-right, face: front, width: 2-1/2, top: seat.bottom, between: leg, centred: {front-back: leg},
    mirror: front-back}
  short_rail:
    {stock: board, grain: front-back, face: left, width: 2-1/2, top: seat.bottom, between: leg, centred: {left-right: leg},
    mirror: left-right}
"""
LEGS = "joints:\n  legs: {kind: mortise and tenon, tenon: leg.top, into: seat, thickness: 3/4, width: 3/4, length: 1}\n"
JOINTS = """\
joints:
  rails:
    {kind: mortise and tenon, tenon: [long_rail, short_rail], thickness: 1/4, width: 1-1/2, shoulders: {bottom: 1/4}, length: 3/4}
  on_long: {kind: loose, part: seat, on: long_rail}
  on_short: {kind: loose, part: seat, on: short_rail}
  on_legs: {kind: loose, part: seat, on: leg}
"""


def piece(folder: Path, *text: str) -> Piece:
    file = folder / "trial.yaml"
    file.write_text("".join(text), "utf-8")
    return resolve(read_design(file))


def stops(whole: Piece) -> list[str]:
    found = prove(whole, shape(whole)).diagnostics
    return [each.code for each in found if each.severity is not Severity.NOTE]


@pytest.fixture(scope="module")
def stool(tmp_path_factory: pytest.TempPathFactory) -> Piece:
    return piece(tmp_path_factory.mktemp("stool"), HEAD, LEGS)


@pytest.fixture(scope="module")
def table(tmp_path_factory: pytest.TempPathFactory) -> Piece:
    return piece(tmp_path_factory.mktemp("table"), HEAD, RAILS, JOINTS)


def test_legs_with_tenons_along_their_grain(stool: Piece) -> None:
    assert stops(stool) == []


def test_their_mortises_lean_as_they_do(stool: Piece) -> None:
    """Seen from the front 6 degrees, from the side 4; the resultant is the angle of the bore (plane geometry)."""
    mortises = [f for f in stool.part("seat").features if isinstance(f, AngledMortise)]
    assert len(mortises) == 4 and not [f for f in stool.part("seat").features if isinstance(f, Mortise)]
    resultant = math.atan(math.hypot(math.tan(math.radians(6)), math.tan(math.radians(4))))
    for each in mortises:
        x, y, z = each.way
        assert math.degrees(math.atan2(abs(x), z)) == pytest.approx(6)
        assert math.degrees(math.atan2(abs(y), z)) == pytest.approx(4)
        assert math.acos(z) == pytest.approx(resultant)
    assert len({(x > 0, y > 0) for x, y, _ in (each.way for each in mortises)}) == 4


def test_a_leaning_leg_is_as_heavy_as_its_centre_line_is_long(stool: Piece) -> None:
    """Both ends level, so parallel: section times length of the centre line, and the tenon beyond its middle."""
    leg = stool.part("leg")
    long = 16 / math.cos(math.atan(math.hypot(math.tan(math.radians(6)), math.tan(math.radians(4)))))
    volume = shape(stool).of["leg"].volume
    assert volume == pytest.approx((1.5 * 1.5 * long + 0.75 * 0.75 * 1) * 25.4**3, rel=1e-6)
    assert leg.rough_length > 0


def test_level_feet_stand_flat_on_the_floor(stool: Piece) -> None:
    solids = shape(stool)
    for copy in range(4):
        around = solids.placed["leg", copy].BoundingBox()
        assert around.zmin == pytest.approx(0, abs=1e-5)


def test_rails_between_leaning_legs_close_and_their_tenons_make_way(table: Piece) -> None:
    assert stops(table) == []
    found = prove(table, shape(table))
    (fits,) = (proof for proof in found.proofs if "tenon fits" in proof.claim)
    assert fits.checked == 8
    (shoulders,) = (proof for proof in found.proofs if "shoulder closes" in proof.claim)
    assert shoulders.checked == 8 + 8


def test_both_rails_enter_the_leg_at_its_own_angles(table: Piece) -> None:
    mortises = {f.mate.part: f for f in table.part("leg").features if isinstance(f, AngledMortise)}
    assert set(mortises) == {"long_rail", "short_rail"}
    tans = {"long_rail": math.tan(math.radians(6)), "short_rail": math.tan(math.radians(4))}
    long = math.hypot(1, *tans.values())  # of the leg for each unit of height
    for id, aside in tans.items():
        assert abs(mortises[id].way[2]) == pytest.approx(aside / long)


def test_leaning_legs_are_of_two_hands(table: Piece) -> None:
    found = prove(table, shape(table))
    like = {each.part: each for each in found.likeness}
    assert (like["leg"].as_drawn, like["leg"].mirrored) == ((0, 3), (1, 2))


def test_what_is_not_built_for_leaning_parts_is_said(tmp_path: Path) -> None:
    lap = "joints:\n  lap: {kind: dado, part: leg.top}\n"
    with pytest.raises(Refused) as caught:
        piece(tmp_path, HEAD, lap)
    assert "not-built-yet" in {each.code for each in caught.value.diagnostics}


@given(splay=st.integers(1, 24), rake=st.integers(1, 16), wide=st.integers(8, 20), long=st.integers(3, 6))
@settings(max_examples=6)
def test_whatever_the_angles_it_is_sound_or_refused(splay: int, rake: int, wide: int, long: int) -> None:
    """Rails and legs at random angles: solids that share no wood and close, or a finding with a place in the design."""
    leaning = HEAD.replace("left: 6 deg, front: 4 deg", f"left: {splay} deg, front: {rake} deg")
    rails = RAILS.replace("width: 2-1/2", f"width: {wide}/8")
    joints = JOINTS.replace("width: 1-1/2, shoulders: {bottom: 1/4}, length: 3/4", f"length: {long}/8")
    with TemporaryDirectory() as folder:
        try:
            whole = piece(Path(folder), leaning, rails, joints)
        except Refused as refused:
            assert all(each.span and each.span.line > 1 for each in refused.diagnostics if each.stops)
            return
    assert [each.code for each in prove(whole, shape(whole)).diagnostics if each.stops] == []

def test_a_tenon_must_come_through_its_slanted_shoulder(tmp_path: Path) -> None:
    """2 1/2 wide at 24 degrees: the shoulder runs on by 5/4 tan 24, more than half an inch, beyond its middle."""
    steep = HEAD.replace("left: 6 deg", "left: 24 deg")
    short = JOINTS.replace("width: 1-1/2, shoulders: {bottom: 1/4}, length: 3/4", "length: 1/2")
    short = short.split("  on_short")[0].replace("[long_rail, short_rail]", "long_rail")
    with pytest.raises(Refused) as caught:
        piece(tmp_path, steep, RAILS.split("  short_rail")[0].replace("width: 2-1/2", "width: 3"), short)
    assert "joint-tenon-short" in {each.code for each in caught.value.diagnostics}


def test_ends_that_slant_until_they_meet_are_refused(tmp_path: Path) -> None:
    """Feet that go in by 15 degrees until their backs are 0.8 apart; a rail 5 wide there is 1.3 shorter at its bottom."""
    inward = HEAD.replace("front: 2-1/2", "front: 2").replace("front: 4 deg", "back: 15 deg")
    deep = RAILS.replace("width: 2-1/2", "width: 5").replace("top: seat.bottom", "bottom: 2 above bottom")
    with pytest.raises(Refused) as caught:
        piece(tmp_path, inward, deep, JOINTS)
    assert any("so slanted that they meet" in each.message for each in caught.value.diagnostics)


CHAIR = """\
format: 1
title: Trial
contact: trial@plans.example
licence: free
units: inch
frame: {width: 18, depth: 16, height: 17}
stock:
  board: {species: white ash, rough: 4/4, thickness: 3/4}
  post: {species: white ash, rough: 8/4, thickness: 1-1/2}
parts:
  front_leg: {stock: post, grain: up, width: 1-1/2, left: 0, front: 0, bottom: 0, top: 0, mirror: left-right}
  back_leg: {stock: post, grain: up, width: 1-1/2, left: 1-1/2, back: 0, bottom: 0, top: 0, mirror: left-right}
  side_rail:
    {stock: board, grain: front-back, face: left, between: [front_leg, back_leg], left: 1/4 inside front_leg.left, top: 1,
    width: 2-1/2, lean: {end: back, right: 1/8 inside back_leg.right}, mirror: left-right}
joints:
  sides: {kind: mortise and tenon, tenon: side_rail, thickness: 1/4, width: 1-1/2, length: 1/2}
"""
BOOK_REST = """\
format: 1
title: Trial
contact: trial@plans.example
licence: free
units: inch
frame: {width: 20, depth: 12, height: 10}
stock:
  board: {species: white ash, rough: 4/4, thickness: 3/4}
parts:
  side:
    {stock: board, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0, glue_up: {strips: 3}, mirror: left-right}
  rest:
    {stock: board, grain: left-right, face: top, between: side, back: 1, width: 8, bottom: 5 above bottom, glue_up: {strips: 2},
    lean: {end: front, down: 10 deg}}
joints:
  ends: {kind: mortise and tenon, tenon: rest, width: 3/8, thickness: 2-1/2, length: 3/8}
"""


def test_a_side_rail_lands_on_the_narrower_back_of_a_chair(tmp_path: Path) -> None:
    """Its right side starts 1 in from the left of the seat and lands 1/8 inside the back leg, which ends at 3."""
    whole = piece(tmp_path, CHAIR)
    assert stops(whole) == []
    rail = whole.part("side_rail")
    cut = next(f for f in rail.features if isinstance(f, EndCut) and f.end is Face.BACK)
    corners = [rail.stands(0).point(corner) for corner in cut.outline(rail.body)]
    assert max(x for x, _, _ in corners) / 25.4 == pytest.approx(2.875)
    assert {round(y / 25.4, 6) for _, y, _ in corners} == {14.5}


def test_a_shelf_that_leans_is_let_in_turned(tmp_path: Path) -> None:
    whole = piece(tmp_path, BOOK_REST)
    assert stops(whole) == []
    (mortise,) = (f for f in whole.part("side").features if isinstance(f, AngledMortise))
    assert mortise.is_square_in
    assert min(mortise.off(axis) for axis in mortise.face.axis.others) == pytest.approx(10)
