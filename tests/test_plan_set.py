"""The whole road on the demonstration bench: the printed numbers are the solids' numbers.

The PDF is read with a reader that has nothing to do with how it was written (pdfplumber), the solids
are measured by the CAD kernel, and plan.json is the contract between them.
"""

from __future__ import annotations

import io
import json
import re
import unicodedata
from fractions import Fraction

import pdfplumber
import pytest

from planbuild.pipeline import Built, build

STEP = 25.4 / 32
"""The bench is printed to 1/32 in."""


@pytest.fixture(scope="module")
def plan(bench_built: Built) -> dict:
    return json.loads(bench_built.files["plan.json"])


@pytest.fixture(scope="module")
def page_texts(bench_built: Built) -> list[str]:
    with pdfplumber.open(io.BytesIO(bench_built.files["plan.pdf"])) as pdf:
        return [plain(page.extract_text()) for page in pdf.pages]


@pytest.fixture(scope="module")
def page_words(bench_built: Built) -> list[list[str]]:
    """Every run of characters of a page, upright or turned, with nothing between them."""
    with pdfplumber.open(io.BytesIO(bench_built.files["plan.pdf"])) as pdf:
        return [["".join(plain(c["text"]) for c in page.chars)] for page in pdf.pages]


def plain(text: str) -> str:
    """Raised and lowered figures as ordinary ones, the fraction bar as a slash, thin spaces as spaces."""
    return unicodedata.normalize("NFKC", text).replace("\u2044", "/").replace("\u202f", " ")


def inches(text: str) -> Fraction:
    """The first figure of a text: `1 1/16` and `arch: rise 1/2 at the middle` as numbers."""
    figure = re.search(r"\d+ \d+/\d+|\d+/\d+|\d+", plain(text))
    assert figure, text
    return sum((Fraction(piece) for piece in figure.group().split()), Fraction(0))


def corners(shape) -> list[float]:
    """Length of the box around the corners of a solid along each axis; our parts reach furthest at corners."""
    points = [vertex.toTuple() for vertex in shape.Vertices()]
    return [max(p[i] for p in points) - min(p[i] for p in points) for i in range(3)]


def dimensions(plan: dict) -> list[tuple[dict, dict]]:
    return [(part, d) for part in plan["parts"] for d in part["dimensions"]]


def test_contract(plan: dict) -> None:
    assert set(plan) >= {"schema", "piece", "parts", "hardware", "steps", "findings", "pages"}
    wanted = {
        "id",
        "mark",
        "name",
        "count",
        "mirrored",
        "finished",
        "rough",
        "stock",
        "grain",
        "volume",
        "features",
        "dimensions",
    }
    assert all(set(part) >= wanted for part in plan["parts"])
    assert all(set(d) >= {"value", "text", "feature", "states", "page"} for _, d in dimensions(plan))
    assert all(set(step) >= {"number", "phase", "title", "parts", "page"} for step in plan["steps"])
    assert all(set(page) >= {"number", "title", "kind"} for page in plan["pages"])


def test_no_finding_stops_or_warns(plan: dict) -> None:
    assert [f for f in plan["findings"] if f["severity"] in ("error", "warning")] == []


def test_every_dimension_is_printed_on_its_page(plan: dict, page_words: list[list[str]]) -> None:
    missing = []
    for part, d in dimensions(plan):
        squeezed = re.sub(r"\s", "", page_words[d["page"] - 1][0])
        if re.sub(r"\s", "", plain(d["text"])) not in squeezed:
            missing.append((part["id"], d["id"], d["text"], d["page"]))
    assert not missing


def test_printed_figures_are_the_values(plan: dict) -> None:
    """Within half a step of the rule (1/64 in), by the definition of rounding; of a row of like ones each is that size."""
    read = 0
    for _, d in dimensions(plan):
        if d["axis"]:
            size = inches(d["text"].rpartition("×")[2].strip())
            assert abs(float(size * Fraction(254, 10)) - d["value"]) <= STEP / 2 + 1e-6, d
            read += 1
    assert read > 60


def test_overall_sizes_are_those_of_the_solids(plan: dict, bench_built: Built) -> None:
    for part in plan["parts"]:
        measured = sorted(corners(bench_built.checked.solids.of[part["id"]].cut))
        assert sorted(part["finished"]) == pytest.approx(measured, abs=0.01)
        assert part["volume"] == pytest.approx(bench_built.checked.solids.of[part["id"]].cut.Volume(), rel=1e-6)


def test_the_bench_is_as_large_as_it_says(plan: dict, bench_built: Built) -> None:
    points = [vertex.toTuple() for shape in bench_built.checked.solids.placed.values() for vertex in shape.Vertices()]
    measured = [max(p[i] for p in points) - min(p[i] for p in points) for i in range(3)]
    printed = [plan["piece"]["overall"][word] for word in ("width", "depth", "height")]
    assert printed == pytest.approx([44 * 25.4, 15 * 25.4, 17.5 * 25.4])
    assert measured == pytest.approx(printed, abs=0.01)


def test_counts(plan: dict) -> None:
    counts = {part["id"]: (part["count"], part["mirrored"]) for part in plan["parts"] if not part.get("made_for")}
    assert counts == {
        "seat": (1, 0),
        "leg": (4, 2),
        "long_rail": (2, 0),
        "short_rail": (2, 0),
        "lower_rail": (2, 0),
        "slat": (5, 0),
    }


def test_pages_are_numbered_and_named(plan: dict, page_texts: list[str]) -> None:
    assert [page["number"] for page in plan["pages"]] == list(range(1, len(page_texts) + 1))
    kinds = [page["kind"] for page in plan["pages"]]
    assert kinds[0] == "cover"
    assert {"cover", "read_me", "piece", "glance", "buy", "cut_list", "sheets", "joints", "steps", "finish", "record"} <= set(
        kinds
    )


def test_no_page_is_nearly_empty(page_texts: list[str]) -> None:
    assert all(len(text.split()) > 25 for text in page_texts)


@pytest.mark.slow
def test_same_bytes_in_another_process(bench_built: Built, pytestconfig: pytest.Config) -> None:
    """Reproducible: another process with another hash seed writes the very same files."""
    import hashlib
    import os
    import subprocess
    import sys

    bench = pytestconfig.rootpath / "designs" / "music-room" / "listening-bench.yaml"
    here = {name: hashlib.sha256(data).hexdigest() for name, data in sorted(bench_built.files.items())}
    environment = {**os.environ, "PYTHONHASHSEED": "7"}
    done = subprocess.run(
        [sys.executable, "-c", ELSEWHERE, str(bench)], capture_output=True, text=True, check=True, env=environment
    )
    assert done.stdout.strip() == str(here)


ELSEWHERE = """
import hashlib, sys
from pathlib import Path
from planbuild.pipeline import build
files = build(Path(sys.argv[1])).files
print({name: hashlib.sha256(data).hexdigest() for name, data in sorted(files.items())})
"""


@pytest.mark.slow
def test_the_a4_edition_in_millimetres(pytestconfig: pytest.Config) -> None:
    """The second edition of the series: A4 paper (ISO 216: 210 x 297 mm), millimetres, first angle."""
    built = build(pytestconfig.rootpath / "designs" / "music-room" / "listening-bench.yaml", "home_a4")
    assert built.checked.facts.projection == "first angle"
    assert built.checked.facts.part("seat").finished_text == ("1117.5", "381", "25.5")
    with pdfplumber.open(io.BytesIO(built.files["plan.pdf"])) as pdf:
        for page in pdf.pages:
            assert (page.width / 72 * 25.4, page.height / 72 * 25.4) == pytest.approx((210, 297), abs=0.05)
