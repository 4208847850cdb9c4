"""Rotations by hand, blocks that meet, and what two outlines in one plane have in common."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbuild.core.geometry import Box, Face, Motion, Span1
from planbuild.core.poses import Pose, area, blocks_meet, common, corners, rim, same_way, standing

CUBE = Box(Span1(0, 2), Span1(0, 2), Span1(0, 2))
ROOT = math.sqrt(2)


def shifted(box: Box, by: float) -> Box:
    return Box(Span1(box.x.low + by, box.x.high + by), box.y, box.z)


def test_a_quarter_turn_about_the_vertical_takes_right_to_back() -> None:
    turned = Pose.turning((0, 0, 1), 90, (0, 0, 0))
    assert turned.direction((1, 0, 0)) == pytest.approx((0, 1, 0))
    assert turned.point((3, 1, 5)) == pytest.approx((-1, 3, 5))


def test_the_point_about_which_it_turns_stays() -> None:
    assert Pose.turning((1, 2, 3), 33, (4, 5, 6)).point((4, 5, 6)) == pytest.approx((4, 5, 6))


@given(st.integers(-90, 90), st.tuples(*[st.integers(-9, 9)] * 3).filter(any), st.tuples(*[st.integers(-50, 50)] * 3))
def test_the_way_back_undoes_it_and_lengths_stay(angle: int, way: tuple[int, int, int], point: tuple[int, int, int]) -> None:
    pose = Pose.turning(way, angle, (7, -3, 2))
    assert pose.inverse.point(pose.point(point)) == pytest.approx(point, abs=1e-9)
    assert pose.after(pose.inverse).point(point) == pytest.approx(point, abs=1e-9)
    assert math.hypot(*pose.direction(point)) == pytest.approx(math.hypot(*point))
    assert not pose.mirrors


def test_a_motion_of_a_copy_is_a_pose_too() -> None:
    motion = Motion((-1, 1, 1), (10.0, 20.0, 30.0), (1, 0, 2))
    pose = Pose.of(motion)
    assert pose.point((1, 2, 3)) == motion.point((1, 2, 3))
    assert pose.mirrors is motion.mirrors
    assert Pose.of(Motion((-1, 1, 1))).mirrors


def test_the_box_around_a_square_turned_by_half_a_right_angle() -> None:
    around = standing(CUBE, Pose.turning((0, 0, 1), 45, CUBE.centre), Motion())
    assert (around.x.low, around.x.high) == pytest.approx((1 - ROOT, 1 + ROOT))
    assert (around.z.low, around.z.high) == pytest.approx((0, 2))


def test_turned_cubes_meet_only_where_they_share_wood() -> None:
    """Corner to side: a cube turned by 45 degrees reaches half its diagonal, 1.414, from its middle; the other 1."""
    turned = Pose.turning((0, 0, 1), 45, CUBE.centre)
    assert blocks_meet(CUBE, turned, shifted(CUBE, ROOT + 1 - 0.05), Pose())
    assert not blocks_meet(CUBE, turned, shifted(CUBE, ROOT + 1 + 0.05), Pose())
    corner = Box(Span1(2.2, 4.2), Span1(2.2, 4.2), CUBE.z)  # inside the box around the turned cube, outside the cube
    assert standing(CUBE, turned, Motion()).meet(corner).is_solid
    assert not blocks_meet(CUBE, turned, corner, Pose())


def test_a_square_and_the_same_turned_have_an_octagon_in_common() -> None:
    """A square of side 2 and itself turned by 45 degrees: a regular octagon of incircle 1, area 8 (root 2 - 1)."""
    turned = Pose.turning((0, 0, 1), 45, CUBE.centre)
    top = rim(CUBE, Face.TOP)
    shared = common(top, [turned.point(p) for p in top], (0, 0, 1))
    assert len(shared) == 8
    assert area(shared) == pytest.approx(8 * (ROOT - 1))
    assert area(common(top, rim(shifted(CUBE, 3), Face.TOP), (0, 0, 1))) == 0


def test_the_rim_goes_round() -> None:
    for face in Face:
        assert area(rim(CUBE, face)) == pytest.approx(4)
        assert all(p[face.axis.value] == CUBE.at(face) for p in rim(CUBE, face))
    assert len(set(corners(CUBE))) == 8
    assert same_way((1, 0, 0), (1, 1e-9, 0)) and not same_way((1, 0, 0), (0, 1, 0))


@pytest.mark.parametrize("motion", [Motion(), Motion((-1, 1, 1), (3.0, 0.0, 2.0)), Motion((1, -1, 1), (0, 5, 1), (0, 2, 1))])
def test_a_pose_of_quarter_turns_is_a_motion_again(motion: Motion) -> None:
    assert Pose.of(motion).quarter_turned == motion


@pytest.mark.parametrize("angle", [1.0, 30.0, 45.0, 89.9])
def test_a_pose_at_any_other_angle_is_none(angle: float) -> None:
    assert Pose.turning((1, 0, 0), angle, (0, 1, 2)).quarter_turned is None
    assert Pose.turning((1, 0, 0), 2 * 45.0, (0, 1, 2)).quarter_turned is not None
