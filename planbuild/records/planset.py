"""The finished plan set as bytes, before anything is written to disk."""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic


@dataclass(frozen=True)
class PageFacts:
    """One printed page: `kind` names the template it came from (`cover`, `sheet`, `steps`, ...)."""

    number: int
    title: str
    kind: str


@dataclass(frozen=True)
class PlanSet:
    """`pdf` the plan, `pages` its pages, `page_of` the page on which a part sheet, step or joint begins
    (keys `sheet.<part>`, `step.<id>`, `joint.<id>`)."""

    pdf: bytes
    pages: tuple[PageFacts, ...]
    page_of: dict[str, int]
    told: tuple[Diagnostic, ...] = ()
    """Warnings about the finished pages."""
