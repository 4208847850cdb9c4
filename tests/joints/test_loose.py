"""Loose: contact that is meant to be no joint."""

from __future__ import annotations

from dataclasses import replace

from boards_by_hand import BENCH, SEAT, box, inches, joined, refused, site

from planbuild.joints import KINDS

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
