"""Slots are measured again on the standing parts, by the published formula and not by the joint that made them; and what
a bevel of one joint takes from the glue of another."""

from __future__ import annotations

from dataclasses import replace

import pytest
from timber import FRONT_BACK, HERE, board, box, joint, piece, said

from planbuild.core.geometry import Face
from planbuild.prove.gluing import glue_faces_touch
from planbuild.prove.slots import slots_let_move
from planbuild.prove.standing import Standing
from planbuild.records.features import Bevel, Hole, Slot
from planbuild.records.piece import Contact, Piece
from planbuild.shape import shape


def table(travel: float) -> Piece:
    """A top of flat-sawn white ash 600 wide on a rail across it, screws 250 either side of the middle."""
    holes = tuple(
        Hole(
            **said(f"top.{place}", "top"), face=Face.BOTTOM, centre=(50, place, 80), diameter=5, depth=None, purpose="clearance",
            slot=Slot(FRONT_BACK, 5 + travel),
        )
        for place in (50.0, 550.0)
    )  # fmt: skip
    rail = board(*holes, body=box(40, 60, 0, 600, 80, 100), id="rail", grain=FRONT_BACK, face=Face.LEFT, edge=Face.TOP)
    top = board(body=box(0, 400, 0, 600, 100, 120), id="top_board")
    down = Contact(("top_board", 0), ("rail", 0), (0.0, 0.0, -1.0), box(40, 60, 0, 600, 100, 100), 600.0, 0.0)
    return piece(rail, top, joints=(replace(joint("top", down, glue=False), kind="slotted screws"),))


WANTED = 250 * 0.00274 * 3
"""From 8 to 11 %, worth more than from 8 to 6 (Wood Handbook, table 13-5)."""


@pytest.mark.parametrize(("travel", "codes"), [(2 * WANTED + 0.1, []), (2 * WANTED - 0.1, ["movement-slot"])])
def test_a_slot_is_as_long_as_the_wood_moves(travel: float, codes: list[str]) -> None:
    whole = table(travel)
    found = slots_let_move(Standing(whole, shape(whole)))
    assert [each.code for each in found.diagnostics] == codes
    assert found.proofs[0].checked == 2
    assert all(each.span == HERE for each in found.diagnostics)


def test_without_slots_there_is_nothing_to_say() -> None:
    whole = table(10)
    plain = replace(whole, parts=tuple(replace(part, features=()) for part in whole.parts))
    assert not slots_let_move(Standing(plain, shape(plain))).proofs


def test_glue_beside_the_bevel_of_another_joint_is_sound() -> None:
    """A strip 60 wide, 20 thick, glued on; the 45 degrees of its cleat take a third of the glued face."""
    under = board(body=box(0, 400, 0, 100, 0, 20), id="under")
    for id, codes in (("cleat", []), ("", ["joint-glue-open"])):
        slope = Bevel(**said("edge", id), face=Face.FRONT, keeps=Face.TOP, angle=45)
        strip = board(slope, body=box(0, 400, 20, 80, 20, 40), id="strip")
        where = box(0, 400, 20, 80, 20, 20)
        contact = Contact(("strip", 0), ("under", 0), (0.0, 0.0, -1.0), where, 0.0, 400.0 * 60, face_glued=True)
        whole = piece(under, strip, joints=(joint("glued", contact),))
        found = glue_faces_touch(Standing(whole, shape(whole)))
        assert [each.code for each in found.diagnostics] == codes
