"""Buttons: the bench's, number by number; room for movement by the published formula; and each fault."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from boards_by_hand import (
    BENCH,
    FRONT_BACK,
    HERE,
    INCH,
    LEFT_RIGHT,
    LONG_RAIL,
    ONE,
    PAIR_FB,
    SEAT,
    STOCK,
    HandWords,
    board,
    box,
    inches,
    joined,
    refused,
    site,
)

from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.joints.base import Joined, Site
from planbuild.records.features import Groove, Hole, Rabbet
from planbuild.records.piece import Item

KIND = KINDS["buttons"]
SAID: dict[str, Any] = {"top": "seat", "on": ("long_rail", "short_rail"), "stock": "frame_ash", "screw": "top_screw"}


def bench() -> Joined:
    return joined(KIND, "seat", site(*BENCH), **SAID, spacing="at most 12")


def test_twelve_like_buttons_by_turning() -> None:
    """Four on each long rail (31-1/2 between the outer ones, three times 10-1/2), two on each short one."""
    (button,) = bench().makes
    assert (button.id, button.name, len(button.copies), button.made_by) == ("button", "button", 12, "seat")
    assert not any(copy.motion.mirrors for copy in button.copies)
    standing = [inches(copy.motion.box(button.body)) for copy in button.copies]
    assert standing[0] == (5.75, 6.75, 1.875, 3.625, 15.71875, 16.46875)
    assert standing[7] == (37.25, 38.25, 11.375, 13.125, 15.71875, 16.46875)
    assert standing[8] == (3, 4.75, 4.625, 5.625, 15.71875, 16.46875)
    assert standing[11] == (39.25, 41, 9.375, 10.375, 15.71875, 16.46875)


def test_tongue_presses_up_in_the_groove_and_draws_the_top_down() -> None:
    made = bench()
    (button,) = made.makes
    (tongue,) = (each for each in button.features if isinstance(each, Rabbet))
    (groove,) = made.features["long_rail"]
    assert isinstance(groove, Groove)
    assert tongue.edge == (Face.TOP, Face.FRONT)
    assert tongue.void.z.low == pytest.approx(groove.void.z.high)
    assert SEAT.body.z.low - button.body.z.high == pytest.approx(INCH / 32)
    assert inches(groove.void) == (3.75, 40.25, 1.75, 2.125, 15.6875, 15.9375)
    assert inches(tongue.void)[2:4] == (1.875, 2.25)


def test_grooves_are_on_the_inside_of_every_rail() -> None:
    made = bench()
    (long,), (short,) = made.features["long_rail"], made.features["short_rail"]
    assert isinstance(long, Groove) and isinstance(short, Groove)
    assert (long.id, long.face, short.face) == ("seat.groove", Face.BACK, Face.RIGHT)
    assert long.mate and short.mate
    assert (long.mate.copies, short.mate.copies) == (tuple(range(8)), (8, 9, 10, 11))


def test_holes_line_up() -> None:
    """#8 in white ash: pilot 3/32 (90 % of the root, hardwood), clearance 11/64 (published wood screw chart)."""
    made = bench()
    (button,) = made.makes
    (clear,) = (each for each in button.features if isinstance(each, Hole))
    pilots = [each for each in made.features["seat"] if isinstance(each, Hole)]
    assert {(round(hole.diameter / INCH, 5), round((hole.depth or 0) / INCH, 5)) for hole in pilots} == {(3 / 32, 0.75)}
    assert clear.diameter / INCH == pytest.approx(11 / 64) and clear.depth is None
    above = [tuple(round(c, 3) for c in copy.motion.point(clear.centre)[:2]) for copy in button.copies]
    assert above == [tuple(round(c, 3) for c in hole.centre[:2]) for hole in pilots]
    assert pilots[0].id == "seat.long_rail.front.1" and pilots[-1].id == "seat.short_rail.right.2"
    assert made.joint.hardware == (("top_screw", 12),)


def test_room_is_what_the_seat_moves() -> None:
    """Wood Handbook equation 13-2 and Table 13-5: white ash, flat sawn, 0.00274 a point, from 6 to 11 %.

    Outermost screws 9-1/8 apart: 9.125 x 0.00274 x 5 = 0.125 in over the year, 0.075 of it swelling.
    """
    sizes = dict(bench().joint.numbers)
    moves = sizes["the top moves between its outermost screws, dry to damp"]
    assert isinstance(moves, float) and moves / INCH == pytest.approx(9.125 * 0.00274 * 5)
    assert sizes["room before the shoulder and behind the tongue"] == pytest.approx(INCH / 8)


def wide(depth: float, thick: float = 1.5) -> Site:
    """A top `depth` in front to back on two long rails."""
    top = replace(SEAT, body=box(0, 44, 0, depth, 16.5, 17.5))
    mirror = replace(PAIR_FB[1], motion=replace(PAIR_FB[1].motion, shift=(0.0, depth * INCH, 0.0)))
    rail = replace(LONG_RAIL, body=box(3.75, 40.25, 1.125, 1.125 + thick, 13.5, 16.5), copies=(PAIR_FB[0], mirror))
    return site(top, rail)


def test_a_wide_top_gets_more_room() -> None:
    """Screws about 33 apart in a top of 40: swelling 33 x 0.00274 x 3 = 0.27 in, so more than 1/8."""
    made = joined(KIND, "seat", wide(40), **{**SAID, "on": ("long_rail",)})
    sizes = dict(made.joint.numbers)
    room = sizes["room before the shoulder and behind the tongue"]
    assert isinstance(room, float)
    swelling = float(sizes["the top moves between its outermost screws, dry to damp"]) * 3 / 5
    assert swelling < room < swelling + INCH / 32
    (groove,) = made.features["long_rail"]
    assert isinstance(groove, Groove) and groove.void.y.size == pytest.approx(float(sizes["tongue length"]))


@pytest.mark.parametrize(
    ("fields", "first", "apart"),
    [
        ({}, 2.5, 10.5),
        ({"spacing": "at most 9"}, 2.5, 31.5 / 4),
        ({"spacing": "9"}, (36.5 - 27) / 2, 9),
        ({"count": "3"}, 2.5, 15.75),
    ],
)
def test_spacing(fields: dict[str, Any], first: float, apart: float) -> None:
    """On a rail of 36-1/2, 2-1/2 from its ends."""
    sizes = dict(joined(KIND, "seat", site(SEAT, LONG_RAIL), **{**SAID, "on": ("long_rail",)}, **fields).joint.numbers)
    assert sizes["first button from the end, long rail"] == pytest.approx(first * INCH)
    assert sizes["buttons apart, long rail"] == pytest.approx(apart * INCH)


class OtherScrew(HandWords):
    """Words that know one other screw."""

    screw: Item

    def item(self, said: Any) -> Item | None:
        return self.screw


def with_screw(length: float, kind: str = "wood screw", gauge: float = 8.0) -> Site:
    where = site(*BENCH)
    words = OtherScrew(dict(where.boards))
    words.screw = Item("other", HERE, kind, "other", (("gauge", gauge), ("length", length * INCH)))
    return replace(where, words=words)


def test_a_screw_that_comes_out() -> None:
    (fault,) = refused(KIND, "seat", with_screw(2), **SAID)
    assert fault.code == "hardware-screw-long"
    assert fault.message == 'Screw 2 long through 3/4 leaves 1-1/4 in "seat" of 1: it comes out.'
    assert fault.hints == ("At most 1-5/8.",)


@pytest.mark.parametrize(
    ("code", "where", "fields"),
    [
        ("hardware-screw-long", with_screw(1.7), {}),
        ("hardware-screw-short", with_screw(0.75), {}),
        ("joint-screw", with_screw(1.5, kind="shelf pin"), {}),
        ("joint-screw-gauge", with_screw(1.5, gauge=9.0), {}),
        ("joint-no-mate", site(replace(SEAT, body=box(0, 44, 0, 15, 17, 18)), LONG_RAIL), {"on": ("long_rail",)}),
        ("joint-glue", site(*BENCH), {"glue": "yes"}),
        ("joint-spacing", site(*BENCH), {"count": "3", "spacing": "9"}),
        ("joint-spacing", site(*BENCH), {"spacing": "at most 0.0001"}),
        ("joint-spacing", site(*BENCH), {"spacing": "0.0001"}),
        ("joint-spacing", site(*BENCH), {"count": "900"}),
        ("joint-movement", wide(40, thick=1), {"on": ("long_rail",)}),
        ("joint-wall", site(SEAT, replace(LONG_RAIL, body=box(3.75, 40.25, 1.125, 2.125, 15.5, 16.5))), {"on": ("long_rail",)}),
        ("joint-no-inside", site(SEAT, board("bar", box(4, 40, 7, 8, 15, 16.5), LEFT_RIGHT, Face.FRONT)), {"on": ("bar",)}),
        ("joint-not-a-rail", site(*BENCH), {"on": ("leg",)}),
        ("joint-copies-differ", site(*BENCH), {"on": ("front long_rail", "short_rail")}),
    ],
)
def test_faults(code: str, where: Site, fields: dict[str, Any]) -> None:
    found = refused(KIND, "seat", where, **{**SAID, **fields})
    assert code in {each.code for each in found}, found
    assert all(each.span == HERE and (each.expected or each.hints) for each in found)


def test_how_crowded_buttons_are_told() -> None:
    (fault,) = refused(KIND, "seat", site(*BENCH), **{**SAID, "spacing": "0.0001"})
    assert fault.message == "Buttons are 1 wide; the middles of these would be less than 1/32 apart."


def test_more_buttons_than_anyone_makes() -> None:
    """Room for them all along six rails 33 ft long, and still no piece of furniture."""
    rails = [board(f"rail{n}", box(0, 390, n * 2, n * 2 + 1, 14, 17), LEFT_RIGHT, Face.FRONT) for n in range(1, 7)]
    top = replace(SEAT, body=box(0, 390, 0, 30, 17, 18))
    on = tuple(each.id for each in rails)
    (fault,) = refused(KIND, "seat", site(top, *rails), **{**SAID, "on": on, "spacing": "at most 2"})
    assert fault.code == "joint-spacing"
    assert fault.expected == "at most 200"


def test_the_face_of_a_rail_in_the_middle_may_be_said() -> None:
    bar = board("bar", box(4, 40, 7, 8, 15, 16.5), LEFT_RIGHT, Face.FRONT)
    made = joined(KIND, "seat", site(SEAT, bar), **{**SAID, "on": ("bar.back",)})
    (groove,) = made.features["bar"]
    assert isinstance(groove, Groove) and groove.face is Face.BACK


def test_a_softwood_top_gets_a_smaller_pilot() -> None:
    """#8: 5/64 in softwood (70 % of the root)."""
    pine = replace(SEAT, stock=replace(STOCK["top_ash"], species="eastern white pine"), copies=ONE)
    made = joined(KIND, "seat", site(pine, LONG_RAIL), **{**SAID, "on": ("long_rail",)})
    (hole, *_) = made.features["seat"]
    assert isinstance(hole, Hole) and hole.diameter / INCH == pytest.approx(5 / 64)
    assert pine.grain is not FRONT_BACK
