"""Tongue and groove: the wood beyond the edge is tongue or cut away, and the tongue fits its groove."""

from __future__ import annotations

import pytest
from boards_by_hand import BOTTOM_TOP, LEFT_RIGHT, board, box, inches, joined, mirrored, refused, site
from hypothesis import given
from hypothesis import strategies as st
from joined_pieces import told_of

from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.joints.base import Joined
from planbuild.records.features import Groove, Rabbet
from planbuild.records.piece import Copy

KIND = KINDS["tongue and groove"]
MIDDLE = board("middle", box(4, 8, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT)
LEFT = board("left_board", box(0, 4, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT)
RIGHT = board("right_board", box(8, 12, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT)


def groove(made: Joined, part: str) -> Groove:
    (found,) = made.features[part]
    assert isinstance(found, Groove) and found.what == "groove"
    return found


def rabbets(made: Joined, part: str) -> list[Rabbet]:
    return [each for each in made.features[part] if isinstance(each, Rabbet)]


def test_a_third_thick_and_as_long_on_each_edge_that_meets() -> None:
    made = joined(KIND, "boards", site(LEFT, MIDDLE, RIGHT), parts=("middle", "left_board", "right_board"))
    assert inches(groove(made, "left_board").void) == (3.71875, 4, 0.25, 0.5, 0, 20)
    assert inches(groove(made, "right_board").void) == (8, 8.28125, 0.25, 0.5, 0, 20)
    assert made.grows["middle"] == {Face.LEFT: pytest.approx(6.35), Face.RIGHT: pytest.approx(6.35)}
    assert [inches(each.void)[:4] for each in rabbets(made, "middle")][:2] == [(3.75, 4, 0, 0.25), (3.75, 4, 0.5, 0.75)]
    assert len(made.joint.defaults) == 3 and not made.joint.glue


def test_edges_close_and_cheeks_are_glued() -> None:
    made = joined(KIND, "boards", site(LEFT, MIDDLE), parts=("middle", "left_board"), glue="yes", depth="3/8")
    (contact,) = made.joint.contacts
    assert (contact.a, contact.b, contact.insert) == (("middle", 0), ("left_board", 0), (-1, 0, 0))
    assert inches(contact.shoulder) == (4, 4, 0, 0.75, 0, 20)
    assert contact.glue_area == pytest.approx(2 * 0.375 * 20 * 25.4**2)
    assert contact.cross_grain == 0


def test_a_mirrored_pair_takes_one_tongue_each() -> None:
    pair = (Copy("left", mirrored()), Copy("right", mirrored(LEFT_RIGHT, about=(12, 15, 17.5))))
    outer = board("outer", LEFT.body, BOTTOM_TOP, Face.FRONT, pair)
    made = joined(KIND, "boards", site(outer, MIDDLE), parts=("middle", "outer"))
    assert len(made.joint.contacts) == 2 and len(made.features["outer"]) == 1


@given(thick=st.integers(6, 40), share=st.integers(1, 8), depth=st.integers(1, 20))
def test_all_the_wood_beyond_the_edge_is_accounted_for(thick: int, share: int, depth: int) -> None:
    """In sixteenths: what the board gains, less its rabbets, is the tongue; it fills its groove but for the room at its tip."""
    a = board("middle", box(4, 8, 0, thick / 16, 0, 20), BOTTOM_TOP, Face.FRONT)
    b = board("left_board", box(0, 4, 0, thick / 16, 0, 20), BOTTOM_TOP, Face.FRONT)
    tongue = f"{thick * share}/{16 * 16}"
    made = joined(KIND, "boards", site(a, b), parts=("middle", "left_board"), thickness=tongue, depth=f"{depth}/16")
    gained = a.body.grown(Face.LEFT, made.grows["middle"][Face.LEFT]).volume - a.body.volume
    left = gained - sum(each.void.volume for each in rabbets(made, "middle"))
    void = groove(made, "left_board").void
    room = void.size(BOTTOM_TOP) * (thick * share / 256) * (1 / 32) * 25.4**2
    assert left == pytest.approx(void.volume - room)
    assert all(not each.void.meet(void).is_solid for each in rabbets(made, "middle"))


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        ({"thickness": "1/2"}, "joint-tongue-thick"),
        ({"depth": "2"}, "joint-tongue-long"),
        ({"parts": ("middle", "set_back")}, "joint-tongue-beside"),
        ({"parts": ("middle", "short")}, "joint-tongue-beside"),
        ({"parts": ("middle", "apart")}, "joint-no-mate"),
        ({"parts": ("middle",)}, "joint-no-mate"),
    ],
)
def test_what_has_no_tongue_is_refused(fields: dict[str, object], code: str) -> None:
    others = (
        board("set_back", box(8, 12, 0.5, 1.25, 0, 20), BOTTOM_TOP, Face.FRONT),
        board("short", box(0, 4, 0, 0.75, 0, 12), BOTTOM_TOP, Face.FRONT),
        board("apart", box(20, 24, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT),
    )
    wanted = {"parts": ("middle", "left_board"), **fields}
    names = [name for name in wanted["parts"] if name not in ("middle", "left_board")]  # type: ignore[attr-defined]
    about = [MIDDLE, *(each for each in others if each.id in names)] if names else [MIDDLE, LEFT]
    assert code in [each.code for each in refused(KIND, "boards", site(*about), **wanted)]


def test_a_gap_keeps_the_shoulders_back_and_the_tongue_long() -> None:
    sizes = {"thickness": "1/4", "depth": "3/8", "gap": "1/8"}
    made = joined(KIND, "boards", where := site(LEFT, MIDDLE), parts=("middle", "left_board"), **sizes)
    assert [inches(each.void)[:2] for each in rabbets(made, "middle")] == [(3.625, 4.125)] * 2
    assert inches(groove(made, "left_board").void)[0] == 4 - 3 / 8 - 1 / 32 - 1 / 8
    assert dict(made.joint.numbers)["tongue length"] == pytest.approx(0.5 * 25.4)
    assert not where.report.found and told_of(made, LEFT, MIDDLE) == []


def test_a_gap_as_small_as_nothing_is_told_and_a_wide_one_refused() -> None:
    joined(KIND, "boards", where := site(LEFT, MIDDLE), parts=("middle", "left_board"), gap="1/64")
    assert [each.code for each in where.report.found] == ["joint-gap-small"]
    (told,) = refused(KIND, "boards", site(LEFT, MIDDLE), parts=("middle", "left_board"), gap="1/4")
    assert told.code == "joint-tongue-gap"
