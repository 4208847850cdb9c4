"""A finding as a person reads it, as a pipe reads it, as a program reads it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from planbuild.core.diagnostics import Diagnostic, Related, Severity, Span
from planbuild.core.render import as_data, full, one_line

TABLE = "parts:\n" + "  # a rail\n" * 5 + "    widht: 90 mm\n"

MISSPELT = Diagnostic(
    "read-unknown-key",
    'Unknown key "widht" in part "apron_long".',
    span=Span("side_table.yaml", 7, 5, 5),
    label="not a key of a board",
    expected="grain, length, stock, thickness, width",
    hints=('Did you mean "width"?', "It is required and missing here."),
    related=(Related(Span("side_table.yaml", 1, 1, 5), "the parts begin"),),
    source="tables/boards, row 3",
)


def shown(diagnostic: Diagnostic, text: str) -> str:
    return full(diagnostic, lambda file: text)


def test_full() -> None:
    assert shown(MISSPELT, TABLE).split("\n") == [
        'error[read-unknown-key]: Unknown key "widht" in part "apron_long".',
        " --> side_table.yaml:7:5",
        "  |",
        "7 |     widht: 90 mm",
        "  |     ^^^^^ not a key of a board",
        "  = expected: grain, length, stock, thickness, width",
        "  = note: the parts begin at side_table.yaml:1:1",
        '  = hint: Did you mean "width"?',
        "  = hint: It is required and missing here.",
        "  = source: tables/boards, row 3",
    ]


def test_the_gutter_grows_with_the_line_number() -> None:
    text = "\n" * 120 + "top: 4\n"
    found = Diagnostic("a-b", "No.", Severity.WARNING, Span("x.yaml", 121, 6), expected="yes")
    assert shown(found, text).split("\n") == [
        "warning[a-b]: No.",
        " --> x.yaml:121:6",
        "    |",
        "121 | top: 4",
        "    |      ^",
        "    = expected: yes",
    ]


def test_one_line() -> None:
    assert one_line(MISSPELT) == (
        'side_table.yaml:7:5: error[read-unknown-key]: Unknown key "widht" in part "apron_long". '
        'Expected grain, length, stock, thickness, width. Did you mean "width"? It is required and missing here.'
    )


def test_data_holds_the_whole_record() -> None:
    data = json.loads(json.dumps(as_data(MISSPELT)))
    assert data == {
        "code": "read-unknown-key",
        "severity": "error",
        "message": MISSPELT.message,
        "span": {"file": "side_table.yaml", "line": 7, "column": 5, "length": 5},
        "label": "not a key of a board",
        "expected": MISSPELT.expected,
        "hints": list(MISSPELT.hints),
        "related": [{"message": "the parts begin", "span": {"file": "side_table.yaml", "line": 1, "column": 1, "length": 5}}],
        "source": "tables/boards, row 3",
    }


def test_without_a_place() -> None:
    found = Diagnostic("new-exists", "It is there already.")
    assert full(found) == "error[new-exists]: It is there already."
    assert one_line(found) == "error[new-exists]: It is there already."
    assert as_data(found)["span"] is None


def test_the_source_is_read_from_disk(tmp_path: Path) -> None:
    file = tmp_path / "side_table.yaml"
    file.write_text(TABLE)
    found = Diagnostic("a-b", "No.", span=Span(str(file), 7, 5, 5))
    assert "7 |     widht: 90 mm\n  |     ^^^^^" in full(found)


@pytest.mark.parametrize("line", [0, 9, 10**9])
def test_a_place_outside_the_text_has_no_excerpt(line: int) -> None:
    found = Diagnostic("a-b", "No.", span=Span("gone.yaml", line, 1))
    assert shown(found, TABLE) == f"error[a-b]: No.\n --> gone.yaml:{line}:1"
    assert full(found) == f"error[a-b]: No.\n --> gone.yaml:{line}:1"


def test_the_caret_stands_under_wide_letters() -> None:
    """Letters of East Asian scripts take two columns (Unicode standard annex 11)."""
    found = Diagnostic("a-b", "No.", span=Span("x.yaml", 1, 9, 2))
    assert shown(found, "title: 椅子x").split("\n")[3:] == ["1 | title: 椅子x", "  |          ^^^"]


def test_a_long_line_is_cut_around_the_caret() -> None:
    text = "a" * 5000 + "HERE" + "b" * 5000
    lines = shown(Diagnostic("a-b", "No.", span=Span("x.yaml", 1, 5001, 4)), text).split("\n")
    assert len(lines[3]) < 120
    assert lines[3][lines[4].index("^") : lines[4].rindex("^") + 1] == "HERE"


def test_a_design_cannot_steer_the_terminal() -> None:
    text = "title: \x1b[31mred\x07\tx"
    found = Diagnostic("a-b", "Odd \x1b[2J\nmessage", span=Span("\x1b[1m.yaml", 1, 8, 3), hints=("\x9b31m",))
    for told in (shown(found, text), one_line(found)):
        assert not any(c in told for c in "\x1b\x07\x9b\t")
    assert "\n" not in one_line(found)
