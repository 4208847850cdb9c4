"""Collects the reader's findings: one a place and code, and not without end."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from planbuild.core.diagnostics import Diagnostic, Refused, Related, Span

MOST = 50
"""Findings after which the rest is left for the next run; keeps a hostile file from growing a report."""

LONGEST = 400
"""Letters of a message; a longer one quotes something that is no name."""


def listed(names: Iterable[str], most: int = 24) -> str:
    """Names for `expected`, not without end."""
    each = tuple(names)
    return ", ".join(each[:most]) + (f" and {len(each) - most} more" if len(each) > most else "")


class Report:
    """Findings by code and place, so that a fault in a shared detail is told once, however often it is used."""

    def __init__(self) -> None:
        self._found: dict[tuple[str, Span | None], Diagnostic] = {}

    @property
    def found(self) -> tuple[Diagnostic, ...]:
        return tuple(self._found.values())

    @property
    def stops(self) -> bool:
        return any(each.stops for each in self._found.values())

    def add(self, diagnostic: Diagnostic) -> None:
        """Raises Refused when there are more findings than anyone reads at once."""
        if len(diagnostic.message) > LONGEST:
            diagnostic = replace(diagnostic, message=diagnostic.message[:LONGEST] + " …")
        self._found.setdefault((diagnostic.code, diagnostic.span), diagnostic)
        if len(self._found) >= MOST:
            raise Refused(self.found)

    def fault(
        self,
        code: str,
        span: Span,
        message: str,
        *,
        label: str = "",
        expected: str = "",
        hints: tuple[str, ...] = (),
        related: tuple[Related, ...] = (),
    ) -> None:
        self.add(Diagnostic(code, message, span=span, label=label, expected=expected, hints=hints, related=related))

    def wrong_type(self, span: Span, message: str, expected: str) -> None:
        self.fault("read-wrong-type", span, message, expected=expected)

    def refuse_if_any_stops(self) -> None:
        if self.stops:
            raise Refused(self.found)
