"""What a value is: a length or plain number, a place in one direction, an angle, a slope; and how they are reckoned.

A number without a unit is a plain number and a length of that many units at once (`17` may be 17 inches or
17 slats); its field decides.  So a quantity carries its figure in the design's units and the powers of
length that it may still be.  Lengths times lengths are areas, places only move by lengths.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from planbuild.core.geometry import Axis, Face

LENGTH = frozenset({1})
EITHER = frozenset({0, 1})


@dataclass(frozen=True)
class Quantity:
    """`figure` in design units; `powers` are the powers of length it can be.  `literal` if it was typed as a bare number."""

    figure: Fraction
    powers: frozenset[int]
    literal: bool = False

    @property
    def can_be_length(self) -> bool:
        return 1 in self.powers

    @property
    def can_be_plain(self) -> bool:
        return 0 in self.powers


@dataclass(frozen=True)
class Place:
    """A plane square to `axis`, `mm` from the frame's low face; `face` if it is the face of something."""

    axis: Axis
    mm: Fraction
    face: Face | None = None


@dataclass(frozen=True)
class Angle:
    degrees: Fraction


@dataclass(frozen=True)
class Incline:
    """A slope as rise over run."""

    rise: Fraction
    run: Fraction

    @property
    def degrees(self) -> float:
        return math.degrees(math.atan2(self.rise, self.run))


Value = Quantity | Place | Angle | Incline


class Unlike(Exception):
    """Two values that cannot be reckoned together; `code` and the words say why."""

    def __init__(self, code: str, words: str, hint: str = "") -> None:
        super().__init__(words)
        self.code, self.words, self.hint = code, words, hint


def named(value: Value) -> str:
    """The kind of a value in words."""
    if isinstance(value, Quantity):
        return "a length" if value.can_be_length else "a plain number"
    return {Place: "a place", Angle: "an angle", Incline: "a slope"}[type(value)]


def reckon(sign: str, left: Value, right: Value, unit: Fraction) -> Value:
    """`left sign right`; `unit` is a design unit in mm.  Raises Unlike."""
    if sign in "+-":
        return _sum(sign, left, right, unit)
    if isinstance(left, Place) or isinstance(right, Place):
        raise Unlike("sum-place", "is a place, which can only be moved by a length", "A distance is `b.left - a.right`.")
    return _product(sign, left, right)


def _sum(sign: str, left: Value, right: Value, unit: Fraction) -> Value:
    if isinstance(left, Place):
        return _moved(sign, left, right, unit)
    if isinstance(right, Place):
        if sign == "+" and isinstance(left, Quantity) and left.can_be_length:
            return Place(right.axis, right.mm + left.figure * unit)
        raise Unlike("sum-place", f"takes a place from {named(left)}", "A distance is place - place.")
    if isinstance(left, Angle) and isinstance(right, Angle):
        return Angle(left.degrees + right.degrees * _way(sign))
    if isinstance(left, Quantity) and isinstance(right, Quantity):
        powers = left.powers & right.powers
        if powers:
            return Quantity(left.figure + right.figure * _way(sign), powers, left.literal and right.literal)
    raise Unlike("sum-kinds", f"puts together {named(left)} and {named(right)}")


def _moved(sign: str, place: Place, by: Value, unit: Fraction) -> Value:
    if isinstance(by, Quantity) and by.can_be_length:
        return Place(place.axis, place.mm + by.figure * unit * _way(sign))
    if not isinstance(by, Place):
        raise Unlike("sum-kinds", f"puts together a place and {named(by)}")
    if sign == "+":
        raise Unlike("sum-two-places", "adds two places, which have no sum")
    if by.axis is not place.axis:
        raise Unlike("ref-direction", f"measures from a place {by.axis.words} to one {place.axis.words}")
    return Quantity((place.mm - by.mm) / unit, LENGTH)


def _way(sign: str) -> int:
    return 1 if sign == "+" else -1


def _product(sign: str, left: Value, right: Value) -> Value:
    if isinstance(left, Angle) and isinstance(right, Quantity) and right.can_be_plain:
        return Angle(left.degrees * right.figure if sign == "*" else left.degrees / _below(right))
    if isinstance(right, Angle) and isinstance(left, Quantity) and left.can_be_plain and sign == "*":
        return Angle(left.figure * right.degrees)
    if not isinstance(left, Quantity) or not isinstance(right, Quantity):
        raise Unlike("sum-kinds", f"puts together {named(left)} and {named(right)}")
    return _times(left, right) if sign == "*" else _divided(left, right)


def _times(left: Quantity, right: Quantity) -> Quantity:
    """A bare number is a factor beside anything else; two names that both may be lengths are an area."""
    if left.literal and right.literal:
        return Quantity(left.figure * right.figure, EITHER, True)
    factors = [each for each in (left, right) if each.literal or not each.can_be_length]
    if not factors:
        raise Unlike("sum-area", "is an area; a length is wanted", "If one of the two is a count, write it as a number.")
    other = right if factors[0] is left else left
    return Quantity(left.figure * right.figure, other.powers)


def _divided(left: Quantity, right: Quantity) -> Quantity:
    figure = left.figure / _below(right)
    if left.literal and right.literal:
        return Quantity(figure, EITHER, True)
    if right.literal:
        return Quantity(figure, left.powers)
    powers = frozenset({over - below for over in left.powers for below in right.powers} & EITHER)
    if not powers or (left.literal and not right.can_be_plain):
        raise Unlike("sum-kinds", f"divides {named(left)} by {named(right)}")
    return Quantity(figure, powers)


def _below(divisor: Quantity) -> Fraction:
    if divisor.figure == 0:
        raise Unlike("sum-zero", "divides by zero")
    return divisor.figure
