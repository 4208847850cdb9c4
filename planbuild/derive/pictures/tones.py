"""The tones of parts: wood of another kind than most of the piece is a step darker."""

from __future__ import annotations

from planbuild.derive.paint import WOOD, Tone
from planbuild.records.drawing import Tint
from planbuild.records.piece import Part, Piece
from planbuild.records.solids import Key

OTHER_WOOD: Tone = (Tint.FRONT, Tint.SIDE, Tint.SIDE)


def wood_of(piece: Piece, key: Key) -> Tone:
    """The tone of a part by its species."""
    return WOOD if _species(piece, piece.part(key[0])) == _main_species(piece) else OTHER_WOOD


def _species(piece: Piece, part: Part) -> str:
    return piece.stock_of(part).species


def _main_species(piece: Piece) -> str:
    """That of the greatest volume; the first named of two alike."""
    volumes: dict[str, float] = {}
    for part in piece.parts:
        species = _species(piece, part)
        volumes[species] = volumes.get(species, 0.0) + part.extent.volume * len(part.copies)
    return max(volumes, key=lambda species: volumes[species])
