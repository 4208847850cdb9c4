"""Loose: contact that is meant to be no joint."""

from __future__ import annotations

from dataclasses import replace

from boards_by_hand import BENCH, BOTTOM_TOP, FRONT_BACK, HERE, SEAT, board, box, inches, joined, refused, site

from planbuild.core.geometry import Face
from planbuild.core.outlines import Corner
from planbuild.joints import KINDS
from planbuild.joints.touching import pairs_that_touch
from planbuild.records.features import Rabbet
from planbuild.records.shaped import Sawn

KIND = KINDS["loose"]


def test_seat_on_four_legs() -> None:
    made = joined(KIND, "seat_on_legs", site(*BENCH), part=("seat",), on=("leg",))
    assert [each.b for each in made.joint.contacts] == [("leg", n) for n in range(4)]
    assert inches(made.joint.contacts[0].shoulder) == (2, 3.75, 0.875, 2.625, 16.5, 16.5)
    assert (made.joint.glue, made.joint.fit, dict(made.features)) == (False, "loose", {})
    assert made.joint.contacts[0].insert == (0, 0, -1)


def test_only_the_copies_that_are_named() -> None:
    made = joined(KIND, "rest", site(*BENCH), part=("seat",), on=("back leg",))
    assert [each.b for each in made.joint.contacts] == [("leg", 2), ("leg", 3)]


def test_each_of_several_touches_one_on_the_other_side() -> None:
    made = joined(KIND, "rest", site(*BENCH), part=("seat", "slat"), on=("leg", "lower_rail", "long_rail"))
    assert {(each.a[0], each.b[0]) for each in made.joint.contacts} == {
        ("seat", "leg"), ("seat", "long_rail"), ("slat", "lower_rail"),
    }  # fmt: skip


def test_one_of_several_that_touches_nothing_is_told() -> None:
    found = refused(KIND, "rest", site(*BENCH), part=("seat", "slat"), on=("leg", "long_rail"))
    assert [each.message.split(" do not")[0] for each in found] == ['"slat" and "leg"']


def test_parts_apart_are_refused_with_their_distance() -> None:
    lifted = replace(SEAT, body=box(0, 44, 0, 15, 16.75, 17.75))
    boards = (lifted, *BENCH[1:])
    (fault,) = refused(KIND, "seat_on_legs", site(*boards), part=("seat",), on=("leg",))
    assert fault.code == "joint-no-mate"
    assert fault.message == '"seat" and "leg" do not touch: they are 1/4 apart.'


LEDGE = Rabbet("ledge", HERE, "", "", (Face.RIGHT, Face.TOP), box(1, 2, 0, 10, 1, 2))
RUNNER = board("runner", box(0, 2, 0, 10, 0, 2), FRONT_BACK, Face.TOP, shapes=(LEDGE,))


def test_a_part_rests_on_the_ledge_that_a_rabbet_leaves() -> None:
    tray = board("tray", box(1.25, 8, 0, 9, 1, 4), FRONT_BACK, Face.TOP)
    for part, on in (("tray", "runner"), ("runner", "tray")):
        made = joined(KIND, "runs", site(RUNNER, tray), part=part, on=on)
        assert inches(made.joint.contacts[0].shoulder) == (1.25, 2, 0, 9, 1, 1)


def test_a_post_in_a_notch_does_not_touch_the_steps_around_it() -> None:
    """The notch is wider than the post; what a step leaves beside it is not met inside the notch."""
    corners = tuple(Corner((x * 25.4, y * 25.4)) for x, y in ((0, 8), (1.25, 8), (1.25, 10), (0, 10)))
    notch = Sawn("notch", HERE, "", "", Face.TOP, corners, "notch")
    notched = replace(RUNNER, shapes=(LEDGE, notch))
    post = board("post", box(-0.5, 1, 8.25, 12, 0, 20), BOTTOM_TOP, Face.FRONT)
    assert list(pairs_that_touch((notched, post))) == []
