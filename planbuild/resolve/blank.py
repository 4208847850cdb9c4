"""A placed part that is being shaped: its exact body, its own words, and the wood that is left of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from planbuild.core.geometry import Axis, Face
from planbuild.records.design import Said
from planbuild.records.shapes_said import ShapeSaid
from planbuild.resolve.expressions.values import Place
from planbuild.resolve.neighbours import Neighbours
from planbuild.resolve.orientation import Lie
from planbuild.resolve.sayings import Sayings, figure
from planbuild.resolve.setting_out import Spans


@dataclass
class Blank:
    """`middle` is the frame's; `leaving` the size left by a taper, by (end, axis); `cuts` what edges have lost."""

    id: str
    lie: Lie
    spans: Spans
    middle: dict[Axis, Fraction]
    sayings: Sayings
    leaving: dict[tuple[Face, Axis], Fraction] = field(default_factory=dict)
    cuts: dict[frozenset[Face], list[tuple[Fraction, tuple[Fraction, Fraction]]]] = field(default_factory=dict)
    ids: set[str] = field(default_factory=set)
    corners: dict[frozenset[Face], dict[Axis, Fraction]] = field(default_factory=dict)
    """What corner edges have lost, along both directions."""
    ends_cut: dict[Face, float] = field(default_factory=dict)
    """How much shorter an end became on its short side, mm."""
    neighbours: Neighbours | None = None

    @property
    def grain(self) -> Axis:
        return self.lie.grain

    def at(self, face: Face) -> Fraction:
        return self.spans[face.axis][face.sign > 0]

    def size(self, axis: Axis) -> Fraction:
        return self.spans[axis][1] - self.spans[axis][0]

    def figure(self, mm: Fraction) -> str:
        return figure(mm, self.sayings.unit)

    def unique(self, *words: str) -> str:
        """An id made of names; a second one of the same names is numbered."""
        name = ".".join(word.replace(" ", "_") for word in words)
        number, id = 1, name
        while id in self.ids:
            number += 1
            id = f"{name}.{number}"
        self.ids.add(id)
        return id

    # ------------------------------------------------------------ what is said of a shape

    def place(self, said: Said, axis: Axis) -> Fraction:
        """A place in a direction, within the part.  Reports `shape-plain`, `shape-outside`; raises Poisoned."""
        found = self.sayings.place(said, axis)
        if not isinstance(found, Place):
            message = f"`{said.text}` is a length; from which face?"
            hint = f"Write `{said.text} inside {axis.low.value}` or `{said.text} inside {axis.high.value}`."
            raise self.sayings.refuse("shape-plain", said, message, "a place", (hint,))
        low, high = self.spans[axis]
        if not low <= found.mm <= high:
            size = f"{self.figure(self.size(axis))} {_adjective(self.lie.measure_of(axis))}"
            raise self.sayings.refuse("shape-outside", said, f'`{said.text}` lies outside "{self.id}", which is {size}.')
        return found.mm

    def stretch(self, start: Said | None, to: Said | None, axis: Axis | None = None) -> tuple[Fraction, Fraction]:
        """From where to where along an axis (the grain unless given), low end first; what is not said is the end."""
        axis = self.grain if axis is None else axis
        low, high = self.spans[axis]
        first = self.place(start, axis) if start else None
        second = self.place(to, axis) if to else None
        if first is not None and second is not None:
            low, high = min(first, second), max(first, second)
        elif first is not None:
            low = first
        elif second is not None:
            high = second
        if low == high:
            said = to or start
            assert said is not None
            raise self.sayings.refuse("shape-outside", said, f'Nothing of "{self.id}" lies between `from` and `to`.')
        return low, high

    def across(self, said: Said) -> Face:
        """A face that is no end.  Reports `shape-face`."""
        face = self.sayings.face(said)
        if face.axis is self.grain:
            sides = ", ".join(each.value for each in Face if each.axis is not self.grain)
            message = f'"{face.value}" is an end of "{self.id}".'
            raise self.sayings.refuse("shape-face", said, message, f"one of its long faces: {sides}")
        return face

    def end(self, said: Said) -> Face:
        """A face that is an end.  Reports `shape-face`."""
        face = self.sayings.face(said)
        if face.axis is not self.grain:
            message = f'"{face.value}" is no end of "{self.id}", whose grain runs {self.grain.words}.'
            raise self.sayings.refuse("shape-face", said, message, f"{self.grain.low.value} or {self.grain.high.value}")
        return face

    def less_than(self, said: Said, limit: Fraction, what: str) -> Fraction:
        """A size above zero that leaves wood.  Reports `shape-eats`."""
        size = self.sayings.size(said, what)
        if size >= limit:
            message = f'{what} of {self.figure(size)} leaves nothing of "{self.id}": there are {self.figure(limit)}.'
            raise self.sayings.refuse("shape-eats", said, message, f"less than {self.figure(limit)}")
        return size

    # ------------------------------------------------------------ inside and outside

    def toward_middle(self, axis: Axis) -> Face | None:
        """The face that looks to the frame's middle; None if the middle runs through the part."""
        low, high = self.spans[axis]
        if high <= self.middle[axis]:
            return axis.high
        return axis.low if low >= self.middle[axis] else None


def said_of(said: ShapeSaid) -> dict[str, Any]:
    """The fields that every feature has: where a shape was said, and why."""
    words = [each.text for each in (said.why, said.note) if each]
    return {"origin": said.origin, "joint": "", "why": "; ".join(words)}


def _adjective(measure: str) -> str:
    return {"length": "long", "width": "wide", "thickness": "thick"}[measure]
