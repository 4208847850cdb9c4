"""Blocks that are turned: where their parts stand, by plane trigonometry of our own, and what is proved of them."""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planbuild.core.diagnostics import Refused
from planbuild.core.geometry import Box, Face
from planbuild.core.poses import corners
from planbuild.joints.rooms import gaps
from planbuild.pipeline import Clock, resolve_file
from planbuild.prove.interference import hardware_has_room, no_overlaps
from planbuild.prove.meeting import shoulders_close
from planbuild.prove.moving import all_moves_free
from planbuild.prove.standing import Standing
from planbuild.prove.ways_home import joints_go_home
from planbuild.records.piece import Piece
from planbuild.shape import shape

INCH = 25.4
CUPBOARD = (Path(__file__).parent.parent / "designs" / "corner-cupboard.yaml").read_text("utf-8")
SCREEN = """\
format: 1
title: Screen
contact: errata@plans.example
licence: For one maker's own use.
units: inch
frame: {width: 48, depth: 48, height: 12}
stock:
  board: {species: white ash, rough: 4/4, thickness: 3/4}
parts:
  floor: {stock: board, grain: left-right, face: top, left: 0, right: 0, front: 0, back: 0, bottom: 0, glue_up: no}
  roof: {stock: board, grain: left-right, face: top, left: 0, right: 0, front: 0, back: 0, top: 0, glue_up: no}
blocks:
  screen:
    left: 20
    front: 22
    bottom: 2 above floor.top
    TURN
    frame: {width: 10, depth: 3, height: 6}
    takes: {wood: {is: stock}}
    with: {wood: board}
    parts:
      post: {stock: wood, grain: up, face: front, left: 0, width: 2, front: 0, bottom: 0, top: 0, mirror: left-right}
      rail: {stock: wood, grain: left-right, face: front, between: post, front: 0, bottom: 0, width: 2}
      foot: {stock: wood, grain: front-back, face: left, left: 0, front: post.back, back: 0, bottom: 0, width: 2}
    joints:
      corners: {kind: mortise and tenon, tenon: rail}
      feet: {kind: butt, part: foot, to: post, glue: no}
"""
PARTS = ("screen.post", "screen.rail", "screen.foot")

Written = Callable[[str], Piece]


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Written:
    """A design of that text, resolved."""
    file = tmp_path_factory.mktemp("turned") / "design.yaml"

    def resolved(text: str) -> Piece:
        file.write_text(text, "utf-8")
        return resolve_file(file, Clock())

    return resolved


@pytest.fixture(scope="module")
def cupboard(written: Written) -> Standing:
    piece = written(CUPBOARD)
    return Standing(piece, shape(piece))


def turned(angle: float, holding: str = "left front", about: str = "up", more: str = "") -> str:
    return SCREEN.replace("TURN", f"turn: {{about: {about}, by: {angle} deg, holding: {holding}}}{more}")


def changed(text: str, *changes: tuple[str, str]) -> str:
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return text


def reach(piece: Piece, id: str, copy: int = 0) -> list[tuple[float, ...]]:
    """The corners of the body of a copy, where it stands, in inches."""
    part = piece.part(id)
    return sorted(tuple(round(c / INCH, 4) + 0.0 for c in part.stands(copy).point(corner)) for corner in corners(part.body))


def boxes(piece: Piece) -> dict[tuple[str, int], Box]:
    return {(part.id, copy): part.box(copy, part.extent) for part in piece.parts for copy in range(len(part.copies))}


def test_the_edge_that_is_held_stays_and_the_rest_is_turned_about_it(cupboard: Standing) -> None:
    """The frame is 25-1/2 wide: its far end comes 25-1/2 cos 45 further to the right, and as much to the front."""
    edge = complex(31 / 64, 18 + 33 / 64)
    far = edge + 25.5 * cmath.rect(1, math.radians(-45))
    assert (round(edge.real, 4), round(edge.imag, 4), 0.75) in reach(cupboard.piece, "face_frame.hinge_stile")
    assert (round(far.real, 4), round(far.imag, 4), 0.75) in reach(cupboard.piece, "face_frame.lock_stile")


@settings(max_examples=10)
@given(angle=st.integers(-180, 180), sides=st.sampled_from(list(product(("left", "right"), ("front", "back")))))
def test_every_copy_is_turned_about_the_edge(written: Written, angle: int, sides: tuple[str, str]) -> None:
    piece = written(turned(angle, " ".join(sides)))
    assert piece.straight is not None
    edge = complex(30 if sides[0] == "right" else 20, 25 if sides[1] == "back" else 22)
    for id in PARTS:
        for copy in range(len(piece.part(id).copies)):
            way, before = cmath.rect(1, math.radians(angle)), reach(piece.straight, id, copy)
            places = [(edge + (complex(x, y) - edge) * way, z) for x, y, z in before]
            found = sorted((round(place.real, 3), round(place.imag, 3), z) for place, z in places)
            assert [tuple(pytest.approx(c, abs=2e-3) for c in each) for each in found] == sorted(
                (round(x, 3), round(y, 3), z) for x, y, z in reach(piece, id, copy)
            )


def test_about_down_is_the_other_way(written: Written) -> None:
    one, other = written(turned(30)), written(turned(-30, about="down"))
    assert [reach(one, id) for id in PARTS] == [reach(other, id) for id in PARTS]


def test_not_turned_at_all_is_the_same_piece(written: Written) -> None:
    plain, still = written(SCREEN.replace("TURN", "# it stands square")), written(turned(0))
    assert plain.straight is None
    assert _near(boxes(still), boxes(plain))
    assert [part.features for part in still.parts] == [part.features for part in plain.parts]


def test_a_quarter_turn_is_the_same_as_placing_it_so(written: Written) -> None:
    """Turned by 90 deg about its left front edge, what ran to the right runs back, and what ran back to the left."""
    plain = boxes(written(SCREEN.replace("TURN", "# it stands square")))
    found = boxes(written(turned(90)))
    for key, box in plain.items():
        if key[0] in PARTS:
            left, front = 20 * INCH, 22 * INCH
            x, y = found[key].x, found[key].y
            assert (x.low, x.high) == pytest.approx((left - (box.y.high - front), left - (box.y.low - front)))
            assert (y.low, y.high) == pytest.approx((front + box.x.low - left, front + box.x.high - left))
            assert (found[key].z.low, found[key].z.high) == pytest.approx((box.z.low, box.z.high))


def _near(one: dict[tuple[str, int], Box], other: dict[tuple[str, int], Box]) -> bool:
    return all(a.at(face) == pytest.approx(other[key].at(face), abs=1e-6) for key, a in one.items() for face in Face)


def test_a_mirrored_block_is_turned_the_other_way(written: Written) -> None:
    """About the middle of the frame, 48 wide: x goes to 48 - x."""
    changes = (("left: 20\n", "left: 8\n"),)
    piece = written(changed(turned(-30, more="\n    mirror: left-right"), *changes))
    count = len(piece.part("screen.rail").copies)
    assert count == 2
    first, second = (reach(piece, "screen.rail", copy) for copy in range(count))
    expected = sorted((round(48 - x, 4), y, z) for x, y, z in first)
    assert expected == [tuple(pytest.approx(c, abs=1e-3) for c in each) for each in second]


def test_joints_inside_are_turned_with_it_and_cut_straight(written: Written) -> None:
    piece = written(turned(30))
    assert piece.straight is not None
    (way,) = {each.insert for joint in piece.straight.joints for each in joint.contacts if each.a == ("screen.foot", 0)}
    (gone,) = {each.insert for joint in piece.joints for each in joint.contacts if each.a == ("screen.foot", 0)}
    assert way == (0.0, -1.0, 0.0)
    assert gone == pytest.approx((0.5, -math.sqrt(3) / 2, 0.0))


# ---------------------------------------------------------------- what is proved


def test_the_cupboard_is_sound(cupboard: Standing) -> None:
    for proof in (no_overlaps, hardware_has_room, joints_go_home, all_moves_free):
        found = proof(cupboard)
        assert found.diagnostics == ()
        assert sum(each.checked for each in found.proofs) > 0
    straight = Standing(cupboard.piece.as_cut, cupboard.solids.as_cut)
    assert shoulders_close(straight).diagnostics == ()


def test_hardware_is_turned_with_it(cupboard: Standing) -> None:
    """The knob stands before the door: further to the left and front than any wood of it."""
    knob = cupboard.solids.bought["hardware face_frame.pull", 0].Center()
    leaf = cupboard.solid(("face_frame.door.leaf", 0)).Center()
    along = ((knob.x - leaf.x) - (knob.y - leaf.y)) / math.sqrt(2)
    out = -((knob.x - leaf.x) + (knob.y - leaf.y)) / math.sqrt(2)
    width = 25.5 - 4 - 1 / 8
    assert along == pytest.approx((width / 2 - 1.25) * INCH, abs=0.5)
    assert out > 0.375 * INCH


def test_what_stands_in_the_way_of_a_turned_door_is_found(written: Written) -> None:
    post = (
        "  post: {stock: panel, grain: up, face: front, left: 1, width: 3, front: 5, between: [floor, roof]}\n"
        "  shelf:\n"
    )
    stands = ("joints:\n  corner:", "joints:\n  post: {kind: butt, part: post, to: [floor, roof]}\n  corner:")
    piece = written(changed(CUPBOARD, ("  shelf:\n    stock", post + "    stock"), stands))
    codes = [each.code for each in all_moves_free(Standing(piece, shape(piece))).diagnostics]
    assert codes == ["moves-blocked"]


def test_a_turned_block_that_runs_into_the_rest_is_found(written: Written) -> None:
    piece = written(changed(CUPBOARD, ("front: 18-33/64", "front: 19-1/4")))
    pairs = [each.message for each in no_overlaps(Standing(piece, shape(piece))).diagnostics]
    assert any("back board and hinge stile" in each for each in pairs)


def test_a_touch_with_the_rest_must_be_joined(written: Written) -> None:
    text = changed(CUPBOARD, ("  stands: {kind: loose, part: face_frame, on: [floor, roof]}\n", ""))
    with pytest.raises(Refused) as refused:
        written(text)
    assert {each.code for each in refused.value.diagnostics if each.stops} == {"joint-missing"}


def test_the_gap_of_its_door_is_that_to_its_own_frame(written: Written) -> None:
    """Of solid wood it swells toward the lock stile, 1/16 away; boards of the rest lie through it while it is straight."""
    piece = written(changed(CUPBOARD, ("with: {sheet: sheet}", "with: {sheet: wood}"))).as_cut
    (gap,) = gaps(piece, boxes(piece))
    assert gap.beside == ("face_frame.lock_stile", 0)
    assert gap.room == pytest.approx(INCH / 16)
