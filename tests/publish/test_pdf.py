"""The PDF itself, read back with other libraries: paper, faces, links, tags, numbers, bytes."""

from __future__ import annotations

import io
import os
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pdfplumber
import pypdf
import pytest
from sample_facts import A4_EDITION, FACTS, FINDINGS, LETTER_EDITION

from planbuild.core.diagnostics import Refused
from planbuild.publish import Theme, publish
from planbuild.publish.pdf import Press, epoch
from planbuild.records.planset import PlanSet

POINT = 25.4 / 72
HERE = Path(__file__).parent


def squeezed(text: str) -> str:
    """Text without spaces: a PDF may part words otherwise than we do."""
    return re.sub(r"\s", "", text)


# ---------------------------------------------------------------- paper


@pytest.mark.parametrize(("name", "size"), [("letter", (215.9, 279.4)), ("a4", (210.0, 297.0))])
def test_every_page_box_is_the_paper(name: str, size: tuple[float, float], request: pytest.FixtureRequest) -> None:
    # ASME Y14.1 size A (8.5 x 11 in) and ISO 216 A4.
    for page in pypdf.PdfReader(io.BytesIO(request.getfixturevalue(name).pdf)).pages:
        for box in (page.mediabox, page.cropbox, page.trimbox):
            assert [float(v) for v in (box.left, box.bottom)] == [0, 0]
            assert [float(v) * POINT for v in (box.width, box.height)] == pytest.approx(size, abs=0.01)


@pytest.mark.parametrize("name", ["letter", "a4"])
def test_check_square_measures_100_mm_and_4_inches(name: str, request: pytest.FixtureRequest) -> None:
    pages = pdfplumber.open(io.BytesIO(request.getfixturevalue(name).pdf)).pages
    page = next(p for p in pages if "Check your printer" in p.extract_text())
    squares = [(r["width"] * POINT, r["height"] * POINT) for r in page.rects if r["width"] > 200 and r["height"] > 200]
    assert squares == [pytest.approx((100, 100), abs=0.1)]
    lengths = [(abs(e["x1"] - e["x0"]) * POINT, abs(e["bottom"] - e["top"]) * POINT) for e in (*page.lines, *page.curves)]
    assert any(across == pytest.approx(4 * 25.4, abs=0.1) and down < 0.1 for across, down in lengths)
    assert any(down == pytest.approx(4 * 25.4, abs=0.1) and across < 0.1 for across, down in lengths)


def test_nothing_stands_in_the_margin_but_the_foot(letter_pages: list[pdfplumber.page.Page]) -> None:
    for page in letter_pages:
        for char in page.chars:
            assert char["x0"] * POINT > 15 and char["x1"] * POINT < 215.9 - 15 and char["top"] * POINT > 13
            assert char["bottom"] * POINT < 279.4 - 5  # home printers leave the last 5 mm white (common practice)


def test_every_page_after_the_cover_says_what_it_is(letter_pages: list[pdfplumber.page.Page]) -> None:
    for number, page in enumerate(letter_pages[1:], start=2):
        foot = page.crop((0, page.height - 18 / POINT, page.width, page.height)).extract_text()
        assert "Sample room · Footstool · revision B, 2026-03-02" in foot
        assert foot.endswith(f"page {number} of {len(letter_pages)}")


def test_drawing_pages_also_say_projection_and_unit(letter: PlanSet, letter_pages: list[pdfplumber.page.Page]) -> None:
    for fact in letter.pages:
        says = "inches · third angle" in letter_pages[fact.number - 1].extract_text()
        assert says or fact.kind not in ("piece", "sheets", "joints")


# ---------------------------------------------------------------- words and numbers


def test_every_dimension_is_readable_on_the_page_it_claims(letter: PlanSet, letter_pages: list[pdfplumber.page.Page]) -> None:
    for part in FACTS.parts:
        text = squeezed(letter_pages[letter.page_of[f"sheet.{part.id}"] - 1].extract_text())
        missing = [d.text for d in part.dimensions if squeezed(d.text) not in text]
        assert not missing


def test_contents_give_the_pages_that_things_are_on(letter: PlanSet, letter_pages: list[pdfplumber.page.Page]) -> None:
    page = letter_pages[1]
    lines = page.crop((0, 0, page.width * 0.4, page.height)).extract_text().splitlines()
    for part in FACTS.parts:
        assert f"{letter.page_of[f'sheet.{part.id}']} {part.mark} {part.name}" in lines
    for title in ("The piece", "To buy", "Cut list", "Joints", "Finish and care", "Record"):
        begins = next(n for n, each in enumerate(letter_pages[3:], 4) if title in each.extract_text().splitlines())
        assert f"{begins} {title}" in lines


def test_a_sentence_gives_the_page_of_what_it_refers_to(letter: PlanSet, letter_pages: list[pdfplumber.page.Page]) -> None:
    text = letter_pages[letter.page_of["step.glue"] - 1].extract_text().replace("\n", " ")
    assert re.search(rf"wedged tenon,.{{0,40}}page\s{letter.page_of['joint.rail']}", text)


def test_a_caution_stands_before_the_action(letter: PlanSet, letter_pages: list[pdfplumber.page.Page]) -> None:
    text = letter_pages[letter.page_of["step.cut.wedge"] - 1].extract_text()
    assert text.index("WARNING") < text.index("from a long blank, see")


# ---------------------------------------------------------------- document


def test_faces_are_ours_embedded_and_subset(letter: PlanSet) -> None:
    fonts = {}
    for page in pypdf.PdfReader(io.BytesIO(letter.pdf)).pages:
        for font in page["/Resources"]["/Font"].values():
            descendant = font.get_object()["/DescendantFonts"][0].get_object()
            fonts[str(font.get_object()["/BaseFont"])] = descendant["/FontDescriptor"].get_object()
    assert fonts and all(re.fullmatch(r"/[A-Z]{6}\+Plan-Sans(-Semi-Bold)?(-Italic)?", name) for name in fonts), fonts.keys()
    assert all("/FontFile2" in d or "/FontFile3" in d for d in fonts.values())


def test_language_title_tags_and_bookmarks(letter: PlanSet) -> None:
    reader = pypdf.PdfReader(io.BytesIO(letter.pdf))
    root = reader.trailer["/Root"]
    assert root["/Lang"] == "en" and root["/MarkInfo"]["/Marked"] and root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert reader.metadata and reader.metadata.title == "Footstool, plan set, revision B"

    def titles(outline: list[object]) -> list[str]:
        return [t for each in outline for t in (titles(each) if isinstance(each, list) else [each.title])]  # type: ignore[attr-defined]

    found = titles(reader.outline)
    for title in ("Read me first", "The piece", "Cut list", "Part sheets", "Steps", "Record", "Glue ends and rail"):
        assert title in found
    assert any("Top" in title for title in found)


def test_every_figure_has_its_words(letter: PlanSet) -> None:
    reader = pypdf.PdfReader(io.BytesIO(letter.pdf))
    figures: list[str] = []

    def walk(node: object) -> None:
        each = node.get_object() if hasattr(node, "get_object") else node
        if isinstance(each, list):
            for child in each:
                walk(child)
        elif isinstance(each, dict):
            if each.get("/S") == "/Figure":
                figures.append(str(each.get("/Alt", "")))
            if "/K" in each:
                walk(each["/K"])

    walk(reader.trailer["/Root"]["/StructTreeRoot"])
    assert all(figures)
    assert {drawing.alt for drawing in FACTS.drawings.values()} <= set(figures)


def test_every_link_leads_somewhere(letter: PlanSet) -> None:
    reader = pypdf.PdfReader(io.BytesIO(letter.pdf))
    named = set(reader.named_destinations)
    links = [a.get_object() for page in reader.pages for a in page.get("/Annots", [])]
    targets = {str(link["/Dest"] if "/Dest" in link else link["/A"]["/D"]) for link in links if link["/Subtype"] == "/Link"}
    assert len(links) > 60 and targets <= named
    assert {f"sheet.{part.id}" for part in FACTS.parts} | {f"step.{step.id}" for step in FACTS.steps} <= targets


def test_the_layout_engine_has_nothing_to_say(letter: PlanSet, a4: PlanSet) -> None:
    assert [d.message for d in (*letter.told, *a4.told)] == []


# ---------------------------------------------------------------- bytes


def test_same_facts_same_bytes_in_another_process(letter: PlanSet) -> None:
    script = (
        "import sys; sys.path.insert(0, sys.argv[1])\n"
        "from pathlib import Path\n"
        "from sample_facts import *\n"
        "from planbuild.publish import *\n"
        "plan = publish(FACTS, FINDINGS, load_theme('bench', Path('/nonexistent')), LETTER_EDITION)\n"
        "sys.stdout.buffer.write(plan.pdf + plan_json(FACTS, FINDINGS, plan))"
    )
    environment = {**os.environ, "PYTHONHASHSEED": "77"}
    out = subprocess.run([sys.executable, "-c", script, str(HERE)], env=environment, capture_output=True, check=True).stdout
    from planbuild.publish import plan_json

    assert out == letter.pdf + plan_json(FACTS, FINDINGS, letter)


def test_time_in_the_pdf_is_the_date_of_the_edition(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    assert epoch("2026-03-02") == "1772409600"  # `date -u -d 2026-03-02 +%s`
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "12")
    assert epoch("2026-03-02") == "12"


def test_a_plan_without_a_date_is_the_same_whenever_it_is_built(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    assert epoch("") == "0"


# ---------------------------------------------------------------- refusals


def test_nothing_is_printed_around_what_nobody_said(bench_theme: Theme) -> None:
    """A design that says only what it must: no designer, date, licence or list of revisions."""
    bare = replace(FACTS.piece, designer="", date="", licence="", contact="", revisions=())
    plan = publish(replace(FACTS, piece=bare), FINDINGS, bench_theme, replace(LETTER_EDITION, date=""))
    pages = [page.extract_text() for page in pdfplumber.open(io.BytesIO(plan.pdf)).pages]
    assert "Designed by" not in pages[0] and "Revision B. Prototype" in pages[0]
    assert "revision B page" in " ".join(pages[1].split("\n")[-1].split())
    assert "Licence" not in pages[-1] and "Revisions" not in pages[-1]


def test_a_missing_system_library_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    fault = "raise OSError(\"cannot load library 'libpango-1.0-0': libpango-1.0-0: cannot open shared object file\")"
    (tmp_path / "weasyprint.py").write_text(fault)
    monkeypatch.setenv("PYTHONPATH", str(tmp_path))
    with pytest.raises(Refused) as caught, Press("2026-03-02") as press:
        press.print("<p>x", [], {})
    (told,) = caught.value.diagnostics
    assert told.code == "native-missing" and "libpango" in told.message and told.hints


def test_a_drawing_too_wide_for_the_paper_is_refused(bench_theme: Theme) -> None:
    wide = replace(FACTS.drawings["sheet.top"], width=260.0)
    facts = replace(FACTS, drawings={**FACTS.drawings, "sheet.top": wide})
    with pytest.raises(Refused) as caught:
        publish(facts, FINDINGS, bench_theme, LETTER_EDITION)
    assert [each.code for each in caught.value.diagnostics if each.stops] == ["page-overflow"]


def test_a_picture_too_wide_is_made_smaller(bench_theme: Theme) -> None:
    wide = replace(FACTS.drawings["exploded"], width=260.0)
    facts = replace(FACTS, drawings={**FACTS.drawings, "exploded": wide})
    assert publish(facts, FINDINGS, bench_theme, A4_EDITION).pages
