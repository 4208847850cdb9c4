"""What the YAML parser stumbled over, in a maker's words, at the place where it was caused."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from itertools import islice

import yaml
from yaml.error import Mark

from planbuild.core.diagnostics import Diagnostic, Span
from planbuild.core.render import WINDOW
from planbuild.read.nodes import Scalar

NOT_TEXT = re.compile("[^\t\n\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What YAML 1.1 calls not printable (section 5.1), and its three odd line ends, which would shift line numbers."""

UNSEEN = re.compile(
    "[\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f\u200b-\u200f\u202a-\u202e\u2060-\u206f\u2800\u3164\ufeff\uffa0\ufff9-\ufffb]"
    "|[\U0001d173-\U0001d17a\U000e0000-\U000e0fff]"
)
"""Signs that are not seen, so that a text could read otherwise than it is written: those that turn the direction of
writing, that have no width, and blanks that count as letters.  Source: the Unicode Character Database, from memory."""

_LEADING_TAB = re.compile(r"^( *)\t[ \t]*\S", re.M)
_STUCK = re.compile(r"\s*(?:- +)*([A-Za-z_][\w.]*):([^\s/:][^\n]*)")
_ODD_INDENT = re.compile("^[ \t]*([\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000])", re.M)
"""Blanks at the start of a line that look like the spaces of an indentation and are none."""
_PLAIN_NAME = re.compile(r"[A-Za-z_]\w*")
MOST_TOLD = 10


def character_faults(text: str, file: str) -> list[Diagnostic]:
    """Characters that no text has or nobody sees, and lines indented with tabs: read-character, read-tab."""
    odd = NOT_TEXT.search(text)
    if odd:
        message = f"The file holds a character that is not text (U+{ord(odd.group()):04X})."
        return [Diagnostic("read-character", message, span=_span_at(text, odd.start(), file), expected="a plain text file")]
    unseen = [unseen_fault(match.group(), _span_at(text, match.start(), file)) for match in _first(UNSEEN, text)]
    if unseen:
        return unseen
    odd_blanks = [_odd_indent(match.group(1), _span_at(text, match.start(1), file)) for match in _first(_ODD_INDENT, text)]
    if odd_blanks:
        return odd_blanks
    tabs = [_span_at(text, match.end(1), file) for match in _first(_LEADING_TAB, text)]
    return [_tab("The line starts with a tab.", span) for span in tabs]


def unseen_fault(sign: str, span: Span) -> Diagnostic:
    """read-character, for a sign that `UNSEEN` finds."""
    name = unicodedata.name(sign, "no name").lower()
    message = f"Here stands a sign that cannot be seen (U+{ord(sign):04X}, {name})."
    hint = "Delete it: put the cursor behind the letter after it and retype both. Such signs come with pasted text."
    return Diagnostic("read-character", message, span=span, expected="letters that print as they are written", hints=(hint,))


def _odd_indent(sign: str, span: Span) -> Diagnostic:
    name = unicodedata.name(sign, "no name").lower()
    message = f"The line is indented with a blank that is no plain space (U+{ord(sign):04X}, {name})."
    return Diagnostic("read-character", message, span=span, expected="plain spaces", hints=("Retype the indentation.",))


def _first(pattern: re.Pattern[str], text: str) -> Iterator[re.Match[str]]:
    """The first few places; more of the same help nobody."""
    return islice(pattern.finditer(text), MOST_TOLD)


def no_space(word: Scalar) -> Diagnostic | None:
    """read-no-space, if the word is `value:3`: a name and a value that lack the space between them."""
    match = _STUCK.fullmatch(word.text.split("\n")[0])
    return _no_space(match, word.span) if match and not word.quoted else None


def syntax_fault(fault: yaml.MarkedYAMLError, text: str, file: str) -> Diagnostic:
    """The parser's complaint as a finding: read-no-space, read-tab or read-yaml."""
    mark = fault.problem_mark or fault.context_mark
    lines = text.split("\n")
    line = min(mark.line, len(lines) - 1) if mark else 0
    span = Span(file, line + 1, mark.column + 1 if mark else 1)
    problem = fault.problem or ""
    if "'\\t'" in problem:
        return _tab("There is a tab before the value.", span)
    stuck = _stuck_line(lines, line, fault)
    if stuck is not None:
        match = _STUCK.match(lines[stuck])
        assert match
        return _no_space(match, Span(file, stuck + 1, match.start(1) + 1, len(match.group(0).rstrip()) - match.start(1)))
    if fault.context_mark and "could not find expected ':'" in problem:
        return _no_colon(lines, fault.context_mark, file)
    message, hints = _explained(problem)
    opened = fault.context_mark
    if opened and any(piece in problem for piece in _UNCLOSED):
        span = Span(file, opened.line + 1, opened.column + 1)
    return Diagnostic("read-yaml", message, span=span, hints=hints)


def _no_space(match: re.Match[str], span: Span) -> Diagnostic:
    name, value = match.group(1), match.group(2).strip()
    word = f"{name}:{value}"
    message = f'"{word}" has no space after the colon, so it is one word.'
    return Diagnostic("read-no-space", message, span=span, hints=(f"Write `{name}: {value}`.",))


def _no_colon(lines: list[str], start: Mark, file: str) -> Diagnostic:
    """A line that has no colon, and so ran on into the next."""
    written = lines[start.line][start.column :].rstrip()
    name, _, value = written.partition(" ")
    hint = "Write `name: value`, or put a text of several lines in double quotes."
    if _PLAIN_NAME.fullmatch(name) and len(written) < WINDOW:
        hint = f"Write `{name}: {value.strip()}`." if value else f"Write `{name}:`."
    span = Span(file, start.line + 1, start.column + 1, max(1, len(written)))
    return Diagnostic("read-yaml", "This line has no colon.", span=span, expected="`name: value`", hints=(hint,))


def _tab(message: str, span: Span) -> Diagnostic:
    return Diagnostic("read-tab", message, span=span, label="a tab", hints=("Indent with spaces.",))


def _stuck_line(lines: list[str], line: int, fault: yaml.MarkedYAMLError) -> int | None:
    """A line `name:value` that the parser took for the start of a text running on to the line it stopped at."""
    first = fault.context_mark.line if fault.context_mark else line
    for each in range(line, max(first, line - 20) - 2, -1):
        if 0 <= each < len(lines) and _STUCK.match(lines[each]):
            return each
    return None


_IN_WORDS = (
    ("mapping values are not allowed", "A colon stands where none can be."),
    ("expected ',' or '}'", "A `{` is not closed, or a comma is missing."),
    ("expected ',' or ']'", "A `[` is not closed, or a comma is missing."),
    ("unexpected end of stream", "A quote is opened and never closed."),
    ("unknown escape character", "In double quotes a backslash begins a special sign; this one is unknown."),
    ("cannot start any token", "A value cannot begin with this sign."),
    ("found '<scalar>'", "More text stands after a text in quotes."),
    ("expected the node content", "A value is missing before this sign."),
    ("expected <block end>", "The indentation of this line does not fit the lines above it."),
    ("undefined alias", "A YAML alias stands here; values are shared by name."),
    ("did not find expected alphabetic", "`&`, `*` and `!` begin YAML's own signs, which a design does not use."),
)
_HINTS = {
    "mapping values are not allowed": (
        "Put a sentence that holds `: ` in double quotes.",
        "If it is a field, give it the same indentation as the fields beside it.",
    ),
    "expected ',' or '}'": ("Close it with `}`, and put a comma between two fields.",),
    "expected ',' or ']'": ("Close it with `]`, and put a comma between two entries.",),
    "unexpected end of stream": ("Close it with the same quote.",),
    "cannot start any token": ("Put the value in double quotes.",),
    "found '<scalar>'": ("Put the whole value in double quotes; inside them, write `\\\"` for a quote.",),
    "unknown escape character": ("Use single quotes, or write `\\\\` for one backslash.",),
    "expected <block end>": ("Line up the fields of one thing; indent what belongs to it by two more spaces.",),
}


_UNCLOSED = ("expected ',' or", "unexpected end of stream")
"""Told where the opening sign stands: the parser notices far below it."""


def _explained(problem: str) -> tuple[str, tuple[str, ...]]:
    for piece, words in _IN_WORDS:
        if piece in problem:
            return words, _HINTS.get(piece, ())
    return f"This is not YAML as a design uses it: {problem}.", ()


def _span_at(text: str, index: int, file: str) -> Span:
    line = text.count("\n", 0, index)
    return Span(file, line + 1, index - (text.rfind("\n", 0, index) + 1) + 1)
