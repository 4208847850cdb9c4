"""What parts weigh and where they balance: volume of the solid times the density of its wood as it comes from the workshop.

Apart from the stages: proofs ask for it, and the plan prints it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from planbuild.core.geometry import Vec
from planbuild.joints.proportions import wood_of
from planbuild.joints.sheet_goods import sheet_density
from planbuild.records.edging import edgings_of, strip_volume
from planbuild.records.piece import Part, Piece, Stock
from planbuild.records.solids import Key, Solids

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


def wood_shares(part: Part) -> list[tuple[str, float]]:
    """Of what a part is, as shares of its blank: its own stock first, then that of each strip."""
    strips = [(each.stock, strip_volume(each) / part.body.volume) for each in edgings_of(part.features)]
    return [(part.stock, 1 - sum(share for _, share in strips)), *strips]


def part_mass(piece: Piece, solids: Solids, part: Part) -> float:
    """One copy, as cut, at workshop moisture; of an edged sheet by the shares of its blank.  Units: kg."""
    woods = {each.id: stock_density(each, piece.moisture[2]) for each in piece.stock}
    return solids.of[part.id].volume * 1e-9 * sum(woods[stock] * share for stock, share in wood_shares(part))


def piece_mass(piece: Piece, solids: Solids) -> float:
    """All copies of all parts; screws, glue and finish are left out.  Units: kg."""
    return sum(part_mass(piece, solids, each) * len(each.copies) for each in piece.parts)


@dataclass(frozen=True)
class Weighed:
    """Mass in kg, and where it balances (mm, in the frame of the piece)."""

    mass: float
    centre: Vec


def weigh(piece: Piece, solids: Solids, key: Key) -> Weighed:
    """One standing copy; the shares of an edged sheet count for its mass, not for where it balances."""
    part = piece.part(key[0])
    return Weighed(part_mass(piece, solids, part), part.stands(key[1]).point(solids.of[part.id].centre))


def together(weights: Iterable[Weighed]) -> Weighed:
    """Several as one.  Raises ZeroDivisionError for none."""
    held = list(weights)
    mass = sum(each.mass for each in held)
    x, y, z = (sum(each.mass * each.centre[axis] for each in held) / mass for axis in range(3))
    return Weighed(mass, (x, y, z))


def weigh_all(piece: Piece, solids: Solids) -> Weighed:
    """The whole piece."""
    return together(weigh(piece, solids, (part.id, copy)) for part in piece.parts for copy in range(len(part.copies)))
