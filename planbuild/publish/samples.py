"""Small drawings that belong to the pages themselves: samples of lines, the projection symbol, the printer's check square.

Units: paper mm, y down.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from planbuild.records.drawing import (
    Anchor,
    Drawing,
    Fill,
    Path,
    Pen,
    Point,
    Step,
    Stroke,
    Text,
    TextRole,
    Tint,
    circle,
    line,
    ring,
)
from planbuild.records.edition import Projection
from planbuild.records.face_marks import face_edge_mark, face_side_mark

SQUARE = 100.0
"""Side of the check square."""
INCHES = 4
_INCH = 25.4
_SAMPLE_WIDTH, _SAMPLE_HEIGHT = 16.0, 4.5
_HEAD = 2.5


def line_sample(pen: Pen) -> Drawing:
    """A short length of one kind of line, as drawings use it: a break waves, a motion has its arrowhead."""
    middle, right = _SAMPLE_HEIGHT / 2, _SAMPLE_WIDTH - 0.5
    path = _wave(middle) if pen is Pen.BREAK else line((0.5, middle), (right, middle))
    head = ring((right, middle), (right - 3, middle - 1), (right - 3, middle + 1))
    covers = (Fill(Tint.ACCENT, head),) if pen is Pen.MOVE else ()
    strokes = (Stroke(pen, path),)
    alt = f"sample of a {pen.value} line"
    return _sample(f"sample.line.{pen.value}", _SAMPLE_WIDTH, _SAMPLE_HEIGHT, strokes, covers, alt)


def _wave(middle: float) -> Path:
    """One freehand wave from end to end."""
    left, right = 0.5, _SAMPLE_WIDTH - 0.5
    return (Step("M", ((left, middle),)), Step("C", ((left + 6, middle - 4), (right - 6, middle + 4), (right, middle))))


def _sign(name: str, strokes: tuple[Stroke, ...], covers: tuple[Fill, ...], alt: str, texts: tuple[Text, ...] = ()) -> Drawing:
    made = _sample(f"sample.sign.{name}", _SAMPLE_WIDTH, _SAMPLE_HEIGHT, strokes, (), f"sample of {alt}")
    return replace(made, covers=covers, texts=texts)


def _head(tip: Point, way: Point) -> Fill:
    """An arrowhead, three times as long as wide, as dimensions have it (ISO 129-1)."""
    (x, y), (dx, dy) = tip, way
    half = _HEAD / 6
    foot = x - _HEAD * dx, y - _HEAD * dy
    return Fill(Tint.INK, ring(tip, (foot[0] + half * dy, foot[1] + half * dx), (foot[0] - half * dy, foot[1] - half * dx)))


def _lines(pen: Pen, *runs: tuple[Point, Point]) -> tuple[Stroke, ...]:
    return tuple(Stroke(pen, line(*run)) for run in runs)


def size_sample() -> Drawing:
    """A dimension line between two extension lines."""
    low, high, level = 0.5, _SAMPLE_WIDTH - 0.5, 2.8
    runs = (((low, 0.6), (low, 4.2)), ((high, 0.6), (high, 4.2)), ((low, level), (high, level)))
    heads = (_head((low, level), (-1, 0)), _head((high, level), (1, 0)))
    return _sign("size", _lines(Pen.DIMENSION, *runs), heads, "a size")


def running_sample() -> Drawing:
    """Running dimensions: a ring where they begin, an arrow at each place."""
    start, stops, level = 1.4, (8.5, _SAMPLE_WIDTH - 0.5), 2.8
    uprights = (((x, 0.6), (x, 4.2)) for x in (start, *stops))
    origin = Stroke(Pen.DIMENSION, circle((start, level), 0.9))
    strokes = (origin, *_lines(Pen.DIMENSION, ((start + 0.9, level), (stops[-1], level)), *uprights))
    return _sign("running", strokes, tuple(_head((x, level), (1, 0)) for x in stops), "running sizes")


def bracket_sample() -> Drawing:
    text = Text("(12)", (_SAMPLE_WIDTH / 2, 3.5), 2.5, TextRole.DIMENSION)
    return _sign("bracket", (), (), "a size in brackets", (text,))


def trace_sample() -> Drawing:
    """Where a section is cut: a thin chain with thick ends and arrows in the direction of sight."""
    low, high, level = 2.0, _SAMPLE_WIDTH - 2.0, 3.6
    ends = _lines(Pen.CUTTING, ((low - 1.5, level), (low + 1.5, level)), ((high - 1.5, level), (high + 1.5, level)))
    chain = _lines(Pen.CENTRE, ((low + 1.5, level), (high - 1.5, level)))
    shafts = _lines(Pen.LEADER, ((low, level), (low, 2.4)), ((high, level), (high, 2.4)))
    return _sign("trace", ends + chain + shafts, tuple(_head((x, 0.4), (0, -1)) for x in (low, high)), "the trace of a section")


def face_side_sample() -> Drawing:
    return _face_sample("face_side", face_side_mark)


def face_edge_sample() -> Drawing:
    return _face_sample("face_edge", face_edge_mark)


def _face_sample(name: str, mark: Callable[[Point, Point], Path]) -> Drawing:
    """A mark on the edge of a board."""
    wood = _lines(Pen.VISIBLE, ((0.5, 4.0), (_SAMPLE_WIDTH - 0.5, 4.0)))
    sign = Stroke(Pen.LEADER, mark((_SAMPLE_WIDTH / 2, 4.0), (0.0, -1.0)))
    return _sign(name, (*wood, sign), (), name.replace("_", " "))


def grain_sample() -> Drawing:
    low, high, level = 2.0, _SAMPLE_WIDTH - 2.0, _SAMPLE_HEIGHT / 2
    heads = (_head((low, level), (-1, 0)), _head((high, level), (1, 0)))
    return _sign("grain", _lines(Pen.LEADER, ((low, level), (high, level))), heads, "a grain arrow")


def cut_sample() -> Drawing:
    """Cut wood: outline of a section and lines along the grain."""
    width, low, high = _SAMPLE_WIDTH, 0.5, _SAMPLE_HEIGHT - 0.5
    box = ring((0.5, low), (width - 0.5, low), (width - 0.5, high), (0.5, high))
    grain = [line((1, y), (width - 1, y)) for y in (1.3, 2.1, 2.8, 3.4)]
    strokes = (Stroke(Pen.SECTION, box), *(Stroke(Pen.HATCH, path) for path in grain))
    return _sample("sample.cut", width, _SAMPLE_HEIGHT, strokes, (Fill(Tint.CUT, box),), "sample of cut wood")


def tint_sample(tints: Iterable[Tint], name: str) -> Drawing:
    """Three faces of a block in the tints of faces that look up, to the front and to the side."""
    width, height = _SAMPLE_WIDTH, _SAMPLE_HEIGHT
    third = width / 3
    boxes = [
        ring((i * third, 0.4), ((i + 1) * third, 0.4), ((i + 1) * third, height - 0.4), (i * third, height - 0.4))
        for i in range(3)
    ]
    fills = tuple(Fill(tint, box) for tint, box in zip(tints, boxes, strict=True))
    strokes = tuple(Stroke(Pen.SMOOTH, box) for box in boxes)
    return _sample(f"sample.tint.{name}", width, height, strokes, fills, alt=f"tint of {name} wood")


def projection_symbol(id: str, projection: Projection, height: float) -> Drawing:
    """A truncated cone lying with its small end to the left, and its end view seen from there: two circles, on the
    left in third angle, on the right in first angle.  Source: ISO 5456-2 (arrangement), ASME Y14.3."""
    small, large, long, gap = height / 4, height / 2, height, 0.45 * height
    third = projection is Projection.THIRD
    cone, eye = (height + gap, large) if third else (0.0, long + gap + large)
    middle = height / 2
    side = ring((cone, middle - small), (cone + long, middle - large), (cone + long, middle + large), (cone, middle + small))
    strokes = tuple(Stroke(Pen.BREAK, path) for path in (side, circle((eye, middle), small), circle((eye, middle), large)))
    return _sample(id, 2 * height + gap, height, strokes, alt=f"symbol of {projection.value} projection")


# ---------------------------------------------------------------- the check square

_RULER = 9.0
"""From the square to the inch rulers outside it."""
_EDGE = 6.0
_ORIGIN = (_RULER + _EDGE, _EDGE)
"""Upper left corner of the square on its drawing."""


def check_square() -> Drawing:
    """A square of 100 mm with millimetre ticks, and rulers of 4 inches below and left of it, all from its lower left corner."""
    x, y = _ORIGIN
    corner = (x, y + SQUARE)
    outline = Stroke(Pen.VISIBLE, ring((x, y), (x + SQUARE, y), (x + SQUARE, y + SQUARE), corner))
    ticks = [*_millimetre_ticks(corner), *_inch_ticks(corner)]
    rulers = [
        line((x, corner[1] + _RULER), (x + INCHES * _INCH, corner[1] + _RULER)),
        line((x - _RULER, corner[1]), (x - _RULER, corner[1] - INCHES * _INCH)),
    ]
    strokes = (outline, *(Stroke(Pen.DIMENSION, path) for path in [*rulers, *ticks]))
    texts = (*_millimetre_figures(corner), *_inch_figures(corner))
    width, height = x + INCHES * _INCH + _EDGE, corner[1] + _RULER + _EDGE
    alt = "A square of 100 mm with rulers of 4 inches along two sides, to check the printer's scale with a rule"
    return Drawing("sample.square", width, height, (), strokes, (), (), texts, alt, "1:1")


def _millimetre_ticks(corner: Point) -> list[Path]:
    x, y = corner
    found = []
    for mm in range(1, int(SQUARE)):
        long = 3.5 if mm % 10 == 0 else 2.5 if mm % 5 == 0 else 1.5
        found += [line((x + mm, y), (x + mm, y - long)), line((x, y - mm), (x + long, y - mm))]
    return found


def _millimetre_figures(corner: Point) -> list[Text]:
    x, y = corner
    across = [_figure(str(mm), (x + mm, y - 4.5)) for mm in range(10, int(SQUARE), 10)]
    down = [_figure(str(mm), (x + 4.3, y - mm + 0.9), Anchor.START) for mm in range(10, int(SQUARE), 10)]
    return across + down


def _inch_ticks(corner: Point) -> list[Path]:
    """Eighths of an inch, toward the square."""
    x, y = corner[0], corner[1] + _RULER
    left = corner[0] - _RULER
    found = []
    for eighth in range(INCHES * 8 + 1):
        away = eighth * _INCH / 8
        long = 4.0 if eighth % 8 == 0 else 3.0 if eighth % 4 == 0 else 2.2 if eighth % 2 == 0 else 1.5
        found += [line((x + away, y), (x + away, y - long)), line((left, corner[1] - away), (left + long, corner[1] - away))]
    return found


def _inch_figures(corner: Point) -> list[Text]:
    x, y = corner[0], corner[1] + _RULER + 3.2
    left = corner[0] - _RULER - 1.2
    words = [f"{inch} in" if inch == INCHES else str(inch) for inch in range(INCHES + 1)]
    across = [_figure(word, (x + inch * _INCH, y)) for inch, word in enumerate(words)]
    return across + [_figure(word, (left, corner[1] - inch * _INCH + 0.9), Anchor.END) for inch, word in enumerate(words) if inch]


def _figure(text: str, at: Point, anchor: Anchor = Anchor.MIDDLE) -> Text:
    return Text(text, at, 1.8, TextRole.DIMENSION, anchor)


def _sample(
    id: str, width: float, height: float, strokes: tuple[Stroke, ...], fills: tuple[Fill, ...] = (), alt: str = ""
) -> Drawing:
    return Drawing(id, width, height, fills, strokes, (), (), (), alt)
