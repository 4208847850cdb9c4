"""plan.json: keeps its written contract, says what the pages say, and is the same every time."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from sample_facts import FACTS, FINDINGS

from planbuild.pipeline import Built
from planbuild.publish import plan_json
from planbuild.records.planset import PlanSet

SCHEMA = json.loads((Path(__file__).parents[2] / "planbuild" / "publish" / "plan.schema.json").read_text("utf-8"))
TYPES = {
    "object": dict,
    "array": list,
    "string": str,
    "integer": int,
    "number": (int, float),
    "boolean": bool,
    "null": type(None),
}
KNOWN = {
    "$schema", "$defs", "$ref", "title", "description", "type", "required", "properties", "additionalProperties", "items",
    "enum", "const", "minimum", "exclusiveMinimum", "minItems", "maxItems",
}  # fmt: skip


def faults(value: Any, schema: dict[str, Any], at: str = "$") -> list[str]:
    """What breaks the schema: the part of JSON Schema 2020-12 that ours uses; an unknown keyword is a fault of the test."""
    assert schema.keys() <= KNOWN, f"{at}: {schema.keys() - KNOWN}"
    if "$ref" in schema:
        return faults(value, SCHEMA["$defs"][schema["$ref"].split("/")[-1]], at)
    if "const" in schema or "enum" in schema:
        allowed = schema.get("enum", [schema.get("const")])
        return [] if value in allowed else [f"{at}: {value!r} is none of {allowed}"]
    kinds = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
    if not any(isinstance(value, TYPES[k]) and (k in ("boolean",) or not isinstance(value, bool)) for k in kinds):
        return [f"{at}: {value!r} is no {kinds}"]
    return [*_object(value, schema, at), *_array(value, schema, at), *_number(value, schema, at)]


def _object(value: Any, schema: dict[str, Any], at: str) -> list[str]:
    if not isinstance(value, dict):
        return []
    known, more = schema.get("properties", {}), schema.get("additionalProperties", True)
    found = [f"{at}: {key} is missing" for key in schema.get("required", []) if key not in value]
    for key, each in value.items():
        if key in known or isinstance(more, dict):
            found += faults(each, known.get(key, more), f"{at}.{key}")
        elif not more:
            found.append(f"{at}: {key} is not in the contract")
    return found


def _array(value: Any, schema: dict[str, Any], at: str) -> list[str]:
    if not isinstance(value, list):
        return []
    count = len(value)
    wrong = not schema.get("minItems", 0) <= count <= schema.get("maxItems", count)
    return [f"{at}: {count} items"] * wrong + [
        f for i, each in enumerate(value) for f in faults(each, schema["items"], f"{at}[{i}]")
    ]


def _number(value: Any, schema: dict[str, Any], at: str) -> list[str]:
    if not isinstance(value, int | float):
        return []
    low = value < schema.get("minimum", value) or value <= schema.get("exclusiveMinimum", value - 1)
    return [f"{at}: {value} is too small"] if low else []


@pytest.fixture(scope="module")
def plan(letter: PlanSet) -> dict[str, Any]:
    data: dict[str, Any] = json.loads(plan_json(FACTS, FINDINGS, letter))
    return data


def test_the_contract_is_kept(plan: dict[str, Any]) -> None:
    assert faults(plan, SCHEMA) == []


def test_the_contract_is_worth_something(plan: dict[str, Any]) -> None:
    part = plan["parts"][0]
    for wrong in (
        {**part, "finished": [1, 2]},
        {**part, "count": "4"},
        {**part, "extra": 1},
        {k: v for k, v in part.items() if k != "mark"},
    ):
        assert len(faults({**plan, "parts": [wrong]}, SCHEMA)) == 1


def test_dimensions_say_value_text_feature_and_page(plan: dict[str, Any], letter: PlanSet) -> None:
    end = next(part for part in plan["parts"] if part["id"] == "end")
    mortise = next(d for d in end["dimensions"] if d["feature"] == "rail.end")
    assert (mortise["value"], mortise["text"], mortise["states"]) == (9.525, "³⁄₈", "mortise width")
    assert mortise["page"] == end["page"] == letter.page_of["sheet.end"]
    assert end["finished"] == [254.0, 228.6, 22.225]


def test_pages_and_steps_agree_with_the_plan_set(plan: dict[str, Any], letter: PlanSet) -> None:
    assert [page["number"] for page in plan["pages"]] == list(range(1, len(letter.pages) + 1))
    assert [step["page"] for step in plan["steps"]] == sorted(letter.page_of[f"step.{step.id}"] for step in FACTS.steps)
    assert plan["findings"][0]["code"] == "stock-thin" and plan["proofs"][0]["checked"] == 28


def test_bytes_are_stable_and_keys_sorted(letter: PlanSet) -> None:
    data = plan_json(FACTS, FINDINGS, letter)
    assert data == plan_json(FACTS, FINDINGS, letter) and data.endswith(b"}\n")
    assert json.dumps(json.loads(data), ensure_ascii=False, indent=1, sort_keys=True).encode() + b"\n" == data


def test_the_demonstration_bench_keeps_the_contract_and_its_pages_are_in_order(bench_built: Built) -> None:
    assert faults(json.loads(bench_built.files["plan.json"]), SCHEMA) == []
    assert [each.message for each in bench_built.plan_set.told] == []
