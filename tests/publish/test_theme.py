"""Themes: found by name, laid over the built-in one, and never trusted."""

from __future__ import annotations

import io
import os
import re
from pathlib import Path

import jinja2
import pypdf
import pytest
from sample_facts import FACTS, FINDINGS, LETTER_EDITION

from planbuild.core.diagnostics import Diagnostic, Refused, Span
from planbuild.core.units import THIN_SPACE
from planbuild.publish import Theme, load_theme, publish


def theme(folder: Path, name: str = "mine", **files: str | bytes) -> Path:
    home = folder / "themes" / name
    home.mkdir(parents=True)
    for file, content in files.items():
        path = home / file.replace("__", ".")
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return folder


SAID = Span("stool.yaml", 4, 8, 4)


def refused(name: str, folder: Path) -> Diagnostic:
    with pytest.raises(Refused) as caught:
        load_theme(name, folder, SAID)
    return caught.value.diagnostics[0]


def test_one_template_is_overridden_and_the_rest_inherited(tmp_path: Path) -> None:
    mine = load_theme("mine", theme(tmp_path, cover__html__j2="<h1>Mine</h1>"))
    bench = load_theme("bench", tmp_path)
    assert mine.templates["cover.html.j2"] == "<h1>Mine</h1>"
    assert mine.templates["bench/cover.html.j2"] == bench.templates["cover.html.j2"]
    assert mine.templates["steps.html.j2"] == bench.templates["steps.html.j2"]
    assert mine.styles == bench.styles and mine.tokens == bench.tokens


def test_a_style_sheet_is_laid_over_the_built_in_one(tmp_path: Path) -> None:
    mine = load_theme("mine", theme(tmp_path, style__css="h2 { color: red }", tokens__toml='[tints]\nup = "#010203"'))
    assert mine.styles == (*load_theme("bench", tmp_path).styles, "h2 { color: red }")


def test_a_theme_beside_the_design_wins(tmp_path: Path) -> None:
    assert load_theme("bench", theme(tmp_path, "bench", cover__html__j2="here")).templates["cover.html.j2"] == "here"


def test_other_files_are_left_alone(tmp_path: Path) -> None:
    assert "LICENSE" not in load_theme("mine", theme(tmp_path, LICENSE=b"\xff")).templates


def test_an_unknown_theme_gets_the_nearest_name(tmp_path: Path) -> None:
    told = refused("benhc", tmp_path)
    assert told.span == SAID and told.code == "theme-unknown" and told.hints[0] == 'Did you mean "bench"?'


@pytest.mark.parametrize("name", ["../bench", "/etc", "", ".", "a/b", "Bench\0"])
def test_a_name_is_not_a_path(name: str, tmp_path: Path) -> None:
    assert refused(name, tmp_path).code == "theme-unknown"


def test_a_link_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    (theme(tmp_path) / "themes" / "mine" / "cover.html.j2").symlink_to("/etc/passwd")
    told = refused("mine", tmp_path)
    assert (told.code, told.span) == ("theme-file", SAID) and "cover.html.j2" in told.message


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="everything can be read here")
def test_a_folder_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    (theme(tmp_path) / "themes" / "mine").chmod(0)
    assert refused("mine", tmp_path).code == "theme-file"
    (tmp_path / "themes" / "mine").chmod(0o700)


def test_large_and_binary_files_are_refused(tmp_path: Path) -> None:
    assert refused("mine", theme(tmp_path, cover__html__j2="x" * 300_000)).code == "theme-file"
    told = refused("other", theme(tmp_path, "other", style__css=b"h2 {}\n\xff\xfe"))
    assert told.code == "theme-file" and told.span == Span(str(tmp_path / "themes" / "other" / "style.css"), 2, 1)


def test_a_theme_is_small_altogether(tmp_path: Path) -> None:
    files = {f"page{number}__html__j2": "x" * 190_000 for number in range(3)}
    assert refused("mine", theme(tmp_path, **files)).code == "theme-file"
    assert refused("other", theme(tmp_path, "other", **{f"page{n}__html__j2": "x" for n in range(101)})).code == "theme-file"


def test_a_fault_in_a_template_names_template_and_line(tmp_path: Path) -> None:
    mine = load_theme("mine", theme(tmp_path, cover__html__j2="<h1>x</h1>\n  {{ facts.piece.titel }}"))
    with pytest.raises(Refused) as caught:
        publish(FACTS, FINDINGS, mine, LETTER_EDITION)
    (told,) = caught.value.diagnostics
    assert told.code == "theme-template" and told.message == 'There is nothing called "titel" here. Did you mean "title"?'
    assert told.span == Span(str(tmp_path / "themes" / "mine" / "cover.html.j2"), 2, 3, 23)


def test_a_template_that_forgets_a_sheet_is_told(tmp_path: Path) -> None:
    mine = load_theme("mine", theme(tmp_path, sheets__html__j2="<p>none</p>", joints__html__j2="<p>none</p>"))
    with pytest.raises(Refused) as caught:
        publish(FACTS, FINDINGS, mine, LETTER_EDITION)
    assert {each.code for each in caught.value.diagnostics} >= {"page-missing", "page-reference"}


def test_an_own_cover_may_build_on_the_inherited_one(tmp_path: Path) -> None:
    own = '{% include "bench/cover.html.j2" %}<p class="dedication">For the reading room</p>'
    style = ".dedication { position: absolute; top: 0; color: var(--accent) }"
    mine = load_theme("mine", theme(tmp_path, cover__html__j2=own, style__css=style))
    plan = publish(FACTS, FINDINGS, mine, LETTER_EDITION)
    text = pypdf.PdfReader(io.BytesIO(plan.pdf)).pages[0].extract_text()
    assert "Footstool" in text and "For the reading room" in text and plan.told == ()


@pytest.mark.parametrize(
    ("text", "whole", "part"),
    [(f"16{THIN_SPACE}¹⁄₂", "16", f"{THIN_SPACE}¹⁄₂"), ("³⁄₄", "", f"{THIN_SPACE}³⁄₄"), ("16.5", "16", ".5"), ("16", "16", "")],
)
def test_whole_numbers_and_fractions_stand_in_columns_of_their_own(text: str, whole: str, part: str, bench_theme: Theme) -> None:
    """As the plan itself prints them: the cut list is read down its columns."""
    macros = jinja2.Environment(loader=jinja2.DictLoader(dict(bench_theme.templates))).get_template("macros.html.j2").module
    written = re.sub(r"\n", "", str(macros.size(text)))  # type: ignore[attr-defined]
    assert written.strip() == f'{whole}<span class="part">{part}</span>'
