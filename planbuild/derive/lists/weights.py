"""What the parts weigh: volume of the solid times the density of its wood as it comes from the workshop."""

from __future__ import annotations

from planbuild.core import tables
from planbuild.derive.lists.edging import wood_shares
from planbuild.joints.sheet_goods import sheet_density
from planbuild.records.piece import Part, Piece, Stock
from planbuild.records.solids import Solids

_AT_TABLE = 12.0
"""Moisture content (%) at which the table states specific gravity."""


def species_row(name: str) -> tables.Row:
    """The row of a wood by its name or a trade name.  Raises LookupError if it is not in the table."""
    wanted = name.lower()
    for each in tables.rows("species"):
        if wanted in (each["name"].lower(), *each["also"].lower().split("|")):
            return each
    raise LookupError(f"no wood called {name!r} in the table of species")


def density(species: str, moisture: float) -> float:
    """Mass over volume, both at `moisture` % (6 to 30).  Units: kg/m3.

    Source: Wood Handbook (USDA Forest Products Laboratory) chapter 4, G_M = G_b / (1 - 0.265 a G_b) with
    a = (30 - M)/30, and density = 1000 G_M (1 + M/100); G_b is found from the table's G at 12 % (from memory).
    """
    at_table = float(species_row(species)["specific_gravity"])
    green = at_table / (1 + 0.265 * _dryness(_AT_TABLE) * at_table)
    now = green / (1 - 0.265 * _dryness(moisture) * green)
    return 1000 * now * (1 + moisture / 100)


def stock_density(stock: Stock, moisture: float) -> float:
    """Of boards at `moisture` %; of sheets as they lie in a dry room.  Units: kg/m3."""
    return sheet_density(stock.species, stock.sheet.core) if stock.sheet else density(stock.species, moisture)


def _dryness(moisture: float) -> float:
    return (30 - moisture) / 30


def part_mass(piece: Piece, solids: Solids, part: Part) -> float:
    """One copy, as cut, at workshop moisture; of an edged sheet by the shares of its blank.  Units: kg."""
    woods = {each.id: stock_density(each, piece.moisture[2]) for each in piece.stock}
    return solids.of[part.id].volume * 1e-9 * sum(woods[stock] * share for stock, share in wood_shares(part))


def piece_mass(piece: Piece, solids: Solids) -> float:
    """All copies of all parts; screws, glue and finish are left out.  Units: kg."""
    return sum(part_mass(piece, solids, each) * len(each.copies) for each in piece.parts)
