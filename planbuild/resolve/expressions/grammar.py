"""The grammar of sums and places: words in, a small tree out.

    value     = sum [ "rounded" ["up"|"down"] "to" product ]
    sum       = product { ("+"|"-") product }          product = atom { ("*"|"/") atom }
    atom      = ["-"] number [unit] | reference | "(" value ")" | ("larger"|"smaller") "of" atom "and" atom
    place     = value [ where face ]
    reference = [hand...] name { "." [hand...] name } [ "." face | "." measure ] [ "at" place ]
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from planbuild.core.geometry import Axis
from planbuild.core.spelling import did_you_mean
from planbuild.resolve.expressions.faults import Misread, Stretch
from planbuild.resolve.expressions.tokens import Kind, Token, joined, tokens

DEEPEST = 20
"""Brackets within brackets: more than any sum a person would read."""

FACES = ("left", "right", "front", "back", "bottom", "top")
MEASURES = ("length", "width", "thickness", "depth", "height")
LENGTH_UNITS = ("in", "ft", "mm", "cm", "m")
UNITS = (*LENGTH_UNITS, "deg")
HANDS = ("left", "right", "front", "back", "lower", "upper", "first", "last")

WHERES: dict[str, tuple[Axis | None, int]] = {
    "inside": (None, -1),
    "outside": (None, 1),
    "above": (Axis.BOTTOM_TOP, 1),
    "below": (Axis.BOTTOM_TOP, -1),
    "behind": (Axis.FRONT_BACK, 1),
    "ahead of": (Axis.FRONT_BACK, -1),
    "left of": (Axis.LEFT_RIGHT, -1),
    "right of": (Axis.LEFT_RIGHT, 1),
}
"""Where-word -> (its direction, the way along it); inside and outside go by the face they are said of."""

_KEYWORDS = {"rounded", "and", "at", "inside", "outside", "above", "below", "behind", "of", "to"}
"""Words that end a name or a number."""


@dataclass(frozen=True)
class Node:
    at: Stretch


@dataclass(frozen=True)
class Number(Node):
    value: Fraction
    unit: str = ""


@dataclass(frozen=True)
class Slope(Node):
    rise: Fraction
    run: Fraction


@dataclass(frozen=True)
class Step:
    """One name of a path with its hands: `back right` `leg`."""

    hands: tuple[str, ...]
    name: str


@dataclass(frozen=True)
class Reference(Node):
    """`last` is a face word, `middle` or a measure, "" for none; a bare face word has no steps."""

    steps: tuple[Step, ...]
    last: str = ""
    level: Node | None = None


@dataclass(frozen=True)
class Chain(Node):
    """Terms of a sum or factors of a product, worked from left to right."""

    first: Node
    rest: tuple[tuple[str, Node], ...]


@dataclass(frozen=True)
class Rounded(Node):
    """`way` is up, down or "" (nearest)."""

    value: Node
    way: str
    step: Node


@dataclass(frozen=True)
class Choice(Node):
    larger: bool
    first: Node
    second: Node


@dataclass(frozen=True)
class Offset(Node):
    """A length away from a face: `1/4 inside leg.front`."""

    length: Node
    where: str
    face: Reference


@lru_cache(maxsize=5000)  # the ends of ranges ask for the same values again and again
def parse(text: str) -> Node:
    """The tree of a value or place.  Raises Misread (`sum-...`)."""
    return _Parser(text).whole()


class _Parser:
    def __init__(self, text: str) -> None:
        self.text = text
        self.words = tokens(text)
        self.next = 0
        self.depth = 0

    # ------------------------------------------------------------ reading words

    @property
    def word(self) -> Token:
        return self.words[self.next]

    def peek(self, ahead: int = 1) -> Token:
        return self.words[min(self.next + ahead, len(self.words) - 1)]

    def take(self) -> Token:
        token = self.word
        self.next = min(self.next + 1, len(self.words) - 1)
        return token

    def is_name(self, *names: str) -> bool:
        return self.word.kind is Kind.NAME and self.word.text in names

    def expect(self, name: str) -> Token:
        if not self.is_name(name):
            raise self._unexpected(f"`{name}`")
        return self.take()

    # ------------------------------------------------------------ grammar

    def whole(self) -> Node:
        if len(self.words) == 1:
            raise Misread("sum-form", "There is no value.", Stretch(0, 1), "a length, a sum or a place")
        node = self.place()
        if self.next < len(self.words) - 1:
            raise self._left_over(node)
        return node

    def place(self) -> Node:
        length = self.value()
        where = self._where()
        if not where:
            return length
        if self.word.kind is not Kind.NAME:
            raise self._unexpected("a face, such as `leg.right`")
        face = self.reference()
        return Offset(length.at.to(face.at), length, where, face)

    def _where(self) -> str:
        if self.word.kind is not Kind.NAME:
            return ""
        for words in (self.word.text, f"{self.word.text} {self.peek().text}"):
            if words in WHERES:
                for _ in words.split():
                    self.take()
                return words
        return ""

    def value(self) -> Node:
        node = self.sum()
        if not self.is_name("rounded"):
            return node
        self.take()
        way = self.take().text if self.is_name("up", "down") else ""
        self.expect("to")
        step = self.product()
        return Rounded(node.at.to(step.at), node, way, step)

    def sum(self) -> Node:
        return self._chain("+-", self.product)

    def product(self) -> Node:
        return self._chain("*/", self.atom)

    def _chain(self, signs: str, part: Callable[[], Node]) -> Node:
        first = part()
        rest = []
        while self.word.kind is Kind.SIGN and self.word.text in signs:
            sign = self.take().text
            rest.append((sign, part()))
        return Chain(first.at.to(rest[-1][1].at), first, tuple(rest)) if rest else first

    def atom(self) -> Node:
        if self.word.kind is Kind.SLOPE:
            slope = self.take()
            return Slope(slope.at, slope.value, slope.run)
        if self.word.kind in (Kind.MINUS, Kind.NUMBER):
            return self.number()
        if self.word.kind is Kind.OPEN:
            return self.bracket()
        if self.is_name("larger", "smaller"):
            return self.choice()
        if self.word.kind is Kind.NAME:
            return self.reference()
        raise self._unexpected("a length, a number or a name")

    def bracket(self) -> Node:
        opening = self.take()
        self._deeper(opening)
        inner = self.value()
        self.depth -= 1
        if self.word.kind is not Kind.CLOSE:
            message = f"The bracket opened at `{self.text[opening.at.start : inner.at.end]}` is not closed."
            raise Misread("sum-bracket", message, opening.at, "`)`")
        self.take()
        return inner

    def _deeper(self, at: Token) -> None:
        self.depth += 1
        if self.depth > DEEPEST:
            message = f"More than {DEEPEST} brackets stand inside each other."
            raise Misread("sum-long", message, at.at, hints=("Name a part of the sum under `sizes`.",))

    def choice(self) -> Node:
        word = self.take()
        self._deeper(word)
        self.expect("of")
        first = self.atom()
        self.expect("and")
        second = self.atom()
        self.depth -= 1
        return Choice(word.at.to(second.at), word.text == "larger", first, second)

    def number(self) -> Node:
        minus = self.take() if self.word.kind is Kind.MINUS else None
        first = self.take()
        value, at = first.value, first.at
        if self._is_fraction(self.word) and first.text.isdigit():
            second = self.take()
            at = at.to(second.at)
            value = joined(value, second.value, self.text[at.start : at.end], at)
        unit = ""
        if self.word.kind is Kind.NAME and self.word.text in UNITS:
            at = at.to(self.word.at)
            unit = self.take().text
        self._nothing_beside(first, at, unit)
        at = minus.at.to(at) if minus else at
        return Number(at, -value if minus else value, unit)

    def _is_fraction(self, token: Token) -> bool:
        return token.kind is Kind.NUMBER and "/" in token.text and "-" not in token.text

    def _nothing_beside(self, first: Token, at: Stretch, unit: str) -> None:
        """A number is followed by a sign, a where-word or the end; anything else is a slip worth its own words."""
        word = self.word
        if word.kind is Kind.NUMBER:
            both = self._through_units(first.at.to(word.at))
            left, right = self.text[first.at.start : at.end], self.text[word.at.start : both.end]
            told = f"`{self.text[both.start : both.end]}`: two {'lengths' if unit else 'numbers'} side by side."
            raise Misread("sum-feet" if unit else "sum-side-by-side", told, both, hints=(f"Write `{left} + {right}`.",))
        if word.kind is Kind.NAME and not unit and not self._may_follow(word):
            product = f"For a product write `{self.text[first.at.start : at.end]} * {word.text}`."
            hints = (*did_you_mean(word.text, LENGTH_UNITS), product)
            raise Misread("sum-unit", f'"{word.text}" is not a unit.', word.at, ", ".join(UNITS), hints)

    def _through_units(self, at: Stretch) -> Stretch:
        following = self.peek()
        return at.to(following.at) if following.kind is Kind.NAME and following.text in UNITS else at

    def _may_follow(self, word: Token) -> bool:
        return word.text in _KEYWORDS or f"{word.text} {self.peek().text}" in WHERES

    def reference(self) -> Reference:
        start = end = self.word.at
        steps: list[Step] = []
        hands = self._hands()
        while True:
            if self.word.kind is not Kind.NAME:
                raise self._unexpected("a name")
            names = self.word.text.split(".")
            end = self.take().at
            if not (len(names) > 1 and is_hand(names[-1]) and self._goes_on()):
                break
            # `door.left hinge_stile`: a hand inside a path belongs to the name after it.
            following = (names.pop(), *self._hands())
            steps += _steps(hands, names)
            hands = following
        is_measure = names[-1] in MEASURES and (len(names) > 1 or bool(steps))
        last = names.pop() if names[-1] in (*FACES, "middle") or is_measure else ""
        if hands and not names:
            raise Misread("sum-form", f'A name is wanted after "{hands[-1]}".', start.to(end), "a name, as in `left leg.right`")
        steps += _steps(hands, names)
        level = self._level() if steps else None
        return Reference(start.to(level.at if level else end), tuple(steps), last, level)

    def _hands(self) -> tuple[str, ...]:
        """Hand words before a name: a hand is one only if a name follows."""
        hands = []
        while is_hand(self.word.text) and self._goes_on(1):
            hands.append(self.take().text)
        return tuple(hands)

    def _goes_on(self, ahead: int = 0) -> bool:
        """True if a name of a path stands there, not a word of the grammar."""
        word = self.peek(ahead)
        return word.kind is Kind.NAME and word.text not in _KEYWORDS and f"{word.text} {self.peek(ahead + 1).text}" not in WHERES

    def _level(self) -> Node | None:
        if not self.is_name("at"):
            return None
        at = self.take()
        self._deeper(at)
        place = self.place()
        self.depth -= 1
        return place

    # ------------------------------------------------------------ refusing

    def _unexpected(self, wanted: str) -> Misread:
        word = self.word
        if word.kind is Kind.END:
            at = Stretch(max(0, len(self.text.rstrip()) - 1), len(self.text.rstrip()))
            return Misread("sum-form", f"The value stops where {wanted} is wanted.", at, wanted)
        return Misread("sum-form", f"`{word.text}` stands where {wanted} is wanted.", word.at, wanted)

    def _left_over(self, node: Node) -> Misread:
        word = self.word
        if word.kind is Kind.CLOSE:
            return Misread("sum-bracket", "A bracket is closed that was never opened.", word.at)
        read = self.text[node.at.start : node.at.end]
        expected = "a sign with a space on both sides, a where-word (inside, outside, above, ...) or the end"
        return Misread("sum-form", f"`{word.text}` follows `{read}` without a sign between them.", word.at, expected)


def _steps(hands: tuple[str, ...], names: list[str]) -> list[Step]:
    return [Step(hands if i == 0 else (), name) for i, name in enumerate(names)]


def is_hand(word: str) -> bool:
    """True for `left`, `upper`, `first`, `3rd`, ..."""
    return word in HANDS or (word[:1].isdigit() and word.rstrip("stndrh").isdigit())
