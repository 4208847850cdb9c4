"""How high a piece stands on its castors: from the lowest of them to the top of the wood."""

from __future__ import annotations

from dataclasses import replace

from timber import HERE, board, box, piece

from planbuild.core.geometry import Face
from planbuild.derive.lists.piece import piece_facts
from planbuild.records.edition import Edition
from planbuild.records.hardware import Bought, Item, Lump, Placed
from planbuild.shape import shape


def test_castors_count_below_the_wood(letter: Edition) -> None:
    plain = piece(board(id="leg", body=box(0, 40, 0, 40, 0, 400)))
    wheel = Bought((("leg", 0),), (Lump(box(0, 40, 0, 40, -50, 0)),))
    placed = Placed("wheels", HERE, "wheel", "leg", Face.BOTTOM, ((20.0, 20.0, 0.0),), 1, (wheel,))
    rolling = replace(plain, items=(Item("wheel", HERE, "castor", "wheel", ()),), hardware=(placed,))
    knob = replace(rolling, items=(Item("wheel", HERE, "other", "knob", ()),))
    solids = shape(plain)
    heights = [(each.height, each.on_castors) for each in (piece_facts(p, solids, letter) for p in (plain, rolling, knob))]
    assert heights == [(400.0, 0.0), (400.0, 450.0), (400.0, 0.0)]
