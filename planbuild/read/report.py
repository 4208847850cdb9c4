"""Collects the reader's findings: one a place and code, and not without end."""

from __future__ import annotations

from planbuild.core.diagnostics import Diagnostic, Refused, Related, Span

MOST = 50
"""Findings after which the rest is left for the next run; keeps a hostile file from growing a report."""


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

    def refuse_if_any_stops(self) -> None:
        if self.stops:
            raise Refused(self.found)
