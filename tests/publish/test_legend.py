"""What the drawings of a plan hold is explained, and nothing else."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample_facts import FACTS

from planbuild.publish.legend import legend
from planbuild.publish.samples import size_sample, trace_sample
from planbuild.records.drawing import Drawing, Fill, Path, Pen, Stroke, Text, TextRole, Tint, circle, line, ring
from planbuild.records.facts import Facts


def facts_with(*strokes: Stroke, fills: tuple[Fill, ...] = (), text: str = "", role: TextRole = TextRole.NOTE) -> Facts:
    texts = (Text(text, (1, 1), 2.5, role),) if text else ()
    return replace(FACTS, drawings={"x": Drawing("x", 10, 10, fills, strokes, (), (), texts, "")})


def names(facts: Facts) -> list[str]:
    return [entry.sample.id.removeprefix("sample.") for entry in legend(facts)]


_SHORT = line((0, 0), (1, 0))


def pen(kind: Pen, path: Path = _SHORT) -> Stroke:
    return Stroke(kind, path)


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        (facts_with(), []),
        (facts_with(pen(Pen.OUTLINE)), ["line.visible"]),
        (facts_with(pen(Pen.VISIBLE), pen(Pen.OUTLINE), pen(Pen.HATCH)), ["line.visible"]),
        (facts_with(pen(Pen.CENTRE)), ["line.centre"]),
        (facts_with(pen(Pen.CUTTING)), ["sign.trace"]),
        (facts_with(pen(Pen.DIMENSION)), ["sign.size"]),
        (facts_with(pen(Pen.DIMENSION, circle((0, 0), 0.9))), ["sign.size", "sign.running"]),
        (facts_with(pen(Pen.VISIBLE, circle((0, 0), 0.9))), ["line.visible"]),
        (facts_with(text="(12)", role=TextRole.DIMENSION), ["sign.bracket"]),
        (facts_with(text="(12)"), []),
        (facts_with(text="face side"), ["sign.face_side"]),
        (facts_with(text="face edge"), ["sign.face_edge"]),
        (facts_with(text="grain"), ["sign.grain"]),
        (facts_with(fills=(Fill(Tint.NEW_UP, ring((0, 0), (1, 0), (1, 1))),)), ["tint.new"]),
    ],
)
def test_what_is_used_is_explained(facts: Facts, expected: list[str]) -> None:
    assert names(facts) == expected


def test_size_and_trace_have_their_arrows() -> None:
    assert [len(sample.covers) for sample in (size_sample(), trace_sample())] == [2, 2]


def test_every_sign_has_a_sample_of_its_own() -> None:
    kinds = (Pen.CENTRE, Pen.CUTTING, Pen.DIMENSION, Pen.BREAK, Pen.MOVE, Pen.GUIDE, Pen.HIDDEN, Pen.SECTION)
    found = legend(facts_with(*map(pen, kinds)))
    inks = [(each.sample.strokes, each.sample.covers, each.sample.texts, each.sample.fills) for each in found]
    assert len(found) == len(kinds) and all(inks.count(ink) == 1 for ink in inks)
