"""Leaders that cross or run far are found, in pictures and not on part sheets."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planbuild.proofread.leaders import leaders
from planbuild.records.drawing import Drawing, Pen, Point, Stroke, Text, TextRole, line
from planbuild.records.facts import Facts

MARK = Text("A1", (90, 90), 2.5, TextRole.MARK, refers="leg")
CROSS = (((0, 0), (20, 20)), ((0, 20), (20, 0)))


def with_lines(facts: Facts, id: str, *lines: tuple[Point, Point]) -> Facts:
    strokes = tuple(Stroke(Pen.LEADER, line(*ends)) for ends in lines)
    return replace(facts, drawings={id: Drawing(id, 100, 100, (), strokes, (), (), (MARK,), "")})


def test_leaders_of_the_bench_are_short_and_free(facts: Facts) -> None:
    found = leaders(facts)
    assert found.diagnostics == ()
    assert found.proofs[0].checked > 20 and "the longest is" in found.proofs[0].worst


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        (CROSS, "two leaders cross"),
        ((*CROSS, ((12, 0), (12, 30))), "leaders cross 3 times"),
        ((((0, 0), (0, 41)),), "a leader is 41 mm long"),
    ],
)
def test_bad_leaders_are_told(facts: Facts, lines: tuple[tuple[Point, Point], ...], told: str) -> None:
    (found,) = leaders(with_lines(facts, "exploded", *lines)).diagnostics
    assert found.code == "drawing-leader" and told in found.message


def test_lines_side_by_side_or_end_to_end_do_not_cross(facts: Facts) -> None:
    assert leaders(with_lines(facts, "exploded", ((0, 0), (20, 0)), ((0, 5), (20, 5)), ((20, 0), (30, 10)))).diagnostics == ()


def test_notes_of_part_sheets_are_not_asked(facts: Facts) -> None:
    assert leaders(with_lines(facts, "sheet.leg", *CROSS)).diagnostics == ()
