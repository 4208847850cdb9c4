"""Themes that are wrong, clumsy or hostile (the folders of `tests/themes`): each is refused with its place, in bounded time."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import pytest
from sample_facts import FACTS, FINDINGS, LETTER_EDITION

from planbuild.core.diagnostics import Diagnostic, Refused, Severity, Span
from planbuild.publish import load_theme, publish

TESTS = Path(__file__).parents[1]
SAID = Span("stool.yaml", 4, 8, 4)


def told_by(act: Callable[[], object]) -> tuple[Diagnostic, ...]:
    start = time.monotonic()
    with pytest.raises(Refused) as caught:
        act()
    assert time.monotonic() - start < 30
    return caught.value.diagnostics


def early(name: str) -> tuple[Diagnostic, ...]:
    return told_by(lambda: load_theme(name, TESTS, SAID))


def late(name: str) -> tuple[Diagnostic, ...]:
    theme = load_theme(name, TESTS, SAID)
    return told_by(lambda: publish(FACTS, FINDINGS, theme, LETTER_EDITION))


def place(told: Diagnostic) -> tuple[str, int, int]:
    assert told.span is not None
    return Path(told.span.file).name, told.span.line, told.span.column


# ---------------------------------------------------------------- before any slow work


def test_all_slips_of_a_theme_are_told_at_once_with_their_places() -> None:
    told = early("slips")
    assert [(each.code, place(each)) for each in told] == [
        ("theme-template", ("cover.html.j2", 1, 28)),
        ("theme-template", ("cover.html.j2", 2, 13)),
        ("theme-template", ("steps.html.j2", 2, 1)),
        ("theme-tokens", ("tokens.toml", 2, 1)),
        ("theme-tokens", ("tokens.toml", 5, 6)),
    ]
    assert all(each.related[0].span == SAID for each in told)
    assert [each.hints for each in told[:2]] == [('Did you mean "upper"?',), ('Did you mean "cover.html.j2"?',)]


def test_what_a_theme_asks_for_outside_the_plan_is_refused_with_what_is_allowed() -> None:
    told = early("outside")
    assert {each.code for each in told} == {"theme-outside"}
    assert [place(each) for each in told] == [
        ("cover.html.j2", 2, 18),
        ("cover.html.j2", 3, 30),
        ("style.css", 1, 10),
        ("style.css", 2, 43),
        ("style.css", 3, 23),
    ]
    asked = ("https://example.org/logo.png", "../../secret.txt", "more.css", "fancy.ttf", "file:///etc/hostname")
    assert all(f'"{address}"' in each.message for address, each in zip(asked, told, strict=True))
    assert all("drawings and photos of the plan" in each.expected and each.hints for each in told)


def test_sums_without_limit_are_refused_before_they_are_begun() -> None:
    assert [(each.code, place(each)) for each in early("powers")] == [
        ("theme-bounds", ("cover.html.j2", 1, 8)),
        ("theme-bounds", ("cover.html.j2", 2, 13)),
    ]


HARD_TO_READ = {
    "cover.html.j2": ("{#" * 99_000, "{{" * 50_000, "{{ " + "(" * 90_000, "{% if a %}" * 15_000, "{{ 1" + "+1" * 90_000 + " }}"),
    "style.css": ("(" * 190_000 + "url(x)", "@media x {" * 15_000 + "@import 'x'"),
    "tokens.toml": ("a" + ".a" * 95_000 + " = 1", "x = " + "[" * 90_000, "x = " + "9" * 9_000),
}


@pytest.mark.parametrize(("file", "text"), [(file, text) for file, texts in HARD_TO_READ.items() for text in texts])
def test_even_reading_has_an_end(file: str, text: str, tmp_path: Path) -> None:
    (tmp_path / "themes" / "mine").mkdir(parents=True)
    (tmp_path / "themes" / "mine" / file).write_text(text)
    told = told_by(lambda: load_theme("mine", tmp_path, SAID))
    assert told[0].span is not None and told[0].code.startswith("theme-")


def test_a_thousand_faults_are_counted(tmp_path: Path) -> None:
    (tmp_path / "themes" / "mine").mkdir(parents=True)
    (tmp_path / "themes" / "mine" / "style.css").write_text("".join(f"h2 {{ background: url(a{n}.png) }}\n" for n in range(1000)))
    told = told_by(lambda: load_theme("mine", tmp_path, SAID))
    assert len(told) == 50 and any("950 further faults" in hint for each in told for hint in each.hints)


# ---------------------------------------------------------------- while the pages are set


@pytest.mark.parametrize(("name", "line"), [("circle", 2), ("endless", 2), ("swollen", 3)])
def test_a_template_without_end_is_stopped_at_its_line(name: str, line: int) -> None:
    (told,) = late(name)
    assert (told.code, place(told)) == ("theme-bounds", ("cover.html.j2", line, 1)) and told.hints


def test_a_template_that_writes_too_much_is_stopped() -> None:
    (told,) = late("wordy")
    assert (told.code, told.span) == ("theme-bounds", SAID)


def test_an_address_put_together_by_a_template_is_refused_too() -> None:
    stopping = [each for each in late("outside-late") if each.stops]
    assert [(each.code, each.span) for each in stopping] == [("theme-outside", SAID)]
    assert '"file:///etc/hostname"' in stopping[0].message


def test_a_page_that_a_theme_leaves_nearly_empty_is_its_fault() -> None:
    told = [each for each in late("torn") if each.stops]
    assert told and {each.code for each in told} == {"page-near-empty"} and all("bench" in each.hints[-1] for each in told)


# ---------------------------------------------------------------- a good one


def test_a_theme_of_colours_and_one_template_is_printed() -> None:
    theme = load_theme("plain", TESTS, SAID)
    plan = publish(FACTS, FINDINGS, theme, LETTER_EDITION)
    assert not [each for each in plan.told if each.severity is not Severity.NOTE]
    assert theme.tokens.colours["accent"] == "#1f4e79" and len(theme.styles) == 2
