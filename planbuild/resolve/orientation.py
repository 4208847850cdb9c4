"""How each part lies: grain, face side and face edge, from their words alone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import Axis, Face
from planbuild.records.design import PartSaid
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.sayings import Sayings


@dataclass(frozen=True)
class Lie:
    """`face_said` is False where the face side is left to the square section."""

    grain: Axis
    face: Face
    edge: Face
    face_said: bool
    origin: Span
    measures = ("length", "width", "thickness")

    @property
    def width_axis(self) -> Axis:
        (axis,) = (a for a in Axis if a not in (self.grain, self.face.axis))
        return axis

    def axis_of(self, measure: str) -> Axis:
        """The direction of `length`, `width` or `thickness`."""
        return {"length": self.grain, "width": self.width_axis, "thickness": self.face.axis}[measure]

    def measure_of(self, axis: Axis) -> str:
        return next(word for word in self.measures if self.axis_of(word) is axis)


@dataclass(frozen=True)
class Clear:
    """How an opening or a block lies: straight, and without grain."""

    origin: Span
    measures = ("width", "depth", "height")

    def axis_of(self, measure: str) -> Axis:
        return Axis(self.measures.index(measure))

    def measure_of(self, axis: Axis) -> str:
        return self.measures[axis.value]


_EDGES: tuple[Face, ...] = (Face.TOP, Face.FRONT, Face.LEFT)
"""Where the face edge is unless said: the first of these that can be."""


def lies(parts: Mapping[str, PartSaid], sayings: Sayings) -> dict[str, Lie]:
    """How the parts lie, without those whose words are wrong.  Reports `place-face-grain`, `place-edge`, `word-unknown`."""
    found = {}
    for id, said in parts.items():
        try:
            found[id] = _lie(id, said, sayings)
        except Poisoned:
            continue
    return found


def _lie(id: str, said: PartSaid, sayings: Sayings) -> Lie:
    grain = sayings.axis(said.grain)
    face = sayings.face(said.face) if said.face else (Face.FRONT if grain is Axis.BOTTOM_TOP else Face.TOP)
    if said.face and face.axis is grain:
        message = f'"{id}": the face side cannot look along the grain (both {grain.words}).'
        sides = ", ".join(each.value for each in Face if each.axis is not grain)
        raise sayings.refuse("place-face-grain", said.face, message, f"one of: {sides}")
    can = [each for each in Face if each.axis not in (grain, face.axis)]
    if said.edge is None:
        edge = next(each for each in _EDGES if each in can)
    else:
        edge = sayings.face(said.edge)
        if edge not in can:
            message = f'"{id}": the face edge cannot be its {edge.value}, which is {_why_not(edge, grain)}.'
            raise sayings.refuse("place-edge", said.edge, message, f"one of: {', '.join(each.value for each in can)}")
    return Lie(grain, face, edge, said.face is not None, said.origin)


def _why_not(edge: Face, grain: Axis) -> str:
    return "an end" if edge.axis is grain else "its face side or the face behind it"
