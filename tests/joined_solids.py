"""Boards by hand, joined and made solid: what a joint must do to real wood.

For joints that divide wood: both parts whole, nothing lost and nothing there twice, free to go together in one
direction and blocked in the others.
"""

from __future__ import annotations

from timber import piece

from planbuild.core.geometry import Box, Vec
from planbuild.joints.base import Board, Joined
from planbuild.records.piece import Part
from planbuild.records.solids import Key, Solids
from planbuild.shape import kernel, shape
from planbuild.shape.kernel import Shape


def parts_of(*boards: Board, made: Joined) -> tuple[Part, ...]:
    """The boards as parts, each grown as its joint wants, with what the joint cuts."""
    return tuple(_part(board, made) for board in boards)


def _part(board: Board, made: Joined) -> Part:
    body = board.body
    for face, size in made.grows.get(board.id, {}).items():
        body = body.grown(face, size)
    features = (*board.shapes, *made.features.get(board.id, ()))
    names = (board.id, board.id[0].upper(), board.name, board.origin, board.stock.id)
    return Part(*names, board.grain, board.face, board.edge, body, features, board.copies, 25.0, 6.0)


def solids_of(*boards: Board, made: Joined) -> Solids:
    stock = tuple({board.stock.id: board.stock for board in boards}.values())
    return shape(piece(*parts_of(*boards, made=made), stock=stock))


def whole(solids: Solids, key: Key) -> bool:
    """One connected, sound solid."""
    found = solids.placed[key].wrapped
    return len(kernel.solids_of(found)) == 1 and kernel.is_valid(found)


def volume(shape: Shape) -> float:
    return kernel.volume_and_centre(shape)[0]


def together(solids: Solids, *keys: Key) -> float:
    """Volume of the parts put together."""
    first, *others = (solids.placed[key].wrapped for key in keys)
    return volume(kernel.fuse(first, others).Shape())


def block_of(*boxes: Box) -> Shape:
    """Blocks put together."""
    first, *others = (kernel.block(box) for box in boxes)
    return kernel.fuse(first, others).Shape()


def of_boxes(*boxes: Box) -> float:
    """Volume of blocks put together."""
    return volume(block_of(*boxes))


def clash(solids: Solids, moving: Key, still: Key, by: Vec = (0.0, 0.0, 0.0)) -> float:
    """How much wood two parts claim alike when one has been moved."""
    moved = solids.placed[moving].moved(_location(by)).wrapped
    return volume(kernel.common(solids.placed[still].wrapped, [moved]))


def _location(by: Vec) -> object:
    import cadquery as cq

    return cq.Location(cq.Vector(*by))


def is_free(solids: Solids, moving: Key, still: Key, way: Vec, far: float) -> bool:
    """True if a part can be drawn out along a way without touching the other on it."""
    steps = [far * n / 3 for n in range(4)]
    return all(clash(solids, moving, still, (way[0] * s, way[1] * s, way[2] * s)) < 1e-3 for s in steps)
