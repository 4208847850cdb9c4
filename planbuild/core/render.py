"""Findings as text or data: with the line they speak of, as one line for a pipe, or for a program.

The only place where a diagnostic becomes words on a screen, so that all outputs say the same.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from pathlib import Path

from planbuild.core.diagnostics import Diagnostic, Span
from planbuild.core.files import FileFault, read_chosen

TextOf = Callable[[str], str | None]
"""The text of a source file by the name a span gives it; None if it cannot be had."""

WINDOW = 100
"""Characters of a source line that are shown; a longer line is cut around the caret."""


def from_disk(file: str) -> str | None:
    """The text of a file as it stands now."""
    try:
        return read_chosen(Path(file))
    except FileFault:
        return None


def full(diagnostic: Diagnostic, text_of: TextOf = from_disk) -> str:
    """Several lines: the fact, the place, the source line with a caret, what was expected, the way out."""
    span = diagnostic.span
    gutter = len(str(span.line)) if span else 1
    lines = [f"{_head(diagnostic)}: {_clean(diagnostic.message)}"]
    if span:
        lines.append(f" --> {_clean(str(span))}")
        lines += _excerpt(diagnostic, span, text_of)
    lines += [f"{' ' * gutter} = {name}: {_clean(text)}" for name, text in _remarks(diagnostic)]
    return "\n".join(lines)


def one_line(diagnostic: Diagnostic) -> str:
    """`file:line:col: error[code]: message` with the way out, on one line."""
    place = f"{diagnostic.span}: " if diagnostic.span else ""
    expected = f"Expected {diagnostic.expected}." if diagnostic.expected else ""
    told = " ".join(_clean(part) for part in (diagnostic.message, expected, *diagnostic.hints) if part)
    return f"{_clean(place)}{_head(diagnostic)}: {told}"


def as_data(diagnostic: Diagnostic) -> dict[str, object]:
    """The whole record in plain JSON values; `span` is None where there is no place."""
    return {
        "code": diagnostic.code,
        "severity": diagnostic.severity.value,
        "message": diagnostic.message,
        "span": _span_data(diagnostic.span),
        "label": diagnostic.label,
        "expected": diagnostic.expected,
        "hints": list(diagnostic.hints),
        "related": [{"span": _span_data(each.span), "message": each.message} for each in diagnostic.related],
        "source": diagnostic.source,
    }


def _head(diagnostic: Diagnostic) -> str:
    return f"{diagnostic.severity.value}[{diagnostic.code}]"


def _remarks(diagnostic: Diagnostic) -> list[tuple[str, str]]:
    remarks = [("expected", diagnostic.expected)]
    remarks += [("note", f"{each.message} at {each.span}") for each in diagnostic.related]
    remarks += [("hint", hint) for hint in diagnostic.hints]
    remarks += [("source", diagnostic.source)]
    return [(name, text) for name, text in remarks if text]


def _span_data(span: Span | None) -> dict[str, object] | None:
    return {"file": span.file, "line": span.line, "column": span.column, "length": span.length} if span else None


def _excerpt(diagnostic: Diagnostic, span: Span, text_of: TextOf) -> list[str]:
    text = text_of(span.file)
    lines = text.split("\n") if text is not None else []
    if not 1 <= span.line <= len(lines):
        return []
    line, start, length = _window(lines[span.line - 1], span)
    pad = " " * _columns(line[:start])
    carets = "^" * max(1, _columns(line[start : start + length]))
    bar = " " * len(str(span.line)) + " |"
    return [bar, f"{span.line} | {line}".rstrip(), f"{bar} {pad}{carets} {_clean(diagnostic.label)}".rstrip()]


def _window(line: str, span: Span) -> tuple[str, int, int]:
    """The part of the line that is shown, and where in it the marked stretch starts and how long it is."""
    start = min(span.column - 1, len(line))
    first = max(0, start - WINDOW // 2) if len(line) > WINDOW else 0
    shown = _clean(line[first : first + WINDOW])
    return shown, start - first, min(span.length, WINDOW - (start - first))


def _clean(text: str) -> str:
    """Without characters that would move the cursor or colour a terminal: a design is not trusted."""
    return "".join(c if c.isprintable() else " " if c.isspace() else "\ufffd" for c in text)


def _columns(text: str) -> int:
    """Columns that a terminal takes for the text: wide letters take two, combining marks none."""
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)
