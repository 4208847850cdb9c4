"""Lists, steps and drawings that do not agree are found."""

from __future__ import annotations

from dataclasses import replace

from planbuild.pipeline import Checked
from planbuild.proofread.lettering import lettering
from planbuild.proofread.references import references
from planbuild.records.facts import Facts


def codes(checked: Checked, facts: Facts) -> set[str]:
    return {d.code for d in references(facts, checked.piece).diagnostics}


def test_the_bench_agrees_with_itself(bench: Checked) -> None:
    assert codes(bench, bench.facts) == set()
    assert lettering(bench.facts).diagnostics == ()


def test_a_part_missing_in_the_cut_list(bench: Checked) -> None:
    groups = tuple(replace(g, rows=tuple(r for r in g.rows if r.part != "slat")) for g in bench.facts.cut_list)
    assert codes(bench, replace(bench.facts, cut_list=groups)) == {"list-parts"}


def test_a_wrong_count_and_a_mark_given_twice(bench: Checked) -> None:
    parts = tuple(replace(p, count=p.count + 1, mark="A1") for p in bench.facts.parts)
    assert codes(bench, replace(bench.facts, parts=parts)) == {"list-count", "list-mark"}


def test_a_part_in_no_step_and_screws_nobody_drives(bench: Checked) -> None:
    steps = tuple(replace(s, parts=tuple(p for p in s.parts if p != "seat"), hardware=()) for s in bench.facts.steps)
    assert codes(bench, replace(bench.facts, steps=steps)) == {"step-part", "step-hardware"}


def test_a_sentence_about_a_part_that_is_not_there(bench: Checked) -> None:
    first, *rest = bench.facts.steps
    steps = (replace(first, actions=("Saw [[part:lid]].",)), *rest)
    assert codes(bench, replace(bench.facts, steps=steps)) == {"text-reference"}


def test_a_text_moved_onto_another_is_found(bench: Checked) -> None:
    sheet = bench.facts.drawings["sheet.leg"]
    first, second, *rest = sheet.texts
    spoilt = replace(sheet, texts=(first, replace(second, at=first.at, angle=first.angle, anchor=first.anchor), *rest))
    found = lettering(replace(bench.facts, drawings={**bench.facts.drawings, "sheet.leg": spoilt}))
    assert "drawing-overlap" in {d.code for d in found.diagnostics}
