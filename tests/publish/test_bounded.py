"""Hostile templates are refused in bounded time and memory, whatever they try."""

from __future__ import annotations

import sys
import time
from dataclasses import replace

import pytest

from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.publish.bounded import Child, Limit, OutOfBounds
from planbuild.publish.pdf import Press, fill_templates
from planbuild.publish.theme import Theme

SHORT = Limit(seconds=20, megabytes=400)
needs_memory_limit = pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="this system has no memory limit for a process"
)


def refused(theme: Theme, template: str) -> Diagnostic:
    start = time.monotonic()
    with pytest.raises(Refused) as caught:
        fill_templates(replace(theme, templates={"plan.html.j2": template}), {"facts": {"piece": {"title": "x"}}}, SHORT)
    assert time.monotonic() - start < 10
    return caught.value.diagnostics[0]


def test_an_endless_loop(bench_theme: Theme) -> None:
    endless = "{% for a in range(99999) %}{% for b in range(99999) %}{% endfor %}{% endfor %}"
    assert refused(bench_theme, endless).code == "theme-bounds"


def test_a_child_that_does_not_watch_its_clock_is_stopped() -> None:
    start, child = time.monotonic(), Child("planbuild.publish.setter", Limit(seconds=1.5, megabytes=400))
    endless = "{% for a in range(99999) %}{% for b in range(99999) %}{% endfor %}{% endfor %}"
    with pytest.raises(OutOfBounds, match="1.5 seconds"):
        child.answer({"templates": {"a": endless}, "own": [], "root": "a", "data": {}, "seconds": 1000})
    assert time.monotonic() - start < 10


@needs_memory_limit
@pytest.mark.parametrize(
    "template",
    [
        "{% set ns = namespace(x='aaaaaaaa') %}{% for i in range(60) %}{% set ns.x = ns.x ~ ns.x %}{% endfor %}",
        "{{ '%9999999999s' | format(1) }}",
    ],
)
def test_a_text_without_end(template: str, bench_theme: Theme) -> None:
    assert refused(bench_theme, template).code == "theme-bounds"


@pytest.mark.parametrize(
    ("template", "told"),
    [
        ("{{ range(999999999) | list }}", "A range has at most"),
        ("{{ range(10**9) }}", "no `**`"),
        ("{{ 9**9**9 }}", "no `**`"),
        ("{{ 'a' * 9999999999 }}", "longer than 100,000"),
        ("{{ 9999999999 * 'a' }}", "longer than 100,000"),
        ("{{ [1] * 9999999999 }}", "longer than 100,000"),
        ("{% set ns = namespace(n=2) %}{% for i in range(9) %}{% set ns.n = ns.n * ns.n %}{% endfor %}{{ ns.n }}", "too large"),
        ("{% for i in range(99999) %}" + "a" * 100 + "{% endfor %}", "more than 2,000,000 characters"),
        ("{% macro again() %}{{ again() }}{% endmacro %}{{ again() }}", "leads back to itself"),
        ("{% include 'plan.html.j2' %}", "leads back to itself"),
    ],
)
def test_what_goes_beyond_all_bounds_is_told_in_plain_words(template: str, told: str, bench_theme: Theme) -> None:
    found = refused(bench_theme, template)
    assert found.code == "theme-bounds" and told in found.message and found.hints


@pytest.mark.parametrize(
    "template", ["{{ 3 * 12.5 }}", "{{ '-' * 40 }}", "{{ 0.1 * 2000 * 1000 }}", "{{ range(90000) | length }}"]
)
def test_a_plain_sum_is_worked_out(template: str, bench_theme: Theme) -> None:
    assert fill_templates(replace(bench_theme, templates={"plan.html.j2": template}), {}, SHORT)


@pytest.mark.parametrize("template", ["{{ lipsum() }}", "{{ [1, 2, 3] | random }}"])
def test_there_is_no_chance_in_a_plan(template: str, bench_theme: Theme) -> None:
    assert refused(bench_theme, template).code == "theme-template"


@pytest.mark.parametrize(
    "template",
    [
        "{% include '/etc/passwd' %}",
        "{% include '../../pyproject.toml' %}",
        "{{ ''.__class__.__mro__[1].__subclasses__() }}",
        "{{ cycler.__init__.__globals__ }}",
        "{{ facts.update({'piece': 1}) }}",
        "{{ self._TemplateReference__context.environment }}",
    ],
)
def test_a_way_out_of_the_sandbox(template: str, bench_theme: Theme) -> None:
    assert refused(bench_theme, template).code == "theme-template"


def test_a_layout_without_end() -> None:
    # HTML within its limit can still ask for endless work: fifty thousand pages here.
    start = time.monotonic()
    with pytest.raises(Refused) as caught, Press("2026-03-02", Limit(seconds=3, megabytes=1000)) as press:
        press.print("<html lang=en><title>x</title>" + "<p style='break-after: page'>x" * 50_000, [], {})
    assert caught.value.diagnostics[0].code == "theme-bounds" and time.monotonic() - start < 10


def test_nothing_is_fetched_but_what_is_declared() -> None:
    wanted = ("file:///etc/passwd", "http://127.0.0.1:9/x.png", "plan:figure/other.svg", "data:image/svg+xml,<svg/>")
    html = "<html lang=en><title>x</title>" + "".join(f"<img alt=a src='{url}'>" for url in wanted)
    with Press("2026-03-02") as press:
        laid_out = press.print(html, ["body { background: url(file:///etc/hostname) }"], {})
    assert laid_out.refused == (*wanted, "file:///etc/hostname")
