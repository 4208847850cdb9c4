"""Half laps: both halves together are what the two blanks hold, and each is open to its own side."""

from __future__ import annotations

import pytest
from boards_by_hand import BOTTOM_TOP, FRONT_BACK, LEFT_RIGHT, board, box, inches, joined, moved, refused, site
from hypothesis import given
from hypothesis import strategies as st

from planbuild.core.geometry import Box, Face
from planbuild.joints import KINDS
from planbuild.joints.base import Family, Joined
from planbuild.records.features import Groove
from planbuild.records.piece import Copy

KIND = KINDS["half lap"]
RAIL = board("rail", box(0, 20, 0, 0.75, 4, 6), LEFT_RIGHT, Face.FRONT)
POST = board("post", box(8, 10, 0, 0.75, 0, 12), BOTTOM_TOP, Face.FRONT)


def cut_from(made: Joined, part: str) -> list[Groove]:
    found = [each for each in made.features[part] if isinstance(each, Groove)]
    assert len(found) == len(made.features[part])
    return found


def test_a_cross_takes_half_from_each() -> None:
    made = joined(KIND, "cross", site(RAIL, POST), parts=("rail", "post"))
    (rail,), (post,) = cut_from(made, "rail"), cut_from(made, "post")
    assert (rail.face, inches(rail.void)) == (Face.BACK, (8, 10, 0.375, 0.75, 4, 6))
    assert (post.face, inches(post.void)) == (Face.FRONT, (8, 10, 0, 0.375, 4, 6))
    assert {rail.what, post.what} == {"lap"} and KIND.family is Family.SHARING
    (contact,) = made.joint.contacts
    assert (contact.a, contact.b, contact.insert) == (("rail", 0), ("post", 0), (0, 1, 0))
    assert inches(contact.shoulder) == (8, 10, 0.375, 0.375, 4, 6)
    assert contact.glue_area == pytest.approx(2 * 2 * 25.4**2)
    assert contact.cross_grain == pytest.approx(2 * 25.4)


def test_who_is_seen_whole_and_how_deep_can_be_said() -> None:
    made = joined(KIND, "cross", site(RAIL, POST), parts=("rail", "post"), front="post", depth="1/4")
    assert inches(cut_from(made, "post")[0].void) == (8, 10, 0.25 + 0.25, 0.75, 4, 6)
    assert inches(cut_from(made, "rail")[0].void) == (8, 10, 0, 0.5, 4, 6)
    assert made.joint.numbers == (("cut from post", 6.35), ("cut from rail", 12.7))


def test_a_corner_and_a_tee_reach_the_end() -> None:
    corner = board("post", box(0, 2, 0, 0.75, 4, 12), BOTTOM_TOP, Face.FRONT)
    made = joined(KIND, "corner", site(RAIL, corner), parts=("rail", "post"))
    assert inches(cut_from(made, "rail")[0].void) == (0, 2, 0.375, 0.75, 4, 6)
    assert inches(cut_from(made, "post")[0].void) == (0, 2, 0, 0.375, 4, 6)


def test_a_lattice_is_every_crossing() -> None:
    three = tuple(Copy(hand, moved(z=3 * n)) for n, hand in enumerate(("first", "2nd", "last")))
    two = tuple(Copy(hand, moved(x=5 * n)) for n, hand in enumerate(("first", "last")))
    bars = board("bar", box(0, 20, 0, 0.5, 1, 1.5), LEFT_RIGHT, Face.FRONT, three)
    uprights = board("upright", box(4, 4.5, 0, 0.5, 0, 9), BOTTOM_TOP, Face.FRONT, two)
    made = joined(KIND, "lattice", site(bars, uprights), parts=("bar", "upright"))
    assert len(made.joint.contacts) == 6
    assert [each.id for each in made.features["bar"]] == ["lattice.upright.first", "lattice.upright.last"]
    assert [each.id for each in made.features["upright"]] == ["lattice.bar.first", "lattice.bar.2nd", "lattice.bar.last"]


thicknesses = st.integers(2, 16)


@given(thick=thicknesses, thicker=thicknesses, wide=st.integers(4, 32), tall=st.integers(4, 32), share=st.integers(1, 7))
def test_no_wood_is_lost_and_none_is_there_twice(thick: int, thicker: int, wide: int, tall: int, share: int) -> None:
    """In sixteenths of an inch.  The two voids fill what the bodies share and lie side by side in it."""
    a = board("rail", box(0, 20, 0, thick / 16, 4, 4 + wide / 16), LEFT_RIGHT, Face.FRONT)
    b = board("post", box(8, 8 + tall / 16, 0, thicker / 16, 0, 12), BOTTOM_TOP, Face.FRONT)
    shared = a.body.meet(b.body)
    depth = f"{min(thick, thicker) * share}/{16 * 8}"
    front, back = ("rail", "post") if thick <= thicker else ("post", "rail")
    made = joined(KIND, "cross", site(a, b), parts=(front, back), depth=depth)
    voids: list[Box] = [cut_from(made, part)[0].void for part in ("rail", "post")]
    assert sum(void.volume for void in voids) == pytest.approx(shared.volume)
    assert not voids[0].meet(voids[1]).is_solid
    for part, void in zip((a, b), voids, strict=True):
        face = cut_from(made, part.id)[0].face
        assert void.at(face) == pytest.approx(part.body.at(face))


def test_what_is_no_half_lap_is_refused() -> None:
    beside = board("post", box(8, 10, 0.75, 1.5, 0, 12), BOTTOM_TOP, Face.FRONT)
    along = board("post", box(8, 30, 0, 0.75, 4, 6), LEFT_RIGHT, Face.FRONT)
    within = board("post", box(8, 10, 0.25, 0.5, 0, 12), BOTTOM_TOP, Face.FRONT)
    depths = board("post", box(8, 10, -1, 3, 5, 5.5), FRONT_BACK, Face.TOP)
    for other, code in ((beside, "joint-wrong-family"), (along, "joint-lap-along"), (within, "joint-lap-inside")):
        assert [each.code for each in refused(KIND, "lap", site(RAIL, other), parts=("rail", "post"))] == [code]
    deep = refused(KIND, "lap", site(RAIL, POST), parts=("rail", "post"), depth="3/4")
    assert [each.code for each in deep] == ["joint-lap-depth"]
    assert [each.code for each in refused(KIND, "lap", site(RAIL, depths), parts=("rail", "post"))] == ["joint-lap-inside"]
