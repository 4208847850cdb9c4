"""Nonsense in any value of the demonstration bench is refused as a finding with a place, never by a fault of ours."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planbuild.core.diagnostics import Refused
from planbuild.pipeline import Clock, resolve_file

FOLDER = Path(__file__).parent.parent.parent / "designs" / "music-room"
DESIGN = (FOLDER / "listening-bench.yaml").read_text("utf-8")
SERIES = (FOLDER / "series.yaml").read_text("utf-8")
_VALUE = re.compile(r"(?<=: )[^\s{\[\"#,}\]][^{\[\"#,}\]\n]*")
PLACES = [match.span() for match in _VALUE.finditer(DESIGN) if match.start() > DESIGN.index("frame:")]

WORDS = [
    *("leg", "seat.bottom", "left leg.right", "upper leg.top", "slat", "3rd slat.back", "frame", "length", "middle", "top", "up"),
    *("left-right", "0", "-1", "1/0", "5", "400", "1-1/2", "5 deg", "1:8", "inside", "rounded to", "5 below top", "yes", "no"),
    *("white ash", "8/4", "long", "around top", "all", "leg_ash", "top_screw", "rail_setback inside leg.front", "(((", "leg - "),
    *("mortise and tenon", "8 %"),
]
NONSENSE = st.one_of(
    st.sampled_from(WORDS),
    st.lists(st.sampled_from([*WORDS, "+", "-", "*", "/", "of", "at", "and"]), min_size=1, max_size=5).map(" ".join),
    st.text(st.characters(codec="ascii", exclude_characters="\n\r"), min_size=1, max_size=12),
)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("nonsense")
    (made / "series.yaml").write_text(SERIES, "utf-8")
    return made


def said(folder: Path, *changes: tuple[tuple[int, int], str]) -> Path:
    text = DESIGN
    for (start, end), nonsense in sorted(changes, reverse=True):
        text = text[:start] + nonsense + text[end:]
    file = folder / "listening-bench.yaml"
    file.write_text(text, "utf-8")
    return file


@given(st.lists(st.tuples(st.sampled_from(PLACES), NONSENSE), min_size=1, max_size=2, unique_by=lambda each: each[0]))
@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_nonsense_is_refused_with_a_place(folder: Path, changes: list[tuple[tuple[int, int], str]]) -> None:
    try:
        resolve_file(said(folder, *changes), Clock())
    except Refused as refused:
        assert refused.diagnostics
        for each in refused.diagnostics:
            assert each.span is not None
            assert each.message


def test_the_bench_itself_passes(folder: Path) -> None:
    assert len(PLACES) > 60
    resolve_file(said(folder), Clock())
