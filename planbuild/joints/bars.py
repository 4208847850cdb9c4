"""Standing copies of parts that cross, and where: what half laps and bridles ask first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import Axis, Box, Face
from planbuild.joints.base import Board


@dataclass(frozen=True)
class Bar:
    """One standing copy of a part; `span` is where the joint names it."""

    board: Board
    copy: int
    span: Span

    @property
    def key(self) -> tuple[str, int]:
        return self.board.id, self.copy

    @property
    def hand(self) -> str:
        return self.board.copies[self.copy].hand

    @property
    def body(self) -> Box:
        return self.board.standing(self.copy)

    @property
    def grain(self) -> Axis:
        return self.board.copies[self.copy].motion.axis(self.board.grain)

    @property
    def face_side(self) -> Face:
        return self.board.copies[self.copy].motion.face(self.board.face)


Pair = tuple[Bar, Bar]


def that_overlap(pairs: Iterable[Pair]) -> list[Pair]:
    """Those whose bodies share wood."""
    return [(one, other) for one, other in pairs if one.body.meet(other.body).is_solid]


def square_to_both(one: Bar, other: Bar) -> Axis:
    """The direction square to two grains that cross."""
    (axis,) = (each for each in Axis if each not in (one.grain, other.grain))
    return axis
