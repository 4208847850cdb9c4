"""Dovetailed corners: tails and pins are one comb, nothing of the two blanks is lost, and only one way leads in."""

from __future__ import annotations

import pytest
from boards_by_hand import (
    FRONT_BACK,
    LEFT_RIGHT,
    PAIR_LR,
    STOCK,
    board,
    box,
    but,
    inches,
    joined,
    refused,
    site,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_solids import clash, is_free, of_boxes, parts_of, solids_of, together, whole

from planbuild.core.geometry import Face, Span1
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined
from planbuild.records.features import Groove
from planbuild.records.tails import Comb, Sockets, Tails

INCH = 25.4
THROUGH, BLIND = KINDS["through dovetail"], KINDS["half-blind dovetail"]
FRONT = board("front", box(0, 12, 0, 0.75, 0, 4), LEFT_RIGHT, Face.FRONT)
BACK = board("back", box(0, 12, 9.5, 10, 0.5, 3.75), LEFT_RIGHT, Face.FRONT)
SIDE = board("side", box(0, 0.5, 0, 10, 0, 4), FRONT_BACK, Face.LEFT)
LEFT_SIDE = but(SIDE, copies=PAIR_LR[:1])


def two_sides() -> Board:
    """A side and its mirror image about the middle of a drawer 44 in wide."""
    return but(SIDE, copies=PAIR_LR)


WIDE_FRONT = board("front", box(0, 44, 0, 0.75, 0, 4), LEFT_RIGHT, Face.FRONT)


def tails(made: Joined, part: str = "side") -> Tails:
    (found,) = made.features[part]
    assert isinstance(found, Tails)
    return found


def places(comb: Comb) -> list[tuple[float, float]]:
    return [(round(tail.low / INCH, 4), round(tail.high / INCH, 4)) for tail in comb.tails]


def test_a_drawer_side_gets_three_tails_as_the_trade_cuts_them() -> None:
    """Four inches: three tails 1 in wide, pins 1/4; a school text allows tails up to four times as wide as the pins."""
    made = joined(BLIND, "corner", site(FRONT, LEFT_SIDE), tail="side", pin="front")
    cut = tails(made)
    assert (cut.end, cut.comb.spread.name, cut.comb.slope) == (Face.FRONT, "BOTTOM_TOP", 1 / 8)
    assert inches(cut.comb.block) == (0, 0.5, 0.25, 0.75, 0, 4)
    assert places(cut.comb) == [(0.25, 1.25), (1.5, 2.5), (2.75, 3.75)]
    (pins,) = made.features["front"]
    assert isinstance(pins, Sockets) and pins.comb == cut.comb and pins.face is Face.BACK
    assert made.joint.numbers[:3] == (("tails", 3), ("slope", "1:8"), ("tail length", 12.7))
    assert dict(made.joint.numbers)["lap"] == pytest.approx(6.35)


def test_the_side_is_sawn_shorter_by_the_lap_and_no_other_board_changes() -> None:
    made = joined(BLIND, "corner", site(FRONT, LEFT_SIDE), tail="side", pin="front", lap="3/16")
    assert made.grows == {"side": {Face.FRONT: pytest.approx(-0.1875 * INCH)}}
    side, front = parts_of(LEFT_SIDE, FRONT, made=made)
    assert side.finished[0] == pytest.approx(9.8125 * INCH) and front.finished[0] == pytest.approx(12 * INCH)
    through = joined(THROUGH, "corner", site(FRONT, LEFT_SIDE), tail="side", pin="front")
    assert not through.grows and inches(tails(through).comb.block) == (0, 0.5, 0, 0.75, 0, 4)


def test_softwood_flares_more_and_what_is_said_goes_before() -> None:
    pine = but(LEFT_SIDE, stock=but(STOCK["rail_ash"], id="pine", species="eastern white pine"))
    made = joined(THROUGH, "corner", site(FRONT, pine), tail="side", pin="front")
    assert tails(made).comb.slope == pytest.approx(1 / 6)
    told = joined(THROUGH, "corner", site(FRONT, pine), tail="side", pin="front", slope="1:7", tails=("2",), half_pin="3/8")
    assert tails(told).comb.slope == pytest.approx(1 / 7) and len(tails(told).comb.tails) == 2
    assert places(tails(told).comb)[0][0] == 0.375 and not told.joint.defaults


def test_the_widths_of_the_tails_may_be_said() -> None:
    made = joined(THROUGH, "corner", site(FRONT, LEFT_SIDE), tail="side", pin="front", tails=("1", "3/4", "1"))
    assert [round(tail.size / INCH, 4) for tail in tails(made).comb.tails] == [1, 0.75, 1]
    assert not any(word == "tail width at the tip" for word, _ in made.joint.numbers) or tails(made).comb.even


def test_a_mirrored_side_serves_two_corners_of_one_front() -> None:
    made = joined(BLIND, "corner", site(WIDE_FRONT, two_sides()), tail="side", pin="front")
    assert [each.id for each in made.features["side"]] == ["corner.front"]
    assert [each.id for each in made.features["front"]] == ["corner.side.left", "corner.side.right"]
    first, second = made.joint.contacts
    assert (first.a, first.b, first.insert) == (("side", 0), ("front", 0), (1, 0, 0))
    assert (second.a, second.insert) == (("side", 1), (-1, 0, 0))
    assert first.glue_area == pytest.approx(tails(made).comb.flanks)


def test_a_lower_back_leaves_the_side_whole_above_and_below_it() -> None:
    made = joined(THROUGH, "corner", site(BACK, LEFT_SIDE), tail="side", pin="back")
    assert inches(tails(made).comb.block) == (0, 0.5, 9.5, 10, 0.5, 3.75)
    solids = solids_of(BACK, LEFT_SIDE, made=made)
    assert together(solids, ("back", 0), ("side", 0)) == pytest.approx(of_boxes(BACK.body, LEFT_SIDE.body), rel=1e-9)


# ---------------------------------------------------------------- in the wood

KEYS = ("side", 0), ("front", 0)
eighths = st.integers(3, 8)


@settings(max_examples=4)
@given(thick=eighths, front=eighths, tall=st.integers(10, 80), slope=st.integers(5, 9), blind=st.booleans())
def test_no_wood_is_lost_and_only_one_way_leads_in(thick: int, front: int, tall: int, slope: int, blind: bool) -> None:
    t, f, h = thick / 8, (front + 2) / 8, tall / 8
    pin_board = board("front", box(0, 12, 0, f, 0, h), LEFT_RIGHT, Face.FRONT)
    tail_board = board("side", box(0, t, 0, 10, 0, h), FRONT_BACK, Face.LEFT)
    kind = BLIND if blind else THROUGH
    made = joined(kind, "corner", site(pin_board, tail_board), tail="side", pin="front", slope=f"1:{slope}")
    solids = solids_of(pin_board, tail_board, made=made)
    assert all(whole(solids, key) for key in KEYS)
    assert together(solids, *KEYS) == pytest.approx(of_boxes(pin_board.body, tail_board.body), rel=1e-9)
    assert clash(solids, *KEYS) < 1e-3
    (contact,) = made.joint.contacts
    back = tuple(-each for each in contact.insert)
    assert is_free(solids, *KEYS, way=(back[0], back[1], back[2]), far=2 * t * INCH)
    blocked = [contact.insert, (0.0, 1.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)]
    assert all(clash(solids, *KEYS, by=(x * 2, y * 2, z * 2)) > 1 for x, y, z in blocked)


# ---------------------------------------------------------------- a groove behind a tail


def grooved(low: float, high: float) -> Joined:
    """As a bottom's joint leaves it: a groove along the inside of the side."""
    cut = Groove("bottom.side", SIDE.origin, "bottom", "", Face.RIGHT, box(0.25, 0.5, 0, 10, low, high))
    made = joined(THROUGH, "bottom", site(FRONT, LEFT_SIDE), tail="side", pin="front")
    return but_features(made, {"side": (cut,)})


def but_features(made: Joined, features: dict[str, tuple[Groove, ...]]) -> Joined:
    return Joined(made.joint, features)


@pytest.mark.parametrize("low", [0.375, 0.25, 1.25, 2.0])
def test_a_tail_spans_the_groove_that_is_to_be_hidden(low: float) -> None:
    where = site(FRONT, LEFT_SIDE, joined={"bottom": grooved(low, low + 0.25)})
    comb = tails(joined(BLIND, "corner", where, tail="side", pin="front", hide="bottom")).comb
    necks = [comb.neck(tail) for tail in comb.tails]
    band = Span1(low * INCH, (low + 0.25) * INCH)
    assert any(neck.low < band.low - 1 and neck.high > band.high + 1 for neck in necks)
    assert len(necks) == 3


@pytest.mark.parametrize(
    ("hide", "joints", "piece"),
    [
        ("bottom", {"bottom": grooved(0.0, 0.25)}, "No tail of 3 can span the groove"),
        ("botom", {"bottom": grooved(0.5, 0.75)}, 'no joint "botom"'),
        ("bottom", {"bottom": but_features(grooved(0, 1), {})}, "cuts no groove"),
    ],
)
def test_what_no_tail_can_hide_is_said(hide: str, joints: dict[str, Joined], piece: str) -> None:
    (fault,) = refused(BLIND, "corner", site(FRONT, LEFT_SIDE, joined=joints), tail="side", pin="front", hide=hide)
    assert fault.code == "joint-hide" and piece in fault.message


# ---------------------------------------------------------------- what cannot be cut


@pytest.mark.parametrize(
    ("side", "fields", "code", "piece"),
    [
        (board("side", box(0, 0.5, 0.75, 10, 0, 4), FRONT_BACK, Face.LEFT), {}, "joint-wrong-family", "touch but do not overlap"),
        (board("side", box(0, 0.5, 2, 10, 0, 4), FRONT_BACK, Face.LEFT), {}, "joint-wrong-family", "1-1/4 apart"),
        (board("side", box(0, 0.5, 0.25, 10, 0, 4), FRONT_BACK, Face.LEFT), {}, "joint-corner", "lies 1/4 off the front"),
        (board("side", box(1, 1.5, 0, 10, 0, 4), FRONT_BACK, Face.LEFT), {}, "joint-corner", "does not cross an end"),
        (board("side", box(0, 9, 0, 0.5, 0, 4), LEFT_RIGHT, Face.BACK), {}, "joint-corner", "make no corner"),
        (LEFT_SIDE, {"tails": ("9",)}, "joint-tails-fit", "do not fit"),
        (LEFT_SIDE, {"tails": ("0",)}, "joint-tails-fit", "needs a tail"),
        (LEFT_SIDE, {"tails": ("2", "1-3/4")}, "joint-pin-thin", "leave no wood for pins"),
        (LEFT_SIDE, {"half_pin": "1/16"}, "joint-pin-thin", "pins of 1/16"),
        (LEFT_SIDE, {"half_pin": "3"}, "joint-tails-fit", "do not fit"),
        (LEFT_SIDE, {"slope": "1:2"}, "joint-dovetail-slope", "break off"),
        (LEFT_SIDE, {"lap": "1/2"}, "joint-lap", "does not suit"),
        (LEFT_SIDE, {"lap": "1/16"}, "joint-lap", "does not suit"),
    ],
)  # fmt: skip
def test_what_cannot_be_cut_is_refused(side: Board, fields: dict[str, str | tuple[str, ...]], code: str, piece: str) -> None:
    (fault,) = refused(BLIND, "corner", site(FRONT, side), tail="side", pin="front", **fields)
    assert fault.code == code and piece in fault.message


def test_like_corners_are_refused_once_and_wide_tails_are_told() -> None:
    four = site(WIDE_FRONT, two_sides())
    assert len(refused(BLIND, "corner", four, tail="side", pin="front", tails=("9",))) == 1
    where = site(FRONT, LEFT_SIDE)
    joined(BLIND, "corner", where, tail="side", pin="front", tails=("1",))
    assert [each.code for each in where.report.found] == ["joint-tail-wide"]


def test_what_is_cut_first_is_told() -> None:
    usual = joined(BLIND, "corner", site(FRONT, LEFT_SIDE), tail="side", pin="front")
    other = joined(BLIND, "corner", site(FRONT, LEFT_SIDE), tail="side", pin="front", first="pins")
    assert usual.features == other.features
    assert (usual.joint.operations, other.joint.operations) == (("tails", "pins"), ("pins", "tails"))
    assert ("cut first", "pins") in other.joint.numbers
