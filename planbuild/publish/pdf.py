"""The two bounded children seen from here: templates to HTML, HTML to PDF; their refusals become diagnostics."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from types import TracebackType
from typing import Any

from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.publish.bounded import Child, Limit, OutOfBounds
from planbuild.publish.theme import ROOT, Theme

REFUSAL = "not part of the plan"
"""What the layout engine is told of an address that it may not have, and repeats in its complaints."""
TEMPLATES = Limit(seconds=20, megabytes=512)
"""The built-in theme needs 0.2 s and 60 MB for a plan of thirty pages."""
_OWN_CLOCK = 0.1
"""The share of its time that the child that fills templates may compute; then it stops itself and can say in which line
it was.  Less than the whole, since other programs want the processor too."""
LAYOUT = Limit(seconds=120, megabytes=3072)
"""The built-in theme needs about 3 s and 300 MB."""


@dataclass(frozen=True)
class LaidOut:
    """A PDF with what stands on its pages (see `page_boxes`), the complaints of the layout engine, and the
    addresses that were asked for and refused."""

    pdf: bytes
    pages: tuple[Mapping[str, Any], ...]
    complaints: tuple[str, ...]
    refused: tuple[str, ...] = ()


def fill_templates(theme: Theme, data: object, limit: Limit = TEMPLATES) -> str:
    """The HTML that the theme makes of the data.  Reports `theme-template`, `theme-bounds`."""
    child = Child("planbuild.publish.setter", limit)
    own = list(theme.own.templates) if theme.own else []
    job = {"templates": dict(theme.templates), "own": own, "root": ROOT, "data": data, "seconds": limit.seconds * _OWN_CLOCK}
    try:
        told = json.loads(child.answer(job))
    except OutOfBounds as stopped:
        raise _out_of_bounds("template", stopped, theme) from stopped
    if "fault" in told:
        raise Refused((_template_fault(theme, **told["fault"]),))
    return str(told["html"])


def _template_fault(
    theme: Theme, code: str, message: str, expected: str, hints: list[str], template: str, line: int
) -> Diagnostic:
    said = message if template else f'Theme "{theme.name}": {message}'
    return Diagnostic(code, said, span=theme.line(template, line) or theme.asked, expected=expected, hints=tuple(hints))


class Press:
    """The layout engine, started early so that it loads while the pages are being made."""

    def __init__(self, day: str, limit: Limit = LAYOUT) -> None:
        self._child = Child("planbuild.publish.press", limit, {"SOURCE_DATE_EPOCH": epoch(day)})

    def __enter__(self) -> Press:
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None) -> None:
        self._child.stop()

    def print(self, html: str, styles: list[str], assets: Mapping[str, str]) -> LaidOut:
        """The pages of the HTML.  Reports `native-missing`, `theme-bounds`."""
        try:
            answer = self._child.answer({"html": html, "styles": styles, "assets": dict(assets), "refusal": REFUSAL})
        except OutOfBounds as stopped:
            raise _out_of_bounds("page layout", stopped) from stopped
        head, _, pdf = answer.partition(b"\n")
        told = json.loads(head)
        if "refused" in told:
            raise Refused(tuple(Diagnostic(d["code"], d["message"], hints=tuple(d["hints"])) for d in told["refused"]))
        return LaidOut(pdf, tuple(told["pages"]), tuple(told["complaints"]), tuple(told["asked"]))


def epoch(day: str) -> str:
    """Seconds of the edition's date, unless the environment sets its own: the only time that gets into the PDF.

    A design without a dated revision has none; 0 keeps its PDF the same whenever it is built.
    """
    given = os.environ.get("SOURCE_DATE_EPOCH", "")
    return given or (str(int(datetime.combine(date.fromisoformat(day), time(), UTC).timestamp())) if day else "0")


def _out_of_bounds(what: str, stopped: OutOfBounds, theme: Theme | None = None) -> Refused:
    of = f' of theme "{theme.name}"' if theme else ""
    hint = "Look for a loop that does not end or a text that grows without limit."
    message, span = f"The {what}{of} was stopped: {stopped.reason}.", theme.asked if theme else None
    return Refused((Diagnostic("theme-bounds", message, span=span, hints=(hint,)),))
