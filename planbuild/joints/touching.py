"""What the face of a board meets: the neighbours that lie flat against it, and the nearest one if none does.

Apart from the joints because each kind asks this first.  Bodies are blocks, before any shaping; where a taper
leaves no wood for the joint, that is said too.  Those that stand square to the piece are compared as boxes; for those
that do not, see `slanting`.  Faces "as it stands" are named as if a board that is turned or leans stood straight.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1, Vec
from planbuild.core.poses import rim
from planbuild.joints.base import Board, Standing
from planbuild.joints.slanting import Plate, flat_against, plate
from planbuild.records.features import Taper


@dataclass(frozen=True)
class Touch(Standing):
    """One that lies against a face: `face` is its own, as it stands; `patch` is where they touch, a box without
    thickness in the frame of the piece (of a slanted plane, the box around where they touch)."""

    face: Face
    patch: Box
    outline: tuple[Vec, ...] = ()
    """The corners of the patch, in order, where it is no rectangle square to the piece."""


def plane_of(box: Box, face: Face) -> Box:
    """A face of a box as a box without thickness."""
    return box.with_span(face.axis, Span1(box.at(face), box.at(face)))


def patch_between(one: Box, face: Face, other: Box) -> Box | None:
    """Where `face` of one box lies flat against the other, or None.  A common edge or corner is no touch."""
    if abs(one.at(face) - other.at(face.opposite)) > TINY:
        return None
    patch = plane_of(one, face).meet(plane_of(other, face.opposite).with_span(face.axis, plane_of(one, face).along(face.axis)))
    return patch if all(patch.size(axis) > TINY for axis in face.axis.others) else None


def _patch(one: Box, face: Face, board: Board, copy: int) -> Box | None:
    """Where a face lies against the body of a copy, or else against the floor of a step in it."""
    patch = patch_between(one, face, board.standing(copy))
    if patch or len(board.blocks) == 1:
        return patch
    return next((found for block in board.standing_blocks(copy) if (found := patch_between(one, face, block))), None)


def near(one: Box, other: Box) -> bool:
    """False if there is a gap between two boxes: most pairs are told apart by this alone."""
    return (
        max(one.x.low, other.x.low) <= min(one.x.high, other.x.high) + TINY
        and max(one.y.low, other.y.low) <= min(one.y.high, other.y.high) + TINY
        and max(one.z.low, other.z.low) <= min(one.z.high, other.z.high) + TINY
    )


def touches(body: Box, face: Face, boards: Iterable[Board], but: tuple[str, int]) -> list[Touch]:
    """All copies of the boards that lie flat against `face` of a standing body; `but` is the one that asks."""
    return _against(Plate(rim(body, face), face.normal), (body, face), boards, but)


def touches_of(board: Board, copy: int, face: Face, boards: Iterable[Board]) -> list[Touch]:
    """The same for a face, as it stands, of a standing copy that need not be square to the piece."""
    if board.is_square:
        return _stepped(board, copy, face, list(boards))
    own = board.copies[copy].motion.inverse.face(face)
    return _against(plate(board, copy, own), None, boards, (board.id, copy))


def _stepped(board: Board, copy: int, face: Face, boards: list[Board]) -> list[Touch]:
    """What lies against a face of the body; where the board is stepped, also what lies against the floor of a step."""
    me = board.id, copy
    found = touches(board.standing(copy), face, boards, me)
    for block in board.standing_blocks(copy) if len(board.blocks) > 1 else ():
        met = {touch.key for touch in found}
        found += [touch for touch in touches(block, face, boards, me) if touch.key not in met]
    return found


def _against(asks: Plate, square: tuple[Box, Face] | None, boards: Iterable[Board], but: tuple[str, int]) -> list[Touch]:
    """What lies flat against a plate; `square` is the body and face whose plate it is, if both are square to the piece."""
    found, around = [], asks.around if square is None else square[0]
    for board in boards:
        for copy in range(len(board.copies)):
            if (board.id, copy) == but or not near(around, board.standing(copy)):
                continue
            if square and board.is_square:
                patch = _patch(square[0], square[1], board, copy)
                found += [Touch(board, copy, square[1].opposite, patch)] if patch else []
            else:
                found += [Touch(board, copy, each, patch, outline) for each, patch, outline in flat_against(asks, board, copy)]
    return found


def nearest(body: Box, face: Face, boards: Iterable[Board], but: tuple[str, int]) -> tuple[Board, float] | None:
    """The board whose nearest copy is nearest to a face, and how far off it is (mm); None if there is no other."""
    plane = plane_of(body, face)
    distances = [
        (gap(plane, board.standing(copy)), board)
        for board in boards
        for copy in range(len(board.copies))
        if (board.id, copy) != but
    ]
    if not distances:
        return None
    distance, board = min(distances, key=lambda each: each[0])
    return board, distance


def gap(one: Box, other: Box) -> float:
    """Shortest way between two boxes, mm; 0 if they touch or overlap."""
    return math.hypot(*(max(0.0, -one.along(axis).meet(other.along(axis)).size) for axis in Axis))


def crossed_width(patch: Box, face: Axis, one: Axis, other: Axis) -> float:
    """The longest way on a patch along which one of two woods moves with the seasons and the other does not, mm.

    Wood moves across its grain only.  0 if the two grains run alike.
    """
    return max((patch.size(axis) for axis in face.others if (axis is one) is not (axis is other)), default=0.0)


def pairs_that_touch(boards: Iterable[Board]) -> Iterator[tuple[tuple[Board, int], tuple[Board, int]]]:
    """Each two standing copies that lie flat against each other, once, in the order of the boards."""
    standing = [(board, copy, board.standing(copy)) for board in boards for copy in range(len(board.copies))]
    for index, (board, copy, body) in enumerate(standing):
        for other, at, against in standing[index + 1 :]:
            if near(body, against) and _lie_flat(board, copy, other, at):
                yield (board, copy), (other, at)


def _lie_flat(one: Board, copy: int, other: Board, at: int) -> bool:
    if one.is_square and other.is_square:
        blocks = (one.standing(copy), *(one.standing_blocks(copy) if len(one.blocks) > 1 else ()))
        return any(_patch(block, face, other, at) for block in blocks for face in Face)
    return any(True for face in Face for _ in flat_against(plate(one, copy, face), other, at))


def taper_at(touch: Touch, face: Face, region: Box) -> Taper | None:
    """The taper of a board that slopes away under `region` on a face of it (both as the copy stands), or None."""
    home = touch.board.copies[touch.copy].motion.inverse
    drawn = home.box(region)
    for shape in touch.board.shapes:
        if isinstance(shape, Taper) and home.face(face) in shape.faces:
            ends = sorted((shape.start, touch.board.body.at(shape.end)))
            if drawn.along(shape.end.axis).meet(Span1(*ends)).size > TINY:
                return shape
    return None
