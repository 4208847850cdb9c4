"""Which surfaces a finish is said of: parts and their faces, blocks, and all that looks into something."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Box, Face, hull
from planbuild.core.spelling import did_you_mean
from planbuild.joints.base import Board, Chosen, Words
from planbuild.records.design import Said
from planbuild.records.piece import Surface
from planbuild.resolve.boards import frame_middle
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.scopes import holder, in_every_size, within
from planbuild.resolve.setting_out import SettingOut, box_of

FACES = tuple(face.value for face in Face)


@dataclass(frozen=True)
class Surfaces:
    """Parts and faces by their words: `slat`, `lower_rail.inside`, `drawer.drawer_side`, `drawer`, `inside drawer`."""

    setting_out: SettingOut
    boards: Mapping[str, Board]
    words: Words

    def of(self, text: str, at: Said) -> tuple[Surface, ...]:
        """None after reporting `finish-part`."""
        try:
            first, _, name = text.partition(" ")
            inside = first == "inside" and bool(name)
            each = in_every_size(self.setting_out.design, name if inside else text)
            return tuple(dict.fromkeys(found for one in each for found in (self._inside if inside else self._named)(one, at)))
        except Poisoned:
            return ()

    def _named(self, text: str, at: Said) -> Iterable[Surface]:
        design = self.setting_out.design
        name, _, face = text.rpartition(".")
        if not name or face not in (*FACES, "inside", "outside"):
            name, face = text, ""
        if name in design.blocks and not face:
            return [(id, None) for id in self.boards if within(id, name)]
        if name not in design.parts:
            known = (*design.parts, *design.blocks)
            message, hints = f'No part "{name}" to be finished.', did_you_mean(name, known)
            raise self.setting_out.places.refuse("finish-part", at, message, "a part, a face of one, or a block", hints)
        board = self.boards.get(name)
        if board is None:
            return []
        return [self._looking(board, face, at)] if face in ("inside", "outside") else [(name, Face(face) if face else None)]

    def _looking(self, board: Board, way: str, at: Said) -> Surface:
        """The broad face of a board that looks to the middle of the frame, or of the block's, or away from it."""
        middle = frame_middle(holder(board.id), self.setting_out)
        if middle is None:
            raise Poisoned
        faces = _toward(board, float(middle[board.face.axis]))
        if len(faces) > 1:
            message = f'"{board.id}" stands in the middle: neither of its broad faces looks {way}.'
            raise self.setting_out.places.refuse("finish-part", at, message, hints=("Name the face.",))
        return (board.id, faces[0] if way == "inside" else faces[0].opposite)

    # ------------------------------------------------------------ all that looks into something

    def _inside(self, name: str, at: Said) -> Iterable[Surface]:
        design = self.setting_out.design
        if name in design.openings:
            return self._into_opening(name)
        if name in design.blocks:
            return _into_the_middle([self._drawn(board, name) for id, board in self.boards.items() if within(id, name)])
        if name in design.assemblies:
            chosen = [self.words.parts(said) for said in design.assemblies[name].parts]
            return _into_the_middle([each for found in chosen for each in found or ()])
        known = (*design.openings, *design.blocks, *design.assemblies)
        message = f'"{name}" has no inside.'
        expected = "an opening, a block or a subassembly"
        raise self.setting_out.places.refuse("finish-part", at, message, expected, did_you_mean(name, known))

    def _drawn(self, board: Board, block: str) -> Chosen:
        """The copies of a board that stand in the drawn copy of a block: the first ones."""
        outer = len(self.setting_out.copies_of(block))
        return Chosen(board, tuple(range(len(board.copies) // outer)), None, board.origin)

    def _into_opening(self, name: str) -> Iterable[Surface]:
        """Faces that lie in one of its planes and look into it."""
        spans = self.setting_out.spans(name)
        if spans is None:
            return
        space = box_of(spans)
        for board in self.boards.values():
            for copy, motion in enumerate(each.motion for each in board.copies):
                for face in Face:
                    if _bounds(board.standing(copy), face, space):
                        yield board.id, motion.inverse.face(face)


def _bounds(body: Box, face: Face, space: Box) -> bool:
    """True if a face of a body is a wall of a space."""
    if abs(body.at(face) - space.at(face.opposite)) > TINY:
        return False
    return all(body.along(axis).meet(space.along(axis)).size > TINY for axis in face.axis.others)


def _into_the_middle(chosen: Sequence[Chosen]) -> Iterable[Surface]:
    """The broad faces that look to the middle of all: what stands in the middle looks to it with both."""
    if not chosen:
        return
    whole = hull([each.board.standing(copy) for each in chosen for copy in each.copies])
    for each in chosen:
        motion, first = each.board.copies[each.copies[0]].motion, each.board.standing(each.copies[0])
        axis = motion.axis(each.board.face.axis)
        for face in _looks_to(first, whole.along(axis).middle, axis.low, axis.high):
            yield each.board.id, motion.inverse.face(face)


def _toward(board: Board, middle: float) -> tuple[Face, ...]:
    return _looks_to(board.body, middle, board.face.axis.low, board.face.axis.high)


def _looks_to(body: Box, middle: float, low: Face, high: Face) -> tuple[Face, ...]:
    """Of two opposite faces the one that looks to a middle; both if the body stands across it."""
    span = body.along(low.axis)
    if abs(span.middle - middle) * 2 < span.size:
        return low, high
    return (high,) if span.middle < middle else (low,)
