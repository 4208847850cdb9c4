"""Where boards that are not square to the piece lie flat against others: faces as outlines in space."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1, Vec
from planbuild.core.poses import STRAIGHT, area, around, common, dot
from planbuild.joints.base import Board

LEAST = 1.0
"""mm2; a smaller patch is an edge or a corner that touches, not a face."""


@dataclass(frozen=True)
class Plate:
    """A flat face where it stands: its corners in order, and the way it looks."""

    outline: Sequence[Vec]
    normal: Vec

    @property
    def around(self) -> Box:
        return around(self.outline)


def plate(board: Board, copy: int, face: Face) -> Plate:
    """A face of a standing copy, by its own name."""
    return Plate(board.outline(face, copy), board.normal(face, copy))


def flat_against(asks: Plate, board: Board, copy: int) -> Iterator[tuple[Face, Box, tuple[Vec, ...]]]:
    """The faces of a copy, as it stands, that lie on a plate, each with the box around where they touch and its corners."""
    for own in Face:
        other = plate(board, copy, own)
        if dot(asks.normal, other.normal) > STRAIGHT - 1.0 or abs(_off(asks, other)) > TINY:
            continue
        shared = common(asks.outline, other.outline, asks.normal)
        if area(shared) > LEAST:
            yield board.copies[copy].motion.face(own), _thin(around(shared)), tuple(shared)


def _off(one: Plate, other: Plate) -> float:
    """How far one plate lies before the plane of another, mm."""
    a, b = one.outline[0], other.outline[0]
    return dot(one.normal, (b[0] - a[0], b[1] - a[1], b[2] - a[2]))


def _thin(patch: Box) -> Box:
    """Free of the noise of turning where it has no thickness."""
    spans = {axis: patch.along(axis) for axis in Axis}
    flat = {axis: Span1(span.middle, span.middle) for axis, span in spans.items() if span.size < TINY / 100}
    return Box.of({**spans, **flat})
