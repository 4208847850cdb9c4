"""Mitres: the slant from corner to corner, splines and keys across it (in)."""

from __future__ import annotations

import math

import pytest
from boards_by_hand import BOTTOM_TOP, FRONT_BACK, LEFT_RIGHT, board, box, joined, mirrored, refused, site
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_pieces import cut_and_proved, told_of
from joined_solids import clash, is_free, of_boxes, solids_of, together, volume, whole

from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.joints.base import Board
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.piece import Copy
from planbuild.records.slanted import EndCut

INCH = 25.4
KIND = KINDS["mitre"]
LONG = board("long", box(0, 12, 0, 0.5, 0, 3.5), LEFT_RIGHT, Face.FRONT)
SHORT = board("short", box(0, 0.5, 0, 8, 0, 3.5), FRONT_BACK, Face.LEFT)
PAIR_X = (Copy("left", mirrored()), Copy("right", mirrored(LEFT_RIGHT)))
PAIR_Y = (Copy("front", mirrored()), Copy("back", mirrored(FRONT_BACK)))


def case() -> tuple[Board, Board]:
    long = board("long", box(0, 44, 0, 0.5, 0, 3.5), LEFT_RIGHT, Face.FRONT, PAIR_Y)
    return long, board("short", box(0, 0.5, 0, 15, 0, 3.5), FRONT_BACK, Face.LEFT, PAIR_X)


def test_equal_thickness_gives_45_degrees_on_both() -> None:
    made = joined(KIND, "corner", site(LONG, SHORT), parts=("long", "short"))
    (one,), (other,) = made.features["long"], made.features["short"]
    assert isinstance(one, EndCut) and isinstance(other, EndCut)
    assert (one.end, other.end) == (Face.LEFT, Face.FRONT)
    assert one.at == pytest.approx(INCH / 4) and dict(one.slopes)[FRONT_BACK] == pytest.approx(45)
    solids, keys = solids_of(LONG, SHORT, made=made), (("long", 0), ("short", 0))
    assert all(whole(solids, key) for key in keys) and clash(solids, *keys) < 1e-3
    assert together(solids, *keys) == pytest.approx(of_boxes(LONG.body, SHORT.body), rel=1e-9)


def test_unequal_widths_meet_at_unequal_angles() -> None:
    """A frame with stiles 2 and rails 3 wide: the line from the outer to the inner corner."""
    rail = board("rail", box(0, 20, 0, 0.75, 0, 3), LEFT_RIGHT, Face.FRONT)
    stile = board("stile", box(0, 2, 0, 0.75, 0, 30), BOTTOM_TOP, Face.FRONT)
    where = site(rail, stile)
    made = joined(KIND, "corner", where, parts=("rail", "stile"))
    (one,), (other,) = made.features["rail"], made.features["stile"]
    assert abs(dict(one.slopes)[BOTTOM_TOP]) == pytest.approx(math.degrees(math.atan(2 / 3)))
    assert abs(dict(other.slopes)[LEFT_RIGHT]) == pytest.approx(math.degrees(math.atan(3 / 2)))
    assert [each.code for each in where.report.found] == ["joint-mitre-bare"]
    solids, keys = solids_of(rail, stile, made=made), (("rail", 0), ("stile", 0))
    assert clash(solids, *keys) < 1e-3
    assert together(solids, *keys) == pytest.approx(of_boxes(rail.body, stile.body), rel=1e-9)


def test_a_case_goes_together_side_by_side_and_is_proved() -> None:
    long, short = case()
    made = joined(KIND, "corners", site(long, short), parts=("long", "short"))
    assert len(made.joint.contacts) == 4 and len(made.features["long"]) == 2
    assert {each.insert for each in made.joint.contacts} == {(0.0, 1.0, 0.0), (0.0, -1.0, 0.0)}
    assert told_of(made, long, short) == []


@pytest.mark.parametrize("more", [{"spline": {}}, {"keys": {}}])
def test_splines_and_keys_of_a_case_fill_their_slots(more: dict[str, dict[str, str]]) -> None:
    long, short = case()
    made = joined(KIND, "corners", site(long, short), parts=("long", "short"), **more)
    (part,) = made.makes
    assert len(part.copies) == (12 if "keys" in more else 4)
    piece, solids, found = cut_and_proved(made, long, short)
    assert [each.code for each in found.diagnostics if each.stops] == []
    bodies = [each.standing(copy) for each in (long, short) for copy in (0, 1)]
    assert together(solids, *solids.placed) == pytest.approx(of_boxes(*bodies), rel=1e-6)


def test_keys_by_hand() -> None:
    """Three of 1/8 in 3-1/2, two thirds of the diagonal of 1/2 x 1/2 deep."""
    made = joined(KIND, "corner", site(LONG, SHORT), parts=("long", "short"), keys={"count": "3", "thickness": "1/8"})
    slots = [each for each in made.features["long"] if isinstance(each, CornerSlot)]
    assert [round(each.across.middle / INCH, 4) for each in slots] == [round(3.5 * n / 6, 4) for n in (1, 3, 5)]
    deep = math.hypot(0.5, 0.5) * 2 / 3
    assert slots[0].stop == pytest.approx(deep * INCH)
    solids = solids_of(LONG, SHORT, made=made)
    plain = solids_of(LONG, SHORT, made=joined(KIND, "corner", site(LONG, SHORT), parts=("long", "short")))
    lost = volume(plain.of["long"].cut.wrapped) - volume(solids.of["long"].cut.wrapped)
    assert lost == pytest.approx(3 * (deep * INCH) ** 2 / 2 * INCH / 8, rel=1e-6)


def test_a_spline_of_a_frame_lies_in_the_middle_and_is_trimmed_to_the_corner() -> None:
    rail = board("rail", box(0, 20, 0, 0.75, 0, 2), LEFT_RIGHT, Face.FRONT)
    stile = board("stile", box(0, 2, 0, 0.75, 0, 30), BOTTOM_TOP, Face.FRONT)
    made = joined(KIND, "corner", site(rail, stile), parts=("rail", "stile"), spline={"width": "1/4", "depth": "1/2"})
    (slot,) = [each for each in made.features["rail"] if isinstance(each, CornerSlot)]
    assert (slot.across.low / INCH, slot.across.high / INCH, slot.deep) == pytest.approx((0.25, 0.5, INCH / 2))
    _, solids, found = cut_and_proved(made, rail, stile)
    assert [each.code for each in found.diagnostics if each.stops] == []
    assert together(solids, *solids.placed) == pytest.approx(of_boxes(rail.body, stile.body), rel=1e-6)
    keys = (("rail", 0), ("stile", 0))
    assert is_free(solids, *keys, way=(0.7, 0, -0.7), far=INCH)


@settings(max_examples=3)
@given(a=st.integers(4, 12), b=st.integers(4, 12), tall=st.integers(16, 60), count=st.integers(1, 4))
def test_no_wood_is_lost_whatever_the_sizes(a: int, b: int, tall: int, count: int) -> None:
    """In eighths of an inch."""
    h = tall / 8
    long = board("long", box(0, 12, 0, a / 8, 0, h), LEFT_RIGHT, Face.FRONT)
    short = board("short", box(0, b / 8, 0, 8, 0, h), FRONT_BACK, Face.LEFT)
    made = joined(KIND, "corner", site(long, short), parts=("long", "short"), keys={"count": str(count)})
    _, solids, found = cut_and_proved(made, long, short)
    assert [each.code for each in found.diagnostics if each.stops] == []
    assert all(whole(solids, key) for key in solids.placed)
    assert together(solids, *solids.placed) == pytest.approx(of_boxes(long.body, short.body), rel=1e-6)


@pytest.mark.parametrize(
    ("short", "more", "code"),
    [
        (board("short", box(0, 0.5, 0.5, 8, 0, 3.5), FRONT_BACK, Face.LEFT), {}, "joint-wrong-family"),
        (board("short", box(0, 0.5, 0, 8, 0, 3), FRONT_BACK, Face.LEFT), {}, "joint-mitre-flush"),
        (SHORT, {"angle": "1:2"}, "joint-mitre-angle"),
        (SHORT, {"keys": {"count": "30"}}, "joint-mitre-keys"),
        (SHORT, {"keys": {"depth": "3/4"}}, "joint-mitre-keys"),
        (SHORT, {"spline": {"depth": "1/2"}}, "joint-mitre-spline"),
        (SHORT, {"spline": {"width": "1/2"}}, "joint-mitre-spline"),
        (SHORT, {"spline": {}, "keys": {}}, "joint-mitre-both"),
    ],
)
def test_what_cannot_be_cut_is_refused(short: Board, more: dict[str, object], code: str) -> None:
    assert [each.code for each in refused(KIND, "corner", site(LONG, short), parts=("long", "short"), **more)] == [code]
