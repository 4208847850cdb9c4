"""Standing copies of parts that cross, and where: what half laps and bridles ask first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import Axis, Face
from planbuild.joints.base import Standing


@dataclass(frozen=True)
class Bar(Standing):
    """One that may cross another; `span` is where the joint names it."""

    span: Span

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
