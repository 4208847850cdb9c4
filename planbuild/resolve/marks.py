"""Part marks: a letter and a figure (A1, A2, ... A9, B1, ...), short enough to write on a board and never alike.

I, O and Q are left out: on rough wood they are read as 1 and 0 (common practice).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from planbuild.core.diagnostics import Collector, Diagnostic, Related
from planbuild.records.design import Said

LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ"
_FORM = re.compile(rf"[{LETTERS}][1-9]\d?")


def marks(ids: Iterable[str], pinned: Mapping[str, Said], report: Collector) -> dict[str, str]:
    """A mark for each id, in their order; `pinned` are the marks that the design gives.  Reports `mark-form`, `mark-twice`."""
    kept = _kept(pinned, report)
    free = (mark for mark in _series() if mark not in kept.values())
    return {id: kept[id] if id in kept else next(free) for id in ids}


def _kept(pinned: Mapping[str, Said], report: Collector) -> dict[str, str]:
    kept: dict[str, str] = {}
    for id, said in pinned.items():
        if not _FORM.fullmatch(said.text):
            expected = "a capital letter (not I, O or Q) and a figure, such as `B2`"
            report.add(Diagnostic("mark-form", f'"{said.text}" cannot be a mark.', span=said.span, expected=expected))
        elif said.text in kept.values():
            first = next(other for other, mark in kept.items() if mark == said.text)
            related = (Related(pinned[first].span, f'"{first}" has it'),)
            report.add(Diagnostic("mark-twice", f'The mark {said.text} is given twice.', span=said.span, related=related))
        else:
            kept[id] = said.text
    return kept


def _series() -> Iterator[str]:
    """A1 to A9, B1 to B9, ..., then A10 to A99, ...: enough for 2277 parts."""
    for figures in (range(1, 10), range(10, 100)):
        for letter in LETTERS:
            for figure in figures:
                yield f"{letter}{figure}"
