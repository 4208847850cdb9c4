"""Words at the end of a leader, placed where nothing else stands.

The place is searched on rings around the point, level text, straight leader, outside the wood if there is
room (a heuristic; the result is tested by `legibility`).  Units: paper mm, y down.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product

from planbuild.core.lettering import text_width
from planbuild.derive.dimension_lines import ARROW, ARROW_HALF, LETTERING, Ink
from planbuild.derive.dimensions.paper import Paper, grown
from planbuild.records.drawing import Anchor, Fill, Path, Pen, Point, Stroke, Text, TextRole, Tint, line, ring
from planbuild.records.legibility import PaperBox, overlap

LEADING = 4.2
_RINGS = (6.0, 8.0, 10.5, 13.5, 17.0, 21.0, 26.0, 32.0)
_STEPS = 24
_SHELF = 0.8
_WOOD_COST, _FAR_COST, _LEVEL_COST, _WIDER_COST = 150.0, 1.0, 6.0, 0.7
_BESIDE = 16.0
"""Dimensions stand within so much of a view anyway."""

Line = tuple[str, str]
"""A line of words, and the id of the dimension it states ("" for none)."""


def place_note(lines: Sequence[Line], tip: Point, wood: PaperBox, paper: Paper, arrow: bool = True) -> Ink:
    """A note pointing at `tip`; its ink is added to `paper`.  `wood` is the outline it rather keeps out of."""
    ink, _ = find_note(lines, tip, wood, paper, arrow)
    paper.add(ink)
    return ink


def find_note(lines: Sequence[Line], tip: Point, wood: PaperBox, paper: Paper, arrow: bool = True) -> tuple[Ink, float]:
    """The cheapest note pointing at `tip` and its cost; `paper` stays as it is."""
    return paper.best((ink, cost + _in_wood(box, wood)) for ink, box, cost in _options(lines, tip, arrow))


def _in_wood(box: PaperBox, wood: PaperBox) -> float:
    """Words on the wood cost most, words that make the view wider a little for each mm."""
    wider = max(0.0, wood[0] - _BESIDE - box[0]) + max(0.0, box[2] - wood[2] - _BESIDE)
    return _WIDER_COST * wider + (_WOOD_COST if overlap(box, grown(wood, 1.0)) else 0.0)


def _options(lines: Sequence[Line], tip: Point, arrow: bool) -> Iterator[tuple[Ink, PaperBox, float]]:
    for reach, step in product(_RINGS, range(_STEPS)):
        angle = 2 * math.pi * step / _STEPS
        end = tip[0] + reach * math.cos(angle), tip[1] + reach * math.sin(angle)
        rightward = math.cos(angle) >= -1e-9
        steep = abs(math.sin(2 * angle)) < 1e-6
        ink, box = _note(lines, tip, end, rightward, arrow)
        yield ink, box, _FAR_COST * reach + (_LEVEL_COST if steep else 0.0)


def _note(lines: Sequence[Line], tip: Point, end: Point, rightward: bool, arrow: bool) -> tuple[Ink, PaperBox]:
    """The leader ends at the middle of the first line, on the side of the text that is nearer."""
    way = 1.0 if rightward else -1.0
    x, y = end[0] + way * _SHELF, end[1] + LETTERING / 2
    anchor = Anchor.START if rightward else Anchor.END
    texts = tuple(
        Text(words, (x, y + LEADING * row), LETTERING, TextRole.DIMENSION, anchor, 0.0, False, refers)
        for row, (words, refers) in enumerate(lines)
    )
    width = max(text_width(words, LETTERING) for words, _ in lines)
    left = x if rightward else x - width
    box = (left, y - LETTERING, left + width, y + LEADING * (len(lines) - 1))
    covers = (Fill(Tint.INK, _arrow(tip, end)),) if arrow else ()
    return Ink((Stroke(Pen.LEADER, line(tip, end)),), covers, texts), box


def _arrow(tip: Point, end: Point) -> Path:
    dx, dy = end[0] - tip[0], end[1] - tip[1]
    size = math.hypot(dx, dy)
    dx, dy = dx / size, dy / size
    x, y = tip[0] + ARROW * dx, tip[1] + ARROW * dy
    across, down = -ARROW_HALF * dy, ARROW_HALF * dx
    return ring(tip, (x + across, y + down), (x - across, y - down))
