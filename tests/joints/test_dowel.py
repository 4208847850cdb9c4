"""Dowels: holes of one size in both parts that face each other, and pins on the list."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from boards_by_hand import BOTTOM_TOP, INCH, LEFT_RIGHT, board, box, join, joined, mirrored, refused, site
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_pieces import cut_and_proved, told_of

from planbuild.core.geometry import Face, Motion
from planbuild.joints import KINDS
from planbuild.joints.base import Joined
from planbuild.records.features import Hole
from planbuild.records.piece import Copy

KIND = KINDS["dowel"]
PAIR = (Copy("left", Motion()), Copy("right", mirrored(LEFT_RIGHT, about=(12, 2, 10))))
RAIL = board("rail", box(2, 10, 0.5, 1.5, 4, 7), LEFT_RIGHT, Face.FRONT)
POSTS = board("post", box(0, 2, 0, 2, 0, 10), BOTTOM_TOP, Face.FRONT, PAIR, "leg_ash")


def holes(made: Joined, part: str) -> list[Hole]:
    return [each for each in made.features[part] if isinstance(each, Hole)]


def test_two_dowels_of_a_third_to_a_half_of_the_thickness() -> None:
    """Common practice: 3/8 in a part of 1; four times as deep, 1-1/2, and 1/16 more for glue."""
    made = joined(KIND, "pins", site(RAIL, POSTS), part="rail")
    in_post, in_rail = holes(made, "post"), holes(made, "rail")
    assert [each.diameter / INCH for each in (*in_post, *in_rail)] == pytest.approx([0.375] * 6)
    assert {round((each.depth or 0) / INCH, 4) for each in (*in_post, *in_rail)} == {1.5625}
    assert [each.centre[2] / INCH for each in in_post] == pytest.approx([4.75, 6.25])
    assert made.joint.hardware == (("dowel_pin", 4),) and dict(made.buys[0].fields)["length"] == pytest.approx(3 * INCH)
    assert told_of(made, RAIL, POSTS) == []


def test_the_holes_of_both_parts_face_each_other_and_are_as_deep_as_said() -> None:
    made = joined(KIND, "pins", site(RAIL, POSTS), part="rail", depth="1", diameter="1/4", count="3")
    whole, solids, _ = cut_and_proved(made, RAIL, POSTS)
    volume = 3 * 3.14159265 * (0.125 * INCH) ** 2 * 1.0625 * INCH
    assert solids.of["post"].volume == pytest.approx(POSTS.body.volume - volume, rel=1e-5)
    assert solids.of["rail"].volume == pytest.approx(RAIL.body.volume - 2 * volume, rel=1e-5)
    meeting = {each.centre for each in holes(made, "post")} & {each.centre for each in holes(made, "rail")}
    assert len(meeting) == 3 and whole.part("rail").finished[0] == pytest.approx(8 * INCH)


@given(thick=st.integers(8, 24), high=st.integers(24, 90), count=st.integers(1, 4))
@settings(max_examples=5)
def test_any_size_is_bored_or_refused(thick: int, high: int, count: int) -> None:
    """In sixteenths."""
    rail = board("rail", box(2, 10, 0.25, 0.25 + thick / 16, 1, 1 + high / 16), LEFT_RIGHT, Face.FRONT)
    where = site(rail, POSTS)
    made = join(KIND, "pins", where, part="rail", count=str(count))
    if made is None:
        assert {each.code for each in where.report.found if each.stops} <= {"joint-wall", "joint-dowel-thick"}
        return
    assert len(holes(made, "post")) == count
    assert told_of(made, rail, POSTS) == []


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        ({"diameter": "7/8"}, "joint-dowel-thick"),
        ({"depth": "2"}, "joint-wall"),
        ({"count": "9"}, "joint-wall"),
        ({"count": "2", "spacing": "3"}, "joint-spacing"),
    ],
)
def test_faults(fields: dict[str, Any], code: str) -> None:
    found = refused(KIND, "pins", site(RAIL, POSTS), part="rail", **fields)
    assert {each.code for each in found} == {code} and all(each.span and each.expected for each in found)


def test_pins_of_another_size_are_another_thing_to_buy() -> None:
    where = site(RAIL, POSTS)
    first = joined(KIND, "long", where, part="rail")
    after = replace(where, joined={"long": first})
    same, other = joined(KIND, "same", after, part="rail"), joined(KIND, "short", after, part="rail", depth="1")
    assert [each.buys[0].id for each in (first, same, other)] == ["dowel_pin", "dowel_pin", "short_dowel_pin"]
