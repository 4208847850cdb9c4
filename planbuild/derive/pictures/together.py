"""What stays together when a piece of many parts is moved apart: its blocks (a drawer, a door, a lattice).

The whole picture then shows each block as one, and each kind of block has a picture of its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from planbuild.core.geometry import Axis, Box, hull
from planbuild.derive.pictures.explosion import Link
from planbuild.records.openings import Block
from planbuild.records.piece import Piece
from planbuild.records.solids import Key

MANY = 20
"""Up to so many pieces of wood one picture shows them all."""


@dataclass(frozen=True)
class Together:
    """A block with the parts of each of its copies."""

    block: Block
    copies: tuple[tuple[Key, ...], ...]


def kept_together(piece: Piece, links: Sequence[Link]) -> tuple[Together, ...]:
    """The blocks of a piece of many parts, outermost ones only; none of a block that does not hang together copy by copy."""
    if sum(len(part.copies) for part in piece.parts if not part.made_by) <= MANY:
        return ()
    outer = [one for one in piece.blocks if not any(set(one.parts) < set(other.parts) for other in piece.blocks)]
    found = (Together(block, _copies(piece, block, links)) for block in outer)
    return tuple(each for each in found if len(each.copies) == len(each.block.motions) and len(each.copies[0]) > 1)


def _copies(piece: Piece, block: Block, links: Sequence[Link]) -> tuple[tuple[Key, ...], ...]:
    """What is joined with each other, of the block and of the parts that its joints call for."""
    own = {*block.parts, *_made_for(piece, block)}
    groups = {(part.id, i): {(part.id, i)} for part in piece.parts if part.id in own for i in range(len(part.copies))}
    for link in links:
        if link.moving in groups and link.mate in groups and groups[link.moving] is not groups[link.mate]:
            both = groups[link.moving] | groups[link.mate]
            groups.update(dict.fromkeys(both, both))
    return tuple(tuple(sorted(group)) for group in {id(each): each for each in groups.values()}.values())


def _made_for(piece: Piece, block: Block) -> Iterator[str]:
    """Wedges, keys and the like of joints that are within the block."""
    within = {joint.id for joint in piece.joints if all(key[0] in block.parts for c in joint.contacts for key in (c.b,))}
    yield from (part.id for part in piece.parts if part.made_by in within)


def heads(groups: Sequence[Together]) -> dict[Key, Key]:
    """For every key that stays with others the one that stands for them all."""
    return {key: copy[0] for each in groups for copy in each.copies for key in copy}


def boxes_of(boxes: Mapping[Key, Box], head: Mapping[Key, Key]) -> dict[Key, Box]:
    """The box around all that stays together, and of every other part."""
    found: dict[Key, list[Box]] = {}
    for key, box in boxes.items():
        found.setdefault(head.get(key, key), []).append(box)
    return {key: hull(each) for key, each in found.items()}


def links_of(links: Sequence[Link], groups: Sequence[Together], boxes: Mapping[Key, Box]) -> list[Link]:
    """The links between what is moved; a block that is put in from a side leaves its opening by that side."""
    head, ways = heads(groups), _ways_home(groups, boxes)
    found: dict[tuple[Key, Key], Link] = {}
    for link in links:
        moving, mate = head.get(link.moving, link.moving), head.get(link.mate, link.mate)
        if moving == mate:
            continue
        if moving in ways or mate in ways:
            one, other = (moving, mate) if moving in ways else (mate, moving)
            axis, sign = ways[one]
            own, its = boxes[one].along(axis), boxes[other].along(axis)
            out = own.high - its.low if sign > 0 else its.high - own.low
            found[one, other] = Link(one, other, axis, sign, max(out, 0.0))
        else:
            found.setdefault((moving, mate), Link(moving, mate, link.axis, link.sign, link.engaged))
    return list(found.values())


def _ways_home(groups: Sequence[Together], boxes: Mapping[Key, Box]) -> dict[Key, tuple[Axis, int]]:
    """The axis along which each copy of a block goes into its opening, and the sign of that way."""
    found = {}
    for each in groups:
        side = each.block.moves.goes_in if each.block.moves else None
        if side is None:
            continue
        for copy in each.copies:
            middle = boxes[copy[0]].centre
            motion = min(each.block.motions, key=lambda m: _away(m.box(each.block.box), middle))
            face = motion.face(side)
            found[copy[0]] = (face.axis, -face.sign)
    return found


def _away(box: Box, place: Sequence[float]) -> float:
    return sum((a - b) ** 2 for a, b in zip(box.centre, place, strict=True))
