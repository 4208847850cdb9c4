"""The ink that lies on a sheet already, and what it costs to put more there.  Units: paper mm, y down."""

from __future__ import annotations

from collections.abc import Iterable

from planbuild.derive.dimension_lines import Ink
from planbuild.records.drawing import Pen, Text
from planbuild.records.legibility import PaperBox, Segment, crosses, overlap, segments, text_box

TEXT_GAP = 0.5
"""Kept free around a figure."""
_CLASH, _CROSSING, _OVER_LINE, _BEYOND = 1000.0, 12.0, 4.0, 300.0
_DIMENSION_LINES = (Pen.DIMENSION, Pen.LEADER)


class Paper:
    """Grows as ink is added; `cost` judges ink before it is added."""

    def __init__(self, limits: tuple[float, float] | None = None) -> None:
        """`limits` are the left and right edge of the page, if the view must keep within them."""
        self._limits = limits
        self._texts: list[PaperBox] = []
        self._lines: list[Segment] = []
        self._thin: list[Segment] = []
        """Dimension, extension and leader lines: crossing one is ugly, lying along one is a chain."""

    def add(self, ink: Ink) -> None:
        self._texts += [text_box(text) for text in ink.texts]
        for stroke in ink.strokes:
            lines = list(segments(stroke.path))
            self._lines += lines
            if stroke.pen in _DIMENSION_LINES:
                self._thin += lines
        self._lines += [each for cover in ink.covers for each in segments(cover.path)]

    def keep_free(self, box: PaperBox) -> None:
        """No text may come here."""
        self._texts.append(box)

    def clashes(self, ink: Ink) -> int:
        """How many texts would not be free: those of the ink itself and those it would run over."""
        lines = [each for stroke in ink.strokes for each in segments(stroke.path)]
        lines += [each for cover in ink.covers for each in segments(cover.path)]
        own = sum(self._is_taken(text) for text in ink.texts)
        return own + sum(any(crosses(line, box) for line in lines) for box in self._texts)

    def _is_taken(self, text: Text) -> bool:
        return self.is_taken(grown(text_box(text), TEXT_GAP / 2))

    def is_taken(self, box: PaperBox) -> bool:
        """True if the box meets a text or a line."""
        return any(overlap(box, other) for other in self._texts) or any(crosses(line, box) for line in self._lines)

    def cost(self, ink: Ink) -> float:
        """Texts that clash weigh most, crossings of thin lines less."""
        thin = [each for stroke in ink.strokes if stroke.pen in _DIMENSION_LINES for each in segments(stroke.path)]
        crossings = sum(_crossing(one, other) for one in thin for other in self._thin)
        leaders = [each for stroke in ink.strokes if stroke.pen is Pen.LEADER for each in segments(stroke.path)]
        over = sum(_crossing(one, other) for one in leaders for other in self._lines)
        return _CLASH * self.clashes(ink) + _CROSSING * crossings + _OVER_LINE * over + self._beyond(ink)

    def _beyond(self, ink: Ink) -> float:
        """Text that would run off the page."""
        if self._limits is None:
            return 0.0
        boxes = [text_box(text) for text in ink.texts]
        return _BEYOND * sum(box[0] < self._limits[0] or box[2] > self._limits[1] for box in boxes)


def grown(box: PaperBox, by: float) -> PaperBox:
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by


def around(boxes: Iterable[PaperBox]) -> PaperBox:
    """The smallest box around boxes; there must be at least one."""
    found = list(boxes)
    return (
        min(box[0] for box in found),
        min(box[1] for box in found),
        max(box[2] for box in found),
        max(box[3] for box in found),
    )


def _crossing(one: Segment, other: Segment) -> bool:
    """True if two segments cross between their ends (orientation test, touching not counted)."""
    a, b = one
    c, d = other
    return _turn(a, b, c) * _turn(a, b, d) < -1e-6 and _turn(c, d, a) * _turn(c, d, b) < -1e-6


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
