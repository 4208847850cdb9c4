"""What a field says, as an exact value of the kind that the field wants.

A fault is reported where it stands and raises Poisoned, so that whatever rests on it stays silent.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable
from dataclasses import replace
from fractions import Fraction
from typing import ParamSpec, TypeVar

from planbuild.core.diagnostics import Collector, Diagnostic
from planbuild.core.geometry import Axis, Face
from planbuild.core.spelling import did_you_mean
from planbuild.core.units import MM_PER_INCH, Ruler, Unit
from planbuild.records.design import Said
from planbuild.resolve.expressions.evaluate import Names, evaluate, wanted
from planbuild.resolve.expressions.faults import Misread, Poisoned, Stretch
from planbuild.resolve.expressions.grammar import LENGTH_UNITS
from planbuild.resolve.expressions.values import Angle, Incline, Place, Quantity, Value

Found = TypeVar("Found")
Given = ParamSpec("Given")

AXES = {**{axis.words: axis for axis in Axis}, "up": Axis.BOTTOM_TOP}
"""Directions as they are said; `up` is short for the grain of what stands."""

THINNEST, LONGEST = Fraction(1, 100), 100_000
"""No size of furniture is thinner than that, or longer, mm (a choice of ours: finer cuts are noise to the modeller)."""


def figure(mm: Fraction | float, unit: Fraction) -> str:
    """A length for a message, in design units, to 1/64 inch or 0.1 mm."""
    inch = unit == MM_PER_INCH
    return Ruler(Unit.INCH if inch else Unit.MM, Fraction(1, 64 if inch else 10)).plain(float(mm))


def tried(work: Callable[Given, Found], *given: Given.args, **more: Given.kwargs) -> Found | None:
    """What work gives, or None if it rests on a fault (which is then reported)."""
    try:
        return work(*given, **more)
    except Poisoned:
        return None


class Sayings:
    """Understands fields where `names` says what a name means."""

    def __init__(self, names: Names, report: Collector) -> None:
        self.names, self.report = names, report

    @property
    def unit(self) -> Fraction:
        return self.names.unit

    def refuse(self, code: str, said: Said, message: str, expected: str = "", hints: tuple[str, ...] = ()) -> Poisoned:
        """Reports a fault of a whole value; the answer is to be raised."""
        self.report.add(Diagnostic(code, message, span=said.span, expected=expected, hints=hints))
        return Poisoned()

    def value(self, said: Said, axis: Axis | None = None) -> Value:
        try:
            return evaluate(said.text, self.names.within(said.scope), axis)
        except Misread as misread:
            self.report.add(misread.told(said))
            raise Poisoned from None

    def _not(self, value: Value, what: str, said: Said) -> Poisoned:
        self.report.add(wanted(value, what, said.text).told(said))
        return Poisoned()

    def length(self, said: Said) -> Fraction:
        """A length of any sign, mm."""
        value = self.value(said)
        if not isinstance(value, Quantity) or not value.can_be_length:
            raise self._not(value, "a length", said)
        return value.figure * self.unit

    def size(self, said: Said, what: str) -> Fraction:
        """A length above zero that can be measured, mm; `what` names it in the message.  Reports `size-zero`, `size-beyond`."""
        mm = self.length(said)
        if mm <= 0:
            raise self.refuse("size-zero", said, f"{what} is {figure(mm, self.unit)}.", "a length above zero")
        if not THINNEST <= mm <= LONGEST:
            message = f"{what} is {'longer than 100 m' if mm > LONGEST else 'thinner than 1/100 mm'}."
            raise self.refuse("size-beyond", said, message, "a size that can be measured at the bench")
        return mm

    def allowance(self, said: Said) -> Fraction:
        """What is added to a size, mm; nothing may be added.  Reports `size-zero`."""
        mm = self.length(said)
        if mm < 0:
            raise self.refuse("size-zero", said, f"An allowance is {figure(mm, self.unit)}.", "a length, or 0 for none")
        return mm

    def sizes(self, said: Said, count: int) -> tuple[Fraction, ...]:
        """Lengths above zero as in `2 x 3/4`, mm; a unit once at the end is that of all.  Reports `size-form`."""
        pieces = [piece.strip() for piece in said.text.split(" x ")]
        if len(pieces) != count:
            example = " x ".join(("2", "3/4", "12")[:count])
            raise self.refuse("size-form", said, f"`{said.text}` is no size of {count}.", f"{count} lengths, such as {example}")
        unit = next((f" {unit}" for unit in LENGTH_UNITS if pieces[-1].endswith(f" {unit}")), "")
        whole = [piece if piece.endswith(unit) else piece + unit for piece in pieces]
        return tuple(self.size(replace(said, text=piece), "A size") for piece in whole)

    def place(self, said: Said, axis: Axis) -> Place | Fraction:
        """A place along `axis`, or a plain length in mm where the text is one."""
        value = self.value(said, axis)
        if isinstance(value, Quantity) and value.can_be_length:
            return value.figure * self.unit
        if not isinstance(value, Place):
            raise self._not(value, "a place or a length", said)
        if value.axis is not axis:
            message = f"`{said.text}` lies {value.axis.words}; a place {axis.words} is wanted."
            words = f"its {axis.low.value} or its {axis.high.value}"
            raise self.refuse("ref-direction", said, message, hints=(f"Name {words}.",))
        return value

    def number(self, said: Said) -> Fraction:
        """A plain number."""
        value = self.value(said)
        if not isinstance(value, Quantity) or not value.can_be_plain:
            raise self._not(value, "a plain number", said)
        return value.figure

    def count(self, said: Said, least: int = 1, most: int = 1000) -> int:
        number = self.number(said)
        if number.denominator != 1 or not least <= number <= most:
            raise self.refuse("sum-count", said, f"`{said.text}` is no count.", f"a whole number from {least} to {most}")
        return int(number)

    def degrees(self, said: Said) -> float:
        """An angle of `5 deg`, or of a slope as rise over run."""
        value = self.value(said)
        if isinstance(value, Angle):
            return float(value.degrees)
        if isinstance(value, Incline):
            return value.degrees
        raise self._not(value, "an angle", said)

    def slope(self, said: Said) -> float:
        """Rise over run of `1:8` or of an angle, above zero."""
        value = self.value(said)
        if isinstance(value, Incline):
            if value.rise <= 0:
                raise self.refuse("size-zero", said, f"A slope of `{said.text}` is none.", "a slope such as 1:8")
            return float(value.rise / value.run)
        if isinstance(value, Angle) and 0 < value.degrees < 90:
            return math.tan(math.radians(float(value.degrees)))
        raise self._not(value, "an angle", said)

    def choice(self, said: Said, among: Iterable[str], what: str = "choice") -> str:
        words = tuple(among)
        if said.text in words:
            return said.text
        several = re.split(r",? and |,? +", said.text)
        if len(several) > 1 and set(several) <= set(words):
            hints: tuple[str, ...] = (f"Where several are wanted, write a list: `[{', '.join(several)}]`.",)
        else:
            hints = did_you_mean(said.text, words)
        raise self.refuse("word-unknown", said, f'"{said.text}" is no {what} here.', f"one of: {', '.join(words)}", hints)

    def yes(self, said: Said) -> bool:
        return self.choice(said, ("yes", "no"), "answer") == "yes"

    def axis(self, said: Said) -> Axis:
        return AXES[self.choice(said, AXES, "direction")]

    def face(self, said: Said) -> Face:
        return Face(self.choice(said, tuple(face.value for face in Face), "face"))

    def at(self, said: Said, part: str) -> Stretch:
        """Where a word stands in a value."""
        start = max(0, said.text.find(part))
        return Stretch(start, start + len(part))
