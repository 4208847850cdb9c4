"""Finger joints: equal fingers, an odd number, both boards whole."""

from __future__ import annotations

import pytest
from boards_by_hand import BOTTOM_TOP, FRONT_BACK, LEFT_RIGHT, board, box, joined, mirrored, refused, site
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_solids import clash, is_free, of_boxes, solids_of, together, whole

from planbuild.core.geometry import Face, Span1
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined
from planbuild.records.piece import Copy
from planbuild.records.tails import Tails

INCH = 25.4
KIND = KINDS["finger joint"]
LONG = board("long", box(0, 12, 0, 0.5, 0, 3.5), LEFT_RIGHT, Face.FRONT)
SHORT = board("short", box(0, 0.5, 0, 8, 0, 3.5), FRONT_BACK, Face.LEFT)


def fingers(made: Joined, part: str) -> Tails:
    (found,) = made.features[part]
    assert isinstance(found, Tails) and found.what == "fingers"
    return found


def test_fingers_as_wide_as_the_board_is_thick() -> None:
    """Common practice: the thickness of the stock."""
    made = joined(KIND, "corner", site(LONG, SHORT), parts=("long", "short"))
    outer, inner = fingers(made, "long"), fingers(made, "short")
    assert [len(each.comb.tails) for each in (outer, inner)] == [4, 3]
    assert {round(tail.size / INCH, 6) for each in (outer, inner) for tail in each.comb.tails} == {0.5}
    assert (outer.end, inner.end) == (Face.LEFT, Face.FRONT)
    swapped = joined(KIND, "corner", site(LONG, SHORT), parts=("long", "short"), ends_with="short", finger="1/4")
    assert [len(fingers(swapped, part).comb.tails) for part in ("long", "short")] == [7, 8]


def test_all_corners_of_a_box_and_each_board_is_alike() -> None:
    pair_x = (Copy("left", mirrored()), Copy("right", mirrored(LEFT_RIGHT)))
    pair_y = (Copy("front", mirrored()), Copy("back", mirrored(FRONT_BACK)))
    long = board("long", box(0, 44, 0, 0.5, 0, 3.5), LEFT_RIGHT, Face.FRONT, pair_y)
    short = board("short", box(0, 0.5, 0, 15, 0, 3.5), FRONT_BACK, Face.LEFT, pair_x)
    made = joined(KIND, "corners", site(long, short), parts=("long", "short"))
    assert len(made.joint.contacts) == 4
    assert [each.id for each in made.features["long"]] == ["corners.short.left", "corners.short.right"]


@settings(max_examples=4)
@given(a=st.integers(2, 8), b=st.integers(2, 8), tall=st.integers(12, 60), finger=st.integers(2, 8))
def test_no_wood_is_lost_and_two_ways_lead_in(a: int, b: int, tall: int, finger: int) -> None:
    """In eighths of an inch."""
    h = tall / 8
    long = board("long", box(0, 12, 0, a / 8, 0, h), LEFT_RIGHT, Face.FRONT)
    short = board("short", box(0, b / 8, 0, 8, 0, h), FRONT_BACK, Face.LEFT)
    made = joined(KIND, "corner", site(long, short), parts=("long", "short"), finger=f"{min(3 * finger, tall)}/24")
    solids, keys = solids_of(long, short, made=made), (("short", 0), ("long", 0))
    assert all(whole(solids, key) for key in keys) and clash(solids, *keys) < 1e-3
    assert together(solids, *keys) == pytest.approx(of_boxes(long.body, short.body), rel=1e-9)
    assert is_free(solids, *keys, way=(-1, 0, 0), far=b / 4 * INCH) and is_free(solids, *keys, way=(0, 1, 0), far=a / 4 * INCH)
    assert all(clash(solids, *keys, by=(x, y, z)) > 1 for x, y, z in ((2, 0, 0), (0, -2, 0), (0, 0, 1), (0, 0, -1)))


def test_fingers_that_no_rule_shows_are_told() -> None:
    wide = [board(each.id, each.body.with_span(BOTTOM_TOP, Span1(0, 3 * INCH)), each.grain, each.face) for each in (LONG, SHORT)]
    where = site(*wide)
    joined(KIND, "corner", where, parts=("long", "short"))
    (told,) = where.report.found
    assert told.code == "joint-finger-size" and "Make the boards 3-1/16 wide" in told.hints[0]
    joined(KIND, "corner", even := site(*wide), parts=("long", "short"), finger="1")
    assert not even.report.found


@pytest.mark.parametrize(
    ("short", "parts", "finger", "code"),
    [
        (board("short", box(0, 0.5, 0.5, 8, 0, 3.5), FRONT_BACK, Face.LEFT), ("long", "short"), "1/2", "joint-wrong-family"),
        (SHORT, ("long", "short"), "3-1/2", "joint-finger"),
        (SHORT, ("long", "short"), "1/32", "joint-finger"),
        (SHORT, ("long",), "1/2", "joint-finger"),
    ],
)
def test_what_cannot_be_cut_is_refused(short: Board, parts: tuple[str, ...], finger: str, code: str) -> None:
    assert [each.code for each in refused(KIND, "corner", site(LONG, short), parts=parts, finger=finger)] == [code]
