"""Rabbets: what the part grows by is what its mates lose, corners included."""

from __future__ import annotations

import pytest
from boards_by_hand import BOTTOM_TOP, LEFT_RIGHT, PAIR_LR, board, box, inches, joined, refused, site
from hypothesis import given
from hypothesis import strategies as st

from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.joints.base import Joined
from planbuild.records.features import Rabbet

KIND = KINDS["rabbet"]
SIDE = board("side", box(0, 0.75, 0, 8, 0, 16), BOTTOM_TOP, Face.LEFT)
FAR = board("far_side", box(23.25, 24, 0, 8, 0, 16), BOTTOM_TOP, Face.LEFT)
TOP = board("top", box(0.75, 23.25, 0, 8, 15.25, 16), LEFT_RIGHT, Face.TOP)
FLOOR = board("floor", box(0.75, 23.25, 0, 8, 0, 0.75), LEFT_RIGHT, Face.TOP)
BACK = board("back", box(0.75, 23.25, 7.5, 8, 0.75, 15.25), BOTTOM_TOP, Face.BACK)


def rabbets(made: Joined, part: str) -> list[Rabbet]:
    found = [each for each in made.features[part] if isinstance(each, Rabbet)]
    assert len(found) == len(made.features[part])
    return found


def test_a_top_stands_in_half_of_its_sides() -> None:
    made = joined(KIND, "corners", site(SIDE, FAR, TOP), part="top")
    (near,), (far,) = rabbets(made, "side"), rabbets(made, "far_side")
    assert (set(near.edge), inches(near.void)) == ({Face.RIGHT, Face.TOP}, (0.375, 0.75, 0, 8, 15.25, 16))
    assert (set(far.edge), inches(far.void)) == ({Face.LEFT, Face.TOP}, (23.25, 23.625, 0, 8, 15.25, 16))
    assert near.mate and near.mate.part == "top"
    assert made.grows["top"] == {Face.LEFT: pytest.approx(9.525), Face.RIGHT: pytest.approx(9.525)}
    assert any("half" in line for line in made.joint.defaults)


def test_it_goes_home_along_its_length_and_is_glued_on_the_wall() -> None:
    made = joined(KIND, "corners", site(SIDE, FAR, TOP), part="top.left", depth="1/2")
    (contact,) = made.joint.contacts
    assert (contact.insert, inches(contact.shoulder)) == ((-1, 0, 0), (0.25, 0.25, 0, 8, 15.25, 16))
    assert contact.glue_area == pytest.approx(0.5 * 8 * 25.4**2)


def test_a_back_all_round_comes_from_behind_and_shares_its_corners() -> None:
    made = joined(KIND, "back", site(SIDE, FAR, TOP, FLOOR, BACK), part="back", edges="all", depth="3/8")
    (side,), (top,) = rabbets(made, "side"), rabbets(made, "top")
    assert inches(side.void) == (0.375, 0.75, 7.5, 8, 0.375, 15.625)
    assert inches(top.void) == (0.75, 23.25, 7.5, 8, 15.25, 15.625)
    assert set(side.edge) == {Face.RIGHT, Face.BACK}
    assert {each.insert for each in made.joint.contacts} == {(0, -1, 0)}
    assert not made.joint.glue and all(each.glue_area == 0 for each in made.joint.contacts)
    assert {inches(each.shoulder)[2] for each in made.joint.contacts} == {7.5}


def test_mirrored_sides_share_one_rabbet() -> None:
    sides = board("side", box(0, 0.75, 0, 8, 0, 16), BOTTOM_TOP, Face.LEFT, PAIR_LR)
    wide = board("top", box(0.75, 43.25, 0, 8, 15.25, 16), LEFT_RIGHT, Face.TOP)
    made = joined(KIND, "corners", site(sides, wide), part="top")
    assert len(rabbets(made, "side")) == 1 and len(made.joint.contacts) == 2


@given(thick=st.integers(2, 20), depth=st.integers(1, 16), wall=st.integers(24, 40), tall=st.integers(20, 200))
def test_what_the_part_grows_by_is_what_its_mates_lose(thick: int, depth: int, wall: int, tall: int) -> None:
    """In sixteenths: a back in a case whose sides stand as high as its top and floor."""
    w, t, h = wall / 16, thick / 16, tall / 16
    parts = (
        board("side", box(0, w, 0, 8, 0, 2 * w + h), BOTTOM_TOP, Face.LEFT),
        board("far_side", box(w + 9, 2 * w + 9, 0, 8, 0, 2 * w + h), BOTTOM_TOP, Face.LEFT),
        board("top", box(w, w + 9, 0, 8, w + h, 2 * w + h), LEFT_RIGHT, Face.TOP),
        board("floor", box(w, w + 9, 0, 8, 0, w), LEFT_RIGHT, Face.TOP),
        board("back", box(w, w + 9, 8 - t, 8, w, w + h), BOTTOM_TOP, Face.BACK),
    )
    made = joined(KIND, "back", site(*parts), part="back", edges="all", depth=f"{depth}/16")
    grown = parts[-1].body
    for face, size in made.grows["back"].items():
        grown = grown.grown(face, size)
    lost = [each.void for part in parts[:-1] for each in rabbets(made, part.id)]
    assert sum(void.volume for void in lost) == pytest.approx(grown.volume - parts[-1].body.volume)
    for part in parts[:-1]:
        (cut,) = rabbets(made, part.id)
        assert all(cut.void.at(face) == pytest.approx(part.body.at(face)) for face in cut.edge)


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        ({"part": "top", "depth": "5/8"}, "joint-rabbet-depth"),
        ({"part": "shelf"}, "joint-rabbet-inside"),
        ({"part": "full"}, "joint-rabbet-inside"),
        ({"part": "top.top"}, "joint-not-an-end"),
    ],
)
def test_what_no_rabbet_can_hold_is_refused(fields: dict[str, object], code: str) -> None:
    shelf = board("shelf", box(0.75, 23.25, 0, 8, 7, 7.75), LEFT_RIGHT, Face.TOP)
    full = board("full", box(0.75, 23.25, 0, 8, 0, 16), LEFT_RIGHT, Face.FRONT)
    about = [SIDE, FAR, {"shelf": shelf, "full": full}.get(str(fields["part"]), TOP)]
    assert code in [each.code for each in refused(KIND, "corners", site(*about), **fields)]


def test_top_and_floor_are_said_in_one_joint() -> None:
    made = joined(KIND, "corners", site(SIDE, FAR, TOP, FLOOR), part=("top", "floor"), depth="3/8")
    assert {each.edge for each in rabbets(made, "side")} == {(Face.RIGHT, Face.TOP), (Face.RIGHT, Face.BOTTOM)}
    assert set(made.grows) == {"top", "floor"} and len(made.joint.contacts) == 4
