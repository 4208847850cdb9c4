"""What moves in use: each copy of a drawer, a door, a flap, with the parts that go with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import Axis, Box, Motion
from planbuild.records.openings import Moves
from planbuild.records.piece import Piece

Key = tuple[str, int]


@dataclass(frozen=True)
class Mover:
    """One copy of what moves: what it is called (`name` with its hand), its parts, the box about whose edge it swings, and
    its way where it stands."""

    kind: str
    name: str
    origin: Span
    keys: tuple[Key, ...]
    box: Box
    moves: Moves


def movers(piece: Piece, boxes: Mapping[Key, Box]) -> tuple[Mover, ...]:
    """By the boxes around every standing part; what moves without any part is left out."""
    found = []
    for block in piece.blocks:
        if block.moves:
            for hand, motion in zip(block.hands, block.motions, strict=True):
                box = motion.box(block.box)
                keys = tuple(key for key in boxes if key[0] in block.parts and _belongs(boxes[key], box))
                name, moves = f"{hand} {block.name}".strip(), _standing(block.moves, motion)
                found.append(Mover(block.name, name, block.origin, keys, box, moves))
    for part in piece.parts:
        if part.moves:
            for index, copy in enumerate(part.copies):
                key, name = (part.id, index), f"{copy.hand} {part.name}".strip()
                found.append(Mover(part.name, name, part.origin, (key,), boxes[key], _standing(part.moves, copy.motion)))
    return tuple(each for each in found if each.keys)


def _belongs(box: Box, frame: Box) -> bool:
    """True for a copy that stands in this copy of the block: its middle does."""
    return all(frame.along(axis).low <= middle <= frame.along(axis).high for axis, middle in zip(Axis, box.centre, strict=True))


def _standing(moves: Moves, motion: Motion) -> Moves:
    """The way it moves as it is mirrored with its copy."""
    faces = (moves.goes_in, moves.opens, moves.swings, moves.about)
    goes_in, opens, swings, about = (each and motion.face(each) for each in faces)
    return Moves(goes_in, moves.trapped, opens, swings, about, moves.by)
