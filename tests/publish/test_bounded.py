"""Hostile templates are refused in bounded time and memory, whatever they try."""

from __future__ import annotations

import sys
import time
from dataclasses import replace

import pytest

from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.publish.bounded import Limit
from planbuild.publish.pdf import Press, fill_templates
from planbuild.publish.theme import Theme

SHORT = Limit(seconds=2, megabytes=400)
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


@needs_memory_limit
@pytest.mark.parametrize(
    "template",
    [
        "{% set ns = namespace(x='aaaaaaaa') %}{% for i in range(60) %}{% set ns.x = ns.x ~ ns.x %}{% endfor %}",
        "{{ 'a' * 9999999999 }}",
        "{{ '%9999999999s' | format(1) }}",
    ],
)
def test_a_text_without_end(template: str, bench_theme: Theme) -> None:
    assert refused(bench_theme, template).code == "theme-bounds"


@pytest.mark.parametrize(
    "template",
    [
        "{{ range(999999999) | list }}",
        "{% for i in range(99999) %}" + "a" * 100 + "{% endfor %}",
        "{% macro again() %}{{ again() }}{% endmacro %}{{ again() }}",
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
    assert len(laid_out.complaints) == 5 and all("not an asset of this plan" in each for each in laid_out.complaints)
