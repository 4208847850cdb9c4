"""Wood that moves across its grain: panels in grooves, doors in openings, glue where grains cross, boards shut in.

White ash, flat sawn, moves 0.00274 of its width for each point of moisture (Wood Handbook, table 13-5); the pieces by hand
go from 8 % in the workshop to 6 and 11 %.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from moving_wood import UPRIGHT, door, framed
from timber import BOTTOM_TOP, HERE, LEFT_RIGHT, board, box, joint, piece

from planbuild.core.geometry import Box, Face, Motion, Span1
from planbuild.core.woods import wood_named
from planbuild.joints.rooms import floating, gaps
from planbuild.prove.binding import nothing_binds
from planbuild.prove.held_fast import boards_are_not_shut_in, glue_crosses_narrowly
from planbuild.prove.panels import panels_float
from planbuild.prove.standing import Standing
from planbuild.records.piece import Contact, Part, Piece, Stock
from planbuild.records.solids import Solids

DAMP, DRY = 0.00274 * 3, 0.00274 * 2
"""What each mm gains by the damp season and loses by the dry one."""

NOTHING = Solids({}, {}, lambda *_: {})  # type: ignore[arg-type]


def standing(whole: Piece) -> Standing:
    """The piece without solids: the boxes of its bodies stand for them."""
    found = Standing(whole, NOTHING)
    keys = [(each, copy) for each in whole.parts for copy in range(len(each.copies))]
    found.__dict__["boxes"] = {(each.id, copy): each.box(copy, each.extent) for each, copy in keys}
    return found


def codes(found: Any) -> list[str]:
    return [each.code for each in found.diagnostics]


# ---------------------------------------------------------------- panels


def test_the_room_of_a_panel_is_measured_where_it_stands() -> None:
    (panel,) = floating(framed(300, 10, 3))
    assert (panel.width, panel.low, panel.high) == (pytest.approx(300), panel.high, panel.low)
    assert (panel.low.room, panel.low.engaged) == (pytest.approx(3), pytest.approx(7))


@pytest.mark.parametrize(
    ("width", "depth", "room", "expected"),
    [
        (300, 10, 300 * DAMP / 2 + 0.05, []),
        (300, 10, 300 * DAMP / 2 - 0.05, ["movement-panel-tight"]),
        (300, 10, 10 - 300 * DRY / 2 + 0.05, ["movement-panel-out"]),  # it stands in by less than half of its shrinking
        (300, 10, 10 - 300 * DRY / 2 - 0.4, ["movement-panel-shifts"]),  # held in the middle, lost when it lies at one side
        (300, 10, (10 - 300 * DRY) / 2 - 0.05, []),
    ],
)
def test_a_panel_has_room_and_holds(width: float, depth: float, room: float, expected: list[str]) -> None:
    found = panels_float(standing(framed(width, depth, room)))
    assert codes(found) == expected
    assert found.proofs[0].checked == 1 and all(each.span == HERE for each in found.diagnostics)


def test_a_sheet_needs_no_room() -> None:
    whole = framed(300, 10, 0.1)
    ply = replace(whole.stock[0], sheet=True)  # type: ignore[arg-type]
    assert not list(floating(replace(whole, stock=(ply,))))


def test_a_wood_of_the_designs_own_moves_as_it_says() -> None:
    whole = framed(300, 10, 300 * DAMP / 2 + 0.05)
    ash = wood_named("white ash")
    assert ash is not None
    lively = replace(whole.stock[0], own=replace(ash, name="own", c_tangential=0.0055))
    assert codes(panels_float(standing(replace(whole, stock=(lively,))))) == ["movement-panel-tight"]


# ---------------------------------------------------------------- doors


@pytest.mark.parametrize(("gap", "expected"), [(120 * DAMP + 0.05, []), (120 * DAMP - 0.05, ["movement-binds"])])
def test_both_stiles_of_a_door_swell_into_the_gap_at_its_lock(gap: float, expected: list[str]) -> None:
    found = nothing_binds(standing(door(gap)))
    assert codes(found) == expected
    assert found.proofs[0].checked == 1


def test_what_slides_has_the_gaps_of_both_sides() -> None:
    whole = door(120 * DAMP - 0.5, swings=False)  # and 1 mm at the other side
    assert codes(nothing_binds(standing(whole))) == []


def test_a_door_before_its_case_has_nothing_to_bind_on() -> None:
    whole = door(0.1)
    ahead = tuple(replace(each, body=_moved(each.body, -21)) if "side" not in each.id else each for each in whole.parts)
    assert not list(gaps(replace(whole, parts=ahead), standing(replace(whole, parts=ahead)).boxes))


def _moved(body: Box, far: float) -> Box:
    return Motion(shift=(0.0, far, 0.0)).box(body)


# ---------------------------------------------------------------- glue, boards shut in


@pytest.mark.parametrize(("wide", "expected"), [(170.0, []), (180.0, ["movement-cross-grain"])])
def test_glue_over_more_than_can_give(wide: float, expected: list[str]) -> None:
    """2.4 mm is what a glued joint gives; ash moves 5 x 0.00274 of 175 mm from dry to damp: 2.4 mm."""
    post, rail = board(id="post", grain=BOTTOM_TOP, face=Face.FRONT, edge=Face.LEFT), board(id="rail")
    home = Contact(("rail", 0), ("post", 0), (1.0, 0.0, 0.0), box(0, 0, 0, 10, 0, wide), wide, 100.0)
    found = glue_crosses_narrowly(standing(piece(post, rail, joints=(joint("rails", home),))))
    assert codes(found) == expected
    dry = replace(joint("rails", home), glue=False)
    assert codes(glue_crosses_narrowly(standing(piece(post, rail, joints=(dry,))))) == []


def shut_in(width: float, kind: str = "butt") -> Piece:
    """A board with upright grain between two posts, which a rail is glued to at their tops."""
    posts = [board(body=box(x, x + 40, 0, 40, 0, 600), id=id, **UPRIGHT) for id, x in (("one", 0.0), ("other", 40 + width))]
    panel = board(body=box(40, 40 + width, 10, 30, 0, 500), id="panel", **UPRIGHT)
    rail = board(body=box(40, 40 + width, 10, 30, 510, 560), id="rail", face=Face.FRONT, edge=Face.TOP)
    ends = [(("one", 0), -1.0, 40.0), (("other", 0), 1.0, 40 + width)]

    def met(part: Part) -> list[Contact]:
        planes = [(key, way, part.body.with_span(LEFT_RIGHT, Span1(at, at))) for key, way, at in ends]
        return [Contact((part.id, 0), key, (way, 0.0, 0.0), plane, 0.0, 1.0) for key, way, plane in planes]

    glued = replace(joint("panel", *met(panel)), kind=kind)
    return piece(*posts, panel, rail, joints=(glued, joint("rails", *met(rail))))


@pytest.mark.parametrize(("width", "expected"), [(280.0, []), (300.0, ["movement-shut-in"])])
def test_a_wide_board_between_two_posts_forces_them(width: float, expected: list[str]) -> None:
    """2.4 mm / (3 x 0.00274) is 292 mm."""
    found = boards_are_not_shut_in(standing(shut_in(width)))
    assert codes(found) == expected and found.proofs[0].checked == 2


def test_in_grooves_or_as_a_sheet_it_may_be_wide() -> None:
    assert codes(boards_are_not_shut_in(standing(shut_in(300, "panel in groove")))) == []
    sheet: Stock = replace(shut_in(300).stock[0], sheet=True)  # type: ignore[arg-type]
    assert codes(boards_are_not_shut_in(standing(replace(shut_in(300), stock=(sheet,))))) == []


def test_without_a_rail_nothing_holds_the_posts() -> None:
    whole = shut_in(300)
    assert codes(boards_are_not_shut_in(standing(replace(whole, joints=whole.joints[:1])))) == []
