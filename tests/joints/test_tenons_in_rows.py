"""Bare-faced tenons, twins, divided ones, and bars that go in whole: where they stand, what is cut, what is sound."""

from __future__ import annotations

from typing import Any

import pytest
from boards_by_hand import (
    BOTTOM_TOP,
    FRONT_BACK,
    INCH,
    LEFT_RIGHT,
    ONE,
    board,
    box,
    but,
    inches,
    join,
    joined,
    mirrored,
    refused,
    site,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_pieces import cut_and_proved, told_of

from planbuild.core.geometry import Axis, Face, Motion
from planbuild.joints import KINDS
from planbuild.joints.base import Joined
from planbuild.records.features import Mortise, Tenon
from planbuild.records.piece import Copy

KIND = KINDS["mortise and tenon"]
PAIR = (Copy("left", Motion()), Copy("right", mirrored(LEFT_RIGHT, about=(12, 2, 10))))
RAIL = board("rail", box(2, 10, 0.25, 1.75, 4, 9), LEFT_RIGHT, Face.FRONT)
POSTS = board("post", box(0, 2, 0, 2, 0, 12), BOTTOM_TOP, Face.FRONT, PAIR, "leg_ash")
SAID: dict[str, Any] = {"tenon": ("rail",)}


def made_of(**fields: Any) -> Joined:
    return joined(KIND, "hold", site(RAIL, POSTS), **SAID, **fields)


def left(made: Joined) -> list[Tenon]:
    return [each for each in made.features["rail"] if isinstance(each, Tenon) and each.end is Face.LEFT]


def across(made: Joined, axis: Axis) -> list[tuple[float, float]]:
    spans = [each.block.along(axis) for each in left(made)]
    return [(round(span.low / INCH, 4), round(span.high / INCH, 4)) for span in spans]


def figures(made: Joined) -> dict[str, float | int | str]:
    return {name: round(value / INCH, 5) if isinstance(value, float) else value for name, value in made.joint.numbers}


# ---------------------------------------------------------------- bare faces


@pytest.mark.parametrize(
    ("fields", "place"),
    [
        ({"bare": ("back",), "thickness": "1/2"}, (1.25, 1.75)),
        ({"bare": ("front",), "thickness": "1/2"}, (0.25, 0.75)),
        ({"bare": ("front", "back")}, (0.25, 1.75)),
        ({"bare": ("front",), "from_face": {"back": "3/4"}}, (0.25, 1.0)),
    ],
)
def test_a_bare_face_has_no_shoulder(fields: dict[str, Any], place: tuple[float, float]) -> None:
    made = made_of(**fields, length="1", width="2")
    assert across(made, FRONT_BACK) == [place]
    assert {f"{face} shoulder" for face in ("front", "back")} & set(figures(made)) == (
        {"front shoulder"} if fields["bare"] == ("back",) else {"back shoulder"} if len(fields["bare"]) == 1 else set()
    )


def test_a_slat_of_the_library_table() -> None:
    """Windsor, Mission Furniture part I, 1909, p. 32: slat 5/8 x 1-1/2, bare-faced tenon 3/8 thick and 1/2 long above,
    let whole 1/2 into the stretcher below; 17 long over all, 16 between."""
    slat = board("slat", box(5, 6.5, 1, 1.625, 8, 24), BOTTOM_TOP, Face.FRONT)
    rail = board("rail", box(0, 22, 0.75, 1.625, 24, 30), LEFT_RIGHT, Face.FRONT)
    stretcher = board("stretcher", box(0, 22, 0.75, 1.875, 4.25, 8), LEFT_RIGHT, Face.FRONT)
    where = site(slat, rail, stretcher)
    above = joined(
        KIND, "above", where, tenon=("slat.top",), thickness="3/8", bare=("front", "left", "right"), length="1/2"
    )  # fmt: skip
    below = joined(KIND, "below", where, tenon=("slat.bottom",), bare=("all",), length="1/2")
    (tenon,), (foot,) = above.features["slat"], below.features["slat"]
    assert isinstance(tenon, Tenon) and isinstance(foot, Tenon)
    assert inches(tenon.block) == (5, 6.5, 1, 1.375, 24, 24.5)
    assert inches(foot.block) == (5, 6.5, 1, 1.625, 7.5, 8)
    assert not list(where.report.found)
    assert told_of(above, slat, rail, stretcher) == told_of(below, slat, rail, stretcher) == []


def test_a_bar_that_goes_in_whole_has_no_shoulder_to_close_but_must_fit() -> None:
    made = made_of(bare=("all",), length="1/2")
    *_, found = cut_and_proved(made, RAIL, POSTS)
    assert not [each for each in found.diagnostics if each.code.startswith("joint-")]
    (line,) = [proof for proof in found.proofs if proof.claim.startswith("Every tenon fits")]
    assert line.checked == 2


# ---------------------------------------------------------------- rows


def test_twins_stand_side_by_side_as_thick_as_the_wood_between() -> None:
    """Common practice for a rail as thick as 1-1/2: two tenons of 1/4 to 5/16, the gap as wide as they are thick."""
    made = made_of(twin="2", width="1-1/2", length="1")
    assert across(made, FRONT_BACK) == [(0.625, 0.875), (1.125, 1.375)]
    assert [each.id for each in left(made)] == ["hold.left.front", "hold.left.back"]
    assert (figures(made)["tenons at each end"], figures(made)["between tenons"]) == (2, 0.25)
    assert len(made.joint.contacts) == 2
    assert told_of(made, RAIL, POSTS) == []


@pytest.mark.parametrize(
    ("fields", "places"),
    [
        ({}, [(4.25, 5.75), (7.25, 8.75)]),
        ({"width": "1"}, [(4.25, 5.25), (7.75, 8.75)]),
        ({"apart": "1/2"}, [(4.25, 6.25), (6.75, 8.75)]),
        ({"width": "1", "apart": "1"}, [(5, 6), (7, 8)]),
        ({"width": "1", "apart": "1", "shoulders": {"top": "1"}}, [(5, 6), (7, 8)]),
    ],
)
def test_divided_tenons_stand_in_line(fields: dict[str, Any], places: list[tuple[float, float]]) -> None:
    made = made_of(divided="2", length="1", **fields)
    assert across(made, BOTTOM_TOP) == places
    assert {each.id for each in made.features["post"]} == {"hold.rail.left.bottom", "hold.rail.left.top"}
    assert told_of(made, RAIL, POSTS) == []


def test_a_wide_shelf_enters_with_two_tenons_an_end() -> None:
    """The same table, p. 32: shelf 22 wide, tenons 2 wide, 4 + 2 + 10 + 2 + 4."""
    shelf = board("shelf", box(2, 38, 0, 22, 6, 6.875), LEFT_RIGHT, Face.TOP)
    stretcher = board("stretcher", box(0.875, 2, 0, 22, 4.5, 8.25), FRONT_BACK, Face.LEFT, ONE)
    made = joined(
        KIND, "shelf", site(shelf, stretcher), tenon=("shelf.left",), divided="2", width="2", through="yes",
        shoulders={"front": "4", "back": "4"}, bare=("top", "bottom"),
    )  # fmt: skip
    spans = [each.block.along(FRONT_BACK) for each in made.features["shelf"] if isinstance(each, Tenon)]
    assert [(round(span.low / INCH, 6), round(span.high / INCH, 6)) for span in spans] == [(4, 6), (16, 18)]
    assert figures(made)["between tenons"] == 10


def test_wedged_twins_have_their_own_wedges() -> None:
    made = made_of(divided="2", through="yes", wedges={"stock": "walnut", "count": "1"})
    (wedge,) = made.makes
    assert len(wedge.copies) == 4
    assert told_of(made, RAIL, POSTS) == []


@given(
    count=st.integers(2, 3), thick=st.integers(16, 40), high=st.integers(48, 120), deep=st.integers(4, 20), twin=st.booleans()
)  # fmt: skip
@settings(max_examples=12)
def test_no_wood_is_lost_and_none_is_there_twice(count: int, thick: int, high: int, deep: int, twin: bool) -> None:
    """In sixteenths.  Each mortise is its tenon and the room at its bottom, or the joint is refused."""
    rail = but(RAIL, body=box(2, 10, 0, thick / 16, 4, 4 + high / 16))
    post = but(POSTS, body=box(0, 2, -0.5, thick / 16 + 0.5, 0, 6 + high / 16))
    where = site(rail, post)
    made = join(KIND, "hold", where, **SAID, **{"twin" if twin else "divided": str(count)}, length=f"{deep}/16")
    if made is None:
        assert {each.code for each in where.report.found if each.stops} <= {"joint-wall", "joint-tenon-size"}
        return
    cut = [each.block for each in made.features["rail"] if isinstance(each, Tenon) and each.end is Face.LEFT]
    voids = [each.void for each in made.features["post"] if isinstance(each, Mortise)]
    assert len(cut) == len(voids) == count
    room = INCH / 16 * sum(block.volume / block.size(LEFT_RIGHT) for block in cut)
    assert sum(void.volume for void in voids) == pytest.approx(sum(block.volume for block in cut) + room)
    assert all(any(block.meet(void).volume == pytest.approx(block.volume) for void in voids) for block in cut)


# ---------------------------------------------------------------- into


OTHER = board("other", box(0, 2, 0, 2, 12, 20), BOTTOM_TOP, Face.FRONT)


def test_into_may_name_a_mate_for_each_end_or_several() -> None:
    right = board("far_post", box(10, 12, 0, 2, 0, 12), BOTTOM_TOP, Face.FRONT)
    near = but(POSTS, copies=ONE)
    two = board("rest", box(10, 12, 0, 0.5, 4, 8), BOTTOM_TOP, Face.FRONT)
    thin = board("rail", box(2, 10, 0.25, 1.75, 4, 9), LEFT_RIGHT, Face.FRONT)
    overlapping = but(right, body=box(10, 12, 0.5, 2, 0, 12))
    for into in ({"left": "post", "right": "far_post"}, ("post", "far_post")):
        made = joined(KIND, "hold", site(thin, near, overlapping, two), tenon=("rail",), into=into, shoulders={"front": "1/2"})
        assert [contact.b[0] for contact in made.joint.contacts] == ["post", "far_post"]


# ---------------------------------------------------------------- faults


@pytest.mark.parametrize(
    ("fields", "code", "words"),
    [
        ({"bare": ("left",)}, "joint-shoulder-face", '"left" is no face'),
        ({"bare": ("back",), "shoulders": {"back": "1/4"}}, "joint-shoulder-face", "bare at the back and has a shoulder"),
        ({"twin": "9"}, "joint-tenon-count", "9 tenons at one end"),
        ({"twin": "1"}, "joint-tenon-count", "1 tenons"),
        ({"twin": "2", "divided": "2"}, "joint-tenon-count", "side by side"),
        ({"apart": "1"}, "joint-tenon-count", "this end has one"),
        ({"twin": "2", "apart": "1/16", "thickness": "1/4"}, "joint-wall", "leave 1/16 of"),
        ({"twin": "2", "thickness": "3/4"}, "joint-tenon-size", "do not add up"),
        ({"divided": "2", "width": "3"}, "joint-tenon-size", "do not add up"),
        ({"width": "6"}, "joint-tenon-size", "do not add up"),
        ({"into": {"top": "post"}}, "joint-into-side", "nothing of this joint goes in"),
    ],
)
def test_faults(fields: dict[str, Any], code: str, words: str) -> None:
    found = refused(KIND, "hold", site(RAIL, POSTS), **SAID, **fields)
    assert [each.code for each in found] == [code]
    assert words in found[0].message and found[0].span and (found[0].expected or found[0].hints)


def test_a_tenon_wider_than_its_mate_is_refused() -> None:
    narrow = but(POSTS, body=box(0, 2, 0.5, 1.5, 0, 12))
    found = refused(KIND, "hold", site(RAIL, narrow), **SAID, bare=("front", "back"))
    assert {each.code for each in found} == {"joint-wall"} and "opens at the front" in found[0].message


@pytest.mark.parametrize(("thickness", "warns"), [("1", False), ("1-1/8", True)])
def test_a_bare_faced_tenon_may_take_two_thirds(thickness: str, warns: bool) -> None:
    where = site(RAIL, POSTS)
    assert join(KIND, "hold", where, **SAID, bare=("back",), thickness=thickness, length="1", width="3")
    assert [each.code for each in where.report.found] == (["joint-proportion"] if warns else [])
