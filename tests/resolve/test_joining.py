"""All joints of a design: what only shows when they are seen together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest
from boards_by_hand import (
    BENCH,
    BOTTOM_TOP,
    HERE,
    INCH,
    LEFT_RIGHT,
    LEG,
    LONG_RAIL,
    LOWER_RAIL,
    PAIR_LR,
    SEAT,
    SHORT_RAIL,
    SLAT,
    board,
    box,
    fields,
    inches,
    listed,
    said,
    site,
)

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.joints.base import Board
from planbuild.records.design import Design, JointSaid
from planbuild.records.features import Rabbet
from planbuild.resolve.joining import Joinery, join_all
from planbuild.resolve.turned import Turns

RAILS = {
    "kind": "mortise and tenon",
    "tenon": ("long_rail", "short_rail"),
    "thickness": "3/8",
    "length": "1-1/8",
    "width": "2-1/4",
}
WEDGED = {"kind": "mortise and tenon", "tenon": ("lower_rail",), "through": "yes", "proud": "1/8"}
SLATS = {"kind": "mortise and tenon", "tenon": ("slat",), "length": "3/8", "glue": "no"}
SEAT_ON = {"kind": "buttons", "top": "seat", "on": ("long_rail", "short_rail"), "stock": "frame_ash", "screw": "top_screw"}
LEGS = {"kind": "loose", "part": "seat", "on": "leg"}
WHOLE: dict[str, Any] = {"rails": RAILS, "wedged_rails": WEDGED, "slats": SLATS, "seat": SEAT_ON, "seat_on_legs": LEGS}


def joint(written: Mapping[str, Any]) -> JointSaid:
    kind = KINDS.get(written["kind"])
    filled: dict[str, Any] = {"origin": HERE, **fields(dict(written))}
    if "wedges" in filled:
        filled["wedges"] = {"origin": HERE, **filled["wedges"]}
    return kind.said(**listed(kind, filled)) if kind else JointSaid(origin=HERE, kind=said(written["kind"]))


def join(boards: tuple[Board, ...], joints: dict[str, Any], parts: int | None = None) -> tuple[Joinery, list[Diagnostic]]:
    where = site(*boards)
    listed = {str(n): None for n in range(len(boards) if parts is None else parts)}
    design = Design.model_construct(parts=listed, joints={id: joint(written) for id, written in joints.items()})
    return join_all(design, where, where, Turns()), where.report.found


def test_the_whole_bench() -> None:
    joinery, found = join(BENCH, WHOLE)
    assert found == []
    assert [each.id for each in joinery.joints] == list(WHOLE)
    assert [each.id for each in joinery.makes] == ["button"]
    assert [each.id for each in joinery.features["lower_rail"]] == [
        "wedged_rails.front", "wedged_rails.back", *(f"slats.slat.{hand}" for hand in ("first", "2nd", "3rd", "4th", "last"))
    ]  # fmt: skip
    assert [each.id for each in joinery.features["leg"]] == ["rails.long_rail", "rails.short_rail", "wedged_rails.lower_rail"]
    assert [each.id for each in joinery.features["long_rail"]] == ["rails.left", "rails.right", "seat.groove"]


def test_features_are_named_once_in_each_part() -> None:
    joinery, _ = join(BENCH, WHOLE)
    for cut in joinery.features.values():
        assert len({each.id for each in cut}) == len(cut)


def test_a_touch_without_a_joint() -> None:
    _, found = join(BENCH, {id: said for id, said in WHOLE.items() if id != "seat_on_legs"})
    (fault,) = found
    assert fault.code == "joint-missing"
    assert fault.message == '"seat" touches "leg" (4 places) and no joint says so.'
    assert fault.span == SEAT.origin


def test_a_joint_at_fault_does_not_make_its_parts_untold() -> None:
    """The fault of the joint is told, not that its parts touch without one."""
    _, found = join(BENCH, {**WHOLE, "slats": {**SLATS, "length": "2"}})
    assert {each.code for each in found} == {"joint-wall"}


def test_a_part_at_fault_hides_what_only_follows_from_it() -> None:
    """The leg could not be placed: nothing is said of ends that meet nothing, but a bad number is."""
    without = (SEAT, LONG_RAIL, SHORT_RAIL, LOWER_RAIL, SLAT)
    _, found = join(without, {"rails": RAILS, "slats": {**SLATS, "length": "2"}}, parts=6)
    assert {each.code for each in found} == {"joint-wall"}


def test_an_unknown_kind() -> None:
    _, found = join((SEAT,), {"hold": {"kind": "mortice and tenon"}})
    (fault,) = found
    assert fault.code == "joint-unknown-kind"
    assert fault.hints == ('Did you mean "mortise and tenon"?',)


def test_mortises_of_two_joints_that_cross() -> None:
    joints = {"long": {**RAILS, "tenon": ("long_rail",)}, "short": {**RAILS, "tenon": ("short_rail",)}}
    _, found = join((LEG, LONG_RAIL, SHORT_RAIL), joints)
    (fault,) = found
    assert fault.code == "joint-collision"
    assert fault.message == 'The mortises of "long_rail" and "short_rail" cross inside "leg" (3/8 x 3/8 x 2-1/4).'


def test_two_joints_with_wedges_make_two_parts() -> None:
    """Each has wedges of its own, under a name of its own."""
    post = board("post", box(0, 2, 0, 2, 0, 20), BOTTOM_TOP, Face.FRONT)
    low = board("low_bar", box(2, 12, 0.5, 1.5, 2, 4), LEFT_RIGHT, Face.FRONT)
    high = replace(low, id="high_bar", body=box(2, 12, 0.5, 1.5, 10, 12))
    wedges = {"stock": "walnut"}
    joints = {
        bar: {"kind": "mortise and tenon", "tenon": (f"{bar}.left",), "through": "yes", "wedges": wedges}
        for bar in ("low_bar", "high_bar")
    }
    joinery, found = join((post, low, high), joints)
    assert found == []
    assert [(each.id, each.made_by) for each in joinery.makes] == [("wedge", "low_bar"), ("high_bar_wedge", "high_bar")]


def test_each_contact_of_the_bench_lies_where_two_bodies_touch() -> None:
    joinery, _ = join(BENCH, WHOLE)
    boards = {each.id: each for each in BENCH}
    for made in joinery.joints:
        for contact in made.contacts:
            if contact.a[0] in boards:
                (one, copy), (other, at) = contact.a, contact.b
                common = boards[one].standing(copy).meet(boards[other].standing(at))
                assert min(common.x.size, common.y.size, common.z.size) < 1e-6 * INCH
                assert contact.shoulder == common or contact.shoulder.join(common) == common


def test_the_same_tenons_in_many_joints_come_to_an_end(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each two of them cross; what is told is bounded, and so is what is joined."""
    monkeypatch.setattr("planbuild.resolve.joining.MOST_CROSSINGS", 3)
    monkeypatch.setattr("planbuild.resolve.many.MOST_PLACES", 60)
    _, found = join(BENCH, {f"slats{n}": SLATS for n in range(30)})
    codes = [each.code for each in found]
    assert codes.count("joint-collision") == 3
    (large,) = (each for each in found if each.code == "piece-large")
    assert large.message == 'The joints join 70 places, 10 of them for "slats0".'


# ---------------------------------------------------------------- what grows takes its channels along


def test_a_rabbet_goes_on_through_what_the_part_gains() -> None:
    """The floor's ends go into the sides, and with them the rabbet in which the back stands."""
    sides = board("side", box(0, 0.75, 0, 8, 0, 16), BOTTOM_TOP, Face.LEFT, PAIR_LR)
    floor = board("floor", box(0.75, 43.25, 0, 8, 0, 0.75), LEFT_RIGHT, Face.TOP)
    back = board("back", box(0.75, 43.25, 7.5, 8, 0.75, 16), LEFT_RIGHT, Face.BACK)
    joints = {
        "floor": {"kind": "rabbet", "part": "floor", "depth": "3/8"},
        "back": {"kind": "rabbet", "part": "back.bottom", "depth": "3/8"},
        "ends": {"kind": "rabbet", "part": "back", "depth": "3/8"},
    }
    joinery, report = join((sides, floor, back), joints)
    assert not [each for each in report if each.stops]
    (cut,) = (each for each in joinery.features["floor"] if each.joint == "back")
    assert isinstance(cut, Rabbet)
    assert inches(cut.void) == (0.375, 43.625, 7.5, 8, 0.375, 0.75)
