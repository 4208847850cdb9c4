"""Butt and edge joints cut nothing; glue counts where long grain lies on long grain."""

from __future__ import annotations

import pytest
from boards_by_hand import BOTTOM_TOP, LEFT_RIGHT, board, box, but, inches, join, joined, moved, refused, site
from hypothesis import given
from hypothesis import strategies as st

from planbuild.core.diagnostics import Severity
from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.joints.base import Board
from planbuild.records.piece import Copy

BUTT, EDGE = KINDS["butt"], KINDS["edge glue"]
BOARD = board("plank", box(0, 4, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT)
BESIDE = board("other", box(4, 9, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT)
SHELF = board("shelf", box(4, 14, 0, 0.75, 3, 6), LEFT_RIGHT, Face.FRONT)


def test_edges_along_the_grain_hold_over_all_they_touch() -> None:
    made = joined(EDGE, "panel", site(BOARD, BESIDE), parts=("plank", "other"))
    (contact,) = made.joint.contacts
    assert (contact.a, contact.b, contact.insert) == (("plank", 0), ("other", 0), (1, 0, 0))
    assert inches(contact.shoulder) == (4, 4, 0, 0.75, 0, 20)
    assert (contact.glue_area, contact.cross_grain) == (pytest.approx(0.75 * 20 * 25.4**2), 0.0)
    assert contact.face_glued and not made.features and not made.grows


@given(count=st.integers(2, 12), tall=st.integers(8, 400))
def test_strips_in_a_row_are_glued_once_between_any_two(count: int, tall: int) -> None:
    """Copies of one part, in sixteenths: all joints together are as wide as the panel has seams."""
    copies = tuple(Copy(str(n), moved(x=2 * n)) for n in range(count))
    strips = board("strip", box(0, 2, 0, 0.75, 0, tall / 16), BOTTOM_TOP, Face.FRONT, copies)
    made = joined(EDGE, "panel", site(strips), parts=("strip",))
    area = sum(each.glue_area for each in made.joint.contacts)
    assert len(made.joint.contacts) == count - 1
    assert area == pytest.approx((count - 1) * 0.75 * tall / 16 * 25.4**2)


def test_an_end_set_against_a_board_is_told_not_to_hold() -> None:
    where = site(BOARD, SHELF)
    made = join(BUTT, "corner", where, part="shelf", to=("plank",))
    assert made and [each.glue_area for each in made.joint.contacts] == [0.0]
    (told,) = where.report.found
    assert (told.code, told.severity) == ("joint-end-grain", Severity.WARNING)
    dry = site(BOARD, SHELF)
    assert join(BUTT, "corner", dry, part="shelf", to=("plank",), glue="no") and not dry.report.found


def test_a_face_set_against_an_edge_holds() -> None:
    cleat = board("cleat", box(1, 3, 0.75, 1.5, 2, 12), BOTTOM_TOP, Face.FRONT)
    where = site(BOARD, cleat)
    made = join(BUTT, "cleats", where, part="cleat", to=("plank",))
    assert made and not where.report.found
    assert made.joint.contacts[0].glue_area == pytest.approx(2 * 10 * 25.4**2)


@pytest.mark.parametrize(
    ("other", "code"),
    [
        (but(SHELF, id="other"), "joint-end-grain"),
        (but(BESIDE, body=box(5, 9, 0, 0.75, 0, 20)), "joint-no-mate"),
        (board("other", box(0, 4, 0.75, 1.5, 2, 5), LEFT_RIGHT, Face.FRONT), "joint-grain-crosses"),
    ],
)
def test_what_is_no_edge_joint_is_refused(other: Board, code: str) -> None:
    where = site(BOARD, other)
    assert [each.code for each in refused(EDGE, "panel", where, parts=("plank", "other"))] == [code]


def test_parts_that_do_not_touch_have_no_butt_joint() -> None:
    away = but(BESIDE, body=box(6, 9, 0, 0.75, 0, 20))
    (told,) = refused(BUTT, "corner", site(BOARD, away), part="other", to=("plank",))
    assert told.code == "joint-no-mate" and "2" in told.message


def test_several_parts_set_against_several_each_meet_one() -> None:
    cleat = board("cleat", box(1, 3, 0.75, 1.5, 2, 12), BOTTOM_TOP, Face.FRONT)
    far = board("far_cleat", box(5, 7, 0.75, 1.5, 2, 12), BOTTOM_TOP, Face.FRONT)
    made = joined(BUTT, "cleats", site(BOARD, BESIDE, cleat, far), part=("cleat", "far_cleat"), to=("plank", "other"))
    assert {(each.a[0], each.b[0]) for each in made.joint.contacts} == {("cleat", "plank"), ("far_cleat", "other")}
    idle = board("idle", box(20, 22, 5, 6, 2, 12), BOTTOM_TOP, Face.FRONT)
    (told,) = refused(BUTT, "cleats", site(BOARD, BESIDE, cleat, idle), part=("cleat", "idle"), to=("plank",))
    assert told.code == "joint-no-mate" and '"idle"' in told.message


def test_dowels_of_a_butt_and_of_edges() -> None:
    """Common practice: dowels between a third and a half of the thickness."""
    left, right = (board(id, box(x, x + 4, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT) for id, x in (("one", 0), ("two", 4)))
    fields = {"diameter": "3/8", "count": "4"}
    made = joined(KINDS["edge glue"], "panel", site(left, right), parts=("one", "two"), dowels=dict(fields))
    assert [len(made.features[id]) for id in ("one", "two")] == [4, 4] and made.joint.glue
    assert made.joint.hardware == (("dowel_pin", 4),)
    rail = board("rail", box(4, 16, 0, 0.75, 0, 4), LEFT_RIGHT, Face.FRONT)
    met = joined(KINDS["butt"], "corner", site(left, rail), part="rail.left", to="one", dowels=dict(fields, count="2"))
    assert [len(met.features[id]) for id in ("one", "rail")] == [2, 2]


def test_a_tongue_on_a_glued_edge() -> None:
    left, right = (board(id, box(x, x + 4, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT) for id, x in (("one", 0), ("two", 4)))
    made = joined(KINDS["edge glue"], "panel", site(left, right), parts=("one", "two"), tongue="third")
    assert made.joint.glue and made.grows["one"] == {Face.RIGHT: pytest.approx(6.35)}
