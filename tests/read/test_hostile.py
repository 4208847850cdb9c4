"""Input made to hurt: refused in bounded time, and never with anything but a finding."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from small_designs import PLAIN, Told

from planbuild.core.diagnostics import Refused
from planbuild.core.files import TEXT_LIMIT, FileFault
from planbuild.core.render import as_data, full, one_line
from planbuild.read import read_design

SECONDS = 6.0
"""Far above what is needed on an idle machine (under 2 s), far below a hang."""

NESTED_BY_ALIASES = "a: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{b}: &{b} [{', '.join([f'*{a}'] * 9)}]\n" for a, b in zip("abcdefgh", "bcdefghi", strict=True)
)
STOCKS = "stock:\n" + "".join(f"  s{n}: {{species: a, rough: 4/4, thickness: 1}}\n" for n in range(2000))
LIKE_ONE = "".join(f"  p{n}: {{like: p, grain: up}}\n" for n in range(2000))
LONG_DETAIL = "  s: {chamfer: {edges: long, size: 1}}\n  p: {stock: board, grain: up, shape: [" + ", ".join(["s"] * 3000) + "]}\n"

HOSTILE = {
    "aliases of aliases": PLAIN + NESTED_BY_ALIASES,
    "brackets": PLAIN + "notes: " + "[" * 100_000,
    "brackets, closed": PLAIN + "notes: " + "[" * 100_000 + "]" * 100_000,
    "braces": PLAIN + "notes: " + "{a: " * 100_000,
    "dashes": PLAIN + "notes:\n" + "- " * 100_000 + "x",
    "question marks": "? " * 100_000 + "x",
    "brackets in braces": "[{" * 100_000,
    "deeper line by line": "".join(" " * n + "a:\n" for n in range(1300)),
    "many entries": "format: 1\n" + "".join(f"k{n}: v\n" for n in range(90_000)),
    "many items": PLAIN + "notes: [" + "a, " * 300_000 + "]",
    "many faults": PLAIN + "".join(f"k{n}:\n" for n in range(9000)),
    "many unknown stocks": PLAIN.replace("stock:\n", STOCKS) + "".join(f"  p{n}: {{stock: t{n}}}\n" for n in range(900)),
    "one long word": PLAIN + "a" * 900_000,
    "one long key": PLAIN + "a" * 900_000 + ": 1",
    "one long line of words": "a " * 499_000,
    "one long quoted word": PLAIN + 'notes: "' + "\\n" * 400_000 + '"\nx: 1\n',
    "lines of one letter": "a\n" * 499_000,
    "comments": "# x\n" * 249_000,
    "blank lines": "\n" * 999_000,
    "quotes": '"\n' * 400_000,
    "tabs": "\t\n" * 300_000 + "\ta: 1\n" * 50_000,
    "parts like a long detail": PLAIN + LIKE_ONE + "details:\n" + LONG_DETAIL,
}


@pytest.mark.parametrize("name", HOSTILE)
def test_refused_in_time(told: Told, name: str) -> None:
    text = HOSTILE[name]
    assert len(text) <= TEXT_LIMIT, "would be refused for its size alone"
    start = time.perf_counter()
    found = told(text)
    assert time.perf_counter() - start < SECONDS
    assert 0 < len(found) <= 60
    assert all(len(one_line(each)) < 3000 for each in found)


def test_a_file_of_a_hundred_megabytes(tmp_path: Path) -> None:
    with (tmp_path / "big.yaml").open("wb") as file:
        file.write(PLAIN.encode())
        file.truncate(100_000_000)
    start = time.perf_counter()
    with pytest.raises(FileFault, match="too big"):
        read_design(tmp_path / "big.yaml")
    assert time.perf_counter() - start < 0.5


def test_a_series_of_a_hundred_megabytes(told: Told, tmp_path: Path) -> None:
    with (tmp_path / "series.yaml").open("wb") as file:
        file.truncate(100_000_000)
    (found,) = told(PLAIN + "series: series.yaml\n")
    assert found.code == "file-too-big"
    assert found.span is not None and found.span.line == len(PLAIN.split("\n"))


def test_a_photo_too_big_to_print(told: Told, tmp_path: Path) -> None:
    with (tmp_path / "big.jpg").open("wb") as file:
        file.truncate(100_000_000)
    (found,) = told(PLAIN.replace("top: 0", "top: 0, photo: big.jpg"))
    assert found.code == "file-too-big"


def test_a_series_that_is_a_link_to_elsewhere(told: Told, tmp_path: Path) -> None:
    (tmp_path / "series.yaml").symlink_to("/etc/hosts")
    (found,) = told(PLAIN + "series: series.yaml\n")
    assert found.code == "file-outside"


def test_a_design_that_is_its_own_series(told: Told) -> None:
    assert {each.code for each in told(PLAIN + "series: design.yaml\n")} >= {"series-form"}


OUT_OF_RANGE = ['notes: "\\UFFFFFFFF"', "%YAML 1." + "9" * 5000 + "\n---\na: 1", 'notes: "\\ud800"', "notes: \ud7ff\ufffe"]


@pytest.mark.parametrize("text", OUT_OF_RANGE)
def test_signs_out_of_range(told: Told, text: str) -> None:
    assert {each.code for each in told(text)} & {"read-yaml", "read-character"}


# ---------------------------------------------------------------- whatever is written

WORDS = (
    ["format: 1", "title", "parts", "shelf", "stock", "like", "shape", "details", "series", "departs", "sizes", "joints", "kind"]
    + ["centred", "value", "why", "photo", "frame", "items", "hardware", "steps", "add", "null", "~", "true", "3/4", "chamfer"]
)  # fmt: skip
SIGNS = (
    [":", ": ", ":\n", "\n", "\n  ", "\n    ", "- ", "[", "]", "{", "}", ", ", "#", " # ", '"', "'", "|", ">", "&a ", "*a", "!"]
    + ["%", "@", "`", "<<", "? ", "\t", "---\n", "...\n", "\\", "\x00", "\x85", "\u2028", "é", "椅"]
)
PIECES = st.sampled_from(WORDS + SIGNS)
TOKENS = st.lists(PIECES, max_size=40).map("".join)
VALUES = st.recursive(
    st.sampled_from(["3", "board", "yes", "true", "leg.left", '""', "s", "soft", "../x", "'a b'"]),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(lambda items: "[" + ", ".join(items) + "]"),
        st.dictionaries(
            st.sampled_from(["value", "why", "like", "stock", "kind", "chamfer", "edges", "size", "grain", "photo", "at"]),
            inner,
            max_size=4,
        ).map(lambda entries: "{" + ", ".join(f"{key}: {value}" for key, value in entries.items()) + "}"),
    ),
    max_leaves=8,
)
SECTIONS = st.dictionaries(
    st.sampled_from(
        ["parts", "stock", "sizes", "details", "joints", "items", "steps", "finish", "loads", "practice", "series", "departs"]
        + ["built", "editions", "format", "title", "units", "frame", "words", "hardware", "assemblies", "revisions", "sources"]
        + ["glue", "climate", "openings"]
    ),
    VALUES,
    max_size=6,
)


def read_whatever(text: str, folder: Path, series: str = "") -> None:
    (folder / "s").write_text(series, "utf-8")
    (folder / "d.yaml").write_text(text, "utf-8")
    try:
        read_design(folder / "d.yaml")
    except Refused as refused:
        assert refused.diagnostics
        for each in refused.diagnostics:
            assert full(each) and one_line(each) and as_data(each)
            assert each.span is not None and each.span.line >= 1 and each.span.column >= 1 and each.span.length >= 1


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("whatever")


FUZZ = settings(max_examples=200, suppress_health_check=[HealthCheck.too_slow])


@FUZZ
@given(text=st.text(st.characters(exclude_categories=["Cs"]), max_size=80))
def test_random_text_is_only_ever_refused(folder: Path, text: str) -> None:
    read_whatever(text, folder)


@FUZZ
@given(text=TOKENS, before=st.sampled_from(["", "format: 1\n", PLAIN]))
def test_random_words_of_the_language_are_only_ever_refused(folder: Path, text: str, before: str) -> None:
    read_whatever(before + text, folder)


@FUZZ
@given(sections=SECTIONS, shared=SECTIONS)
def test_random_sections_are_read_or_refused(folder: Path, sections: dict[str, str], shared: dict[str, str]) -> None:
    def written(entries: dict[str, str]) -> str:
        return "format: 1\n" + "".join(f"{name}: {value}\n" for name, value in entries.items() if name != "format")

    read_whatever(written({"series": "s", **sections}), folder, written({"series": "S", **shared}))


@FUZZ
@given(cut=st.integers(0, 4000), insert=TOKENS, length=st.integers(0, 12))
def test_a_spoilt_design_is_read_or_refused(folder: Path, cut: int, insert: str, length: int) -> None:
    bench = (Path(__file__).parent.parent.parent / "designs" / "music-room" / "listening-bench.yaml").read_text("utf-8")
    place = min(cut, len(bench))
    read_whatever(bench[:place] + insert + bench[place + length :], folder)
