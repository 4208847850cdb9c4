"""Running dimensions: many places measured from one plane, all on one line.

Superimposed running dimensioning of ISO 129-1: a ring marks the plane everything is measured from, an arrow
each place, its figure stands before the arrow, or beyond it along the extension line where places lie close.
No place needs a sum, and errors do not add up.
"""

from __future__ import annotations

from collections.abc import Iterable

from planbuild.core.lettering import text_width
from planbuild.derive.dimension_lines import ARROW, ARROW_HALF, GAP, LETTERING, PAST, Along, Ink
from planbuild.records.drawing import Anchor, Fill, Path, Pen, Point, Stroke, Text, TextRole, Tint, circle, line, ring

_ORIGIN = 0.9
_ABOVE = 1.25
_BEFORE = 0.8
"""Between a figure and the extension line of its place."""
_ROOM = _BEFORE + 1.2
_HALF_HIGH = 0.9
"""From the middle of a figure to its base line."""
_CLOSEST = LETTERING + 0.7
"""Between two figures side by side, each on the extension line of its place."""

Station = tuple[Point, str, str]
"""Where the extension line of a place starts, the figure, and the id of its dimension."""


def fits_running(step: float, text: str) -> bool:
    """True if the figure of a place has room after the place before it, so far back."""
    return step >= text_width(text, LETTERING) + _ROOM


def fits_standing(steps: Iterable[float]) -> bool:
    """True if figures have room side by side, each on the extension line of its place."""
    return all(step >= _CLOSEST for step in steps)


def draw_running(start: Point, stations: list[Station], along: Along, at: float, outward: int = 0) -> Ink:
    """One line from the plane of `start` past every station.  `at` is where it lies; figures stand before their places,
    or beyond the line, toward `outward` (1 or -1), on their extension lines.  Units: paper mm."""
    index = 0 if along is Along.ACROSS else 1
    origin = start[index]
    far = max((spot[0][index] for spot in stations), key=lambda where: abs(where - origin))
    way = 1.0 if far >= origin else -1.0
    strokes = [Stroke(Pen.DIMENSION, line(_place(origin + way * _ORIGIN, at, along), _place(far, at, along)))]
    strokes.append(Stroke(Pen.DIMENSION, circle(_place(origin, at, along), _ORIGIN)))
    strokes.append(_extension(origin, start[1 - index], at, along))
    covers, texts = [], []
    for spot, text, refers in stations:
        strokes.append(_extension(spot[index], spot[1 - index], at, along))
        covers.append(Fill(Tint.INK, _arrow(spot[index], at, way, along)))
        drawn = _standing(spot[index], at, outward, text, refers, along) if outward else None
        texts.append(drawn or _figure(spot[index], at, way, text, refers, along))
    return Ink(tuple(strokes), tuple(covers), tuple(texts))


def _place(where: float, across: float, along: Along) -> Point:
    return (where, across) if along is Along.ACROSS else (across, where)


def _extension(where: float, start: float, at: float, along: Along) -> Stroke:
    way = 1.0 if at >= start else -1.0
    return Stroke(Pen.DIMENSION, line(_place(where, start + way * GAP, along), _place(where, at + way * PAST, along)))


def _arrow(tip: float, at: float, way: float, along: Along) -> Path:
    base = tip - way * ARROW
    return ring(*(_place(p, q, along) for p, q in ((tip, at), (base, at - ARROW_HALF), (base, at + ARROW_HALF))))


def _figure(where: float, at: float, way: float, text: str, refers: str, along: Along) -> Text:
    middle = where - way * (_BEFORE + text_width(text, LETTERING) / 2)
    angle = 0.0 if along is Along.ACROSS else 90.0
    return Text(text, _place(middle, at - _ABOVE, along), LETTERING, TextRole.DIMENSION, Anchor.MIDDLE, angle, False, refers)


def _standing(where: float, at: float, outward: int, text: str, refers: str, along: Along) -> Text:
    across = at + outward * (PAST + _BEFORE + text_width(text, LETTERING) / 2)
    angle = 90.0 if along is Along.ACROSS else 0.0
    spot = _place(where + _HALF_HIGH, across, along)
    return Text(text, spot, LETTERING, TextRole.DIMENSION, Anchor.MIDDLE, angle, False, refers)
