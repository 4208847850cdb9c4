"""A number that fixes part of a board, before it is decided whether and where it is printed.  Units: mm, degrees."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import IntEnum

from planbuild.core.geometry import Axis, Box, Face, Vec


class Weight(IntEnum):
    """Which number is rather printed where one of several follows from the others.

    What the board is planed to comes first, then what two parts must agree on, then places from the datum,
    then the whole; a reference is only ever printed in brackets.
    """

    PLANED = 0
    FUNCTIONAL = 1
    DATUM = 2
    OVERALL = 3
    REFERENCE = 4


class Style(IntEnum):
    """How a number is drawn: between two extension lines, in words at the end of a leader, or only in the list beside."""

    LINE = 0
    LEADER = 1
    NOTE = 2


Points = tuple[tuple[Face, Vec], ...]
"""What a leader points at, by the face its viewer looks at."""


@dataclass(frozen=True)
class Measure:
    """One number of a feature (`body` for the board itself).

    `axis` and `ends` are the two planes it connects, the datum first; without an axis it is a radius, a
    diameter, an angle or another form that stands for itself.  `region` is where on the board it belongs,
    `seen` the faces a viewer looks at who sees it in true shape, the best first.  `inside` asks for a
    section.  `say` are the words around the printed figure.  `points` is what a leader points at, by the
    face its viewer looks at.
    """

    feature: str
    states: str
    value: float
    weight: Weight
    region: Box
    seen: tuple[Face, ...]
    axis: Axis | None = None
    ends: tuple[float, float] = (0.0, 0.0)
    say: str = "{}"
    unit: str = "mm"
    style: Style = Style.LINE
    inside: bool = False
    fine: bool = False
    """Better seen in an enlarged detail of the end than in the whole."""
    points: Points = ()
    rank: int = 0
    """Leaders of one feature are lines of one note; `rank` orders them."""
    step: bool = False
    """One of the equal steps of a row: what is said of the first is said of all."""

    @property
    def id(self) -> str:
        return f"{self.feature}:{self.states}"


@dataclass(frozen=True)
class Datum:
    """The faces a maker measures from, one a direction: an end, the face side, the face edge."""

    faces: dict[Axis, Face] = field(hash=False)

    def __getitem__(self, axis: Axis) -> Face:
        return self.faces[axis]


def linear(
    feature: str, states: str, axis: Axis, ends: tuple[float, float], region: Box, seen: tuple[Face, ...],
    weight: Weight = Weight.FUNCTIONAL, inside: bool = False, fine: bool = False,
) -> Measure:  # fmt: skip
    """A distance between two planes along an axis."""
    return Measure(feature, states, abs(ends[1] - ends[0]), weight, region, seen, axis, ends, inside=inside, fine=fine)


def told(
    feature: str, states: str, value: float, region: Box, points: Points, say: str,
    rank: int = 0, unit: str = "mm", weight: Weight = Weight.FUNCTIONAL, fine: bool = False,
) -> Measure:  # fmt: skip
    """A form that is said at the end of a leader."""
    seen = tuple(dict.fromkeys(face for face, _ in points))
    style = Style.LEADER
    return Measure(feature, states, value, weight, region, seen, None, (0.0, 0.0), say, unit, style, False, fine, points, rank)


def told_distance(
    feature: str, states: str, axis: Axis, ends: tuple[float, float], region: Box, points: Points, say: str, rank: int = 0,
) -> Measure:  # fmt: skip
    """A distance between two planes that is said at the end of a leader, where lines would have no room."""
    return replace(told(feature, states, abs(ends[1] - ends[0]), region, points, say, rank), axis=axis, ends=ends)
