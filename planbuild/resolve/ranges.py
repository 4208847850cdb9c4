"""Each range tried at both its ends, one size at a time, without solids: a reader may build any of them."""

from __future__ import annotations

from collections.abc import Iterator

from planbuild.core.diagnostics import Collector, Diagnostic, Related, Severity, Span
from planbuild.records.design import Design, Said, SizeSaid
from planbuild.resolve.layout import lay_out

Seen = set[tuple[str, Span | None]]


MOST_TRIED = 6000
"""Boards laid out anew at all ends together: 40 ranges of a piece of 75 boards, 10 of one of 300 (measured: two minutes)."""


def check_ranges(design: Design, boards: int, report: Collector) -> None:
    """Reports `range-end` for whatever is found at the end of a range and not at the value as written.

    `boards` is how many the piece has; `range-many` if trying all would take too long.
    """
    ranged = ((id, said, *each) for id, said in design.sizes.items() for each in _ends(said))
    ends = [each for each in ranged if each[3].text != each[1].value.text]
    most = MOST_TRIED // max(1, boards)
    if len(ends) > most:
        message = f"The ranges have {len(ends)} ends, and {boards} boards are laid out anew at each of them."
        hints = ("Leave out the ranges that a reader will hardly use.",)
        report.add(Diagnostic("range-many", message, span=ends[most][3].span, expected=f"at most {most} ends", hints=hints))
        return
    seen: Seen = {(each.code, each.span) for each in report.found}
    for id, said, word, end in ends:
        for found in _new_at(design, id, said, end, seen):
            report.add(_told(id, word, end, found))


def _ends(said: SizeSaid) -> Iterator[tuple[str, Said]]:
    if said.low:
        yield "from", said.low
    if said.high:
        yield "to", said.high


def _new_at(design: Design, id: str, said: SizeSaid, end: Said, seen: Seen) -> Iterator[Diagnostic]:
    """What goes wrong if the size is as large or small as its range allows.  Notes do not count."""
    there = Collector()
    changed = said.model_copy(update={"value": end, "step": None})
    lay_out(design.model_copy(update={"sizes": {**design.sizes, id: changed}}), there)
    for found in there.found:
        if found.severity is not Severity.NOTE and (found.code, found.span) not in seen:
            yield found


def _told(id: str, word: str, end: Said, found: Diagnostic) -> Diagnostic:
    """The finding, told where the range is said."""
    message = f"At {id} {end.text} (its `{word}`): {found.message}"
    related = (Related(found.span, found.code), *found.related) if found.span else found.related
    hints = ("Shorten the range, or let the other size follow this one.", *found.hints)
    return Diagnostic("range-end", message, found.severity, end.span, expected=found.expected, hints=hints, related=related)
