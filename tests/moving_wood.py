"""Pieces by hand in which wood moves: a framed panel, a door in its opening.  Sizes in mm."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from timber import BOTTOM_TOP, HERE, LEFT_RIGHT, board, box, joint, piece, said

from planbuild.core.geometry import Face, Motion
from planbuild.records.features import Groove, Mate
from planbuild.records.openings import Block, Moves
from planbuild.records.piece import Contact, Piece

UPRIGHT: dict[str, Any] = {"grain": BOTTOM_TOP, "face": Face.FRONT, "edge": Face.LEFT}


def framed(width: float, depth: float, room: float) -> Piece:
    """A panel with upright grain between two stiles; its edges stand `depth - room` in grooves `depth` deep."""
    low, high = 100.0, 100.0 + width - 2 * (depth - room)
    panel = board(body=box(low - depth + room, high + depth - room, 10, 16, 0, 500), id="panel", **UPRIGHT)
    left, right = (
        Groove(**said(f"panels.{face.value}", "panels"), face=face, void=box(*reach, 10, 16, 0, 500), mate=Mate("panel", (0,)))
        for face, reach in ((Face.RIGHT, (low - depth, low)), (Face.LEFT, (high, high + depth)))
    )
    stiles = (
        board(left, body=box(low - 50, low, 0, 22, 0, 500), id="left_stile", **UPRIGHT),
        board(right, body=box(high, high + 50, 0, 22, 0, 500), id="right_stile", **UPRIGHT),
    )
    meets = tuple(
        Contact(("panel", 0), (stile.id, 0), (way, 0.0, 0.0), box(low, low, 10, 16, 0, 500), 0.0, 0.0)
        for stile, way in zip(stiles, (-1.0, 1.0), strict=True)
    )
    return piece(panel, *stiles, joints=(replace(joint("panels", *meets, glue=False), kind="panel in groove"),))


def door(gap: float, width: float = 60.0, swings: bool = True) -> Piece:
    """A door of two stiles and a rail between two sides, hung at the left; drawn without tenons."""
    moves = Moves(swings=Face.FRONT, about=Face.LEFT, by=90.0) if swings else Moves(opens=Face.FRONT, by=100.0)
    far = 20 + 1 + 400 + gap
    parts = (
        board(body=box(0, 20, 0, 300, 0, 600), id="left_side", grain=BOTTOM_TOP, face=Face.LEFT, edge=Face.FRONT),
        board(body=box(far, far + 20, 0, 300, 0, 600), id="right_side", grain=BOTTOM_TOP, face=Face.LEFT, edge=Face.FRONT),
        board(body=box(21, 21 + width, 0, 20, 0, 600), id="hinge_stile", **UPRIGHT),
        board(body=box(421 - width, 421, 0, 20, 0, 600), id="lock_stile", **UPRIGHT),
        board(body=box(21 + width, 421 - width, 0, 20, 0, 60), id="rail", grain=LEFT_RIGHT, face=Face.FRONT, edge=Face.TOP),
    )
    held = ("hinge_stile", "lock_stile", "rail")
    hung = Block("door", "door", "door", HERE, box(21, 421, 0, 20, 0, 600), ("",), (Motion(),), held, moves)
    return replace(piece(*parts), blocks=(hung,))
