"""The bill of stock: one line a part, as a yard is asked for it, in board measure both ways.

Two rules are published for boards under an inch, and they differ: by what is in them, or as if an inch thick.
"""

from __future__ import annotations

from planbuild.derive.lists.to_buy import BOARD_FOOT, board_feet
from planbuild.records.facts import BillLine
from planbuild.records.piece import Piece

_INCH = 25.4


def bill(piece: Piece) -> tuple[BillLine, ...]:
    """In the order of the parts.  Thickness as finished; width and length with their allowances.  Units: mm, board feet.

    Sheets are not sold by board measure and have no line.
    """
    lines = []
    for part in (each for each in piece.parts if piece.stock_of(each).sheet is None):
        size = part.ordered
        inches = size[0] / _INCH, size[1] / _INCH, size[2] / _INCH
        count = len(part.copies)
        by_volume = count * inches[0] * inches[1] * inches[2] / BOARD_FOOT
        lines.append(BillLine(part.id, count, size, by_volume, count * board_feet(*inches)))
    return tuple(lines)
