"""Wood to buy: board measure from the rough sizes, waste named, the largest piece that must come out."""

from __future__ import annotations

from math import ceil

from planbuild.core.units import Ruler, Unit
from planbuild.derive.lists.blanks import Blank, blank_of
from planbuild.derive.lists.cut_list import board_title
from planbuild.joints.proportions import habit_number
from planbuild.records.edition import Edition
from planbuild.records.facts import StockLine
from planbuild.records.piece import Piece, Stock

_INCH = 25.4
BOARD_FOOT = 144.0
"""Cubic inches: 1 ft x 1 ft x 1 in (NHLA, trade)."""


def board_feet(thickness: float, width: float, length: float) -> float:
    """Board measure of one piece; under 1 in thick counts as 1 in.  Units: inches in, board feet out.

    Source: NHLA rules and trade: thickness x width x length / 144 (1 x 6 x 96 in = 4).
    """
    return max(1.0, thickness) * width * length / BOARD_FOOT


def to_buy(piece: Piece, edition: Edition) -> tuple[StockLine, ...]:
    """One line for each kind of board (species, thickness, cut), in the order of the stock."""
    lines = []
    for boards in _kinds(piece):
        ids = [each.id for each in boards]
        needed = [blank_of(piece, p, edition.ruler) for p in piece.parts if p.stock in ids]
        if needed:
            lines.append(_line(piece, edition, boards[0], needed))
    return tuple(lines)


def _kinds(piece: Piece) -> list[list[Stock]]:
    """Stock that is one thing at the yard, whatever it is called in the design."""
    kinds: dict[tuple[str, str, str], list[Stock]] = {}
    for each in piece.stock:
        kinds.setdefault((each.species, each.quarters, each.cut), []).append(each)
    return list(kinds.values())


def _line(piece: Piece, edition: Edition, stock: Stock, needed: list[Blank]) -> StockLine:
    waste = piece.practice.waste_solid
    net = sum(_measure(edition.ruler, each.each) * each.count for each in needed)
    buy = net * (1 + waste)
    offcut = sum(board_feet(*_inches(each.each)) * each.count for each in needed) < habit_number("offcut_board_feet")
    return StockLine(
        stock=stock.id,
        title=board_title(stock),
        quarters=stock.quarters,
        net=net,
        buy=buy,
        unit="board feet" if edition.ruler.unit is Unit.INCH else "m3",
        net_text=_net_text(edition.ruler, net),
        buy_text="an offcut" if offcut else _buy_text(edition.ruler, buy),
        waste_text=f"{waste * 100:.0f} % added for knots, ends and grain that does not suit",
        longest_text=_offcut_text(edition.ruler, needed) if offcut else _longest(edition.ruler, needed),
        for_parts=tuple(each.part for each in needed),
    )


def _inches(size: tuple[float, float, float]) -> tuple[float, float, float]:
    """Thickness, width, length in inches."""
    length, width, thickness = size
    return thickness / _INCH, width / _INCH, length / _INCH


def _measure(ruler: Ruler, size: tuple[float, float, float]) -> float:
    if ruler.unit is Unit.INCH:
        return board_feet(*_inches(size))
    return size[0] * size[1] * size[2] * 1e-9


def _net_text(ruler: Ruler, net: float) -> str:
    return f"{net:.{1 if net >= 1 else 2}f} board feet" if ruler.unit is Unit.INCH else f"{net:.4f} m³"


def _buy_text(ruler: Ruler, buy: float) -> str:
    """Rounded up: to half board feet, to litres of wood."""
    if ruler.unit is Unit.INCH:
        return f"{ceil(buy * 2 - 1e-9) / 2:g} board feet"
    return f"{ceil(buy * 1000 - 1e-9) / 1000:.3f} m³"


def _longest(ruler: Ruler, needed: list[Blank]) -> str:
    longest = max(each.each[0] for each in needed)
    widest = max(each.each[1] for each in needed)
    return f"longest piece {ruler.printed(longest)}, widest {ruler.printed(widest)}"


def _offcut_text(ruler: Ruler, needed: list[Blank]) -> str:
    """One offcut for all."""
    length = max(each.each[0] for each in needed)
    width = sum(each.each[1] * each.count for each in needed)
    return f"at least {ruler.printed(length)} along the grain by {ruler.printed(width)}"
