"""What the parts weigh: volume of the solid times the density of its wood as it comes from the workshop."""

from __future__ import annotations

from planbuild.derive.lists.edging import wood_shares
from planbuild.joints.proportions import wood_of
from planbuild.joints.sheet_goods import sheet_density
from planbuild.records.piece import Part, Piece, Stock
from planbuild.records.solids import Solids

_AT_TABLE = 12.0
"""Moisture content (%) at which the table states specific gravity."""


def density(specific_gravity: float, moisture: float) -> float:
    """Mass over volume, both at `moisture` % (6 to 30).  Units: kg/m3.

    Source: Wood Handbook (USDA Forest Products Laboratory) chapter 4, G_M = G_b / (1 - 0.265 a G_b) with
    a = (30 - M)/30, and density = 1000 G_M (1 + M/100); G_b is found from G at 12 % (from memory).
    """
    green = specific_gravity / (1 + 0.265 * _dryness(_AT_TABLE) * specific_gravity)
    now = green / (1 - 0.265 * _dryness(moisture) * green)
    return 1000 * now * (1 + moisture / 100)


def stock_density(stock: Stock, moisture: float) -> float:
    """Of boards at `moisture` %; of sheets as they lie in a dry room.  Units: kg/m3.  Raises LookupError for a wood
    that nobody described."""
    if stock.sheet:
        return sheet_density(stock.species, stock.sheet.core)
    wood = wood_of(stock)
    if wood is None or wood.specific_gravity is None:
        raise LookupError(f"no wood called {stock.species!r} in the table of species")
    return density(wood.specific_gravity, moisture)


def _dryness(moisture: float) -> float:
    return (30 - moisture) / 30


def part_mass(piece: Piece, solids: Solids, part: Part) -> float:
    """One copy, as cut, at workshop moisture; of an edged sheet by the shares of its blank.  Units: kg."""
    woods = {each.id: stock_density(each, piece.moisture[2]) for each in piece.stock}
    return solids.of[part.id].volume * 1e-9 * sum(woods[stock] * share for stock, share in wood_shares(part))


def piece_mass(piece: Piece, solids: Solids) -> float:
    """All copies of all parts; screws, glue and finish are left out.  Units: kg."""
    return sum(part_mass(piece, solids, each) * len(each.copies) for each in piece.parts)
