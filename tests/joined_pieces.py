"""A joint by hand made into a small piece, cut and proved: what the tests of the joints ask of solids."""

from __future__ import annotations

from dataclasses import replace

from boards_by_hand import PRACTICE, RULER, STOCK
from timber import piece

from planbuild.core.diagnostics import Severity
from planbuild.joints.base import Board, Joined
from planbuild.prove import prove
from planbuild.records.findings import Findings
from planbuild.records.piece import Part, Piece
from planbuild.records.solids import Solids
from planbuild.shape import shape


def part_of(board: Board, made: Joined) -> Part:
    """A board as it becomes once a joint is cut in it."""
    body = board.body
    for face, more in made.grows.get(board.id, {}).items():
        body = body.grown(face, more)
    return Part(
        id=board.id, mark=board.id[0].upper(), name=board.name, origin=board.origin, stock=board.stock.id, grain=board.grain,
        face=board.face, edge=board.edge, body=body, features=(*made.features.get(board.id, ()), *board.shapes),
        copies=board.copies, rough_length=25.4, rough_width=6.35, pose=board.pose,
    )  # fmt: skip


def joined_piece(made: Joined, *boards: Board) -> Piece:
    thick_enough = tuple(replace(each, rough=500.0) for each in STOCK.values())
    whole = piece(*(part_of(each, made) for each in boards), *made.makes, joints=(made.joint,), stock=thick_enough)
    return replace(whole, ruler=RULER, practice=PRACTICE)


def cut_and_proved(made: Joined, *boards: Board) -> tuple[Piece, Solids, Findings]:
    whole = joined_piece(made, *boards)
    solids = shape(whole)
    return whole, solids, prove(whole, solids)


def told_of(made: Joined, *boards: Board) -> list[str]:
    """Codes of what the proofs find, notes left aside."""
    *_, found = cut_and_proved(made, *boards)
    return sorted({each.code for each in found.diagnostics if each.severity is not Severity.NOTE})
