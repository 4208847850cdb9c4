"""Strips of edging in the lists: how large each is, what it is ripped from, and what wood it brings to its part."""

from __future__ import annotations

from collections.abc import Iterator

from planbuild.core.units import Ruler
from planbuild.derive.lists.blanks import Blank
from planbuild.records.edging import Edging, edgings_of
from planbuild.records.edition import Edition
from planbuild.records.facts import StripRow
from planbuild.records.piece import Part, Piece, Stock


def strip_size(part: Part, strip: Edging) -> tuple[float, float, float]:
    """Length, width (as thick as the part) and thickness with its tongue.  Units: mm."""
    length = strip.strip.size(strip.run(part.thickness_axis))
    return length, part.finished[2], strip.thickness + (strip.tongue[1] if strip.tongue else 0.0)


def strip_rows(piece: Piece, stock: Stock, edition: Edition) -> tuple[StripRow, ...]:
    """The strips that are ripped from a stock, part by part."""
    return tuple(_row(piece, part, strip, edition) for part, strip in _strips(piece, stock))


def strip_blanks(piece: Piece, stock: Stock) -> list[Blank]:
    """What the strips take of a board: their thickness and a saw cut off its edge."""
    blanks = []
    for part, strip in _strips(piece, stock):
        length, _, thick = strip_size(part, strip)
        size = (length + piece.practice.rough_length, thick + piece.practice.kerf, stock.rough)
        blanks.append(Blank(part.id, stock.id, size, len(part.copies)))
    return blanks


def edging_text(part: Part, ruler: Ruler) -> str:
    """`edging 1/4 of white ash at the front and left`, "" for none."""
    strips = edgings_of(part.features)
    kinds: dict[tuple[str, str], list[str]] = {}
    for each in strips:
        kinds.setdefault((each.wood, ruler.printed(each.thickness)), []).append(each.edge.value)
    texts = [f"edging {thick} of {wood}: {', '.join(edges)}" for (wood, thick), edges in kinds.items()]
    return "; ".join(texts)


def _strips(piece: Piece, stock: Stock) -> Iterator[tuple[Part, Edging]]:
    for part in piece.parts:
        yield from ((part, each) for each in edgings_of(part.features) if each.stock == stock.id)


def _row(piece: Piece, part: Part, strip: Edging, edition: Edition) -> StripRow:
    length, width, thick = strip_size(part, strip)
    board = next(each for each in piece.stock if each.id == strip.stock)
    finished, rough = (length, width, thick), (length + piece.practice.rough_length, board.thickness, thick)
    printed = edition.ruler.printed
    ends = " and ".join(each.value for each in strip.mitred)
    notes = [
        f"glued on the {strip.edge.value} edge",
        f"with a tongue {printed(strip.tongue[0])} thick and {printed(strip.tongue[1])} long" if strip.tongue else "",
        f"mitred at the {ends}" if ends else "",
    ]
    return StripRow(
        part=part.id,
        name=f"edging, {strip.edge.value}",
        count=len(part.copies),
        finished_text=(printed(finished[0]), printed(finished[1]), printed(finished[2])),
        rough_text=(printed(rough[0]), printed(rough[1]), printed(rough[2])),
        note=", ".join(each for each in notes if each),
    )
