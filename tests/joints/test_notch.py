"""Notches and cogs: a bar let down over another, each losing what the other keeps (in)."""

from __future__ import annotations

import pytest
from boards_by_hand import FRONT_BACK, LEFT_RIGHT, board, box, inches, joined, refused, site
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_pieces import told_of
from joined_solids import clash, is_free, of_boxes, solids_of, together, whole

from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined
from planbuild.records.features import Groove

INCH = 25.4
KIND = KINDS["notch"]
JOIST = board("joist", box(0, 30, 10, 12, 3, 7), LEFT_RIGHT, Face.FRONT)
BEAM = board("beam", box(12, 16, 0, 24, 0, 4), FRONT_BACK, Face.TOP)
KEYS = (("joist", 0), ("beam", 0))


def voids(made: Joined, part: str) -> list[tuple[float, ...]]:
    return [inches(each.void) for each in made.features.get(part, ()) if isinstance(each, Groove) and each.what == "notch"]


def test_a_plain_notch_takes_all_from_the_upper_bar() -> None:
    """A quarter of a joist 4 deep, over a beam 4 wide."""
    made = joined(KIND, "cross", site(JOIST, BEAM), part="joist", over="beam")
    assert voids(made, "joist") == [(12, 16, 10, 12, 3, 4)] and not voids(made, "beam")
    (contact,) = made.joint.contacts
    assert (contact.a, contact.insert) == (("beam", 0), (0, 0, 1)) and inches(contact.shoulder) == (12, 16, 10, 12, 4, 4)
    assert told_of(made, JOIST, BEAM) == []


def test_part_of_the_depth_from_each() -> None:
    made = joined(KIND, "cross", site(JOIST, BEAM), part="joist", over="beam", depth="1/4")
    assert voids(made, "joist") == [(12, 16, 10, 12, 3, 3.25)] and voids(made, "beam") == [(12, 16, 10, 12, 3.25, 4)]
    assert told_of(made, JOIST, BEAM) == []


def test_a_cog_stands_in_the_middle_of_the_beam() -> None:
    """The joist is notched for the cog only; the beam on both sides of it."""
    made = joined(KIND, "cross", site(JOIST, BEAM), part="joist", over="beam", cog="1-1/2")
    assert voids(made, "joist") == [(13.25, 14.75, 10, 12, 3, 4)]
    assert sorted(voids(made, "beam")) == [(12, 13.25, 10, 12, 3, 4), (14.75, 16, 10, 12, 3, 4)]
    assert told_of(made, JOIST, BEAM) == []
    third = joined(KIND, "cross", site(JOIST, BEAM), part="joist", over="beam", cog="third")
    assert dict(third.joint.numbers)["width of the cog"] == pytest.approx(4 / 3 * INCH)


@settings(max_examples=3)
@given(deep=st.integers(2, 10), wide=st.integers(8, 40), tall=st.integers(16, 40), cog=st.booleans())
def test_no_wood_is_lost_and_only_down_leads_in(deep: int, wide: int, tall: int, cog: bool) -> None:
    """In eighths of an inch."""
    joist = board("joist", box(0, 30, 10, 12, 4 - deep / 8, 4 - deep / 8 + tall / 8), LEFT_RIGHT, Face.FRONT)
    beam = board("beam", box(12, 12 + wide / 8, 0, 24, 0, 4), FRONT_BACK, Face.TOP)
    more = {"cog": "third"} if cog else {"depth": f"{deep - 1}/8"}
    made = joined(KIND, "cross", site(joist, beam), part="joist", over="beam", **more)
    solids = solids_of(joist, beam, made=made)
    assert all(whole(solids, key) for key in KEYS) and clash(solids, *KEYS) < 1e-3
    assert together(solids, *KEYS) == pytest.approx(of_boxes(joist.body, beam.body), rel=1e-9)
    assert is_free(solids, *KEYS, way=(0, 0, 1), far=deep / 4 * INCH)
    assert all(clash(solids, *KEYS, by=by) > 1 for by in ((2, 0, 0), (-2, 0, 0), (0, 2, 0), (0, 0, -1)))


@pytest.mark.parametrize(
    ("joist", "fields", "code"),
    [
        (board("joist", box(0, 30, 10, 12, 4, 8), LEFT_RIGHT, Face.FRONT), {}, "joint-wrong-family"),
        (JOIST, {"depth": "2"}, "joint-notch-depth"),
        (JOIST, {"cog": "4"}, "joint-notch-cog"),
        (JOIST, {"cog": "1", "depth": "1/2"}, "joint-notch-depth"),
        (board("joist", box(0, 14, 10, 12, 3, 7), LEFT_RIGHT, Face.FRONT), {}, "joint-notch-through"),
        (board("joist", box(12, 14, 4, 20, 3, 7), FRONT_BACK, Face.TOP), {}, "joint-lap-along"),
    ],
)
def test_what_cannot_be_notched_is_refused(joist: Board, fields: dict[str, str], code: str) -> None:
    assert [each.code for each in refused(KIND, "cross", site(joist, BEAM), part="joist", over="beam", **fields)] == [code]


def test_a_deep_notch_is_told() -> None:
    deep = board("joist", box(0, 30, 10, 12, 2, 6), LEFT_RIGHT, Face.FRONT)
    joined(KIND, "cross", where := site(deep, BEAM), part="joist", over="beam")
    assert [each.code for each in where.report.found] == ["joint-proportion"]
