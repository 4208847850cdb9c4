"""Drawers and doors by hand: what is free is found free, and what is in the way is named with how far it goes."""

from __future__ import annotations

from dataclasses import replace

import pytest
from timber import BOTTOM_TOP, FRONT_BACK, HERE, board, box, piece

from planbuild.core.geometry import Box, Face, Motion
from planbuild.prove.moving import all_moves_free
from planbuild.prove.standing import Standing
from planbuild.records.findings import Findings
from planbuild.records.openings import Block, Moves
from planbuild.records.piece import Part, Piece
from planbuild.shape import shape


def found(whole: Piece) -> Findings:
    return all_moves_free(Standing(whole, shape(whole)))


def upright(id: str, body: Box) -> Part:
    return board(id=id, body=body, grain=BOTTOM_TOP, face=Face.LEFT, edge=Face.FRONT)


SIDES = (upright("left_side", box(0, 20, 0, 300, 0, 500)), upright("right_side", box(320, 340, 0, 300, 0, 500)))


def door(gap: float, **moves: object) -> Part:
    """Between the sides, flush in front, `gap` at both, 20 thick and hinged at the left."""
    way = Moves(swings=Face.FRONT, about=Face.LEFT, by=100.0)
    body = box(20 + gap, 320 - gap, 0, 20, 0, 500)
    return board(id="door", body=body, grain=BOTTOM_TOP, face=Face.FRONT, edge=Face.LEFT, moves=replace(way, **moves))


def test_an_inset_door_needs_a_gap_at_its_free_edge() -> None:
    """The far back corner of a door 300 - 2g wide and 20 thick comes sqrt(w^2 + 20^2) - w nearer to the side: 0.7 for 280."""
    assert found(piece(*SIDES, door(1.0))).diagnostics == ()
    (fault,) = found(piece(*SIDES, door(0.0))).diagnostics
    assert fault.code == "moves-blocked"
    assert "after 1° its door meets the right_side" in fault.message


def test_it_swings_toward_the_side_that_is_named() -> None:
    inward = door(1.0, swings=Face.BACK)
    (fault,) = found(piece(*SIDES, inward)).diagnostics
    assert "meets the left_side" in fault.message


def test_a_board_before_a_door_is_in_the_way() -> None:
    before = upright("post", box(150, 170, -120, -100, 0, 500))
    (fault,) = found(piece(*SIDES, door(1.0), before)).diagnostics
    assert "its door meets the post" in fault.message


@pytest.mark.parametrize(("by", "free"), [(90.0, True), (150.0, False)])
def test_a_drawer_opens_as_far_as_nothing_stands_in_its_way(by: float, free: bool) -> None:
    """A box 200 deep whose way is closed 110 before it."""
    tray = board(id="tray", body=box(30, 310, 0, 200, 10, 60))
    stop = board(id="stop", body=box(30, 310, -130, -110, 10, 60))
    frame, moves = box(20, 320, 0, 300, 0, 100), Moves(opens=Face.FRONT, by=by)
    block = Block("drawer", "drawer", "drawer", HERE, frame, ("",), (Motion(),), ("tray",), moves)
    whole = replace(piece(*SIDES, tray, stop), blocks=(block,))
    proved = found(whole)
    assert (proved.diagnostics == ()) is free
    assert proved.proofs[0].checked == 1
    if not free:
        assert "drawer cannot open: after " in proved.diagnostics[0].message


def test_each_mirrored_copy_moves_its_own_way() -> None:
    """Two doors of a pair: the other one is hinged at the right."""
    flip = Motion((-1, 1, 1), (340.0, 0.0, 0.0))
    pair = board(
        id="door",
        body=box(21, 169, 0, 20, 0, 500),
        grain=BOTTOM_TOP,
        face=Face.FRONT,
        edge=Face.LEFT,
        copies=(Motion(), flip),
        moves=Moves(swings=Face.FRONT, about=Face.LEFT, by=110.0),
    )
    proved = found(piece(*SIDES, pair))
    assert proved.diagnostics == () and proved.proofs[0].checked == 2


def test_what_goes_in_comes_out_again() -> None:
    lip = board(id="lip", body=box(20, 60, -15, -5, 10, 60), grain=FRONT_BACK)
    tray = board(id="tray", body=box(30, 310, 0, 200, 10, 60), moves=Moves(goes_in=Face.FRONT))
    (fault,) = found(piece(*SIDES, tray, lip)).diagnostics
    assert "tray cannot go in: after " in fault.message
