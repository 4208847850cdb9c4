"""One linear dimension as ink: extension lines, dimension line, arrowheads, figure.

Measures and habits: ISO 129-1 (figure above the line, readable from below or from the right, arrows
3:1, outside where there is no room).  Units: paper mm, y down.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from planbuild.core.lettering import text_width
from planbuild.records.drawing import Anchor, Fill, Path, Pen, Point, Stroke, Text, TextRole, Tint, circle, line, ring

LETTERING = 2.5
ARROW, ARROW_HALF = 2.5, 2.5 / 6
GAP, PAST = 1.0, 2.0
"""An extension line starts so far off the edge and passes the dimension line by so much."""
FIRST, NEXT = 8.0, 7.0
"""Distance of the first chain from the outline, and of each further one from the last."""
_CLEAR = 1.25
"""Between dimension line and the base line of its figure."""
_TAIL = 2.0
"""Of the line behind an arrow that stands outside."""
_DOT = 0.5


class Along(Enum):
    """What is measured: the distance across the paper or down it."""

    ACROSS = "across"
    DOWN = "down"


class Tip(Enum):
    """The end of a dimension line; a dot stands where two narrow dimensions of a chain meet."""

    ARROW = "arrow"
    DOT = "dot"


@dataclass(frozen=True)
class Ink:
    """Part of a drawing, to be merged into it."""

    strokes: tuple[Stroke, ...] = ()
    covers: tuple[Fill, ...] = ()
    texts: tuple[Text, ...] = ()

    def plus(self, other: Ink) -> Ink:
        return Ink(self.strokes + other.strokes, self.covers + other.covers, self.texts + other.texts)


def draw_dimension(
    a: Point,
    b: Point,
    along: Along,
    at: float,
    text: str,
    refers: str = "",
    tips: tuple[Tip, Tip] = (Tip.ARROW, Tip.ARROW),
    spill_high: bool = True,
    extend: tuple[bool, bool] = (True, True),
) -> Ink:
    """The dimension between the extension origins `a` and `b`, measured `along` one direction of the paper.

    `at` is where its line lies (y of a line across, x of a line down).  A figure that does not fit
    between the extension lines stands beyond the higher coordinate, or beyond the lower one without
    `spill_high`.  `tips` and `extend` are for the lower and the higher end.  `refers` goes into the text.
    """
    low, high, from_low, from_high = _ordered(a, b, along)
    inside = fits_arrows(high - low)
    room = fits_text(high - low, text)
    reach = _reach(low, high, text, inside, room, spill_high)
    ext = [_extension(p, q, at) for p, q, wanted in ((low, from_low, extend[0]), (high, from_high, extend[1])) if wanted]
    segments = [*ext, ((reach[0], at), (reach[1], at))]
    strokes = tuple(Stroke(Pen.DIMENSION, line(*(_place(p, along) for p in each))) for each in segments)
    heads = ((low, 1.0 if inside else -1.0, tips[0]), (high, -1.0 if inside else 1.0, tips[1]))
    covers = tuple(Fill(Tint.INK, _tip(p, at, way, tip, along)) for p, way, tip in heads)
    return Ink(strokes, covers, (_figure(low, high, at, text, inside, room, spill_high, along, refers),))


def fits_text(distance: float, text: str) -> bool:
    """True if the figure stands between the extension lines."""
    return text_width(text, LETTERING) + 1.0 <= distance


def fits_arrows(distance: float) -> bool:
    return distance >= 2 * ARROW + 1.0


def _ordered(a: Point, b: Point, along: Along) -> tuple[float, float, float, float]:
    """Low and high coordinate along the dimension, and the coordinates across it where the extensions start."""
    index = 0 if along is Along.ACROSS else 1
    first, second = sorted((a, b), key=lambda p: p[index])
    return first[index], second[index], first[1 - index], second[1 - index]


def _place(p: Point, along: Along) -> Point:
    """From (along, across) to paper."""
    return p if along is Along.ACROSS else (p[1], p[0])


def _extension(where: float, start: float, at: float) -> tuple[Point, Point]:
    way = 1.0 if at >= start else -1.0
    return (where, start + way * GAP), (where, at + way * PAST)


def _reach(low: float, high: float, text: str, inside: bool, room: bool, spill_high: bool) -> tuple[float, float]:
    """Ends of the dimension line, with tails behind outside arrows and a shelf under an outside figure."""
    tail = 0.0 if inside else ARROW + _TAIL
    shelf = 0.0 if room else _shelf(text, inside)
    return low - max(tail, 0.0 if spill_high else shelf), high + max(tail, shelf if spill_high else 0.0)


def _shelf(text: str, inside: bool) -> float:
    return _outset(inside) + text_width(text, LETTERING)


def _outset(inside: bool) -> float:
    """How far an outside figure starts beyond the extension line."""
    return 1.0 if inside else ARROW + 0.5


def _tip(where: float, at: float, way: float, tip: Tip, along: Along) -> Path:
    if tip is Tip.DOT:
        return circle(_place((where, at), along), _DOT)
    base = where + way * ARROW
    return ring(*(_place(p, along) for p in ((where, at), (base, at - ARROW_HALF), (base, at + ARROW_HALF))))


def _figure(
    low: float, high: float, at: float, text: str, inside: bool, room: bool, spill_high: bool, along: Along, refers: str
) -> Text:
    width = text_width(text, LETTERING)
    outside = high + _outset(inside) + width / 2 if spill_high else low - _outset(inside) - width / 2
    middle = (low + high) / 2 if room else outside
    spot = _place((middle, at - _CLEAR), along)
    return Text(text, spot, LETTERING, TextRole.DIMENSION, Anchor.MIDDLE, 0.0 if along is Along.ACROSS else 90.0, False, refers)
