"""Cuts in standing copies brought back to the drawn one."""

from __future__ import annotations

from dataclasses import replace

import pytest
from boards_by_hand import BOTTOM_TOP, HERE, INCH, LEG, board, box, inches, site
from hypothesis import given
from hypothesis import strategies as st

from planbuild.core.geometry import QUARTER_TURNS, Axis, Face, Motion
from planbuild.joints.copies import Struck, boxes_coincide, carried, settled, telling
from planbuild.records.features import Hole, Mate, Mortise
from planbuild.records.piece import Copy

POST = board(
    "post", box(4, 6, 1, 3, 0, 10), BOTTOM_TOP, Face.FRONT, tuple(Copy(f"{n}", turn) for n, turn in enumerate(QUARTER_TURNS))
)
MORTISE = Mortise(
    "", HERE, "hold", "", Face.RIGHT, box(5, 6, 1.75, 2.25, 4, 7), Mate("rail", (0,)), True, 1.0, BOTTOM_TOP, 5 * INCH
)


def standing(copy: int, feature: Mortise = MORTISE) -> Struck:
    motion = POST.copies[copy].motion
    along = motion.face(feature.face).axis
    begin = motion.point((feature.flare_from or 0.0, 0.0, 0.0))[along.value]
    moved = replace(feature, face=motion.face(feature.face), void=motion.box(feature.void), flare_from=begin)
    return Struck(POST, copy, moved, ("rail",), ("rail", copy), HERE)


def test_posts_turned_round_a_middle_get_one_mortise() -> None:
    features = settled("hold", [standing(copy) for copy in range(4)], site(POST))
    (mortise,) = features["post"]
    assert isinstance(mortise, Mortise)
    assert (mortise.id, mortise.face, mortise.mate) == ("hold.rail", Face.RIGHT, Mate("rail", (0, 1, 2, 3)))
    assert inches(mortise.void) == (5, 6, 1.75, 2.25, 4, 7)
    assert mortise.flare_from == pytest.approx(5 * INCH) and mortise.flare_axis is BOTTOM_TOP


def test_a_copy_without_the_cut_is_reported() -> None:
    where = site(POST)
    settled("hold", [standing(copy) for copy in (0, 1, 3)], where)
    (fault,) = where.report.found
    assert fault.code == "joint-copies-differ"
    assert fault.message == 'The 0 "post" gets a mortise for "rail" that the 2 one does not get.'


def test_a_cut_that_lies_elsewhere_in_one_copy_is_reported() -> None:
    where = site(POST)
    higher = replace(MORTISE, void=box(5, 6, 1.75, 2.25, 4.5, 7.5))
    settled("hold", [*(standing(copy) for copy in (0, 1, 2)), standing(3, higher)], where)
    assert [each.code for each in where.report.found] == ["joint-copies-differ"] * 2


def test_holes_are_carried_by_their_middle() -> None:
    mirrored = LEG.copies[3].motion
    hole = Hole("", HERE, "seat", "", Face.TOP, mirrored.point((60.0, 40.0, 419.1)), 3.0, 10.0)
    where = site(LEG)
    features = settled("seat", [Struck(LEG, 3, hole, ("seat",), None, HERE)], where)
    (drawn,) = features["leg"]
    assert isinstance(drawn, Hole)
    assert drawn.centre == pytest.approx((60.0, 40.0, 419.1)) and drawn.face is Face.TOP


@pytest.mark.parametrize(
    ("words", "names"),
    [
        ([("slat", "first", "left")], ["slat"]),
        ([("slat", "first", "left"), ("slat", "2nd", "left")], ["slat.first", "slat.2nd"]),
        ([("bar", "", "left"), ("bar", "", "right")], ["bar.left", "bar.right"]),
        ([("rail", "back left"), ("rail", "back right"), ("slat", "first")], ["rail.back_left", "rail.back_right", "slat"]),
    ],
)
def test_names_tell_as_much_as_they_must(words: list[tuple[str, ...]], names: list[str]) -> None:
    assert telling(words) == names


FACES = st.sampled_from(list(Face))


@given(FACES, FACES, FACES, FACES)
def test_a_block_carried_into_a_new_pose(tip: Face, out: Face, new_tip: Face, new_out: Face) -> None:
    if tip.axis is out.axis or new_tip.axis is new_out.axis:
        return
    block = box(0, 1, 2, 4, 5, 9)
    place = Motion(shift=(100.0, -50.0, 7.0))
    sizes = {new_tip.axis: block.size(tip.axis), new_out.axis: block.size(out.axis)}
    (third,) = (axis for axis in Axis if axis not in sizes)
    (old_third,) = (axis for axis in Axis if axis not in (tip.axis, out.axis))
    sizes[third] = block.size(old_third)
    target = place.box(box(0, 1, 0, 1, 0, 1))
    for axis, size in sizes.items():
        span = target.along(axis)
        target = target.with_span(axis, replace(span, high=span.low + size))
    motion = carried(block, (tip, out), target, (new_tip, new_out))
    assert boxes_coincide(motion.box(block), target)
    assert (motion.face(tip), motion.face(out), motion.mirrors) == (new_tip, new_out, False)
