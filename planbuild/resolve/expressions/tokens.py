"""A value's text cut into words: numbers, names, signs.  Air decides what is a sum, so words are cut at air first.

The rule with air: a sign with air on both sides is a sum; a sign without air is part of a number.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from planbuild.resolve.expressions.faults import Misread, Stretch

LONGEST = 300
"""Letters in one value: longer than any sum a person would read."""


class Kind(Enum):
    NUMBER = "number"
    SLOPE = "slope"
    NAME = "name"
    SIGN = "sign"
    MINUS = "leading minus"
    OPEN = "("
    CLOSE = ")"
    END = "end"


@dataclass(frozen=True)
class Token:
    """One word: `value` of a number, `run` the second number of a slope."""

    kind: Kind
    text: str
    at: Stretch
    value: Fraction = Fraction(0)
    run: Fraction = Fraction(0)


_WHOLE = re.compile(r"\d+")
_DECIMAL = re.compile(r"\d+\.\d+")
_FRACTION = re.compile(r"(\d+)/(\d+)")
_MIXED = re.compile(r"(\d+)-(\d+)/(\d+)")
_HYPHEN = re.compile(r"(\d+(?:\.\d+)?)-(\d+(?:\.\d+)?)")
_SLOPE = re.compile(r"(\d+(?:\.\d+)?):(\d+(?:\.\d+)?)")
_NAME = re.compile(r"[A-Za-z]\w*(\.\w+)*", re.ASCII)
_ORDINAL = re.compile(r"(\d+)(st|nd|rd|th)(\.\w+)*", re.ASCII)
_MARKED = re.compile(r"""([\d/.-]+)(["'\u2032\u2033\u201d\u2019])""")
_FEET = re.compile(r"""(\d+)['\u2032\u2019]-?(\d+(?:-\d+/\d+|/\d+|\.\d+)?)(?:["\u2033\u201d]|'')?""")
_RUN_TOGETHER = re.compile(r"(\d+(?:-\d+/\d+|/\d+|\.\d+)?)([A-Za-z]+)")
_PARTS = re.compile(r"[A-Za-z][\w.]*|\d+(?:-\d+)?/\d+|\d+(?:\.\d+)?|[-+*/]", re.ASCII)
_LOOKALIKES = {"\u00d7": "*", "\u00f7": "/", "\u2212": "-", "\u2013": "-", "\u2014": "-"}
_SET_FRACTIONS = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3"}


def tokens(text: str) -> tuple[Token, ...]:
    """The words of a value, an END after the last.  Raises Misread (`sum-...`)."""
    if len(text) > LONGEST:
        message = f"A value of {len(text)} letters is too long to be read."
        raise Misread("sum-long", message, Stretch(0, 1), f"at most {LONGEST} letters", ("Name a part of it under `sizes`.",))
    found = list(_words(text))
    return (*found, Token(Kind.END, "", Stretch(len(text), len(text))))


def _words(text: str) -> Iterator[Token]:
    before: Token | None = None
    for match in re.finditer(r"[()]|[^\s()]+", text):
        for token in _word(match.group(), Stretch(*match.span()), before, text):
            yield token
            before = token


def _word(word: str, at: Stretch, before: Token | None, text: str) -> tuple[Token, ...]:
    if word in ("(", ")"):
        return (Token(Kind(word), word, at),)
    if word in ("+", "-", "*", "/"):
        return (Token(Kind.SIGN, word, at),)
    if word[0] == "-" and before is None and _number(word[1:], Stretch(at.start + 1, at.end)):
        return (Token(Kind.MINUS, "-", Stretch(at.start, at.start + 1)), _required(word[1:], Stretch(at.start + 1, at.end)))
    if _NAME.fullmatch(word) or _ORDINAL.fullmatch(word):
        return (Token(Kind.NAME, word, at),)
    slope = _SLOPE.fullmatch(word)
    if slope:
        return (Token(Kind.SLOPE, word, at, Fraction(slope[1]), _not_zero(Fraction(slope[2]), word, at)),)
    number = _number(word, at)
    if number is None:
        raise _strange(word, at, before, text)
    return (number,)


def _required(word: str, at: Stretch) -> Token:
    number = _number(word, at)
    assert number is not None
    return number


def _number(word: str, at: Stretch) -> Token | None:
    """A number without air in it, or None if the word is none."""
    if _WHOLE.fullmatch(word) or _DECIMAL.fullmatch(word):
        return Token(Kind.NUMBER, word, at, Fraction(word))
    fraction = _FRACTION.fullmatch(word)
    if fraction:
        below = _not_zero(Fraction(fraction[2]), word, at)
        return Token(Kind.NUMBER, word, at, Fraction(fraction[1]) / below)
    mixed = _MIXED.fullmatch(word)
    if mixed:
        part = Fraction(mixed[2]) / _not_zero(Fraction(mixed[3]), word, at)
        return Token(Kind.NUMBER, word, at, joined(Fraction(mixed[1]), part, word, at))
    return None


def joined(whole: Fraction, part: Fraction, text: str, at: Stretch) -> Fraction:
    """A whole number and its fraction.  Raises Misread `sum-doubtful-mixed` if the fraction is one or more."""
    if part < 1:
        return whole + part
    first, second = f"{whole} - {part}", in_figures(whole + part)
    message = f"`{text}`: {part} is {'more than' if part > 1 else 'not less than'} one."
    hint = f"Write `{first}`, or `{second}` if that was meant."
    raise Misread("sum-doubtful-mixed", message, at, "a fraction below one after the whole number", (hint,))


def in_figures(number: Fraction) -> str:
    """A fraction as it is typed: `2-1/2`."""
    whole, part = divmod(number, 1)
    return "-".join([str(whole)] * bool(whole or not part) + [str(part)] * bool(part))


def _not_zero(below: Fraction, word: str, at: Stretch) -> Fraction:
    if below == 0:
        raise Misread("sum-zero", f"`{word}`: nothing can be divided by zero.", at)
    return below


def _strange(word: str, at: Stretch, before: Token | None, text: str) -> Misread:
    """Why a word is neither number nor name, with the reading that can be meant."""
    feet = _FEET.fullmatch(word)
    if feet:
        hint = f"Write `{feet[1]} ft + {feet[2]} in`."
        return Misread("sum-inch-mark", f"`{word}`: quote marks mean text in a design file.", at, hints=(hint,))
    marked = _MARKED.fullmatch(word)
    if marked:
        unit = "ft" if marked[2] in "'\u2032\u2019" else "in"
        plain = f"`{marked[1]}` or `{marked[1]} in`" if unit == "in" else f"`{marked[1]} ft`"
        return Misread("sum-inch-mark", f"`{word}`: quote marks mean text in a design file.", at, hints=(f"Write {plain}.",))
    hyphen = _HYPHEN.fullmatch(word)
    if hyphen:
        hint = f"Write `{hyphen[1]} - {hyphen[2]}`."
        return Misread("sum-doubtful-hyphen", f"`{word}` can be a sum or a slip.", at, hints=(hint,))
    run = _RUN_TOGETHER.fullmatch(word)
    if run:
        return Misread("sum-unit", f"`{word}`: a number and its unit stand apart.", at, hints=(f"Write `{run[1]} {run[2]}`.",))
    if set(word) & (_LOOKALIKES.keys() | _SET_FRACTIONS.keys()) or word[0] == "." or word[-1] == "." or "," in word:
        return _lookalike(word, at)
    if set(word) & set("+-*/"):
        return _no_air(word, at, before, text)
    expected = "a length such as `3/4`, `1-1/2` or `19 mm`, or a sum"
    return Misread("sum-form", f"`{word}` is neither a number, a name nor a sign.", at, expected)


def _no_air(word: str, at: Stretch, before: Token | None, text: str) -> Misread:
    start = before.at.start if before and word[0] in "+-*/" and before.kind in (Kind.NUMBER, Kind.NAME) else at.start
    whole = text[start : at.end]
    pieces = _PARTS.findall(whole)
    readings = [" ".join(pieces)] if len(pieces) > 1 and pieces[0] not in "+-*/" else []
    mixed = re.fullmatch(r"(\d+)\s+-(\d+/\d+)", whole)
    if mixed:
        readings.append(f"{mixed[1]}-{mixed[2]}")
    message = f"`{whole}`: a sign without spaces belongs to a number."
    written = " or ".join(f"`{reading}`" for reading in readings)
    hint = f"Write {written}." if readings else "Put a space on both sides of the sign."
    return Misread("sum-no-air", message, Stretch(start, at.end), hints=(hint,))


def _lookalike(word: str, at: Stretch) -> Misread:
    plain = word
    for odd, typed in _LOOKALIKES.items():
        plain = plain.replace(odd, typed)
    for odd, typed in _SET_FRACTIONS.items():
        plain = re.sub(rf"(\d){odd}", rf"\1-{typed}", plain).replace(odd, typed)
    plain = re.sub(r",(?=\d)", ".", plain).rstrip(".,")
    plain = f"0{plain}" if plain.startswith(".") else plain
    hints = (f"Write `{plain}`.",) if plain not in ("", word) else ()
    expected = "`3/4`, `1-1/2`, `0.75`, signs + - * /"
    return Misread("sum-form", f"`{word}` is not written as numbers are here.", at, expected, hints)
