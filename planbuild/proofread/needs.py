"""What a sheet must say: one number, and how numbers of a feature are counted from the board it is cut in.

Units: mm, degrees; positions in the frame of the piece.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Box, Face
from planbuild.records.facts import Dimension
from planbuild.records.features import (
    Feature,
)
from planbuild.records.piece import Part


@dataclass(frozen=True)
class Need:
    """One number: `words` say what it is.

    With an `axis` it is a distance; any one of `spans` (pairs of planes, low first) will do.  Without, it is a
    form of the feature itself with that `value`.  `told` are words that must stand beside it.
    """

    feature: str
    words: str
    value: float = 0.0
    axis: Axis | None = None
    spans: tuple[tuple[float, float], ...] = ()
    told: str = ""

    def is_met_by(self, printed: Dimension) -> bool:
        if self.axis is None:
            return printed.feature == self.feature and not printed.axis and abs(printed.value - self.value) <= TINY
        same_way = printed.axis == self.axis.words and self.told in printed.text
        return same_way and any(_same(span, printed.ends) for span in self.spans)


def _same(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return all(abs(a - b) <= TINY for a, b in zip(one, sorted(other), strict=True))


def ends(box: Box, axis: Axis) -> tuple[float, float]:
    return box.along(axis).low, box.along(axis).high


def between(feature: str, words: str, axis: Axis, one: float, other: float) -> Need:
    return Need(feature, words, axis=axis, spans=((min(one, other), max(one, other)),))


def place(part: Part, f: Feature, words: str, axis: Axis, *walls: float) -> Iterator[Need]:
    """One of the walls from one of the ends or faces of the board; none if a wall lies on one of them."""
    edges = {*ends(part.body, axis), *ends(part.extent, axis)}
    spans = tuple((min(edge, wall), max(edge, wall)) for edge in sorted(edges) for wall in walls)
    if all(high - low > TINY for low, high in spans):
        yield Need(f.id, words, axis=axis, spans=spans)


def into(part: Part, f: Feature, words: str, face: Face, depth: float) -> Need:
    surface = part.body.at(face)
    return between(f.id, words, face.axis, surface, surface - face.sign * depth)
