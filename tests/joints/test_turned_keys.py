"""Keys of tenons that are turned about their length: they are turned along, and one key fits all tenons of a joint."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import pytest
from boards_by_hand import BOTTOM_TOP, FRONT_BACK, INCH, LEFT_RIGHT, PAIR_LR, board, box, inches, joined, mirrored, refused, site
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_pieces import cut_and_proved, told_of

from planbuild.core.geometry import Face
from planbuild.core.poses import Pose
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined
from planbuild.records.features import Tenon
from planbuild.records.piece import Copy

KIND = KINDS["mortise and tenon"]
END = board("side", box(0, 1, 0, 16, 0, 30), BOTTOM_TOP, Face.LEFT, PAIR_LR)
NEAR = board("near", box(1, 43, 2, 6, 20, 21), LEFT_RIGHT, Face.TOP)
FAR = board("far", box(1, 43, 10, 14, 20, 21), LEFT_RIGHT, Face.TOP)


def turned(part: Board, angle: float) -> Board:
    return replace(part, pose=Pose.turning((1, 0, 0), angle, part.body.centre))


def keyed(*parts: Board, **more: Any) -> Joined:
    fields = {"thickness": "2", "bare": ("top", "bottom"), "tusk": {"wedge": "frame_ash"}} | more
    return joined(KIND, "keyed", site(END, *parts), tenon=tuple(each.id for each in parts), **fields)


def test_the_key_stands_square_to_the_board_it_holds() -> None:
    """In the board's own frame its mortise is that of a board that is not turned at all."""
    made, straight = keyed(turned(NEAR, 30)), keyed(NEAR)
    tenon, plain = (next(f for f in each.features["near"] if isinstance(f, Tenon)) for each in (made, straight))
    assert tenon.keyway == plain.keyway and tenon.keyway and tenon.keyway.face is Face.TOP
    (key,), (same,) = made.makes, straight.makes
    assert key.body == same.body and inches(key.body)[2:] == pytest.approx(inches(same.body)[2:])
    runs = key.stands(0).direction((0, 0, 1))
    assert runs == pytest.approx((0, -math.sin(math.radians(30)), math.cos(math.radians(30))))
    assert len(key.copies) == 2 and len(made.joint.contacts) == 2 + 2 * 2


@pytest.mark.parametrize("parts", [(turned(NEAR, -45), turned(FAR, 45)), (turned(NEAR, -30), turned(FAR, 30))])
def test_boards_turned_against_each_other_share_one_key(parts: Sequence[Board]) -> None:
    """At 45 degrees by a quarter turn, at any angle put in over: four copies, each of which fits."""
    made = keyed(*parts)
    (key,) = made.makes
    assert len(key.copies) == 4
    _, solids, found = cut_and_proved(made, END, *parts)
    assert [each.message for each in found.diagnostics if each.stops] == []
    for number in range(4):
        tenon = solids.placed[("near", 0) if number < 2 else ("far", 0)]
        assert solids.placed["key", number].distance(tenon) == pytest.approx(0, abs=1e-6)
        out = 0.01 * INCH * (-1 if number % 2 == 0 else 1)
        assert solids.placed["key", number].translate((out, 0, 0)).intersect(tenon).Volume() > 1


def test_a_mirrored_pair_of_boards_shares_one_key() -> None:
    pair = (Copy("front", NEAR.copies[0].motion), Copy("back", mirrored(FRONT_BACK, about=(44, 16, 30))))
    part = turned(replace(NEAR, copies=pair), -20)
    assert told_of(keyed(part), END, part) == []


def test_boards_at_other_angles_want_two_joints() -> None:
    """No quarter turn brings a key from a board at 10 degrees to one at 30."""
    parts = (turned(NEAR, 10), turned(FAR, 30))
    fields = {"thickness": "2", "bare": ("top", "bottom"), "tusk": {"wedge": "frame_ash"}}
    found = refused(KIND, "keyed", site(END, *parts), tenon=("near", "far"), **fields)
    assert [each.code for each in found] == ["joint-wedges-differ"] and "no quarter turn" in found[0].message


def test_a_key_goes_through_the_thickness_of_a_shelf_between_upright_ends() -> None:
    """The grain of the ends runs up, so the tenon is thicker (2) than the shelf (1); the key still goes in from above."""
    tenon = next(f for f in keyed(NEAR).features["near"] if isinstance(f, Tenon))
    assert tenon.keyway and (tenon.keyway.face, tenon.keyway.across) == (Face.TOP, FRONT_BACK)
    assert tenon.keyway.length / INCH == pytest.approx(1), "as long as the shelf is thick"


@given(angle=st.integers(-45, 45).filter(bool), rise=st.integers(6, 12), thick=st.integers(10, 18))
@settings(max_examples=3)
def test_any_turned_key_goes_together(angle: int, rise: int, thick: int) -> None:
    """Thickness in sixteenths."""
    part = turned(replace(NEAR, body=box(1, 43, 2, 6, 20, 20 + thick / 16)), angle)
    made = keyed(part, tusk={"wedge": "frame_ash", "slope": f"1:{rise}"})
    assert told_of(made, END, part) == []
