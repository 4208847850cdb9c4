"""Prove: what the plan claims of the piece, checked on the solids before anything is drawn."""

from __future__ import annotations

from dataclasses import replace
from functools import reduce

from planbuild.core.units import Ruler
from planbuild.prove.binding import nothing_binds
from planbuild.prove.fits import tenons_fit
from planbuild.prove.from_stock import parts_come_from_stock
from planbuild.prove.gluing import glue_faces_touch
from planbuild.prove.held_fast import boards_are_not_shut_in, glue_crosses_narrowly
from planbuild.prove.interference import hardware_has_room, no_overlaps
from planbuild.prove.likeness import hands
from planbuild.prove.meeting import shoulders_close
from planbuild.prove.movement import tops_can_move
from planbuild.prove.moving import all_moves_free
from planbuild.prove.panels import panels_float
from planbuild.prove.sag import nothing_sags
from planbuild.prove.slots import slots_let_move
from planbuild.prove.standing import Standing
from planbuild.prove.tipping import stands_with_all_open
from planbuild.prove.ways_home import joints_go_home
from planbuild.prove.wedges import wedges_fill
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids

AS_IT_STANDS = (no_overlaps, hardware_has_room, joints_go_home, all_moves_free)
"""Proofs that look at everything where it stands; the others look into joints, and take every turned block straight."""

PROOFS = (
    no_overlaps,
    hardware_has_room,
    joints_go_home,
    shoulders_close,
    tenons_fit,
    glue_faces_touch,
    wedges_fill,
    tops_can_move,
    slots_let_move,
    panels_float,
    nothing_binds,
    glue_crosses_narrowly,
    boards_are_not_shut_in,
    nothing_sags,
    stands_with_all_open,
    all_moves_free,
    parts_come_from_stock,
    hands,
)


def prove(piece: Piece, solids: Solids, ruler: Ruler | None = None) -> Findings:
    """Every proof in turn; each gives one printable line, by the ruler of the pages, and what it found.  Nothing is raised.

    A proof that had nothing to check (no wedges, no doors) says nothing.
    """
    standing = Standing(piece, solids, ruler)
    straight = Standing(piece.as_cut, solids.as_cut, ruler) if piece.straight else standing
    found = reduce(Findings.plus, (proof(standing if proof in AS_IT_STANDS else straight) for proof in PROOFS))
    return replace(found, proofs=tuple(proof for proof in found.proofs if proof.checked))
