"""Tenons of boards that are turned about their length: a straight tenon, and a mortise turned in the face of its mate."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from boards_by_hand import BOTTOM_TOP, FRONT_BACK, INCH, LEFT_RIGHT, PAIR_LR, board, box, inches, joined, mirrored, refused, site
from hypothesis import given, settings
from hypothesis import strategies as st

from planbuild.core.geometry import Face
from planbuild.core.poses import Pose, corners
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined
from planbuild.joints.touching import pairs_that_touch, touches_of
from planbuild.records.features import Tenon
from planbuild.records.piece import Copy
from planbuild.records.slanted import AngledMortise

KIND = KINDS["mortise and tenon"]
END = board("side", box(0, 1, 0, 10, 0, 30), BOTTOM_TOP, Face.LEFT, PAIR_LR)
STRAIGHT = board("trough", box(1, 43, 3, 7, 20, 21), LEFT_RIGHT, Face.TOP)


def turned(angle: float, part: Board = STRAIGHT) -> Board:
    return replace(part, pose=Pose.turning((1, 0, 0), angle, part.body.centre))


def cut(angle: float, **more: str) -> Joined:
    fields = {"thickness": "2", "width": "1", "through": "yes"} | more
    return joined(KIND, "hold", site(END, turned(angle)), tenon=("trough",), **fields)


def mortise(made: Joined) -> AngledMortise:
    (found,) = made.features["side"]
    assert isinstance(found, AngledMortise)
    return found


def test_the_tenon_is_straight_in_its_own_frame() -> None:
    left, right = cut(45).features["trough"]
    assert isinstance(left, Tenon) and isinstance(right, Tenon)
    assert inches(left.block) == (0, 1, 4, 6, 20, 21)
    assert inches(right.block) == (43, 44, 4, 6, 20, 21)


def test_the_mortise_is_turned_about_the_way_in() -> None:
    """A mouth of 2 x 1 about (5, 20.5), at 45 degrees: its corners by plane geometry."""
    found = mortise(cut(45))
    assert found.face is Face.RIGHT
    assert [size / INCH for size in (found.length, found.breadth, found.depth)] == pytest.approx([2, 1, 1])
    assert [place / INCH for place in found.mouth] == pytest.approx([1, 5, 20.5])
    assert found.off(BOTTOM_TOP) == pytest.approx(45)
    assert found.is_square_in and found.way == pytest.approx((-1, 0, 0))
    cos = math.cos(math.radians(45))
    wanted = sorted((5 + (a - b) * cos, 20.5 + (a + b) * cos) for a in (-1, 1) for b in (-0.5, 0.5))
    assert sorted((y / INCH, z / INCH) for _, y, z in found.rim) == [pytest.approx(each) for each in wanted]


@given(st.integers(-44, 45).filter(bool), st.integers(4, 12), st.integers(4, 8))
@settings(max_examples=15)
def test_the_mortise_is_the_tenon_where_it_stands(angle: int, across: int, thick: int) -> None:
    """Every corner of the room in the mate is a corner of the tenon, carried there by hand: turned about its middle."""
    found = mortise(cut(angle, thickness=f"{across}/4", width=f"{thick}/8"))
    sin, cos = math.sin(math.radians(angle)), math.cos(math.radians(angle))
    half = across / 8, thick / 16
    wanted = {
        (x, round(5 + a * cos - b * sin, 4), round(20.5 + a * sin + b * cos, 4))
        for x in (0.0, 1.0)
        for a in (-half[0], half[0])
        for b in (-half[1], half[1])
    }
    room = {tuple(round(p / INCH, 4) + 0.0 for p in found.pose.point(corner)) for corner in corners(found.void)}
    assert all(min(math.dist(a, b) for b in room) < 1e-3 for a in wanted)


def test_mirrored_sides_get_one_mortise_and_both_contacts() -> None:
    made = cut(30)
    assert mortise(made).mate.copies == (0,)
    assert [(each.b, tuple(round(way, 9) + 0.0 for way in each.insert)) for each in made.joint.contacts] == [
        (("side", 0), (-1, 0, 0)),
        (("side", 1), (1, 0, 0)),
    ]
    assert all(len(each.outline) == 4 for each in made.joint.contacts)


def test_a_mirrored_pair_of_boards_gives_two_mortises_turned_against_each_other() -> None:
    """A board low at the front and its mirror image: mortises at 30 degrees to either side."""
    pair = (Copy("front", STRAIGHT.copies[0].motion), Copy("back", mirrored(FRONT_BACK, about=(44, 20, 30))))
    made = joined(
        KIND, "hold", site(replace(END, body=box(0, 1, 0, 20, 0, 30)), turned(30, replace(STRAIGHT, copies=pair))),
        tenon=("trough",), thickness="2", width="1", through="yes",
    )  # fmt: skip
    first, second = made.features["side"]
    assert isinstance(first, AngledMortise) and isinstance(second, AngledMortise)
    assert {round(each.mouth[1] / INCH, 6) for each in (first, second)} == {5, 15}
    runs = [each.pose.direction((0, 1, 0)) for each in (first, second)]
    assert runs[0][2] == pytest.approx(-runs[1][2]) and abs(runs[0][2]) == pytest.approx(0.5)


def test_a_mortise_that_comes_out_of_the_side_is_refused() -> None:
    low = replace(STRAIGHT, body=box(1, 43, -0.25, 3.75, 20, 21))
    found = refused(KIND, "hold", site(END, turned(10, low)), tenon=("trough",), thickness="3-1/2", width="1", through="yes")
    assert {each.code for each in found} == {"joint-wall"}
    assert "front" in found[0].message


def test_turned_boards_that_would_cross_are_refused() -> None:
    """Two boards whose mortises cross as they are turned, though they would not if they were straight."""
    other = replace(STRAIGHT, id="other", body=box(1, 43, 3, 7, 21.25, 22.25))
    clear = site(END, STRAIGHT, other)
    joined(KIND, "hold", clear, tenon=("trough", "other"), thickness="3", width="1", through="yes")
    where = site(END, turned(40), turned(-40, other))
    found = refused(KIND, "hold", where, tenon=("trough", "other"), thickness="3", width="1", through="yes")
    assert "joint-collision" in {each.code for each in found}


def test_a_turned_end_lies_flat_and_a_turned_side_does_not() -> None:
    part = turned(45)
    (touch,) = touches_of(part, 0, Face.LEFT, [END])
    assert (touch.copy, touch.face) == (0, Face.RIGHT)
    half = (4 + 1) / 2 / math.sqrt(2)
    assert inches(touch.patch) == pytest.approx((1, 1, 5 - half, 5 + half, 20.5 - half, 20.5 + half))
    over = board("over", box(1, 43, 3, 7, 21, 22), LEFT_RIGHT, Face.TOP)
    assert touches_of(STRAIGHT, 0, Face.TOP, [over]) and not touches_of(part, 0, Face.TOP, [over])
    pairs = {(a.id, i, b.id, j) for (a, i), (b, j) in pairs_that_touch([END, part])}
    assert pairs == {("side", 0, "trough", 0), ("side", 1, "trough", 0)}


def test_wedges_are_refused_where_the_mortise_is_turned() -> None:
    fields = {"thickness": "2", "width": "1", "through": "yes", "wedges": {"stock": "walnut"}}
    found = refused(KIND, "hold", site(END, turned(45)), tenon=("trough",), **fields)
    assert [each.code for each in found] == ["not-built-yet"]
