"""plan.json: every fact of the plan as data, for tests and for other programs.

The contract is `plan.schema.json` beside this file.  Lengths are mm, masses kg, volumes mm3; drawings are left
out.  Sentences keep their references (`[[part:leg]]`), see `records.facts`.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass

from planbuild.core.render import as_data
from planbuild.records.facts import Batch, Facts, PartFacts, PieceFacts, WorkStep
from planbuild.records.findings import Findings
from planbuild.records.planset import PlanSet

UNITS = {"length": "mm", "mass": "kg", "volume": "mm3", "angle": "deg"}
_DECIMALS = 6
"""A thousandth of a micrometre: keeps every fraction of an inch apart and hides the noise of arithmetic."""


def plan_json(facts: Facts, findings: Findings, plan_set: PlanSet) -> bytes:
    """The whole plan as JSON in UTF-8, keys sorted.  The same facts give the same bytes."""
    plan = {
        "schema": facts.schema,
        "units": UNITS,
        "printed": {"unit": facts.unit, "rounding": facts.step_text, "projection": facts.projection},
        "piece": _piece(facts.piece),
        "parts": [_part(part, plan_set.page_of) for part in facts.parts],
        "steps": [_step(step, plan_set.page_of) for step in facts.steps],
        "joints": [{**_record(each), "page": plan_set.page_of[f"joint.{each.id}"]} for each in facts.joints],
        "batches": [_batch(each) for each in facts.batches],
        **{name: _data(getattr(facts, name)) for name in _AS_THEY_ARE},
        "findings": [as_data(each) for each in (*findings.diagnostics, *plan_set.told)],
        "proofs": _data(findings.proofs),
        "pages": _data(plan_set.pages),
    }
    return (json.dumps(plan, ensure_ascii=False, indent=1, sort_keys=True) + "\n").encode()


_AS_THEY_ARE = (
    "cut_list", "matched", "bill", "allowance_note", "stock", "hardware", "supplies", "tools", "cautions", "finish", "sizes",
    "seasons", "practice",
)  # fmt: skip


def _piece(piece: PieceFacts) -> dict[str, object]:
    record = _record(piece)
    if not record["on_castors"]:
        del record["on_castors"]
    overall = {side: record.pop(side) for side in ("width", "depth", "height")}
    return {**record, "overall": overall}


def _part(part: PartFacts, page_of: Mapping[str, int]) -> dict[str, object]:
    page = page_of[f"sheet.{part.id}"]
    features = [{**_record(each), "numbers": [{"name": n, "value": _data(v)} for n, v in each.numbers]} for each in part.features]
    dimensions = [{**_record(each), "page": page} for each in part.dimensions]
    return {**_record(part), "page": page, "features": features, "dimensions": dimensions}


def _step(step: WorkStep, page_of: Mapping[str, int]) -> dict[str, object]:
    counts = [{"part": part, "count": count} for part, count in step.counts]
    hardware = [{"item": item, "count": count} for item, count in step.hardware]
    return {**_record(step), "counts": counts, "hardware": hardware, "page": page_of[f"step.{step.id}"]}


def _batch(batch: Batch) -> dict[str, object]:
    return {**_record(batch), "numbers": [{"name": name, "value": _data(value)} for name, value in batch.numbers]}


def _record(record: object) -> dict[str, object]:
    return {each.name: _data(getattr(record, each.name)) for each in fields(record)}  # type: ignore[arg-type]


def _data(value: object) -> object:
    if isinstance(value, float):
        return round(value, _DECIMALS) + 0.0
    if isinstance(value, tuple | list):
        return [_data(each) for each in value]
    return _record(value) if is_dataclass(value) else value
