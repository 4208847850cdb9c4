"""The table of language.md section 3: what is read, what is refused, where, and the way out that is told."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import Axis, Face
from planbuild.records.design import Said
from planbuild.resolve.expressions.evaluate import evaluate
from planbuild.resolve.expressions.faults import Misread, span_in
from planbuild.resolve.expressions.grammar import Reference, parse
from planbuild.resolve.expressions.tokens import LONGEST
from planbuild.resolve.expressions.values import EITHER, LENGTH, Angle, Incline, Place, Quantity, Value

INCH = Fraction(254, 10)


class Workshop:
    """Names for the tests: sizes `leg` 2, `length` 44, `none` 0, a stretch `rail.width` of 3; faces at 10 and 20."""

    unit = INCH
    sizes = {"leg": 2, "length": 44, "none": 0, "a": 1, "b": 5}

    def meaning(self, reference: Reference, axis: Axis | None) -> Value:
        if reference.last == "width":
            return Quantity(Fraction(3), LENGTH)
        if reference.last == "middle":
            return Place(axis or Axis.LEFT_RIGHT, 15 * INCH)
        if reference.last:
            face = Face(reference.last)
            return Place(face.axis, (10 if face.sign < 0 else 20) * INCH, face)
        name = reference.steps[0].name
        if name not in self.sizes:
            raise Misread("ref-unknown", name, reference.at)
        return Quantity(Fraction(self.sizes[name]), EITHER)

    def at_level(self, reference: Reference, level: Value) -> Value:
        raise Misread("ref-at", f'"{reference.last}" does not lean', reference.at)

    def origin_of(self, reference: Reference) -> str:
        return '"none" is 0 (6:9)' if reference.steps[0].name == "none" else ""


def value(text: str, axis: Axis | None = None) -> Value:
    return evaluate(text, Workshop(), axis)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("3/4", "3/4"),
        ("1-1/2", "3/2"),
        ("2 3/8", "19/8"),
        ("17", "17"),
        ("0.75", "3/4"),
        ("2 3/8 in", "19/8"),
        ("19 mm", "190/254"),
        ("4 ft", "48"),
        ("12 cm", "1200/254"),
        ("1.2 m", "12000/254"),
        ("4 ft + 2-1/2 in", "101/2"),
        ("leg - 1/2", "3/2"),
        ("length / 2", "22"),
        ("2 * leg", "4"),
        ("(a + b) / 3", "2"),
        ("length - 2 * leg - 2 * (a + 1)", "36"),
        ("rail.width - leg", "1"),
        ("length - 20 rounded to 1/16", "24"),
        ("19 mm rounded to 1/16", "3/4"),
        ("19 mm rounded up to 1/16", "3/4"),
        ("19 mm rounded down to 1/16", "11/16"),
        ("larger of leg and 3", "3"),
        ("smaller of leg and (a + b)", "2"),
        ("-1/2", "-1/2"),
        ("rail.right - rail.left", "10"),
    ],
)
def test_lengths(text: str, inches: str) -> None:
    found = value(text)
    assert isinstance(found, Quantity)
    assert found.can_be_length
    assert found.figure == Fraction(inches)


@pytest.mark.parametrize(
    ("text", "axis", "inches"),
    [
        ("rail.right", Axis.LEFT_RIGHT, 20),
        ("1/2 inside rail.right", Axis.LEFT_RIGHT, Fraction(39, 2)),
        ("1/2 inside rail.left", Axis.LEFT_RIGHT, Fraction(21, 2)),
        ("1/2 outside rail.right", Axis.LEFT_RIGHT, Fraction(41, 2)),
        ("1/32 left of rail.left", Axis.LEFT_RIGHT, 10 - Fraction(1, 32)),
        ("1 right of rail.left", Axis.LEFT_RIGHT, 11),
        ("5 below top", Axis.BOTTOM_TOP, 15),
        ("16 above bottom", Axis.BOTTOM_TOP, 26),
        ("1/16 ahead of rail.front", Axis.FRONT_BACK, 10 - Fraction(1, 16)),
        ("1 behind rail.back", Axis.FRONT_BACK, 21),
        ("rail.left + leg", Axis.LEFT_RIGHT, 12),
        ("middle", Axis.FRONT_BACK, 15),
        ("left back rail.right", Axis.LEFT_RIGHT, 20),
        ("3rd rail.back", Axis.FRONT_BACK, 20),
        ("leg + 1/2 inside rail.right", Axis.LEFT_RIGHT, Fraction(35, 2)),
    ],
)
def test_places(text: str, axis: Axis, inches: Fraction) -> None:
    found = value(text, axis)
    assert isinstance(found, Place)
    assert (found.axis, found.mm) == (axis, inches * INCH)


def test_angles_and_slopes() -> None:
    assert value("5 deg") == Angle(Fraction(5))
    assert value("2 * 5 deg") == Angle(Fraction(10))
    assert value("1:8") == Incline(Fraction(1), Fraction(8))


@pytest.mark.parametrize(
    ("text", "code", "letters", "way_out"),
    [
        ("leg-1/2", "sum-no-air", "leg-1/2", "`leg - 1/2`"),
        ("leg/2", "sum-no-air", "leg/2", "`leg / 2`"),
        ("2*leg", "sum-no-air", "2*leg", "`2 * leg`"),
        ("1 -1/2", "sum-no-air", "1 -1/2", "`1 - 1/2` or `1-1/2`"),
        ("leg - -2", "sum-no-air", "-2", "both sides"),
        ("1-3/2", "sum-doubtful-mixed", "1-3/2", "`1 - 3/2`, or `2-1/2`"),
        ("1 3/2", "sum-doubtful-mixed", "1 3/2", "`1 - 3/2`, or `2-1/2`"),
        ("10-4", "sum-doubtful-hyphen", "10-4", "`10 - 4`"),
        ('4"', "sum-inch-mark", '4"', "`4` or `4 in`"),
        ("4'", "sum-inch-mark", "4'", "`4 ft`"),
        ("4 ft 2 in", "sum-feet", "4 ft 2 in", "`4 ft + 2 in`"),
        ("leg + 4 2", "sum-side-by-side", "4 2", "`4 + 2`"),
        ("3 ins", "sum-unit", "ins", "Did you mean"),
        ("2 leg", "sum-unit", "leg", "`2 * leg`"),
        ("19mm", "sum-unit", "19mm", "`19 mm`"),
        (".5", "sum-form", ".5", "`0.5`"),
        ("1,5", "sum-form", "1,5", "`1.5`"),
        ("2½", "sum-form", "2½", "`2-1/2`"),
        ("leg − 2", "sum-form", "−", "`-`"),
        ("rail.right + rail.left", "sum-two-places", "rail.right + rail.left", "{left-right: [rail.right, rail.left]}"),
        ("leg * leg", "sum-area", "leg * leg", "count"),
        ("2 * rail.width * leg", "sum-area", "2 * rail.width * leg", "count"),
        ("leg / none", "sum-zero", "none", ""),
        ("1/0", "sum-zero", "1/0", ""),
        ("2 * rail.left", "sum-place", "2 * rail.left", "a.right"),
        ("leg + 5 deg", "sum-kinds", "leg + 5 deg", ""),
        ("1 above rail.left", "ref-direction", "rail.left", "`left of` or `right of`"),
        ("1 inside leg", "ref-which-face", "leg", ""),
        ("1 inside rail.middle", "ref-which-face", "rail.middle", ""),
        ("(leg + 1", "sum-bracket", "(", ""),
        ("leg)", "sum-bracket", ")", ""),
        ("leg length", "sum-form", "length", ""),
        ("leg +", "sum-form", "+", ""),
        ("", "sum-form", "", ""),
        ("larger of leg", "sum-form", "g", ""),
        ("leg rounded to none", "sum-kinds", "none", ""),
        ("rail.left rounded to 1/16", "sum-kinds", "rail.left", ""),
    ],
)
def test_refused(text: str, code: str, letters: str, way_out: str) -> None:
    with pytest.raises(Misread) as caught:
        value(text, Axis.LEFT_RIGHT)
    misread = caught.value
    assert misread.code == code
    assert text[misread.at.start : misread.at.end] == letters
    assert way_out in " ".join(misread.hints)


def test_a_zero_is_named() -> None:
    with pytest.raises(Misread, match=r'Division by zero: "none" is 0 \(6:9\)'):
        value("leg / none")


def test_a_bare_size_may_be_a_count() -> None:
    """`length / none` style sums serve lengths and counts: 44 units over 5 is 8.8 of either."""
    found = value("length / b")
    assert isinstance(found, Quantity)
    assert found.powers == EITHER
    assert found.figure == Fraction(44, 5)


def test_two_lengths_give_a_plain_number() -> None:
    found = value("rail.width / 19 mm")
    assert isinstance(found, Quantity)
    assert not found.can_be_length


def test_bounds() -> None:
    assert value("(" * 20 + "1" + ")" * 20) == Quantity(Fraction(1), EITHER, True)
    for text in ("(" * 21 + "1" + ")" * 21, "1 + " * LONGEST + "1", "9" * 200, "1/" + "9" * 200):
        with pytest.raises(Misread):
            value(text)


def test_a_fault_points_into_the_file() -> None:
    said = Said("leg - 1-3/2", Span("bench.yaml", 31, 12, 11))
    with pytest.raises(Misread) as caught:
        value(said.text)
    assert span_in(said, caught.value.at) == Span("bench.yaml", 31, 18, 5)


NAMES = ["leg", "rail.left", "rail.width", "left", "right", "middle", "3rd", "first", "none", "a.b.c"]
GRAMMAR = ["of", "and", "to", "at", "rounded", "up", "down", "inside", "above", "larger", "smaller", "ahead", *"+-*/()"]
FIGURES = ["1", "1/2", "2-1/2", "0.5", "-3", "in", "ft", "deg", "1:8", "5-", "/2"]
WORDS = st.sampled_from([*NAMES, *GRAMMAR, *FIGURES])


@given(st.one_of(st.text(max_size=60), st.lists(WORDS, max_size=25).map(" ".join), st.lists(WORDS, max_size=8).map("".join)))
def test_any_text_is_read_or_refused_within_itself(text: str) -> None:
    try:
        value(text, Axis.LEFT_RIGHT)
    except Misread as misread:
        assert misread.code.split("-")[0] in ("sum", "ref")
        assert 0 <= misread.at.start <= misread.at.end <= max(len(text), 1)
        assert misread.message


WHOLE = st.integers(0, 500)


@given(WHOLE, st.integers(0, 63), st.integers(1, 64))
def test_mixed_numbers(whole: int, over: int, below: int) -> None:
    """Both ways to join a whole number and a fraction mean their sum, if the fraction is below one."""
    for text in (f"{whole}-{over}/{below}", f"{whole} {over}/{below}"):
        if over < below:
            assert value(text) == Quantity(whole + Fraction(over, below), EITHER, True)
        else:
            with pytest.raises(Misread):
                value(text)


SUMS = st.recursive(
    st.tuples(st.integers(1, 99), st.integers(1, 16)).map(lambda pair: f"{pair[0]}/{pair[1]}"),
    lambda inner: st.tuples(inner, st.sampled_from("+-*/"), inner).map(lambda each: f"({each[0]} {each[1]} {each[2]})"),
    max_leaves=8,
)


@given(SUMS)
def test_sums_are_exact(text: str) -> None:
    """Against Python's own exact fractions."""
    python = re.sub(r"(\d+)/(\d+)", r"Fraction(\1, \2)", text)
    try:
        expected = eval(python, {"Fraction": Fraction})
    except ZeroDivisionError:
        with pytest.raises(Misread, match="zero"):
            value(text)
        return
    if max(abs(expected), expected.denominator) < 10**12:
        try:
            assert value(text) == Quantity(expected, EITHER, True)
        except Misread as misread:
            assert misread.code == "sum-large"


def test_parsing_keeps_hands_with_their_names() -> None:
    node = parse("left door.upper rail.back")
    assert isinstance(node, Reference)
    assert [(step.hands, step.name) for step in node.steps] == [(("left",), "door"), (("upper",), "rail")]
    assert node.last == "back"
