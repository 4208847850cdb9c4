"""A finding as data: what is wrong, where it was written, what was expected and the way out.

Only `core.render` turns it into text, so a terminal, a pipe and a program read the same record.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum


class Severity(Enum):
    """`error` stops the build, `warning` is printed in the plan's proof, `note` only on request."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, order=True)
class Span:
    """A stretch of one line of a source file; line and column count from 1, `length` in characters."""

    file: str
    line: int
    column: int
    length: int = 1

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True)
class Related:
    """Another place that belongs to a finding ("first said here")."""

    span: Span
    message: str


@dataclass(frozen=True)
class Diagnostic:
    """One finding.  `code` is `topic-fault`, stable for ever; `label` stands beside the caret."""

    code: str
    message: str
    severity: Severity = Severity.ERROR
    span: Span | None = None
    label: str = ""
    expected: str = ""
    hints: tuple[str, ...] = ()
    related: tuple[Related, ...] = ()
    source: str = ""

    @property
    def stops(self) -> bool:
        return self.severity is Severity.ERROR


class Refused(Exception):
    """A stage cannot go on: carries every finding of that stage, sorted by place."""

    def __init__(self, diagnostics: tuple[Diagnostic, ...]) -> None:
        super().__init__(f"{len(diagnostics)} finding(s)")
        self.diagnostics = tuple(sorted(diagnostics, key=_place))


def _place(diagnostic: Diagnostic) -> tuple[str, int, int, str]:
    span = diagnostic.span
    return (span.file, span.line, span.column, diagnostic.code) if span else ("", 0, 0, diagnostic.code)


@dataclass
class Collector:
    """Gathers the findings of one stage so that all are told at once."""

    found: list[Diagnostic] = field(default_factory=list)

    def add(self, diagnostic: Diagnostic) -> None:
        if diagnostic not in self.found:
            self.found.append(diagnostic)

    def refuse_if_any_stops(self) -> None:
        """Raises `Refused` with everything found if any of it is an error."""
        if any(each.stops for each in self.found):
            raise Refused(tuple(self.found))
