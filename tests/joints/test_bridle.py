"""Bridles: tongue and slot fill each other, and nothing of the two blanks is lost or there twice."""

from __future__ import annotations

import pytest
from boards_by_hand import BOTTOM_TOP, LEFT_RIGHT, PAIR_LR, board, box, inches, joined, refused, site
from hypothesis import given
from hypothesis import strategies as st

from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined
from planbuild.records.features import Groove

KIND = KINDS["bridle"]
RAIL = board("rail", box(0, 20, 0, 0.75, 10, 12), LEFT_RIGHT, Face.FRONT)
POST = board("post", box(0, 2, 0, 0.75, 0, 12), BOTTOM_TOP, Face.FRONT)


def cuts(made: Joined, part: str, what: str) -> list[Groove]:
    found = [each for each in made.features[part] if isinstance(each, Groove) and each.what == what]
    assert len(found) == len(made.features[part])
    return found


def test_a_corner_takes_a_third() -> None:
    made = joined(KIND, "corner", site(RAIL, POST), tenon="rail")
    (slot,), (near, far) = cuts(made, "post", "slot"), cuts(made, "rail", "lap")
    assert (slot.face, inches(slot.void)) == (Face.TOP, (0, 2, 0.25, 0.5, 10, 12))
    assert (near.face, inches(near.void)) == (Face.FRONT, (0, 2, 0, 0.25, 10, 12))
    assert (far.face, inches(far.void)) == (Face.BACK, (0, 2, 0.5, 0.75, 10, 12))
    (contact,) = made.joint.contacts
    assert (contact.a, contact.b, contact.insert) == (("rail", 0), ("post", 0), (0, 0, -1))
    assert inches(contact.shoulder) == (0, 2, 0.25, 0.5, 10, 10)
    assert contact.glue_area == pytest.approx(2 * 2 * 2 * 25.4**2) and contact.cross_grain == pytest.approx(2 * 25.4)


def test_a_rail_passes_through_a_forked_post_and_mirrored_posts_are_alike() -> None:
    middle = board("post", box(8, 10, 0, 0.75, 0, 12), BOTTOM_TOP, Face.FRONT, PAIR_LR)
    long = board("rail", box(0, 44, 0, 0.75, 10, 12), LEFT_RIGHT, Face.FRONT)
    made = joined(KIND, "fork", site(long, middle), tenon="rail", into="post", thickness="3/8")
    assert len(cuts(made, "post", "slot")) == 1 and len(cuts(made, "rail", "lap")) == 4
    assert made.joint.numbers[0] == ("tongue thickness", 9.525) and not made.joint.defaults


sides = st.integers(4, 40)


@given(thick=st.integers(4, 24), over=st.integers(0, 8), wide=sides, tall=sides, share=st.integers(1, 8))
def test_no_wood_is_lost_and_none_is_there_twice(thick: int, over: int, wide: int, tall: int, share: int) -> None:
    """In sixteenths; the rail may be thicker than the post and then loses more."""
    t, o = thick / 16, over / 16
    rail = board("rail", box(0, 20, -o, t + o, 10, 10 + tall / 16), LEFT_RIGHT, Face.FRONT)
    post = board("post", box(0, wide / 16, 0, t, 0, 10 + tall / 16), BOTTOM_TOP, Face.FRONT)
    made = joined(KIND, "corner", site(rail, post), tenon="rail", thickness=f"{thick * share}/256")
    (slot,), laps = cuts(made, "post", "slot"), cuts(made, "rail", "lap")
    shared = rail.body.meet(post.body)
    assert slot.void.volume + sum(each.void.meet(post.body).volume for each in laps) == pytest.approx(shared.volume)
    assert all(not each.void.meet(slot.void).is_solid for each in laps)
    assert all(each.void.at(each.face) == pytest.approx(rail.body.at(each.face)) for each in laps)
    assert slot.void.at(Face.TOP) == pytest.approx(post.body.at(Face.TOP))


@pytest.mark.parametrize(
    ("other", "fields", "code"),
    [
        (board("post", box(0, 2, 0.75, 1.5, 0, 12), BOTTOM_TOP, Face.FRONT), {}, "joint-wrong-family"),
        (board("post", box(0, 2, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT), {}, "joint-bridle-end"),
        (board("post", box(0, 30, 0, 0.75, 10, 12), LEFT_RIGHT, Face.FRONT), {}, "joint-bridle-end"),
        (board("post", box(0, 2, -0.5, 1.25, 0, 12), BOTTOM_TOP, Face.FRONT), {}, "joint-bridle-faces"),
        (POST, {"thickness": "1/2"}, "joint-bridle-thick"),
    ],
)
def test_what_is_no_bridle_is_refused(other: Board, fields: dict[str, str], code: str) -> None:
    assert [each.code for each in refused(KIND, "corner", site(RAIL, other), tenon="rail", **fields)] == [code]
