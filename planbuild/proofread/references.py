"""Do the pages agree with each other: lists with parts, sentences with steps, steps with hardware?"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from planbuild.core.diagnostics import Diagnostic
from planbuild.records.facts import Facts, WorkStep
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Piece

_REFERENCE = re.compile(r"\[\[(\w+):([^\]]+)\]\]")


def references(facts: Facts, piece: Piece) -> Findings:
    """Reports `list-parts`, `list-count`, `list-mark`, `step-part`, `step-hardware`, `text-reference`."""
    rows = [row.part for group in facts.cut_list for row in group.rows]
    found = [*_lists(facts, piece, rows), *_steps(facts), *_sentences(facts)]
    count = len(rows) + len(facts.steps)
    proof = Proof("Lists, drawings and steps name the same parts", count, "every part in the cut list and in a step")
    return Findings(tuple(found), (proof,))


def _lists(facts: Facts, piece: Piece, rows: list[str]) -> Iterator[Diagnostic]:
    wanted = [part.id for part in piece.parts]
    for id, times in (Counter(wanted) - Counter(rows)).items():
        yield Diagnostic("list-parts", f'"{id}" is missing in the cut list ({times}).')
    for id, times in (Counter(rows) - Counter(wanted)).items():
        yield Diagnostic("list-parts", f'"{id}" stands in the cut list {times} time(s) too often.')
    for part in piece.parts:
        listed = facts.part(part.id).count
        if listed != len(part.copies):
            yield Diagnostic("list-count", f'"{part.id}": {listed} listed, {len(part.copies)} stand in the piece.')
    for mark, times in Counter(p.mark for p in facts.parts).items():
        if times > 1:
            yield Diagnostic("list-mark", f"{times} parts have the mark {mark}.")


def _steps(facts: Facts) -> Iterator[Diagnostic]:
    used = {part for step in facts.steps for part in step.parts}
    for part in facts.parts:
        if part.id not in used:
            yield Diagnostic("step-part", f'"{part.id}" is used in no step.')
    told: Counter[str] = Counter()
    for step in facts.steps:
        told.update(dict(step.hardware))
    for line in facts.hardware:
        if told[line.id] != line.count:
            yield Diagnostic("step-hardware", f'"{line.id}": {line.count} to buy, {told[line.id]} used in the steps.')


def _sentences(facts: Facts) -> Iterator[Diagnostic]:
    parts = {p.id for p in facts.parts}
    steps, joints = {s.id for s in facts.steps}, {j.id for j in facts.joints}
    known = {"part": parts, "mark": parts, "sheet": parts, "step": steps, "joint": joints}
    for step in facts.steps:
        for kind, id in _REFERENCE.findall(" ".join(_texts(step))):
            if id not in known.get(kind, set()):
                yield Diagnostic("text-reference", f'Step "{step.id}" refers to {kind} "{id}", which is not in the plan.')


def _texts(step: WorkStep) -> tuple[str, ...]:
    return (*step.actions, *step.sizes, step.check, step.why, step.note, step.wait)
