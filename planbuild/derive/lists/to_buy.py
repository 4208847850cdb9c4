"""Wood to buy: board measure from the rough sizes, sheets by their area, waste named, the largest piece that must come out."""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil

from planbuild.core.units import Ruler, Unit
from planbuild.derive import phrases
from planbuild.derive.lists.blanks import Blank, blank_of
from planbuild.derive.lists.cut_list import board_title
from planbuild.derive.lists.edging import strip_blanks
from planbuild.joints.proportions import habit_number
from planbuild.records.edition import Edition
from planbuild.records.facts import StockLine
from planbuild.records.piece import Piece, Stock

_INCH = 25.4
BOARD_FOOT = 144.0
"""Cubic inches: 1 ft x 1 ft x 1 in (NHLA, trade)."""
FEET_PER_M3 = 423.776
"""Board feet in a cubic metre (arithmetic)."""


def board_feet(thickness: float, width: float, length: float) -> float:
    """Board measure of one piece; under 1 in thick counts as 1 in.  Units: inches in, board feet out.

    Source: NHLA rules and trade: thickness x width x length / 144 (1 x 6 x 96 in = 4).
    """
    return max(1.0, thickness) * width * length / BOARD_FOOT


def to_buy(piece: Piece, edition: Edition) -> tuple[StockLine, ...]:
    """One line for each kind of board (species, thickness, cut) in the order of the stock, then one for each of sheet."""
    lines = []
    for boards in sorted(_kinds(piece), key=lambda each: each[0].sheet is not None):
        ids = [each.id for each in boards]
        needed = [blank_of(piece, p, edition.ruler) for p in piece.parts if p.stock in ids]
        needed += [blank for each in boards for blank in strip_blanks(piece, each)]
        if needed:
            line = _sheets if boards[0].sheet else _line
            lines.append(line(piece, edition, boards[0], needed))
    return tuple(lines)


def _kinds(piece: Piece) -> list[list[Stock]]:
    """Stock that is one thing at the yard, whatever it is called in the design."""
    kinds: dict[tuple[object, ...], list[Stock]] = {}
    for each in piece.stock:
        key = (each.species, each.quarters, each.cut, each.leaves, each.sheet, each.thickness if each.sheet else 0.0, each.price)
        kinds.setdefault(key, []).append(each)
    return list(kinds.values())


def _line(piece: Piece, edition: Edition, stock: Stock, needed: list[Blank]) -> StockLine:
    waste = piece.practice.waste_solid
    net = sum(_measure(edition.ruler, (*each.each[:2], stock.rough)) * each.count for each in needed) / stock.leaves
    buy = net * (1 + waste)
    feet = sum(board_feet(*_inches((*each.each[:2], stock.rough))) * each.count for each in needed) / stock.leaves
    offcut = feet < habit_number("offcut_board_feet")
    return StockLine(
        stock=stock.id,
        title=board_title(stock) + _sold(edition.ruler, stock),
        quarters=stock.quarters,
        net=net,
        buy=buy,
        unit="board feet" if edition.ruler.unit is Unit.INCH else "m3",
        net_text=_net_text(edition.ruler, net),
        buy_text="an offcut" if offcut else _buy_text(edition.ruler, buy),
        waste_text=f"{waste * 100:.0f} % added for knots, ends and grain that does not suit",
        longest_text=_offcut_text(edition.ruler, needed) if offcut else _longest(edition.ruler, needed),
        for_parts=tuple(dict.fromkeys(each.part for each in needed)),
        cost_text=_cost(stock, {"board foot": feet * (1 + waste), "m3": feet * (1 + waste) / FEET_PER_M3}),
    )


def _sold(ruler: Ruler, stock: Stock) -> str:
    """In which lengths and widths the boards come, as far as the design says."""
    lengths = ", ".join(ruler.printed(each) for each in stock.lengths)
    wide = " to ".join(ruler.printed(each) for each in stock.widths) if stock.widths else ""
    sold = [f"{lengths} long" if lengths else "", f"{wide} wide" if wide else ""]
    said = [f"sold {' and '.join(each for each in sold if each)}" if any(sold) else "", stock.note]
    return "".join(f"; {each}" for each in said if each)


def _cost(stock: Stock, amounts: Mapping[str, float]) -> str:
    """`about 57`, in the money of the price; "" where none is said for what is counted here."""
    price = stock.price
    return f"about {ceil(price.figure * amounts[price.per] - 1e-9)}" if price and price.per in amounts else ""


def _sheets(piece: Piece, edition: Edition, stock: Stock, needed: list[Blank]) -> StockLine:
    """Whole sheets, by area: how the parts lie on them is for whoever cuts them."""
    assert stock.sheet is not None
    waste, ruler, (along, across) = piece.practice.waste_sheet, edition.ruler, stock.sheet.size
    one, net = along * across * 1e-6, sum(each.each[0] * each.each[1] * each.count for each in needed) * 1e-6
    count = ceil(net * (1 + waste) / one - 1e-9)
    size = phrases.sizes(ruler, along, across) + (", along the grain first" if stock.sheet.grain else "")
    return StockLine(
        stock=stock.id,
        title=f"{board_title(stock)}, a sheet of {size}" + (f"; {stock.note}" if stock.note else ""),
        quarters="",
        net=net / one,
        buy=float(count),
        unit="sheets",
        net_text=_area_text(ruler, net),
        buy_text=phrases.counted(count, "sheet"),
        waste_text=f"{waste * 100:.0f} % added to sheets for saw cuts and offcuts; lay the parts out before you buy",
        longest_text=_longest(ruler, needed),
        for_parts=tuple(each.part for each in needed),
        cost_text=_cost(stock, {"sheet": float(count)}),
    )


def _area_text(ruler: Ruler, area: float) -> str:
    """From m2.  Source: 1 ft = 0.3048 m exactly (international yard and pound agreement of 1959)."""
    return f"{area / 0.3048**2:.1f} ft²" if ruler.unit is Unit.INCH else f"{area:.2f} m²"


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
