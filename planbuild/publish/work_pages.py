"""What the pages at the bench show: cut list, part sheets, joints, steps, finish, record."""

from __future__ import annotations

from collections import Counter
from itertools import groupby

from planbuild.core.diagnostics import Severity
from planbuild.publish.source import Content, Source, made, picked
from planbuild.records.facts import Facts, JointFacts, PartFacts, WorkStep


def cut_list(source: Source) -> Content:
    facts = source.facts
    groups = [
        {
            "title": group.title,
            "rows": [{"part": facts.part(row.part), "note": row.note, "matched": row.matched} for row in group.rows],
        }
        for group in facts.cut_list
    ]
    return {"groups": groups}


def sheets(source: Source) -> Content:
    return {"sheets": [_sheet(source, part) for part in source.facts.parts]}


def _sheet(source: Source, part: PartFacts) -> Content:
    facts = source.facts
    words = Counter(each.words for each in part.features)
    return {
        "part": part,
        "made": made(part),
        "features": [{"words": each, "count": count} for each, count in words.items()],
        "noted": [each for each in part.dimensions if each.view == "note"],
        "notes": [source.words.note(note) for note in part.notes],
        "steps": [{"id": step.id, "number": step.number} for step in facts.steps if part.id in step.parts],
        "joints": [joint for joint in facts.joints if any(each.joint == joint.id for each in part.features)],
    }


def joints(source: Source) -> Content:
    return {"joints": [_joint(source, joint) for joint in source.facts.joints]}


def _joint(source: Source, joint: JointFacts) -> Content:
    return {"joint": joint, "notes": [source.words.note(note) for note in joint.notes]}


def steps(source: Source) -> Content:
    facts = source.facts
    phases = [(name, list(run)) for name, run in groupby(facts.steps, key=lambda step: step.phase)]
    return {"phases": [{"name": name, "steps": [_step(source, step) for step in run]} for name, run in phases]}


def _step(source: Source, step: WorkStep) -> Content:
    facts = source.facts
    counts = dict(step.counts)
    names = {line.id: line.name for line in facts.hardware}
    return {
        "step": step,
        "parts": [{"part": part, "count": counts.get(part.id, part.count)} for part in picked(facts, step.parts)],
        "hardware": [{"name": names.get(id, id), "count": count} for id, count in step.hardware],
        "note": source.words.note(step.note) if step.note else None,
    }


def finish(source: Source) -> Content:
    return {}


def record(source: Source) -> Content:
    warnings = [each for each in source.findings.diagnostics if each.severity is Severity.WARNING]
    return {"warnings": warnings, "proofs": proofs(source.facts, source)}


def proofs(facts: Facts, source: Source) -> list[str]:
    """What was proved, as derive words it, else as the proofs themselves say."""
    return list(facts.proofs) or [f"{each.claim}: {each.checked} checked, {each.worst}" for each in source.findings.proofs]
