"""A design and its series as one: the series' names become the design's own.

Saying a series name again is refused; `departs` is the one way to differ, and is printed.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path, PurePosixPath

from planbuild.core.diagnostics import Diagnostic, Related, Severity
from planbuild.core.files import FileFault, read_text
from planbuild.core.spelling import did_you_mean
from planbuild.read.bounds import within_bounds
from planbuild.read.nodes import Block, Broken, Entry, Node, Scalar, overlay
from planbuild.read.report import Report
from planbuild.read.source import read_source
from planbuild.read.top import checked_top
from planbuild.read.vocabulary import SERIES_NAMES, SERIES_OWN, SERIES_SINGLES, SERIES_TEXTS
from planbuild.records.design import Said

SERIES_KEYS = (*SERIES_OWN, *SERIES_SINGLES, *SERIES_TEXTS, *SERIES_NAMES)


@dataclass(frozen=True)
class Joined:
    """Design and series in one block; `departs` says why the design differs, by name.  `lacking`: no series could be
    read though one is named."""

    block: Block
    name: Said | None = None
    departs: tuple[tuple[str, Said], ...] = ()
    lacking: bool = False


def join_series(design: Block, root: Path, file: str, report: Report) -> Joined:
    """The design with all that its series gives.  `file` is the design's path as it is shown.

    Reports: file-*, series-form, series-again, depart-unknown, depart-why, series-not-listed (warning).
    """
    named = design.get("series")
    own = design.without("series", "departs")
    departs = design.get("departs")
    series = _read(named.value, root, file, report) if named and isinstance(named.value, Scalar) else None
    if named and not isinstance(named.value, Scalar | Broken):
        report.wrong_type(named.value.span, "`series` cannot be this.", "the path of one series file")
    if series is None:
        if departs and not named:
            message = "The design departs from a series and names none."
            report.fault("depart-unknown", departs.span, message, expected="`series: file.yaml`")
        return Joined(own, lacking=named is not None)
    _listed(series, file, report)
    shared, reasons = _departed(series, departs, report)
    title = series.get("series")
    name = Said(title.value.text, title.value.span) if title and isinstance(title.value, Scalar) else None
    return Joined(_merged(shared, own, report), name, reasons)


# ---------------------------------------------------------------- the file


def _read(named: Scalar, root: Path, file: str, report: Report) -> Block | None:
    shown = str(Path(file).parent / named.text)
    try:
        text = read_text(root, named.text)
    except FileFault as fault:
        found = fault.diagnostic
        report.add(replace(found, span=found.span or named.span))
        return None
    node = read_source(text, shown, report)
    block = checked_top(node, shown, report)
    return _series_only(within_bounds(block, report), shown, report) if block else None


def _series_only(block: Block, shown: str, report: Report) -> Block:
    """The series' own sections; anything else in the file is told."""
    if not block.get("series"):
        message = "The file is named as a series and does not say `series`."
        report.fault("series-form", block.span, message, expected="`series: Name of the series`")
    for entry in block.entries:
        if entry.name not in SERIES_KEYS:
            report.fault(
                "series-form",
                entry.span,
                f'A series file cannot hold "{entry.name}".',
                expected=", ".join(SERIES_KEYS),
                hints=did_you_mean(entry.name, SERIES_KEYS),
            )
        elif entry.name in (*SERIES_NAMES, "pieces") and isinstance(entry.value, Scalar):
            report.wrong_type(entry.value.span, f"`{entry.name}` cannot be a single value.", "named entries")
    return Block(tuple(each for each in block.entries if each.name in SERIES_KEYS), block.span)


def _listed(series: Block, file: str, report: Report) -> None:
    """A series names its pieces; a design that it does not name may be out of its bundle without anyone noticing."""
    pieces = series.get("pieces")
    if not pieces or isinstance(pieces.value, Broken):
        return
    items = getattr(pieces.value, "items", ())
    names = [PurePosixPath(each.text).name for each in items if isinstance(each, Scalar)]
    if Path(file).name not in names:
        message = f"The series does not list {Path(file).name} among its pieces."
        report.add(Diagnostic("series-not-listed", message, Severity.WARNING, pieces.span, hints=("Add it to `pieces`.",)))


# ---------------------------------------------------------------- departing and joining


def _departed(series: Block, departs: Entry | None, report: Report) -> tuple[Block, tuple[tuple[str, Said], ...]]:
    """The series as this design wants it, and why."""
    if departs is None or isinstance(departs.value, Broken):
        return series, ()
    if not isinstance(departs.value, Block):
        report.wrong_type(departs.value.span, "`departs` cannot be this.", "`name: {value: ..., why: ...}`")
        return series, ()
    known = [each.name for section in SERIES_NAMES for each in series.section(section)]
    known += [name for name in SERIES_SINGLES if series.get(name)]
    changed: dict[str, Entry] = {}
    reasons: list[tuple[str, Said]] = []
    for entry in departs.value.entries:
        why = entry.value.get("why") if isinstance(entry.value, Block) else None
        if entry.name not in known:
            message = f'The series has no "{entry.name}" to depart from.'
            report.fault("depart-unknown", entry.span, message, hints=did_you_mean(entry.name, known))
        elif why is not None and isinstance(why.value, Broken):
            continue
        elif why is None or not isinstance(why.value, Scalar):
            message = f'"{entry.name}" departs from the series and does not say why; the reason is printed.'
            report.fault("depart-why", entry.span, message, expected='`{value: ..., why: "..."}`')
        else:
            changed[entry.name] = entry
            reasons.append((entry.name, Said(why.value.text, why.value.span)))
    return _with(series, changed), tuple(reasons)


KEEP_THEIR_WHY = ("sizes", "stock", "items")
"""Sections whose entries print their own reason; elsewhere it is the departure's alone."""


def _with(series: Block, changed: dict[str, Entry]) -> Block:
    """The series with the changed entries in place of its own."""

    def instead(entry: Entry, section: str) -> Entry:
        new = changed.get(entry.name, entry)
        bare = new is not entry and section not in KEEP_THEIR_WHY and isinstance(new.value, Block) and not new.value.get("value")
        return Entry(new.key, new.value.without("why")) if bare and isinstance(new.value, Block) else new

    def section(entry: Entry) -> Node:
        if entry.name not in SERIES_NAMES or not isinstance(entry.value, Block):
            return instead(entry, entry.name).value
        return Block(tuple(instead(each, entry.name) for each in entry.value.entries), entry.value.span)

    return Block(tuple(Entry(each.key, section(each)) for each in series.entries), series.span)


def _merged(series: Block, design: Block, report: Report) -> Block:
    shared = series.without(*SERIES_OWN)
    merged: dict[str, Entry] = {each.name: each for each in shared.entries}
    for entry in design.entries:
        before = merged.get(entry.name)
        if before is None or entry.name in SERIES_TEXTS:
            merged[entry.name] = entry
        elif entry.name in SERIES_SINGLES:
            _again(entry, before, report)
        elif isinstance(entry.value, Block) and isinstance(before.value, Block):
            merged[entry.name] = Entry(entry.key, _section(before.value, entry.value, report))
        elif not isinstance(entry.value, Broken):
            report.wrong_type(entry.value.span, f"`{entry.name}` cannot be this.", "named entries")
    return Block(tuple(merged.values()), design.span)


def _section(series: Block, design: Block, report: Report) -> Block:
    for entry in design.entries:
        first = series.get(entry.name)
        if first:
            _again(entry, first, report)
    return overlay(design, series)


def _again(entry: Entry, first: Entry, report: Report) -> None:
    report.fault(
        "series-again",
        entry.span,
        f'"{entry.name}" belongs to the series.',
        label="said again",
        hints=(f'To differ here: `departs: {{{entry.name}: {{value: ..., why: "..."}}}}`.',),
        related=(Related(first.span, "given"),),
    )
