"""Do leaders lead the eye?  Of every mark in every picture: none crosses another, none is long."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.records.drawing import Drawing, Pen, TextRole
from planbuild.records.facts import Facts
from planbuild.records.findings import Findings, Proof
from planbuild.records.legibility import Segment, segments

_LONG = 40.0
"""mm on paper; a longer leader is lost on its way."""


def leaders(facts: Facts) -> Findings:
    """Reports `drawing-leader`."""
    every = {id: list(_leaders(drawing)) for id, drawing in sorted(facts.drawings.items()) if _is_picture(drawing)}
    found = [_told(id, fault) for id, lines in every.items() for fault in _faults(lines)]
    longest = max(((_length(line), id) for id, lines in every.items() for line in lines), default=(0.0, ""))
    worst = f"the longest is {longest[0]:.0f} mm, in {longest[1]}" if longest[1] else "there are none"
    count = sum(len(lines) for lines in every.values())
    return Findings(tuple(found), (Proof("No leader of a mark crosses another or is longer than 40 mm", count, worst),))


def _is_picture(drawing: Drawing) -> bool:
    """Leaders of part sheets carry notes, which have their own places."""
    return not drawing.id.startswith("sheet.") and any(text.role is TextRole.MARK for text in drawing.texts)


def _leaders(drawing: Drawing) -> Iterator[Segment]:
    for stroke in drawing.strokes:
        if stroke.pen is Pen.LEADER:
            yield from segments(stroke.path)


def _faults(lines: list[Segment]) -> Iterator[str]:
    crossed = sum(_cross(one, other) for one, other in combinations(lines, 2))
    if crossed:
        yield f"leaders cross {crossed} times" if crossed > 1 else "two leaders cross"
    long = [line for line in lines if _length(line) > _LONG]
    if long:
        yield f"a leader is {max(map(_length, long)):.0f} mm long"


def _length(line: Segment) -> float:
    return math.dist(*line)


def _cross(one: Segment, other: Segment) -> bool:
    """True if each line has its ends on both sides of the other."""
    return _parted(one, other) and _parted(other, one)


def _parted(line: Segment, ends: Segment) -> bool:
    (a, b), (c, d) = line
    sides = [(c - a) * (y - b) - (d - b) * (x - a) for x, y in ends]
    return sides[0] * sides[1] < 0


def _told(id: str, fault: str) -> Diagnostic:
    hint = "Please report the design, its layout is ours to mend."
    message = f'Drawing "{id}": {fault}.'
    return Diagnostic("drawing-leader", message, Severity.WARNING, expected="short leaders that do not cross", hints=(hint,))
