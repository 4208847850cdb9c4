"""The tones of parts: wood of another kind than most of the piece is a step darker."""

from __future__ import annotations

from collections.abc import Callable

from planbuild.core.geometry import Vec
from planbuild.derive.paint import BOUGHT, WOOD, Tone
from planbuild.derive.pictures.studio import Studio
from planbuild.records.drawing import Tint
from planbuild.records.piece import Part, Piece
from planbuild.records.solids import Key

OTHER_WOOD: Tone = (Tint.FRONT, Tint.SIDE, Tint.SIDE)


def woods(piece: Piece) -> Callable[[Key, Vec], Tone]:
    """The tone of every part by its species and of all that is bought, as a function for `paint.fills`."""
    main = _main_species(piece)
    tones = {part.id: WOOD if _species(piece, part) == main else OTHER_WOOD for part in piece.parts}
    return lambda key, normal: tones.get(key[0], BOUGHT)


def one_wood(studio: Studio) -> Callable[[Key, Vec], Tone]:
    """Every part alike, whatever its wood; only what is bought has a tone of its own."""
    return lambda key, normal: BOUGHT if key in studio.bought else WOOD


def _species(piece: Piece, part: Part) -> str:
    return piece.stock_of(part).species


def _main_species(piece: Piece) -> str:
    """That of the greatest volume; the first named of two alike."""
    volumes: dict[str, float] = {}
    for part in piece.parts:
        species = _species(piece, part)
        volumes[species] = volumes.get(species, 0.0) + part.extent.volume * len(part.copies)
    return max(volumes, key=lambda species: volumes[species])
