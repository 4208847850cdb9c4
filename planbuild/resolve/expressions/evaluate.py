"""A parsed value worked out, exactly.  Names are asked of `Names`; all else is here."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Protocol

from planbuild.core.geometry import Axis
from planbuild.resolve.expressions.faults import Misread, Stretch
from planbuild.resolve.expressions.grammar import WHERES, Chain, Choice, Node, Number, Offset, Reference, Rounded, Slope, parse
from planbuild.resolve.expressions.tokens import in_figures
from planbuild.resolve.expressions.values import EITHER, LENGTH, Angle, Incline, Place, Quantity, Unlike, Value, named, reckon

QUOTED = 60
"""Letters of a value that a message repeats."""

LARGEST = 10**12
"""Figures beyond this, or with a finer fraction, are no sizes of furniture."""

_MM = {"in": Fraction(254, 10), "ft": Fraction(3048, 10), "mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000)}


class Names(Protocol):
    """What a name means where it stands."""

    @property
    def unit(self) -> Fraction:
        """One design unit in mm."""

    def meaning(self, reference: Reference, axis: Axis | None) -> Value:
        """The value of a reference; `axis` is the direction in which a place is wanted.  Raises Misread, Poisoned."""

    def at_level(self, reference: Reference, level: Value) -> Value:
        """`leg.right at 4 above bottom`: the place of a slanted face at a place along the part.  Raises Misread, Poisoned."""

    def within(self, scope: str) -> Names:
        """The same names as they are meant inside a block, by its path; "" is the design itself."""

    def origin_of(self, reference: Reference) -> str:
        """`"gaps" is 0 (6:9)`: what a name stands for, for messages; "" if it is no size."""


def evaluate(text: str, names: Names, axis: Axis | None = None) -> Value:
    """The value of a text.  Raises Misread at the letters that are wrong, Poisoned if a name is already reported."""
    return _Reckoner(text, names, axis).value(parse(text))


class _Reckoner:
    def __init__(self, text: str, names: Names, axis: Axis | None) -> None:
        self.text, self.names, self.axis = text, names, axis

    def words(self, at: Stretch) -> str:
        return self.text[at.start : at.end]

    def value(self, node: Node) -> Value:
        found = self._value(node)
        figure = found.figure if isinstance(found, Quantity) else found.mm if isinstance(found, Place) else Fraction(0)
        if abs(figure.numerator) > LARGEST * figure.denominator or figure.denominator > LARGEST:
            words = self.words(node.at)
            quoted = words if len(words) <= QUOTED else f"{words[:QUOTED]} ..."
            raise Misread("sum-large", f"`{quoted}` comes to no size of furniture.", node.at)
        return found

    def _value(self, node: Node) -> Value:
        if isinstance(node, Number):
            return self._number(node)
        if isinstance(node, Slope):
            return Incline(node.rise, node.run)
        if isinstance(node, Reference) and node.level is not None:
            return self.names.at_level(node, _Reckoner(self.text, self.names, None).value(node.level))
        if isinstance(node, Reference):
            return self.names.meaning(node, self.axis)
        if isinstance(node, Chain):
            return self._chain(node)
        if isinstance(node, Rounded):
            return self._rounded(node)
        if isinstance(node, Choice):
            return self._choice(node)
        assert isinstance(node, Offset)
        return self._offset(node)

    def _number(self, node: Number) -> Value:
        if node.unit == "deg":
            return Angle(node.value)
        if node.unit:
            return Quantity(node.value * _MM[node.unit] / self.names.unit, LENGTH)
        return Quantity(node.value, EITHER, literal=True)

    def _chain(self, node: Chain) -> Value:
        total = self.value(node.first)
        for sign, part in node.rest:
            at = node.first.at.to(part.at)
            try:
                total = reckon(sign, total, self.value(part), self.names.unit)
            except Unlike as unlike:
                raise self._unlike(unlike, node, sign, part, at) from None
        return total

    def _unlike(self, unlike: Unlike, node: Chain, sign: str, part: Node, at: Stretch) -> Misread:
        if unlike.code == "sum-zero":
            named_zero = self.names.origin_of(part) if isinstance(part, Reference) else ""
            return Misread("sum-zero", f"Division by zero{': ' + named_zero if named_zero else ''}.", part.at)
        hints = (unlike.hint,) if unlike.hint else ()
        if unlike.code == "sum-two-places":
            pair = f"[{self.words(node.first.at)}, {self.words(part.at)}]"
            hints = (f"For halfway use `centred: {{{self.axis.words if self.axis else 'left-right'}: {pair}}}`.",)
        return Misread(unlike.code, f"`{self.words(at)}` {unlike.words}.", at, hints=hints)

    def _rounded(self, node: Rounded) -> Value:
        value, step = self.value(node.value), self.value(node.step)
        if not isinstance(value, Quantity):
            message = f"Only lengths are rounded; `{self.words(node.value.at)}` is {named(value)}."
            raise Misread("sum-kinds", message, node.value.at)
        if not isinstance(step, Quantity) or step.figure <= 0 or not value.powers & step.powers:
            message = f"`{self.words(node.step.at)}` is no step to round to."
            raise Misread("sum-kinds", message, node.step.at, "a length above zero, such as `1/16`")
        steps = value.figure / step.figure
        whole = {"up": math.ceil(steps), "down": math.floor(steps)}.get(node.way, math.floor(steps + Fraction(1, 2)))
        return Quantity(whole * step.figure, value.powers & step.powers)

    def _choice(self, node: Choice) -> Value:
        first, second = self.value(node.first), self.value(node.second)
        if isinstance(first, Angle) and isinstance(second, Angle):
            pick = max if node.larger else min
            return Angle(pick(first.degrees, second.degrees))
        if not isinstance(first, Quantity) or not isinstance(second, Quantity) or not first.powers & second.powers:
            message = f"`{self.words(node.at)}` compares {named(first)} with {named(second)}."
            raise Misread("sum-kinds", message, node.at, "two lengths")
        first_wins = (first.figure >= second.figure) is node.larger
        return Quantity((first if first_wins else second).figure, first.powers & second.powers)

    def _offset(self, node: Offset) -> Value:
        direction, way = WHERES[node.where]
        face = self.names.meaning(node.face, direction or self.axis)
        said = f"`{self.words(node.face.at)}`"
        if not isinstance(face, Place):
            raise Misread("ref-which-face", f"{said} is {named(face)}; a face is wanted after `{node.where}`.", node.face.at)
        if direction and face.axis is not direction:
            message = f'{said} lies {face.axis.words}; "{node.where}" goes {direction.words}.'
            raise Misread("ref-direction", message, node.face.at, hints=(_right_words(face.axis),))
        if direction is None and face.face is None:
            message = f'"{node.where}" is said of a face; {said} is none.'
            raise Misread("ref-which-face", message, node.face.at, hints=(_right_words(face.axis),))
        sign = way if direction else way * (face.face.sign if face.face else 1)
        return Place(face.axis, face.mm + sign * self._length(node.length))

    def _length(self, node: Node) -> Fraction:
        """A length in mm."""
        value = self.value(node)
        if not isinstance(value, Quantity) or not value.can_be_length:
            raise Misread("sum-kinds", f"`{self.words(node.at)}` is {named(value)}; a length is wanted.", node.at)
        return value.figure * self.names.unit


def _right_words(axis: Axis) -> str:
    here = [f"`{words}`" for words, (direction, _) in WHERES.items() if direction is axis]
    return f"Here the words are {' or '.join(here)}."


def wanted(value: Value, what: str, text: str) -> Misread:
    """The fault of a value of the wrong kind; `what` is `a length`, `an angle`, ...  Spans the whole text."""
    whole = Stretch(0, len(text))
    if what == "an angle" and isinstance(value, Quantity):
        hint = f"Write `{in_figures(value.figure)} deg` or a slope such as `1:8`."
        return Misread("sum-angle", f"`{text}` is no angle.", whole, what, (hint,))
    return Misread("sum-kinds", f"`{text}` is {named(value)}; {what} is wanted.", whole, what)

