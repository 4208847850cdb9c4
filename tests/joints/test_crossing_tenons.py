"""Tenons that cross in a post: the one named goes right through, the other stops at its cheek."""

from __future__ import annotations

import pytest
from boards_by_hand import BOTTOM_TOP, FRONT_BACK, INCH, LEFT_RIGHT, board, box, joined, refused, site
from joined_pieces import cut_and_proved, told_of

from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.joints.base import Joined
from planbuild.records.features import Tenon

KIND = KINDS["mortise and tenon"]
RAIL = board("rail", box(2, 20, 0.5, 1.5, 6, 9), LEFT_RIGHT, Face.FRONT)
SIDE = board("side", box(0.5, 1.5, 2, 20, 6, 9), FRONT_BACK, Face.LEFT)
POST = board("post", box(0, 2, 0, 2, 0, 12), BOTTOM_TOP, Face.FRONT)
BOARDS = (RAIL, SIDE, POST)
TENONS = ("rail.left", "side.front")


def tenon_of(made: Joined, part: str) -> Tenon:
    (found,) = (each for each in made.features[part] if isinstance(each, Tenon))
    return found


def crossing(through: str, **more: str) -> Joined:
    return joined(KIND, "crossed", site(*BOARDS), tenon=TENONS, meeting={"how": "crossing", "through": through}, **more)


@pytest.mark.parametrize(("whole", "stops"), [("rail", "side"), ("side", "rail")])
def test_one_goes_through_and_the_other_stops_at_its_cheek(whole: str, stops: str) -> None:
    """Tenons 3/8 thick in the middle of a post of 2: the near cheek lies 13/16 in; 1/32 is left before it."""
    made = crossing(whole, proud="1/8")
    passes, short = tenon_of(made, whole), tenon_of(made, stops)
    assert passes.through and passes.block.size(passes.end.axis) == pytest.approx(2.125 * INCH)
    assert not short.through and short.block.size(short.end.axis) == pytest.approx((13 / 16 - 1 / 32) * INCH)
    _, solids, _ = cut_and_proved(made, *BOARDS)
    rail, side = solids.placed["rail", 0], solids.placed["side", 0]
    assert rail.intersect(side).Volume() == pytest.approx(0, abs=1e-6)
    assert rail.distance(side) == pytest.approx(INCH / 32, abs=1e-3)
    assert told_of(made, *BOARDS) == []


def test_a_length_is_that_of_the_one_that_stops() -> None:
    made = crossing("rail", length="5/8")
    assert tenon_of(made, "side").block.size(FRONT_BACK) == pytest.approx(INCH * 5 / 8)
    assert tenon_of(made, "rail").through


def test_it_must_be_said_which() -> None:
    found = refused(KIND, "crossed", site(*BOARDS), tenon=TENONS, meeting="crossing")
    assert [each.code for each in found] == ["joint-meeting"] and "whose goes right through" in found[0].message


def test_two_through_tenons_cannot_cross() -> None:
    found = refused(KIND, "crossed", site(*BOARDS), tenon=TENONS, through="yes")
    assert [each.code for each in found] == ["joint-collision"]
