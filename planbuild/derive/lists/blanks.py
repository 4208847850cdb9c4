"""The blank each part is cut from: rough length, width and thickness, and how many blanks there are.

Apart from the cut list so that wood to buy, steps and tables speak of the same blanks.
"""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.records.piece import Part, Piece


@dataclass(frozen=True)
class Blank:
    """`each` is (length along the grain, width, rough thickness) of one of `count` like pieces.  Units: mm.

    A panel's blanks are its strips.
    """

    part: str
    stock: str
    each: tuple[float, float, float]
    count: int


def blank_of(piece: Piece, part: Part) -> Blank:
    """Finished size plus the allowances of the part; the thickness is that of the rough board."""
    length, width, _ = part.finished
    strips = part.glue_up.strips if part.glue_up else 1
    wide = part.glue_up.strip_width if part.glue_up else width
    size = (length + part.rough_length, wide + part.rough_width, piece.stock_of(part).rough)
    return Blank(part.id, part.stock, size, strips * len(part.copies))


def blanks(piece: Piece) -> tuple[Blank, ...]:
    """One entry a part, in the order of the parts."""
    return tuple(blank_of(piece, each) for each in piece.parts)
