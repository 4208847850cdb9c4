"""The finished pages looked over: each fault that can be seen is told with its page."""

from __future__ import annotations

from typing import Any

import pytest
from sample_facts import FACTS, LETTER_EDITION

from planbuild.core.diagnostics import Refused
from planbuild.publish import Theme
from planbuild.publish.check_pages import check_pages, page_facts
from planbuild.publish.pages import Page
from planbuild.publish.pdf import LaidOut

ANCHORS = [f"sheet.{p.id}" for p in FACTS.parts] + [f"joint.{j.id}" for j in FACTS.joints] + [f"step.{s.id}" for s in FACTS.steps]


def page(*anchors: str, **facts: Any) -> dict[str, Any]:
    good = {
        "width": 215.9,
        "height": 279.4,
        "anchors": dict.fromkeys(anchors, 20.0),
        "ink": 220.0,
        "spill": [],
        "zeros": [],
        "headless": [],
        "articles": [],
    }
    return {**good, **facts}


def told(theme: Theme, *pages: dict[str, Any], complaints: tuple[str, ...] = ()) -> list[str]:
    laid_out = LaidOut(b"", pages, complaints)
    try:
        return [each.code for each in check_pages(laid_out, LETTER_EDITION, theme, FACTS)]
    except Refused as refused:
        return [f"{each.code}!" if each.stops else each.code for each in refused.diagnostics]


def test_good_pages(bench_theme: Theme) -> None:
    assert told(bench_theme, page(*ANCHORS)) == []


@pytest.mark.parametrize(
    ("fault", "code"),
    [
        ({"width": 210.0}, "page-paper!"),
        ({"spill": ["16 ½"]}, "page-overflow!"),
        ({"zeros": ["page 0"]}, "page-reference!"),
        ({"headless": ["table"]}, "page-table-head"),
        ({"ink": 60.0}, "page-near-empty"),
    ],
)
def test_faults_of_a_page(fault: dict[str, Any], code: str, bench_theme: Theme) -> None:
    assert told(bench_theme, page(*ANCHORS, **fault)) == [code]


def test_what_no_page_shows(bench_theme: Theme) -> None:
    assert told(bench_theme, page(*ANCHORS[1:])) == ["page-missing!"]


def test_complaints(bench_theme: Theme) -> None:
    assert told(bench_theme, page(*ANCHORS), complaints=("odd",)) == ["page-complaint"]
    assert told(bench_theme, page(*ANCHORS), complaints=("No anchor #x for internal URI reference",)) == ["page-reference!"]


def test_pages_are_named_after_what_begins_on_them() -> None:
    runs = (Page("cover", "Footstool", {}), Page("sheets", "Part sheets", {}), Page("record", "Record", {}))
    laid_out = LaidOut(
        b"",
        (
            page("page.cover"),
            page("page.sheets", *ANCHORS[:2]),
            page(*ANCHORS[2:4]),
            page(),
            page("page.record", *ANCHORS[4:]),
        ),
        (),
    )
    numbered, page_of = page_facts(laid_out, runs, FACTS)
    assert [(p.number, p.kind) for p in numbered] == [(1, "cover"), (2, "sheets"), (3, "sheets"), (4, "sheets"), (5, "record")]
    assert numbered[1].title == "Part sheets: A1 top, A2 end" and numbered[3].title == "Part sheets"
    assert page_of["sheet.rail"] == 3
