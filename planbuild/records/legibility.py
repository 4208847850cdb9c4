"""Is every word of a drawing free of other ink?  Box tests on the finished paper, not on the plan of it.

Beside the records, because derive places lettering with the same measures with which proofread judges it.
Units: paper mm, y down.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from planbuild.core.lettering import text_width
from planbuild.records.drawing import Anchor, Drawing, Fill, Path, Point, Text, Tint

PaperBox = tuple[float, float, float, float]
"""Left, top, right, bottom."""
Segment = tuple[Point, Point]

BELOW = 0.3
"""How far figures hang below the base line, as a share of the capital height (denominators, tails of letters)."""
_FLAT = 6
"""Straight pieces a curve is tested by."""
_SHAVE = 0.05
"""Ink may come this near to the edge of a text's box: boxes are a little larger than their letters."""


def text_box(text: Text) -> PaperBox:
    """The box around a text that runs level (angle 0) or upward (angle 90)."""
    width, above, below = text_width(text.text, text.height, text.bold), text.height, BELOW * text.height
    back = {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[text.anchor]
    x, y = text.at
    if text.angle == 90:
        return x - above, y + back - width, x + below, y + back
    return x - back, y - above, x - back + width, y + below


def overlap(a: PaperBox, b: PaperBox, gap: float = 0.0) -> bool:
    """True if the boxes come nearer to each other than `gap`."""
    return a[0] < b[2] + gap and b[0] < a[2] + gap and a[1] < b[3] + gap and b[1] < a[3] + gap


def crosses(segment: Segment, box: PaperBox) -> bool:
    """True if a straight line enters the box (Liang and Barsky's clipping of a line to a rectangle)."""
    (x, y), (to_x, to_y) = segment
    begin, end = 0.0, 1.0
    for start, way, low, high in ((x, to_x - x, box[0], box[2]), (y, to_y - y, box[1], box[3])):
        if abs(way) < 1e-9:
            if not low < start < high:
                return False
            continue
        enter, leave = sorted(((low - start) / way, (high - start) / way))
        begin, end = max(begin, enter), min(end, leave)
        if begin >= end:
            return False
    return True


def segments(path: Path) -> Iterator[Segment]:
    """A path as straight lines, its curves flattened."""
    start = here = (0.0, 0.0)
    for step in path:
        if step.verb == "M":
            start = here = step.points[0]
        elif step.verb == "L":
            yield here, step.points[0]
            here = step.points[0]
        elif step.verb == "C":
            yield from pairwise(_flattened((here, *step.points)))
            here = step.points[-1]
        else:
            yield here, start
            here = start


def _flattened(p: Sequence[Point]) -> list[Point]:
    """Points along a cubic in Bernstein form."""
    found = []
    for t in (i / _FLAT for i in range(_FLAT + 1)):
        weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
        x, y = (sum(w * q[i] for w, q in zip(weights, p, strict=True)) for i in (0, 1))
        found.append((x, y))
    return found


def box_of(points: Sequence[Point]) -> PaperBox:
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def path_box(path: Path) -> PaperBox:
    return box_of([p for step in path for p in step.points])


def shaved(box: PaperBox, by: float = _SHAVE) -> PaperBox:
    return box[0] + by, box[1] + by, box[2] - by, box[3] - by


@dataclass(frozen=True)
class Clash:
    """A text that is not free: what it says, what it meets, and where on the paper."""

    text: str
    meets: str
    at: Point


def clashes(drawing: Drawing) -> tuple[Clash, ...]:
    """Every text that lies on another text, on a line or an arrowhead, or beyond the edge of the drawing.

    A line that a paper-white cover hides under the text does not count.
    """
    boxes = [(text, shaved(text_box(text))) for text in drawing.texts]
    return (*_on_texts(boxes), *_on_lines(drawing, boxes), *_on_solids(drawing, boxes), *_over_the_edge(drawing, boxes))


Boxed = tuple[Text, PaperBox]


def _on_texts(boxes: list[Boxed]) -> Iterator[Clash]:
    for (text, box), (other, its) in combinations(boxes, 2):
        if overlap(box, its):
            yield Clash(text.text, f'the text "{other.text}"', text.at)


def _on_lines(drawing: Drawing, boxes: list[Boxed]) -> Iterator[Clash]:
    """The first line that crosses each text; covers hide strokes, but not those painted after them."""
    whites = [path_box(cover.path) for cover in drawing.covers if cover.tint is Tint.PAPER]
    under = [(stroke.pen.value, list(segments(stroke.path))) for stroke in drawing.strokes]
    over = [(stroke.pen.value, list(segments(stroke.path))) for stroke in drawing.cover_strokes]
    for text, box in boxes:
        hidden = any(w[0] <= box[0] and w[1] <= box[1] and box[2] <= w[2] and box[3] <= w[3] for w in whites)
        on_top = over if hidden else under + over
        found = next((pen for pen, lines in on_top if any(crosses(each, box) for each in lines)), None)
        if found:
            yield Clash(text.text, f"a {found} line", text.at)


def _on_solids(drawing: Drawing, boxes: list[Boxed]) -> Iterator[Clash]:
    """Arrowheads and dots: small, so that one which meets a text crosses it with its outline."""
    solids = [list(segments(cover.path)) for cover in drawing.covers if _is_ink(cover)]
    for text, box in boxes:
        if any(crosses(each, box) for solid in solids for each in solid):
            yield Clash(text.text, "an arrowhead", text.at)


def _is_ink(cover: Fill) -> bool:
    return cover.tint in (Tint.INK, Tint.ACCENT)


def _over_the_edge(drawing: Drawing, boxes: list[Boxed]) -> Iterator[Clash]:
    for text, box in boxes:
        if box[0] < 0 or box[1] < 0 or box[2] > drawing.width or box[3] > drawing.height:
            yield Clash(text.text, "the edge of the drawing", text.at)
