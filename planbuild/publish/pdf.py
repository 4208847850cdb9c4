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

TEMPLATES = Limit(seconds=10, megabytes=512)
"""The built-in theme needs 0.2 s and 60 MB for a plan of thirty pages."""
LAYOUT = Limit(seconds=120, megabytes=3072)
"""The built-in theme needs about 3 s and 300 MB."""


@dataclass(frozen=True)
class LaidOut:
    """A PDF with what stands on its pages (see `page_boxes`) and the complaints of the layout engine."""

    pdf: bytes
    pages: tuple[Mapping[str, Any], ...]
    complaints: tuple[str, ...]


def fill_templates(theme: Theme, data: object, limit: Limit = TEMPLATES) -> str:
    """The HTML that the theme makes of the data.  Reports `theme-template`, `theme-bounds`."""
    child = Child("planbuild.publish.setter", limit)
    try:
        told = json.loads(child.answer({"templates": dict(theme.templates), "root": ROOT, "data": data}))
    except OutOfBounds as stopped:
        raise _out_of_bounds(theme.name, "template", stopped) from stopped
    if "fault" in told:
        fault = told["fault"]
        place = f"{fault['template']}:{fault['line']}: " if fault["template"] else ""
        raise Refused((Diagnostic("theme-template", f'Theme "{theme.name}": {place}{fault["message"]}'),))
    return str(told["html"])


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
            answer = self._child.answer({"html": html, "styles": styles, "assets": dict(assets)})
        except OutOfBounds as stopped:
            raise _out_of_bounds("", "page layout", stopped) from stopped
        head, _, pdf = answer.partition(b"\n")
        told = json.loads(head)
        if "refused" in told:
            raise Refused(tuple(Diagnostic(d["code"], d["message"], hints=tuple(d["hints"])) for d in told["refused"]))
        return LaidOut(pdf, tuple(told["pages"]), tuple(told["complaints"]))


def epoch(day: str) -> str:
    """Seconds of the edition's date, unless the environment sets its own: the only time that gets into the PDF.

    A design without a dated revision has none; 0 keeps its PDF the same whenever it is built.
    """
    given = os.environ.get("SOURCE_DATE_EPOCH", "")
    return given or (str(int(datetime.combine(date.fromisoformat(day), time(), UTC).timestamp())) if day else "0")


def _out_of_bounds(theme: str, what: str, stopped: OutOfBounds) -> Refused:
    of = f' of theme "{theme}"' if theme else ""
    hint = "Look for a loop that does not end or a text that grows without limit."
    return Refused((Diagnostic("theme-bounds", f"The {what}{of} was stopped: {stopped.reason}.", hints=(hint,)),))
