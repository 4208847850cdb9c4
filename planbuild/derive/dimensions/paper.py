"""The ink that lies on a sheet already, and what it costs to put more there.  Units: paper mm, y down."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from planbuild.derive.dimension_lines import Ink
from planbuild.records.drawing import Pen, Stroke, Text
from planbuild.records.legibility import PaperBox, Segment, segments, text_box

Lines = np.ndarray
"""Segments as rows of x, y, to_x, to_y; n x 4."""
Boxes = np.ndarray
"""Boxes as rows of left, top, right, bottom; n x 4."""

TEXT_GAP = 0.5
"""Kept free around a figure."""
_CLASH, _CROSSING, _OVER_LINE, _BEYOND = 1000.0, 12.0, 4.0, 100.0
_DIMENSION_LINES = (Pen.DIMENSION, Pen.LEADER)


class Paper:
    """Grows as ink is added; `cost` judges ink before it is added."""

    def __init__(self, limits: tuple[float, float] | None = None) -> None:
        """`limits` are the left and right edge of the page, if the view must keep within them."""
        self._limits = limits
        self._texts: Boxes = np.empty((0, 4))
        self._lines: Lines = np.empty((0, 4))
        self._thin: Lines = np.empty((0, 4))
        """Dimension, extension and leader lines: crossing one is ugly, lying along one is a chain."""

    def add(self, ink: Ink) -> None:
        self._texts = np.vstack([self._texts, *(text_box(text) for text in ink.texts)])
        self._lines = np.vstack([self._lines, _lines_of(ink)])
        self._thin = np.vstack([self._thin, _rows(stroke for stroke in ink.strokes if stroke.pen in _DIMENSION_LINES)])

    def keep_free(self, box: PaperBox) -> None:
        """No text may come here."""
        self._texts = np.vstack([self._texts, box])

    def clashes(self, ink: Ink) -> int:
        """How many texts would not be free: those of the ink itself and those it would run over."""
        own = sum(self._is_taken(text) for text in ink.texts)
        return own + int(_entered(_lines_of(ink), self._texts).sum())

    def _is_taken(self, text: Text) -> bool:
        return self.is_taken(grown(text_box(text), TEXT_GAP / 2))

    def is_taken(self, box: PaperBox) -> bool:
        """True if the box meets a text or a line."""
        t, mine = self._texts, np.array([box])
        over = (box[0] < t[:, 2]) & (t[:, 0] < box[2]) & (box[1] < t[:, 3]) & (t[:, 1] < box[3])
        return bool(over.any()) or bool(_entered(self._lines, mine).any())

    def cost(self, ink: Ink) -> float:
        """Texts that clash weigh most, crossings of thin lines less."""
        thin = _rows(stroke for stroke in ink.strokes if stroke.pen in _DIMENSION_LINES)
        leaders = _rows(stroke for stroke in ink.strokes if stroke.pen is Pen.LEADER)
        crossings, over = _crossings(thin, self._thin), _crossings(leaders, self._lines)
        return _CLASH * self.clashes(ink) + _CROSSING * crossings + _OVER_LINE * over + self._beyond(ink)

    def best(self, options: Iterable[tuple[Ink, float]]) -> tuple[Ink, float]:
        """The cheapest of several inks and its cost, each given with what it costs anyway; the first of equals."""
        found: tuple[Ink, float] | None = None
        for ink, least in sorted(options, key=lambda option: option[1]):
            if found is not None and least >= found[1]:
                break
            cost = least + self.cost(ink)
            if found is None or cost < found[1]:
                found = ink, cost
        assert found is not None
        return found

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


def _rows(strokes: Iterable[Stroke]) -> Lines:
    return _array([each for stroke in strokes for each in segments(stroke.path)])


def _lines_of(ink: Ink) -> Lines:
    """All the strokes of the ink (but hatching, which lies in wood) and the outlines of its arrowheads."""
    strokes = [stroke.path for stroke in ink.strokes if stroke.pen is not Pen.HATCH]
    paths = [*strokes, *(cover.path for cover in ink.covers)]
    return _array([each for path in paths for each in segments(path)])


def _array(lines: Sequence[Segment]) -> Lines:
    return np.array(lines, dtype=float).reshape(-1, 4)


def _entered(lines: Lines, boxes: Boxes) -> np.ndarray:
    """For each box whether one of the segments enters it: `legibility.crosses` for many at once (Liang and Barsky)."""
    shape = (len(lines), len(boxes))
    begin, end = np.zeros(shape), np.ones(shape)
    for axis in (0, 1):
        start, way = lines[:, axis, None], (lines[:, axis + 2] - lines[:, axis])[:, None]
        low, high = boxes[None, :, axis], boxes[None, :, axis + 2]
        still = np.abs(way) < 1e-9
        pace = np.where(still, 1.0, way)
        one, other = (low - start) / pace, (high - start) / pace
        begin = np.maximum(begin, np.where(still, 0.0, np.minimum(one, other)))
        end = np.minimum(end, np.where(still, np.where((low < start) & (start < high), 1.0, -1.0), np.maximum(one, other)))
    return np.asarray((begin < end).any(axis=0))


def _crossings(some: Lines, others: Lines) -> int:
    """Pairs of segments that cross between their ends (orientation test, touching not counted)."""
    if not len(some) or not len(others):
        return 0
    a, b = some[:, None, :2], some[:, None, 2:]
    c, d = others[None, :, :2], others[None, :, 2:]
    apart = _turn(a, b, c) * _turn(a, b, d) < -1e-6
    return int((apart & (_turn(c, d, a) * _turn(c, d, b) < -1e-6)).sum())


def _turn(a: np.ndarray, b: np.ndarray, c: np.ndarray) -> np.ndarray:
    turned: np.ndarray = (b[..., 0] - a[..., 0]) * (c[..., 1] - a[..., 1]) - (b[..., 1] - a[..., 1]) * (c[..., 0] - a[..., 0])
    return turned
