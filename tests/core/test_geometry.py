"""Motions of copies: what holds for every mirror, move and quarter turn."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbuild.core.geometry import QUARTER_TURNS, Axis, Box, Face, Motion, Span1, Vec, remainder

ORDERS = list(itertools.permutations((0, 1, 2)))
numbers = st.floats(-5000, 5000, allow_nan=False)
vectors = st.tuples(numbers, numbers, numbers)
signs = st.sampled_from((-1, 1))
motions = st.builds(Motion, st.tuples(signs, signs, signs), vectors, st.sampled_from(ORDERS))


@st.composite
def boxes(draw: st.DrawFn) -> Box:
    spans = []
    for _ in Axis:
        low, high = sorted((draw(numbers), draw(numbers)))
        spans.append(Span1(low, high))
    return Box(*spans)


def near(a: Vec, b: Vec) -> bool:
    return math.dist(a, b) < 1e-6


def corners(box: Box) -> set[Vec]:
    return set(itertools.product((box.x.low, box.x.high), (box.y.low, box.y.high), (box.z.low, box.z.high)))


@given(motions, vectors)
def test_inverse_brings_every_point_back(motion: Motion, p: Vec) -> None:
    assert near(motion.inverse.point(motion.point(p)), p)
    assert near(motion.point(motion.inverse.point(p)), p)


@given(motions, motions, vectors)
def test_after_is_one_motion_done_after_the_other(second: Motion, first: Motion, p: Vec) -> None:
    assert near(second.after(first).point(p), second.point(first.point(p)))


@given(motions, vectors, vectors)
def test_direction_is_the_difference_of_two_points(motion: Motion, p: Vec, q: Vec) -> None:
    moved = tuple(b - a for a, b in zip(motion.point(p), motion.point(q), strict=True))
    assert near(motion.direction((q[0] - p[0], q[1] - p[1], q[2] - p[2])), (moved[0], moved[1], moved[2]))


@given(motions)
def test_faces_and_axes_follow_their_normals(motion: Motion) -> None:
    for face in Face:
        assert motion.face(face).normal == motion.direction(face.normal)
        assert motion.face(face).axis is motion.axis(face.axis)
        assert motion.inverse.face(motion.face(face)) is face


@given(motions, boxes())
def test_a_box_holds_the_moved_corners(motion: Motion, box: Box) -> None:
    assert corners(motion.box(box)) == {motion.point(corner) for corner in corners(box)}
    assert motion.box(box).at(motion.face(Face.TOP)) == pytest.approx(
        motion.point((0.0, 0.0, box.z.high))[motion.axis(Axis.BOTTOM_TOP).value]
    )


@given(motions)
def test_other_hand_is_the_sign_of_the_triple_product(motion: Motion) -> None:
    a, b, c = (motion.direction(axis.high.normal) for axis in Axis)
    triple = (
        a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])
    )
    assert motion.mirrors is (triple < 0)


def test_quarter_turns_seen_from_above() -> None:
    front_right = (2.0, -1.0, 7.0)
    assert [turn.point(front_right)[:2] for turn in QUARTER_TURNS] == [(2, -1), (1, 2), (-2, 1), (-1, -2)]
    assert not any(turn.mirrors for turn in QUARTER_TURNS)
    assert QUARTER_TURNS[1].face(Face.FRONT) is Face.RIGHT


def test_mirror_of_a_frame_44_wide() -> None:
    mirror = Motion((-1, 1, 1), (44.0, 0.0, 0.0))
    assert mirror.mirrors
    assert mirror.box(Box(Span1(2, 3.75), Span1(0, 1), Span1(0, 1))).x == Span1(40.25, 42)
    assert mirror.face(Face.LEFT) is Face.RIGHT


@given(st.lists(st.integers(0, 12), min_size=12, max_size=12))
def test_what_is_left_of_a_box_and_what_is_taken_make_it_whole(places: list[int]) -> None:
    """Against the volume of the common block; no two of the boxes that are left share anything."""
    spans = [Span1(*sorted(pair)) for pair in zip(places[::2], places[1::2], strict=True)]
    whole, void = Box(*spans[:3]), Box(*spans[3:])
    left, taken = remainder(whole, void), whole.meet(void)
    common = taken.volume if taken.is_solid else 0.0
    assert sum(each.volume for each in left) == pytest.approx(whole.volume - common)
    assert not any(one.meet(other).is_solid for n, one in enumerate(left) for other in left[:n])
    assert not any(each.meet(void).is_solid for each in left)
