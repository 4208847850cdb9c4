"""Legs that lean: angles, lengths and places against hand geometry, and what lands on them."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from trial import Trial

from planbuild.core.geometry import Axis, Box, Face, Span1
from planbuild.core.poses import dot
from planbuild.records.slanted import EndCut
from planbuild.resolve.poses import direction, slopes_of

INCH = 25.4
TAN6, TAN4 = (math.tan(math.radians(angle)) for angle in (6, 4))

SEAT = """\
frame: {width: 20, depth: 14, height: 16-3/4, beyond: [leg]}
parts:
  slab: {stock: board, grain: left-right, face: top, fills: frame, glue_up: {strips: 4}, top: 0}
  leg:
    {stock: post, grain: up, width: 1-3/4, left: 2, front: 2, bottom: 0, top: slab.bottom,
    lean: {end: bottom, left: 6 deg, front: 4 deg}, mirror: [left-right, front-back]}
"""
RAIL = """\
  rail:
    {stock: board, grain: left-right, face: front, between: leg, centred: {front-back: leg}, width: 2, WHERE,
    mirror: front-back}
"""


def laid(lay: Callable[..., Trial], *more: str) -> Trial:
    return lay(SEAT + "".join(more))


def test_the_foot_goes_aside_by_the_tangent_of_each_angle(lay: Callable[..., Trial]) -> None:
    """16 high: 16 tan 6 to the left, 16 tan 4 to the front, as the two views show it; the top stays put."""
    leg = laid(lay).laid.boards["leg"]
    assert leg.pose
    x, y, z = (middle for middle in leg.body.centre)
    top = leg.pose.point((x, y, leg.body.z.high))
    foot = leg.pose.point((x, y, leg.body.z.low))
    assert [p / INCH for p in top] == pytest.approx([2.875, 2.875, 16])
    assert [p / INCH for p in foot] == pytest.approx([2.875 - 16 * TAN6, 2.875 - 16 * TAN4, 0], abs=1e-9)


def test_the_leg_is_longer_by_the_resultant(lay: Callable[..., Trial]) -> None:
    """Resultant: tan2 = tan2 of splay + tan2 of rake; the centre line is 16 over its cosine (plane geometry)."""
    leg = laid(lay).laid.boards["leg"]
    resultant = math.atan(math.hypot(TAN6, TAN4))
    assert leg.body.size(Axis.BOTTOM_TOP) / INCH == pytest.approx(16 / math.cos(resultant))
    assert leg.pose
    assert leg.pose.rows[2][2] == pytest.approx(math.cos(resultant))


def test_level_ends_show_the_two_angles_on_the_faces_and_lie_level(lay: Callable[..., Trial]) -> None:
    leg = laid(lay).laid.boards["leg"]
    for face, height in ((Face.BOTTOM, 0.0), (Face.TOP, 16.0)):
        cut = leg.end_cuts[face]
        assert [(axis, pytest.approx(angle)) for axis, angle in cut.slopes] == [(Axis.LEFT_RIGHT, 6), (Axis.FRONT_BACK, 4)]
        assert [z / INCH for _, _, z in leg.outline(face, 0)] == pytest.approx([height] * 4, abs=1e-9)
        assert leg.normal(face, 3) == pytest.approx(face.normal)


def test_the_compound_settings_of_the_saw() -> None:
    """For 6 and 4 degrees: mitre 6, blade atan(tan 4 cos 6); the angle between the cut and a square one is the resultant."""
    cut = EndCut("c", None, "", "", Face.TOP, 0.0, ((Axis.LEFT_RIGHT, 6.0), (Axis.FRONT_BACK, 4.0)))  # type: ignore[arg-type]
    assert math.tan(math.radians(cut.from_square)) == pytest.approx(math.hypot(TAN6, TAN4))
    blade = math.atan(TAN4 * math.cos(math.radians(6)))
    mitre = math.radians(6)
    sawn = (-math.sin(mitre) * math.cos(blade), -math.sin(blade), math.cos(mitre) * math.cos(blade))
    assert cut.normal == pytest.approx(sawn)


@given(st.integers(1, 30), st.integers(1, 30))
@settings(max_examples=20)
def test_two_angles_give_sightline_and_resultant(splay: int, rake: int) -> None:
    """Sightline from above: tan = tan rake / tan splay (plane geometry)."""
    x, y, z = direction(Face.BOTTOM, {Face.LEFT: splay, Face.FRONT: rake})
    one, other = math.tan(math.radians(splay)), math.tan(math.radians(rake))
    assert math.atan2(-y, -x) == pytest.approx(math.atan2(other, one))
    assert math.acos(-z) == pytest.approx(math.atan(math.hypot(one, other)))
    found = slopes_of((one, other, 1.0), Axis.BOTTOM_TOP)
    assert [angle for _, angle in found] == pytest.approx([-splay, -rake])


def test_square_ends_leave_the_length_as_it_is(lay: Callable[..., Trial]) -> None:
    leg = laid(lay).laid.boards["leg"]
    square = lay(SEAT.replace("front: 4 deg}", "front: 4 deg, ends: square}")).laid.boards["leg"]
    assert square.body.size(Axis.BOTTOM_TOP) / INCH == pytest.approx(16)
    assert not square.end_cuts and square.pose == leg.pose


def test_a_rail_reaches_the_real_face_at_its_own_height(lay: Callable[..., Trial]) -> None:
    """Splay alone: the right face of the leg, 1.75 / 2 / cos 6 from the centre line, which is 2.875 - 8 tan 6 at half
    height; mirrored at the other end; the shoulder is cut to 6 degrees (plane geometry)."""
    one_way = SEAT.replace(", front: 4 deg", "")
    rail = lay(one_way + RAIL.replace("WHERE", "bottom: 7 above bottom")).laid.boards["rail"]
    reach = 2.875 - 8 * TAN6 + 0.875 / math.cos(math.radians(6))
    assert rail.body.x.low / INCH == pytest.approx(reach, abs=1e-6)
    assert rail.body.x.high / INCH == pytest.approx(20 - reach, abs=1e-6)
    for face, way in ((Face.LEFT, 1), (Face.RIGHT, -1)):
        slopes = dict(rail.end_cuts[face].slopes)
        assert slopes[Axis.BOTTOM_TOP] == pytest.approx(way * 6) and slopes[Axis.FRONT_BACK] == pytest.approx(0, abs=1e-9)


def test_the_shoulders_of_a_rail_lie_in_the_faces_of_raked_and_splayed_legs(lay: Callable[..., Trial]) -> None:
    trial = laid(lay, RAIL.replace("WHERE", "top: slab.bottom"))
    leg, rail = trial.laid.boards["leg"], trial.laid.boards["rail"]
    normal, corner = leg.normal(Face.RIGHT, 0), leg.outline(Face.RIGHT, 0)[0]
    for point in rail.outline(Face.LEFT, 0):
        assert dot(normal, point) == pytest.approx(dot(normal, corner), abs=1e-4)
    middle = leg.pose.point(leg.body.centre) if leg.pose else (0, 0, 0)
    run = leg.stands(0).direction((0, 0, 1))
    level = rail.body.z.middle
    assert rail.body.y.middle == pytest.approx(middle[1] + run[1] / run[2] * (level - middle[2]), abs=1e-4)


def test_a_face_at_a_height_is_a_place(lay: Callable[..., Trial]) -> None:
    """On the middle of the face; splay alone, so that the rake does not matter."""
    one_way = SEAT.replace(", front: 4 deg", "")
    board = "  other: {stock: board, grain: front-back, face: top, front: 0, back: 0, left: AT, width: 2, bottom: 0}\n"
    drawn = lay(one_way + board.replace("AT", "leg.right at 4 above bottom")).laid.boards["other"]
    reach = 2.875 - 12 * TAN6 + 0.875 / math.cos(math.radians(6))
    assert drawn.body.x.low / INCH == pytest.approx(reach, abs=1e-6)
    mirrored = lay(one_way + board.replace("left: AT", "right: right leg.left at 4 above bottom")).laid.boards["other"]
    assert mirrored.body.x.high / INCH == pytest.approx(20 - reach, abs=1e-6)


def test_the_overall_size_counts_splayed_feet_and_the_frame_does_not(lay: Callable[..., Trial]) -> None:
    trial = laid(lay)
    assert "place-frame" not in trial.codes
    out = SEAT.replace("left: 2, front: 2", "left: 1, front: 1")
    assert "place-frame" not in lay(out).codes
    assert lay(out.replace(", beyond: [leg]", "")).codes.count("place-frame") == 2
    leg = next(part for part in trial.laid.parts if part.id == "leg")
    around: Box = leg.box(0, leg.extent)
    half = 0.875 * math.sqrt(1 + TAN6**2)  # of the level foot, as its edge shows from the front, if it leaned one way only
    assert around.x.low / INCH == pytest.approx(2.875 - 16 * TAN6 - half, abs=0.01)
    assert (around.z.low, around.z.high) == pytest.approx((0, 16 * INCH), abs=1e-6)
    assert isinstance(around.x, Span1)


def test_a_taper_on_a_leaning_leg_is_measured_along_the_leg(lay: Callable[..., Trial]) -> None:
    tapered = SEAT.replace("mirror: [left", "shape: [{taper: {faces: right, from: 5 below top, leaving: 1}}], mirror: [left")
    leg = lay(tapered).laid.boards["leg"]
    (taper,) = (shape for shape in leg.shapes if not isinstance(shape, EndCut))
    assert (leg.body.z.high - taper.start) / INCH == pytest.approx(5)  # type: ignore[attr-defined]
    rail = RAIL.replace("WHERE", "bottom: 4 above bottom")
    assert "place-shoulder-planes" in lay(tapered + rail).codes
    assert "place-shoulder-planes" not in lay(tapered + rail.replace("bottom: 4 above bottom", "top: slab.bottom")).codes


# ---------------------------------------------------------------- to a place


def foot(lay: Callable[..., Trial], lean: str) -> tuple[float, float]:
    """The left and the front of the end that leans, halfway along the edges, inches."""
    trial = lay(SEAT.replace("lean: {end: bottom, left: 6 deg, front: 4 deg}", f"lean: {{end: bottom, {lean}}}"))
    leg = trial.laid.boards["leg"]
    assert leg.pose
    level = leg.outline(Face.BOTTOM, 0)
    around = list(zip(level, level[1:] + level[:1], strict=True))
    return min((a[0] + b[0]) / 2 / INCH for a, b in around), min((a[1] + b[1]) / 2 / INCH for a, b in around)


def test_a_foot_lands_at_a_place(lay: Callable[..., Trial]) -> None:
    """By hand: the centre line goes 16 tan a aside, half a leg of 1.75 shows as 0.875 / cos a on the floor."""
    left, _ = foot(lay, "left: 1/2 inside left")
    assert left == pytest.approx(0.5, abs=1e-6)
    leg = lay(SEAT.replace("left: 6 deg, front: 4 deg", "left: 1/2 inside left")).laid.boards["leg"]
    angle = math.radians(dict(leg.end_cuts[Face.BOTTOM].slopes)[Axis.LEFT_RIGHT])
    assert 2.875 - 16 * math.tan(angle) - 0.875 / math.cos(angle) == pytest.approx(0.5, abs=1e-6)


@pytest.mark.parametrize(("left", "front", "ends"), [(1, 12, "level"), (13, 3, "square"), (14, 14, "level"), (8, 1, "square")])
def test_both_sides_land_where_they_are_wanted(lay: Callable[..., Trial], left: int, front: int, ends: str) -> None:
    found = foot(lay, f"left: {left}/8 inside left, front: {front}/8 inside front, ends: {ends}")
    assert found == pytest.approx((left / 8, front / 8), abs=1e-6)


def test_an_angle_and_a_place(lay: Callable[..., Trial]) -> None:
    trial = lay(SEAT.replace("front: 4 deg", "front: 1 inside front"))
    slopes = dict(trial.laid.boards["leg"].end_cuts[Face.BOTTOM].slopes)
    assert slopes[Axis.LEFT_RIGHT] == pytest.approx(6) and slopes[Axis.FRONT_BACK] > 2


SHELF = """\
frame: {width: 20, depth: 12, height: 10}
parts:
  side:
    {stock: board, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0, glue_up: {strips: 3}, mirror: left-right}
  rest:
    {stock: board, grain: left-right, face: top, between: side, back: 1, width: 8, bottom: 5 above bottom, glue_up: {strips: 2},
    lean: {end: front, down: 10 deg}}
"""


def test_a_shelf_leans_across_its_grain(lay: Callable[..., Trial]) -> None:
    """8 wide: its front goes 8 sin 10 down and ends 8 cos 10 before its back; no size changes."""
    rest = lay(SHELF).laid.boards["rest"]
    assert rest.pose and not rest.end_cuts
    assert rest.body.size(Axis.FRONT_BACK) / INCH == 8 and rest.body.size(Axis.LEFT_RIGHT) / INCH == 18.5
    angle, (x, _, z) = math.radians(10), rest.body.centre
    assert rest.pose.point((x, rest.body.y.high, z)) == pytest.approx((x, rest.body.y.high, z))
    front = rest.pose.point((x, rest.body.y.low, z))
    assert (rest.body.y.high - front[1]) / INCH == pytest.approx(8 * math.cos(angle))
    assert (z - front[2]) / INCH == pytest.approx(8 * math.sin(angle))


def test_the_top_of_a_leaning_shelf_at_a_depth_is_a_place(lay: Callable[..., Trial]) -> None:
    """7 before the edge that stays: its middle line is 5.375 - 7 tan 10 high, half a board more is 0.375 / cos 10."""
    other = "  fence: {stock: board, grain: left-right, face: front, between: side, front: 3, width: 1, bottom: AT}\n"
    fence = lay(SHELF + other.replace("AT", "rest.top at 4 inside front")).laid.boards["fence"]
    angle = math.radians(10)
    assert fence.body.z.low / INCH == pytest.approx(5.375 - 7 * math.tan(angle) + 0.375 / math.cos(angle), abs=1e-6)
    told = lay(SHELF + other.replace("AT", "rest.top")).one("place-leaning")
    assert told.hints == ("Write `rest.top at 6 inside front`.",)
