"""What the pages at the bench show: cut list, part sheets, joints, steps, finish, record."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from itertools import groupby, product
from math import ceil

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.units import Unit
from planbuild.publish.source import Content, Source, made, picked
from planbuild.records.facts import Facts, JointFacts, PartFacts, WorkStep
from planbuild.records.rooms import CAPTION, STEP

_LINE = 4.5
"""Height of a line of text, in mm on paper."""
_MARK = re.compile(r"\[\[\w+:\w+\]\]")
"""A reference to a part or joint, as `Words` sets it."""


def cut_list(source: Source) -> Content:
    facts = source.facts
    titled: dict[str, list[Content]] = {}
    strips: dict[str, list[Content]] = {}
    for group in facts.cut_list:  # stocks of the same wood and thickness are one heading for the maker
        rows = [{"part": facts.part(row.part), "note": row.note, "matched": row.matched} for row in group.rows]
        titled.setdefault(group.title, []).extend(rows)
        strips.setdefault(group.title, []).extend({"part": facts.part(each.part), "strip": each} for each in group.strips)
    return {"groups": [{"title": title, "rows": rows, "strips": strips[title]} for title, rows in titled.items()]}


def sheets(source: Source) -> Content:
    return {"sheets": [_sheet(source, part) for part in source.facts.parts]}


def _sheet(source: Source, part: PartFacts) -> Content:
    facts = source.facts
    words = Counter(each.words for each in part.features)
    several = {each.words: each.several for each in part.features}
    return {
        "part": part,
        "made": made(part),
        "features": [{"words": f"{count} {several[each]}" if count > 1 else each} for each, count in words.items()],
        "noted": [each for each in part.dimensions if each.view == "note"],
        "notes": [source.words.note(note) for note in part.notes],
        "steps": [{"id": step.id, "number": step.number} for step in facts.steps if part.id in step.parts],
        "joints": [joint for joint in facts.joints if any(each.joint == joint.id for each in part.features)],
    }


def joints(source: Source) -> Content:
    """What merely rests comes first, in a line: at the end it could stand alone on a page."""
    ordered = sorted(source.facts.joints, key=lambda joint: bool(joint.drawing or joint.numbers or joint.notes))
    facts = source.facts
    seasons = [{"row": row, "part": facts.part(row.part) if row.part else None} for row in facts.seasons]
    unit = "inches" if source.edition.ruler.unit is Unit.INCH else "millimetres"
    return {"joints": [_joint(source, joint) for joint in ordered], "seasons": seasons, "unit": unit}


def _joint(source: Source, joint: JointFacts) -> Content:
    return {"joint": joint, "notes": [source.words.note(note) for note in joint.notes]}


def steps(source: Source) -> Content:
    facts = source.facts
    phases = [(name, _reasons_once(run)) for name, run in groupby(facts.steps, key=lambda step: step.phase)]
    return {"phases": [{"name": name, "steps": [_step(source, step) for step in run]} for name, run in phases]}


def _reasons_once(run: Iterable[WorkStep]) -> list[WorkStep]:
    """A reason that holds for one step after another is printed at the first."""
    told: list[WorkStep] = []
    last = ""
    for step in run:
        told.append(replace(step, why="" if step.why == last else step.why))
        last = step.why
    return told


def _step(source: Source, step: WorkStep) -> Content:
    facts = source.facts
    counts = dict(step.counts)
    names = {line.id: line.name for line in facts.hardware}
    return {
        "step": step,
        "parts": [{"part": part, "count": counts.get(part.id, part.count)} for part in picked(facts, step.parts)],
        "hardware": [{"name": names.get(id, id), "count": count} for id, count in step.hardware],
        "note": source.words.note(step.note) if step.note else None,
        **_arranged(step, facts),
    }


def _arranged(step: WorkStep, facts: Facts) -> Content:
    """Where a step's cautions and tools take the least height: cautions over both columns or over the words
    only, tools under the words or under the picture.  A heuristic: it counts the lines that texts will take."""
    if not step.drawing and not step.photos:
        return {"over": True, "under_words": False}
    words = sum(_lines(each, 45) for each in (*step.actions, step.note, step.check, step.wait))
    seen = _drawn(step, facts) + (STEP[1] + CAPTION if step.photos else 0.0)
    picture = seen / _LINE + sum(_lines(each, 50) for each in step.sizes)
    tools = _lines(f"Tools: {', '.join(step.tools)}. Why here: {step.why}", 58)
    cautions = [f"{each.signal} {each.hazard} {each.harm} {each.avoid}" for each in step.cautions]

    def height(over: bool, under_words: bool) -> float:
        warned = sum(_lines(each, 105 if over else 49) for each in cautions)
        left = words + (0 if over else warned) + (tools if under_words else 0)
        return (warned if over else 0) + max(left, picture + (0 if under_words else tools))

    over, under_words = min(product((False, True), repeat=2), key=lambda each: height(*each))
    return {"over": over, "under_words": under_words}


def _drawn(step: WorkStep, facts: Facts) -> float:
    """Height of a step's drawing on its page, in mm."""
    if not step.drawing:
        return 0.0
    drawing = facts.drawings[step.drawing]
    return min(1.0, STEP[0] / drawing.width) * drawing.height


def _lines(text: str, letters: int) -> int:
    return ceil(len(_MARK.sub("(A1)", text)) / letters)


def finish(source: Source) -> Content:
    return {}


def record(source: Source) -> Content:
    warnings = [each for each in source.findings.diagnostics if each.severity is Severity.WARNING and not _is_of_print(each)]
    return {"warnings": [each.message.replace("`", "") for each in warnings], "proofs": proofs(source.facts, source)}


def _is_of_print(warning: Diagnostic) -> bool:
    """About figures and drawings: the designer's affair, who sees it when the plan is built.  So are hints of any kind."""
    return warning.code.split("-")[0] in ("sheet", "drawing", "page", "theme")


def proofs(facts: Facts, source: Source) -> list[str]:
    """What was proved, as derive words it, else as the proofs themselves say."""
    return list(facts.proofs) or [f"{each.claim}: {each.checked} checked, {each.worst}" for each in source.findings.proofs]
