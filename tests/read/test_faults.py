"""One fault a file: `tests/faults/*.yaml`, each with the expected finding in a comment.

`# error: code @ column: a piece of what is told` stands above the faulty line; where the fault lies
elsewhere, the place is written `line:column` or `file:line:column`.  `# warning:` likewise.
Read runs first, then resolve; what stops the first is all that is told.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import pytest

from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.core.render import one_line
from planbuild.pipeline import Clock, resolve_file

FOLDER = Path(__file__).parent.parent / "faults"
FILES = sorted(FOLDER.glob("*.yaml"))
_EXPECTED = re.compile(r"\s*# (error|warning): ([a-z-]+) @ (?:(?:([\w./-]+):)?(\d+):)?(\d+): (.+)")


@dataclass(frozen=True, order=True)
class Expected:
    severity: str
    code: str
    place: str
    piece: str


def expected_of(path: Path) -> list[Expected]:
    found = []
    for number, line in enumerate(path.read_text("utf-8").split("\n"), 1):
        match = _EXPECTED.fullmatch(line)
        if match:
            severity, code, file, at, column, piece = match.groups()
            shown = path.parent / file if file else path
            found.append(Expected(severity, code, f"{shown}:{at or number + 1}:{column}", piece))
    return sorted(found)


def findings_of(path: Path) -> tuple[Diagnostic, ...]:
    """All that read and then resolve have to say of a design."""
    try:
        return resolve_file(path, Clock()).warnings
    except Refused as refused:
        return refused.diagnostics


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_the_fault_is_told_once_with_its_place_and_the_way_out(path: Path) -> None:
    expected = expected_of(path)
    assert expected, "the file does not say what is expected"
    found = sorted((each.severity.value, each.code, str(each.span), one_line(each)) for each in findings_of(path))
    wanted = [each for each in found if each[0] == "error" or any(each[1] == e.code for e in expected)]
    all_told = "\n".join(each[3] for each in found)
    assert [each[:3] for each in wanted] == [(e.severity, e.code, e.place) for e in expected], all_told
    for (*_, told), each in zip(wanted, expected, strict=True):
        assert each.piece in told


def test_there_are_faults_for_every_code_of_reading() -> None:
    """Each code that the reader can give, as its source names it, has a file that brings it about."""
    stage = Path(__file__).parent.parent.parent / "planbuild"
    texts = [path.read_text("utf-8") for path in [*sorted((stage / "read").glob("*.py")), stage / "core" / "files.py"]]
    topics = "block|read|name|series|depart|detail|shape|stock|joint|file|photo|not-built"
    given = {code for text in texts for code in re.findall(rf'"((?:{topics})-[a-z-]+)"', text)}
    shown = {each.code for path in FILES for each in expected_of(path)}
    elsewhere = {"read-wrong-value", "read-too-big", "file-too-big", "file-unreadable", "file-not-text", "file-write"}
    assert given - shown - elsewhere - {"stock-name"} == set()
