"""The last yard of reading: the joined block bound to a `Design`, and what only the whole design can show."""

from __future__ import annotations

from pathlib import Path

from planbuild import joints
from planbuild.core.diagnostics import Diagnostic, Refused, Severity, Span
from planbuild.read.blocks import with_blocks
from planbuild.read.details import Details
from planbuild.read.nodes import Block
from planbuild.read.photos import placed_photos
from planbuild.read.report import Report
from planbuild.read.schema import Binder, Where
from planbuild.read.sections import Sections
from planbuild.read.series import Joined
from planbuild.read.used import refuse_used
from planbuild.records.design import Design

WANTED_TEXTS = {
    "contact": "where readers report a mistake",
    "licence": "what a reader may do with the plan",
}
"""Texts whose lack is a warning: a plan that is sold without them serves nobody."""


def bound_design(joined: Joined, root: Path, file: str, report: Report) -> Design:
    """Reports whatever does not fit; raises Refused if any of it, or of what was found before, stops."""
    block = placed_photos(joined.block, root, file, report)
    details = Details(block.section("details"), report)
    binder = Binder(report, file)
    sections = Sections(binder, details, joints.KINDS, block.get("stock"))
    sections.check_details()
    preset = {"file": file, "series": joined.name, "departs": dict(joined.departs)}
    where = Where(_title(block, file), "the design")
    plain = block.without("format", "details", "blocks")
    design = binder.model(plain, Design, where, preset=preset, also=("series", "details", "departs", "blocks"))
    if isinstance(design, Design):
        design = with_blocks(design, block, root, report)
    _refuse_no_parts(block, report)
    refuse_used(block, file, binder.apart, report)
    for missing, what in WANTED_TEXTS.items():
        if not block.get(missing):
            report.add(_lacking(missing, what, where.origin))
    if report.stops or not isinstance(design, Design):
        raise Refused(report.found)
    return design.model_copy(update={"warnings": report.found})


def _refuse_no_parts(block: Block, report: Report) -> None:
    parts = block.get("parts")
    if parts and parts.value == Block((), parts.value.span):
        report.fault("read-empty", parts.span, "The design has no parts.", expected="at least one part")


def _title(block: Block, file: str) -> Span:
    title = block.get("title")
    return title.span if title else Span(file, 1, 1)


def _lacking(field: str, what: str, span: Span) -> Diagnostic:
    message = f"The design does not say its {field}."
    return Diagnostic(f"{field}-missing", message, Severity.WARNING, span, expected=f"`{field}`: {what}")
