"""Sliding and lapped dovetails: the part is sawn longer by its tail, and the tail fills what its mate makes free."""

from __future__ import annotations

from typing import Any

import pytest
from boards_by_hand import BOTTOM_TOP, FRONT_BACK, LEFT_RIGHT, PAIR_LR, board, box, but, inches, joined, refused, site
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_solids import clash, is_free, of_boxes, solids_of, together, whole

from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined
from planbuild.records.features import Rabbet
from planbuild.records.tails import Sockets, Tails

INCH = 25.4
SLIDING, LAPPED = KINDS["sliding dovetail"], KINDS["lapped dovetail"]
SHELF = board("shelf", box(0, 44, 0, 8, 10, 10.75), LEFT_RIGHT, Face.TOP)
BRACKET = board("bracket", box(3, 3.75, 1, 8, 0, 10), BOTTOM_TOP, Face.LEFT, PAIR_LR)
POST = board("post", box(0, 1.75, 0, 1.75, 0, 16), BOTTOM_TOP, Face.FRONT)
RAIL = board("rail", box(1.75, 30, 0, 1.75, 15.25, 16), LEFT_RIGHT, Face.TOP)


def halves(made: Joined, part: str, mate: str) -> tuple[Tails, tuple[Sockets, ...]]:
    (tail,) = (each for each in made.features[part] if isinstance(each, Tails))
    return tail, tuple(each for each in made.features[mate] if isinstance(each, Sockets))


def test_a_bracket_slides_under_its_shelf() -> None:
    """Common practice: a third of the mate deep, the neck two thirds of the part, 1 in 8 in hardwood."""
    made = joined(SLIDING, "hold", site(SHELF, BRACKET), part=("bracket.top",), stopped={"front": "1"})
    tail, housings = halves(made, "bracket", "shelf")
    assert inches(tail.comb.block) == (3, 3.75, 2, 8, 10, 10.25)
    assert tail.comb.neck(tail.comb.tails[0]).size == pytest.approx(0.5 * INCH)
    assert tail.comb.tails[0].size == pytest.approx((0.5 + 2 * 0.25 / 8) * INCH)
    assert [each.id for each in housings] == ["hold.bracket.left", "hold.bracket.right"]
    assert housings[0].face is Face.BOTTOM and housings[0].mouth and housings[0].mouth.size == pytest.approx(0.5 * INCH)
    assert made.grows == {"bracket": {Face.TOP: pytest.approx(0.25 * INCH)}}
    (corner,) = (each for each in made.features["bracket"] if isinstance(each, Rabbet))
    assert inches(corner.void) == (3, 3.75, 1, 2, 10, 10.25)
    first, second = made.joint.contacts
    assert (first.a, first.b, first.insert, second.insert) == (("bracket", 0), ("shelf", 0), (0, -1, 0), (0, -1, 0))


def test_a_rail_is_let_down_into_its_post() -> None:
    made = joined(LAPPED, "tops", site(POST, RAIL), tail=("rail.left",))
    tail, (socket,) = halves(made, "rail", "post")
    assert inches(tail.comb.block) == (1, 1.75, 0, 1.75, 15.25, 16)
    assert [(round(t.low / INCH, 4), round(t.high / INCH, 4)) for t in tail.comb.tails] == [(0.25, 1.5)]
    assert socket.what == "socket" and inches(socket.comb.block) == (1, 1.75, 0.25, 1.5, 15.25, 16)
    (contact,) = made.joint.contacts
    assert contact.insert == (0, 0, -1) and made.grows == {"rail": {Face.LEFT: pytest.approx(0.75 * INCH)}}
    told = joined(LAPPED, "tops", site(POST, RAIL), tail=("rail.left",), shoulders={"front": "3/8", "back": "1/8"}, length="1")
    (row,) = halves(told, "rail", "post")[0].comb.tails
    assert (row.low, row.high) == (pytest.approx(0.375 * INCH), pytest.approx(1.625 * INCH))


def test_a_tapered_tail_is_tight_only_when_it_is_home() -> None:
    """Common practice: one flank narrows by 1/16; slid in from the back, the narrow end leads."""
    made = joined(SLIDING, "hold", site(SHELF, BRACKET), part=("bracket.top",), stopped={"front": "1"}, taper="yes")
    tail, housings = halves(made, "bracket", "shelf")
    slim = tail.comb.slim
    assert slim and (slim.wide, slim.side, slim.by) == (Face.BACK, Face.RIGHT, pytest.approx(INCH / 16))
    mirrored = housings[1].comb.slim
    assert mirrored and (mirrored.wide, mirrored.side) == (Face.BACK, Face.LEFT)
    narrow = tail.comb.narrow(tail.comb.neck(tail.comb.tails[0]))
    assert narrow.size == pytest.approx(7 / 16 * INCH) and narrow.low == pytest.approx(3.125 * INCH)
    assert dict(made.joint.numbers)["narrows by"] == pytest.approx(INCH / 16)
    straight = joined(SLIDING, "hold", site(SHELF, BRACKET), part=("bracket.top",), stopped={"front": "1"})
    assert made.joint.contacts[0].glue_area > straight.joint.contacts[0].glue_area
    solids = solids_of(SHELF, BRACKET, made=made)
    keys = ("bracket", 0), ("shelf", 0)
    assert all(whole(solids, key) for key in keys) and clash(solids, *keys) < 1e-3
    for key in (("bracket", 1), ("bracket", 0)):
        assert clash(solids, key, ("shelf", 0)) < 1e-3
        # Drawn back by half of its way, it has play on its slanting flank alone.
        assert clash(solids, key, ("shelf", 0), by=(0.0, 3 * INCH, 0.0)) < 1e-3
        # A hair's breadth farther in than home, it binds.
        assert clash(solids, key, ("shelf", 0), by=(0.0, -0.5, 0.0)) > 0.5
    room = INCH / 16 * 3 / 6
    assert clash(solids, *keys, by=(room * 0.9, 3 * INCH, 0.0)) < 1e-3
    assert clash(solids, *keys, by=(-room * 0.9, 3 * INCH, 0.0)) > 1


@settings(max_examples=4)
@given(thick=st.integers(4, 12), mate=st.integers(4, 16), wide=st.integers(2, 8), stop=st.integers(0, 8))
def test_a_sliding_tail_fills_its_housing(thick: int, mate: int, wide: int, stop: int) -> None:
    """In eighths of an inch; `wide` in inches, the stop in eighths."""
    shelf = board("shelf", box(0, 20, 0, wide, 10, 10 + mate / 8), LEFT_RIGHT, Face.TOP)
    bracket = board("bracket", box(3, 3 + thick / 8, 0, wide, 0, 10), BOTTOM_TOP, Face.LEFT)
    stopped: dict[str, Any] = {"stopped": {"front": f"{stop}/8"}} if stop else {}
    made = joined(SLIDING, "hold", site(shelf, bracket), part=("bracket.top",), neck=f"{thick}/16", slope="1:10", **stopped)
    solids = solids_of(shelf, bracket, made=made)
    keys = ("bracket", 0), ("shelf", 0)
    assert all(whole(solids, key) for key in keys) and clash(solids, *keys) < 1e-3
    assert together(solids, *keys) == pytest.approx(of_boxes(shelf.body, bracket.body), rel=1e-9)
    assert is_free(solids, *keys, way=(0, 1, 0), far=wide * INCH)
    blocked = [(0.0, 0.0, -1.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), *([(0.0, -1.0, 0.0)] if stop else [])]
    assert all(clash(solids, *keys, by=(x * 2, y * 2, z * 2)) > 1 for x, y, z in blocked)


@settings(max_examples=3)
@given(thick=st.integers(4, 12), wide=st.integers(12, 24), slope=st.integers(5, 9))
def test_a_lapped_tail_fills_its_socket(thick: int, wide: int, slope: int) -> None:
    rail = board("rail", box(1.75, 20, 0, wide / 8, 16 - thick / 8, 16), LEFT_RIGHT, Face.TOP)
    post = board("post", box(0, 1.75, 0, wide / 8, 0, 16), BOTTOM_TOP, Face.FRONT)
    made = joined(LAPPED, "tops", site(post, rail), tail=("rail.left",), slope=f"1:{slope}")
    solids = solids_of(post, rail, made=made)
    keys = ("rail", 0), ("post", 0)
    assert all(whole(solids, key) for key in keys) and clash(solids, *keys) < 1e-3
    assert together(solids, *keys) == pytest.approx(of_boxes(post.body, rail.body), rel=1e-9)
    assert is_free(solids, *keys, way=(0, 0, 1), far=2 * thick / 8 * INCH)
    blocked = [(1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, -1.0)]
    assert all(clash(solids, *keys, by=(x * 3, y * 3, z * 3)) > 1 for x, y, z in blocked)


WITHIN = but(BRACKET, body=box(3, 3.75, 1, 7, 0, 10))
AT_THE_END = but(BRACKET, body=box(0, 0.75, 1, 8, 0, 10))
LOW_RAIL = but(RAIL, body=box(1.75, 30, 0, 1.75, 14, 14.75))
NARROW = but(RAIL, body=box(1.75, 30, 0, 0.75, 15.25, 16))


@pytest.mark.parametrize(
    ("part", "fields", "code"),
    [
        (WITHIN, {}, "joint-dovetail-way"),
        (BRACKET, {"stopped": {"front": "1", "back": "1"}}, "joint-dovetail-way"),
        (BRACKET, {"stopped": {"left": "1"}}, "joint-dado-stop"),
        (AT_THE_END, {}, "joint-dovetail-edge"),
        (BRACKET, {"depth": "1/2"}, "joint-dado-depth"),
        (BRACKET, {"neck": "23/32"}, "joint-dovetail-neck"),
        (BRACKET, {"slope": "1:3"}, "joint-dovetail-slope"),
        (BRACKET, {"taper": "3/16"}, "joint-dovetail-taper"),
        (BRACKET, {"taper": "3/8"}, "joint-dovetail-taper"),
        (BRACKET, {"taper": "1/16", "stopped": {"front": "6"}}, "joint-dovetail-taper"),
    ],
)
def test_what_cannot_slide_is_refused(part: Board, fields: dict[str, Any], code: str) -> None:
    assert [each.code for each in refused(SLIDING, "hold", site(SHELF, part), part=("bracket.top",), **fields)] == [code]


@pytest.mark.parametrize(
    ("rail", "fields", "code"),
    [
        (LOW_RAIL, {}, "joint-dovetail-top"),
        (RAIL, {"length": "1-5/8"}, "joint-wall"),
        (RAIL, {"shoulders": {"top": "1/4"}}, "joint-dovetail-edge"),
        (RAIL, {"shoulders": {"front": "1/16"}}, "joint-dovetail-edge"),
        (NARROW, {}, "joint-tails-fit"),
    ],
)
def test_what_cannot_be_let_in_is_refused(rail: Board, fields: dict[str, Any], code: str) -> None:
    assert [each.code for each in refused(LAPPED, "tops", site(POST, rail), tail=("rail.left",), **fields)] == [code]


def test_the_side_of_a_case_takes_a_divider_from_the_back() -> None:
    side = board("side", box(0, 0.75, 0, 12, 0, 30), BOTTOM_TOP, Face.LEFT)
    divider = board("divider", box(0.75, 20, 0, 12, 14, 14.75), LEFT_RIGHT, Face.TOP)
    made = joined(SLIDING, "hold", site(side, divider), part=("divider.left",))
    (contact,) = made.joint.contacts
    assert contact.insert == (0, -1, 0) and contact.cross_grain == pytest.approx(0.75 * INCH)
    assert FRONT_BACK is halves(made, "divider", "side")[0].comb.run
