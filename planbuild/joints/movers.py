"""What moves in use: each copy of a drawer, a door, a flap, with the parts that go with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import Axis, Box, Motion
from planbuild.core.poses import Pose
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
    turned: Pose | None = None
    """How all this (box and way) is turned with the block that holds it."""


def movers(piece: Piece, boxes: Mapping[Key, Box]) -> tuple[Mover, ...]:
    """By the boxes around every standing part; what moves without any part is left out."""
    found = []
    for block in piece.blocks:
        if block.moves:
            turned = block.turned or (None,) * len(block.motions)
            for hand, motion, turn in zip(block.hands, block.motions, turned, strict=True):
                box = motion.box(block.box)
                straight = {key: _straight(piece, key, turn) if turn else boxes[key] for key in boxes if key[0] in block.parts}
                keys = tuple(key for key, own in straight.items() if own and _belongs(own, box))
                name, moves = f"{hand} {block.name}".strip(), _standing(block.moves, motion)
                found.append(Mover(block.name, name, block.origin, keys, box, moves, turn))
    for part in piece.parts:
        if part.moves:
            for index, copy in enumerate(part.copies):
                key, name = (part.id, index), f"{copy.hand} {part.name}".strip()
                box = copy.motion.box(part.extent) if copy.turned else boxes[key]
                found.append(Mover(part.name, name, part.origin, (key,), box, _standing(part.moves, copy.motion), copy.turned))
    return tuple(each for each in found if each.keys)


def _straight(piece: Piece, key: Key, turn: Pose) -> Box | None:
    """The body of a copy before its block is turned; None if it belongs to a copy that is turned otherwise."""
    part = piece.part(key[0])
    copy = part.copies[key[1]]
    return copy.motion.box(part.body) if copy.turned == turn else None


def _belongs(box: Box, frame: Box) -> bool:
    """True for a copy that stands in this copy of the block: its middle does."""
    return all(frame.along(axis).low <= middle <= frame.along(axis).high for axis, middle in zip(Axis, box.centre, strict=True))


def _standing(moves: Moves, motion: Motion) -> Moves:
    """The way it moves as it is mirrored with its copy."""
    faces = (moves.goes_in, moves.opens, moves.swings, moves.about)
    goes_in, opens, swings, about = (each and motion.face(each) for each in faces)
    return Moves(goes_in, moves.trapped, opens, swings, about, moves.by)
