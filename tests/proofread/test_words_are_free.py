"""A text that lies on something is found, in whatever drawing."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planbuild.proofread.lettering import lettering
from planbuild.records.drawing import Drawing, Fill, Pen, Stroke, Text, TextRole, Tint, circle, line, ring
from planbuild.records.facts import Facts
from planbuild.records.legibility import clashes

WORD = Text("12 ¹⁄₂", (50, 50), 2.5, TextRole.DIMENSION)


def drawing(*strokes: Stroke, texts: tuple[Text, ...] = (WORD,), covers: tuple[Fill, ...] = ()) -> Drawing:
    return Drawing("t", 100, 100, (), strokes, covers, (), texts, "")


def test_all_drawings_of_the_bench_are_legible(facts: Facts) -> None:
    found = lettering(facts)
    assert found.diagnostics == ()
    assert found.proofs[0].checked > 200


def test_a_moved_figure_is_found(facts: Facts) -> None:
    sheet = facts.drawings["sheet.leg"]
    first, second, *rest = sheet.texts
    spoiled = replace(sheet, texts=(replace(first, at=second.at, anchor=second.anchor, angle=second.angle), second, *rest))
    found = lettering(replace(facts, drawings={**facts.drawings, "sheet.leg": spoiled})).diagnostics
    assert found and {each.code for each in found} == {"drawing-overlap"}


@pytest.mark.parametrize(
    "stroke",
    [
        Stroke(Pen.DIMENSION, line((0, 49), (100, 49))),
        Stroke(Pen.VISIBLE, line((50, 0), (50, 100))),
        Stroke(Pen.LEADER, line((45, 45), (55, 55))),
        Stroke(Pen.SMOOTH, circle((50, 40), 9.5)),
    ],
)
def test_a_line_through_a_word(stroke: Stroke) -> None:
    assert len(clashes(drawing(stroke))) == 1


def test_a_line_that_passes_by() -> None:
    beside = [line((0, 51), (100, 51)), line((0, 47), (100, 47)), line((44, 0), (44, 100)), line((0, 0), (40, 60))]
    assert clashes(drawing(*(Stroke(Pen.VISIBLE, path) for path in beside))) == ()


def test_a_line_under_a_white_disc_does_not_count() -> None:
    disc = Fill(Tint.PAPER, circle((50, 49), 7))
    assert clashes(drawing(Stroke(Pen.VISIBLE, line((0, 49), (100, 49))), covers=(disc,))) == ()


def test_an_arrowhead_on_a_word() -> None:
    arrow = Fill(Tint.INK, ring((48, 49), (52, 48), (52, 50)))
    (found,) = clashes(drawing(covers=(arrow,)))
    assert found.meets == "an arrowhead"


def test_word_on_word_and_word_over_the_edge() -> None:
    (found,) = clashes(drawing(texts=(WORD, replace(WORD, text="7", at=(52, 51)))))
    assert "the text" in found.meets
    (found,) = clashes(drawing(texts=(replace(WORD, at=(99, 50)),)))
    assert found.meets == "the edge of the drawing"


def test_upright_words_are_measured_upright() -> None:
    upright = replace(WORD, angle=90.0)
    assert clashes(drawing(Stroke(Pen.VISIBLE, line((0, 52), (100, 52))), texts=(upright,)))
    assert clashes(drawing(Stroke(Pen.VISIBLE, line((52, 0), (52, 100))), texts=(upright,))) == ()
