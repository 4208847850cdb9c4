"""Sentences: references become links with pages, everything else stays text."""

from __future__ import annotations

import pytest
from sample_facts import FACTS

from planbuild.core.diagnostics import Refused
from planbuild.publish.words import Html, Words


def html(text: str) -> str:
    found = Words(FACTS).sentence(text)
    assert isinstance(found, Html)
    return found.html


def test_a_sentence_without_references_stays_text() -> None:
    assert Words(FACTS).sentence("a < b & c") == "a < b & c"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("[[part:end]]", 'end <a class="mark" href="#sheet.end">A2</a>'),
        ("[[mark:end]]", '<a class="mark" href="#sheet.end">A2</a>'),
        ("[[sheet:end]]", '<a class="at" href="#sheet.end">page</a>'),
        ("[[step:mortise.end]]", '<a class="paged" href="#step.mortise.end">step 2</a>'),
        ("[[joint:rail]]", '<a class="paged" href="#joint.rail">wedged tenon</a>'),
    ],
)
def test_references(text: str, expected: str) -> None:
    assert html(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("3/4 of it in an inch of top, 1/4 left", "³⁄₄ of it in an inch of top, ¹⁄₄ left"),
        ("1-1/16 or 2 3/8 in", "1\u202f¹⁄₁₆ or 2\u202f³⁄₈\u00a0in"),
        ("(15/32)", "(¹⁵⁄₃₂)"),
        ("2/4 is reduced", "¹⁄₂ is reduced"),
    ],
)
def test_typed_fractions_are_set(text: str, expected: str) -> None:
    assert Words(FACTS).sentence(text) == expected
    assert expected in Words(FACTS).note(text).html


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("between 6 % and 11 % moisture", "between 6\u00a0% and 11\u00a0% moisture"),
        ("clamps of 18 in, 26 ft², wait 60 min", "clamps of 18\u00a0in, 26\u00a0ft², wait 60\u00a0min"),
        ("all 4 mitres and 12 inner ones", "all 4 mitres and 12 inner ones"),
    ],
)
def test_a_figure_stays_with_its_unit(text: str, expected: str) -> None:
    assert Words(FACTS).sentence(text) == expected


@pytest.mark.parametrize(
    "text", ["5/4 and 8/4 ash", "1/2/2026", "and/or", "200 g/m", "a=1/2", "http://x.example/1/2", "M6/8", "1/3"]
)
def test_other_slashes_stay(text: str) -> None:
    assert Words(FACTS).sentence(text) == text


def test_what_surrounds_a_reference_is_escaped() -> None:
    assert html('<script>"&[[mark:top]]').startswith('&lt;script&gt;"&amp;<a ')


def test_unknown_references_are_all_told() -> None:
    words = Words(FACTS)
    words.sentence("[[part:nose]] and [[wing:top]] and [[step:nowhere]]")
    with pytest.raises(Refused) as caught:
        words.faults.refuse_if_any_stops()
    assert [each.code for each in caught.value.diagnostics] == ["words-reference"] * 3


def test_notes_are_markdown_without_html_pictures_or_headings() -> None:
    note = Words(FACTS).note("# Mark *both* [[mark:end]]\n\n- <img src=x>\n- ![p](file:///etc/passwd) [go](javascript:x)").html
    assert "<em>both</em>" in note and 'href="#sheet.end"' in note and "<li>" in note
    assert "<img" not in note and "<h1" not in note and 'href="javascript' not in note
