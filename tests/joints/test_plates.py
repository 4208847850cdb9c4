"""Figure-eight plates and clips: what they cut in rail and top, and whether the top can move on them."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from boards_by_hand import (
    HERE,
    INCH,
    LONG_RAIL,
    SEAT,
    SHORT_RAIL,
    HandWords,
    Site,
    but,
    inches,
    join,
    joined,
    refused,
    site,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_solids import solids_of, volume, whole

from planbuild.core.diagnostics import Refused
from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined
from planbuild.records.features import Groove, Hole
from planbuild.records.piece import Item

KIND = KINDS["plates"]


def thing(kind: str, **sizes: float) -> Item:
    fields = tuple((name, size * INCH) for name, size in sizes.items())
    return Item("plate", HERE, kind, "plate", (*fields, ("screws", "screw")))


EIGHT = thing("figure-eight plate", diameter=0.75, centres=0.625, thickness=0.125)
CLIP = thing("table clip", thickness=0.0625, slot=0.125, drop=0.5, reach=0.5)
SCREW = Item("screw", HERE, "wood screw", "screw", (("head", "flat"), ("gauge", "8"), ("length", 0.75 * INCH)))


class Words(HandWords):
    def __init__(self, boards: dict[str, Board], plate: Item) -> None:
        super().__init__(boards)
        self.plate = plate

    def item(self, said: Any, own: str = "") -> Item | None:
        return SCREW if said.text == "screw" else self.plate


def top_on(plate: Item, *boards: Board) -> Site:
    there = site(*boards)
    return replace(there, words=Words(dict(there.boards), plate))


def made_of(plate: Item, on: str, *boards: Board, **fields: str) -> Joined:
    return joined(KIND, "held", top_on(plate, *boards), top="seat", on=(on,), item="plate", **fields)


def holes(made: Joined, part: str) -> list[Hole]:
    return [each for each in made.features[part] if isinstance(each, Hole)]


def test_a_figure_eight_turns_in_a_recess_open_at_the_inside() -> None:
    """Short rail 1 thick from 2-1/4 to 3-1/4: the middle of a 3/4 disc lies 1/4 in, its neck swings past the edge."""
    made = made_of(EIGHT, "short_rail", SEAT, SHORT_RAIL, count="2")
    first = holes(made, "short_rail")[0]
    assert first.counterbore == (pytest.approx(0.75 * INCH), pytest.approx(0.125 * INCH))
    assert first.face is Face.TOP and first.open_at is Face.RIGHT and first.purpose == "plate"
    assert [round(each / INCH, 6) for each in first.centre] == [3.0, 5.0625, 16.5]
    assert first.depth == pytest.approx(0.75 * INCH), "flush plate: the screw ends as deep as it is long"
    pilot = holes(made, "seat")[0]
    assert [round(each / INCH, 6) for each in pilot.centre] == [3.625, 5.0625, 16.5] and pilot.face is Face.BOTTOM
    assert pilot.depth == pytest.approx(0.625 * INCH) and pilot.purpose == "pilot"
    assert made.joint.hardware == (("plate", 4), ("screw", 8)) and not made.joint.glue


def test_the_recess_takes_what_lies_in_the_rail_and_no_more() -> None:
    """The disc less the segment beyond the rail, by plane geometry; a closed recess is refused by the bench."""
    made = made_of(EIGHT, "short_rail", SEAT, SHORT_RAIL, count="2")
    solids = solids_of(SEAT, SHORT_RAIL, made=made)
    assert whole(solids, ("short_rail", 0)) and whole(solids, ("short_rail", 1))
    hole = holes(made, "short_rail")[0]
    radius, inside = 0.375, 0.25
    beyond = radius**2 * math.acos(inside / radius) - inside * math.sqrt(radius**2 - inside**2)
    pilot = math.pi * (hole.diameter / INCH / 2) ** 2
    taken = 2 * ((math.pi * radius**2 - beyond) * 0.125 + pilot * (0.75 - 0.125))
    assert volume(solids.placed["short_rail", 0].wrapped) / INCH**3 == pytest.approx(3 * 9.75 - taken, abs=1e-6)


def test_a_recess_that_says_nothing_of_its_open_side_is_still_refused() -> None:
    made = made_of(EIGHT, "short_rail", SEAT, SHORT_RAIL, count="2")
    closed = tuple(replace(each, open_at=None) if isinstance(each, Hole) else each for each in made.features["short_rail"])
    with pytest.raises(Refused):
        solids_of(SEAT, SHORT_RAIL, made=replace(made, features={**made.features, "short_rail": closed}))


def test_a_clip_stands_half_in_a_slot_along_the_rail() -> None:
    made = made_of(CLIP, "long_rail", SEAT, LONG_RAIL, count="3")
    (slot,) = made.features["long_rail"]
    assert isinstance(slot, Groove) and slot.face is Face.BACK
    assert inches(slot.void) == (3.75, 40.25, 1.625, 2.125, 15.875, 16)
    assert {round(each.centre[1] / INCH, 6) for each in holes(made, "seat")} == {2.625, 12.375}
    assert made.joint.hardware == (("plate", 6), ("screw", 6))
    assert dict(made.joint.numbers)["tongue in the slot"] == pytest.approx(INCH / 4)


@settings(max_examples=15)
@given(wide=st.integers(8, 60), reach=st.integers(2, 8))
def test_clips_hold_and_give_or_are_refused(wide: int, reach: int) -> None:
    """Eighths of reach, inches of width: what goes through can swell by half the tongue, and still holds when it has shrunk."""
    top = but(SEAT, body=replace(SEAT.body, y=type(SEAT.body.y)(0, wide * INCH)))
    rail = but(LONG_RAIL, copies=LONG_RAIL.copies[:1])
    far = but(rail, id="far_rail", body=replace(rail.body, y=type(rail.body.y)((wide - 2) * INCH, (wide - 1) * INCH)))
    clip = thing("table clip", thickness=0.0625, slot=0.125, drop=0.5, reach=reach / 8)
    where = top_on(clip, top, rail, far)
    made = join(KIND, "held", where, top="seat", on=("long_rail", "far_rail"), item="plate")
    apart = (wide - 2 - 0.5) - (2.125 + 0.5)
    swells, shrinks = apart * 0.00274 * 3, apart * 0.00274 * 2
    sound = swells <= reach / 16 + 1e-9 and shrinks + 0.125 <= reach / 16 + 1e-9
    assert (made is not None) is (sound and reach <= 4), where.report.found


@pytest.mark.parametrize(
    ("plate", "on", "fields", "code"),
    [
        (EIGHT, "long_rail", {}, "joint-cross-grain"),
        (thing("figure-eight plate", diameter=1.5, centres=1, thickness=0.125), "short_rail", {}, "joint-wall"),
        (thing("figure-eight plate", diameter=0.75, centres=0.02, thickness=0.125), "short_rail", {}, "joint-movement"),
        (thing("table clip", thickness=0.0625, slot=0.125, drop=2.8, reach=0.5), "short_rail", {}, "joint-wall"),
        (thing("table clip", thickness=0.0625, slot=0.125, drop=0.5, reach=0.125), "long_rail", {}, "joint-movement"),
        (thing("butt hinge"), "short_rail", {}, "joint-plate"),
        (EIGHT, "short_rail", {"glue": "yes"}, "joint-glue"),
        (CLIP, "short_rail", {"count": "500"}, "joint-spacing"),
        (EIGHT, "short_rail", {"count": "2", "spacing": "3"}, "joint-spacing"),
    ],
)
def test_what_holds_nothing_or_holds_fast_is_refused(plate: Item, on: str, fields: dict[str, str], code: str) -> None:
    rail = LONG_RAIL if on == "long_rail" else SHORT_RAIL
    told = refused(KIND, "held", top_on(plate, SEAT, rail), top="seat", on=(on,), item="plate", **fields)
    assert [each.code for each in told] == [code]


def test_a_plate_must_say_its_screws() -> None:
    bare = replace(EIGHT, fields=EIGHT.fields[:-1])
    told = refused(KIND, "held", top_on(bare, SEAT, SHORT_RAIL), top="seat", on=("short_rail",), item="plate")
    assert [each.code for each in told] == ["joint-plate"]
