"""Trade defaults in force for this plan, each with its reason, as printed with the record."""

from __future__ import annotations

from planbuild.core import tables
from planbuild.derive import phrases
from planbuild.records.edition import Edition
from planbuild.records.piece import Piece

_NAMES = {
    "rough_length": "added to the length of a blank",
    "rough_width": "added to the width of a blank",
    "mortise_deeper": "mortise deeper than its tenon is long, by",
    "tenon_share": "tenon thickness as a share of the stock",
    "shoulder": "shoulder where none is said",
    "wall": "least wood behind a mortise",
    "chisels": "chisels at hand",
    "kerf": "saw cut",
    "waste_solid": "added to solid wood for waste",
    "waste_sheet": "added to sheets for waste",
    "button_spacing": "buttons apart, at most",
    "way": "way of working",
}


def practice(piece: Piece, edition: Edition) -> tuple[str, ...]:
    """One line for each row of the table of practice, with the value that this design uses."""
    return tuple(_line(piece, edition, row) for row in tables.rows("practice"))


def _line(piece: Piece, edition: Edition, row: tables.Row) -> str:
    value: object = getattr(piece.practice, row["name"])
    name = _NAMES.get(row["name"], row["name"].replace("_", " "))
    used, reason = _printed(edition, row["is"], value), phrases.sentence(row["reason"])
    return phrases.sentence(f"{name}: {used}. {reason} Source: {row['source']}")


def _printed(edition: Edition, kind: str, value: object) -> str:
    if isinstance(value, tuple):
        return phrases.listed(_printed(edition, "length", each) for each in value)
    if isinstance(value, (int, float)):
        return edition.ruler.printed(value) if kind in ("length", "allowance") else f"{value * 100:.0f} %"
    return str(value)
