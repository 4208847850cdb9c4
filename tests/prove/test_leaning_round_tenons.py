"""Stools: legs that lean, with round tenons, sawn or turned; from the text of a design to solids, proofs and steps."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planbuild.core.diagnostics import Refused, Severity
from planbuild.core.geometry import Axis, Face
from planbuild.core.poses import Pose
from planbuild.derive.dimensions.measures import measures_of
from planbuild.derive.sheets.lie import lie_of
from planbuild.derive.steps.operations import Verb, operations
from planbuild.joints.copies import coincide
from planbuild.proofread.numbers import needs_of
from planbuild.prove import prove
from planbuild.read import read_design
from planbuild.records.features import Hole, Mortise, Tenon
from planbuild.records.piece import Piece
from planbuild.records.shaped import Turned
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.resolve import resolve
from planbuild.shape import shape

INCH = 25.4
HEAD = """\
format: 1
title: Trial
contact: trial@plans.example
licence: free
units: inch
frame: {width: 16, depth: 12, height: 18, beyond: [leg]}
stock:
  slab: {species: white oak, rough: 8/4, thickness: 1-3/4}
  dowel: {species: white oak, rough: 5/4, thickness: 1}
parts:
  board: {stock: slab, grain: left-right, face: top, fills: frame, glue_up: {strips: 3}, top: 0}
  leg:
    {stock: slab, grain: up, width: 1-3/4, left: 2-1/2, front: 2-1/2, bottom: 0, top: board.bottom,
    lean: {end: bottom, left: 8 deg, front: 6 deg}, mirror: [left-right, front-back], SHAPE}
"""
RUNG = """\
  rung:
    {stock: dowel, grain: left-right, face: front, width: 1, bottom: 6, between: leg, centred: {front-back: leg},
    mirror: front-back}
"""
JOINTS = "joints:\n  legs: {kind: mortise and tenon, tenon: leg.top, into: board, round: 1, length: 1-1/4}\n"
RUNGS = "  rungs: {kind: mortise and tenon, tenon: rung, into: leg, round: 5/8, length: 3/4}\n"
PLAIN, TURNED = "mark: L1", "shape: [{turned: {profile: [[bottom, 1-1/8], [8, 1-3/4 ogee], [top, 1]]}}]"


def piece(folder: Path, text: str, shaped: str = PLAIN) -> Piece:
    file = folder / "trial.yaml"
    file.write_text(text.replace("SHAPE", shaped), "utf-8")
    return resolve(read_design(file))


def stops(whole: Piece) -> list[str]:
    return [each.code for each in prove(whole, shape(whole)).diagnostics if each.severity is not Severity.NOTE]


@pytest.fixture(scope="module")
def stool(tmp_path_factory: pytest.TempPathFactory) -> Piece:
    return piece(tmp_path_factory.mktemp("stool"), HEAD + JOINTS)


@pytest.fixture(scope="module")
def turned(tmp_path_factory: pytest.TempPathFactory) -> Piece:
    return piece(tmp_path_factory.mktemp("turned"), HEAD + JOINTS, TURNED)


def bores(whole: Piece, part: str = "board") -> list[AngledMortise]:
    return [f for f in whole.part(part).features if isinstance(f, AngledMortise)]


def test_it_goes_together(stool: Piece) -> None:
    assert stops(stool) == []


def test_the_bores_are_round_and_lean_as_the_legs_do(stool: Piece) -> None:
    """Resultant atan(hypot(tan 8, tan 6)); 1/16 deeper than the tenon, along the middle."""
    resultant = math.degrees(math.atan(math.hypot(math.tan(math.radians(8)), math.tan(math.radians(6)))))
    found = bores(stool)
    assert len(found) == 4 and all(each.round for each in found)
    for each in found:
        assert (each.breadth / INCH, each.depth / INCH) == pytest.approx((1, 1.3125))
        assert each.from_square == pytest.approx(resultant)
    assert not [f for f in stool.part("board").features if isinstance(f, Mortise | Hole)]


def test_as_much_wood_is_left_as_a_slanted_cylinder_leaves(stool: Piece) -> None:
    """A plane through its middle line cuts off of a cylinder as much on one side as it leaves on the other."""
    solids = shape(stool)
    long = 16.25 / math.cos(math.radians(bores(stool)[0].from_square))
    assert solids.of["leg"].volume / INCH**3 == pytest.approx(1.75**2 * long + math.pi / 4 * 1.25, rel=1e-6)
    assert solids.of["board"].volume / INCH**3 == pytest.approx(16 * 12 * 1.75 - 4 * math.pi / 4 * 1.3125, rel=1e-6)


def test_the_reach_of_a_bore_is_that_of_its_cylinder(stool: Piece) -> None:
    """Across, the end discs stand out from the middle line by radius times the sine between it and the direction."""
    one = bores(stool)[0]
    x = one.way[0]
    middles = sorted((one.mouth[0], one.mouth[0] + x * one.depth))
    out = one.breadth / 2 * math.sqrt(1 - x * x)
    assert (one.reach.x.low, one.reach.x.high) == pytest.approx((middles[0] - out, middles[1] + out))
    assert one.reach.x.size < one.pose.around(one.void).x.size


def test_rungs_between_leaning_legs_close(tmp_path: Path) -> None:
    whole = piece(tmp_path, HEAD + RUNG + JOINTS + RUNGS)
    assert stops(whole) == []
    (into,) = bores(whole, "leg")
    assert into.round and into.lean(Axis.BOTTOM_TOP) != pytest.approx(0)
    assert [type(f) for f in whole.part("rung").features if f.joint == ""] == [EndCut, EndCut]


def test_a_turned_leg_has_no_shoulder_where_it_is_as_thick_as_its_tenon(turned: Piece) -> None:
    """The level end is no cut there; it is turned straight as far as its slanted hole reaches down: 1/2 tan 10 degrees."""
    leg = turned.part("leg")
    assert [f.end for f in leg.features if isinstance(f, EndCut)] == [Face.BOTTOM]
    (round_,) = (f for f in leg.features if isinstance(f, Turned))
    *_, before, last = round_.stations
    assert (before.diameter / INCH, last.diameter / INCH) == pytest.approx((1, 1))
    assert (last.at - before.at) / INCH == pytest.approx(math.tan(math.radians(bores(turned)[0].from_square)) / 2)
    (tenon,) = (f for f in leg.features if isinstance(f, Tenon))
    assert last.at == pytest.approx(tenon.block.z.low)


def test_a_turned_leg_is_round_to_the_long_corner_of_its_level_foot(turned: Piece) -> None:
    leg = turned.part("leg")
    (round_,) = (f for f in leg.features if isinstance(f, Turned))
    assert round_.stations[0].at == pytest.approx(leg.body.z.low)
    solids = shape(turned)
    around = solids.placed["leg", 0].BoundingBox()
    assert around.zmin == pytest.approx(0, abs=1e-4)


def test_the_turned_stool_goes_together(turned: Piece) -> None:
    assert stops(turned) == []


def test_turned_too_thick_its_shoulder_is_still_cut(tmp_path: Path) -> None:
    whole = piece(tmp_path, HEAD + JOINTS, TURNED.replace("[top, 1]", "[top, 1-1/4]"))
    assert [f.end for f in whole.part("leg").features if isinstance(f, EndCut)] == [Face.BOTTOM, Face.TOP]


def work(whole: Piece, part: str) -> dict[Verb, list[str]]:
    return {each.verb: [f.kind for f in each.features] for each in operations(whole) if each.part == part and each.features}


def test_the_work(stool: Piece, turned: Piece) -> None:
    assert work(stool, "board") == {Verb.BORE: ["angled mortise"] * 4}
    assert work(stool, "leg") == {Verb.TRIM: ["end cut"], Verb.ROUND_TENON: ["tenon", "end cut"]}
    assert work(turned, "leg") == {Verb.TURN: ["turning"], Verb.LEVEL: ["end cut"], Verb.ROUND_TENON: ["tenon"]}


def test_its_sheet_tells_a_bore_as_it_is_set_out(stool: Piece) -> None:
    """By its middle, thickness, depth and both leans: no mouth with sides is chopped."""
    own = stool.part("board")
    wanted = {each.words for each in needs_of(own) if each.feature.startswith("legs.")}
    assert wanted == {"middle", "diameter", "depth", "lean left-right", "lean front-back"}
    told = {each.states for each in measures_of(own, lie_of(own).datum) if each.feature.startswith("legs.")}
    assert {each.split(" from ")[0] for each in told if not each.startswith("middle")} == wanted - {"middle"}


def test_round_bores_are_the_same_however_they_are_turned_about_themselves(stool: Piece) -> None:
    one, other = bores(stool)[:2]
    spun = replace(one, pose=Pose.turning(one.way, 30, one.mouth).after(one.pose))
    assert coincide(one, spun) and not coincide(one, other)
    assert not coincide(one, replace(spun, round=False))


def test_a_hole_too_near_the_edge_is_refused(tmp_path: Path) -> None:
    near = HEAD.replace("front: 2-1/2", "front: -3/8")
    with pytest.raises(Refused) as caught:
        piece(tmp_path, near + JOINTS)
    (found,) = (each for each in caught.value.diagnostics if each.stops)
    assert found.code == "joint-wall" and 'at the front of "board"' in found.message


def test_a_through_tenon_stands_out_all_round_or_is_refused(tmp_path: Path) -> None:
    """Square to its leg, the tip comes out 1/2 tan 10 degrees later on one side: a little less than 1/8."""
    with pytest.raises(Refused) as caught:
        piece(tmp_path, HEAD + JOINTS.replace("length: 1-1/4", "through: yes"))
    (found,) = (each for each in caught.value.diagnostics if each.stops)
    assert found.code == "joint-proud" and "`proud: 1/8` or more" in str(found.hints)
    whole = piece(tmp_path, HEAD + JOINTS.replace("length: 1-1/4", "through: yes, proud: 1/8"))
    assert stops(whole) == []
    (tenon,) = (f for f in whole.part("leg").features if isinstance(f, Tenon))
    assert tenon.block.z.size / INCH == pytest.approx(1.75 / math.cos(math.radians(bores(whole)[0].from_square)) + 0.125)


@pytest.mark.parametrize("more", ["wedges: {stock: dowel}, through: yes", "peg: {count: 1}"])
def test_what_is_not_built_is_said(more: str, tmp_path: Path) -> None:
    with pytest.raises(Refused) as caught:
        piece(tmp_path, HEAD + JOINTS.replace("length: 1-1/4", more))
    assert "not-built-yet" in {each.code for each in caught.value.diagnostics}


@given(splay=st.integers(1, 20), rake=st.integers(1, 14), thick=st.integers(4, 12), long=st.integers(4, 12))
@settings(max_examples=4)
def test_whatever_the_angles_it_is_sound_or_refused(splay: int, rake: int, thick: int, long: int) -> None:
    text = HEAD.replace("left: 8 deg, front: 6 deg", f"left: {splay} deg, front: {rake} deg")
    joints = JOINTS.replace("round: 1, length: 1-1/4", f"round: {thick}/8, length: {long}/8")
    with TemporaryDirectory() as folder:
        try:
            whole = piece(Path(folder), text + joints)
        except Refused as refused:
            assert all(each.span and each.span.line > 1 for each in refused.diagnostics if each.stops)
            return
        assert [each.code for each in prove(whole, shape(whole)).diagnostics if each.stops] == []
