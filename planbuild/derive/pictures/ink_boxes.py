"""How much paper a picture takes up with all that is written around it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planbuild.derive.dimension_lines import Ink
from planbuild.records.drawing import Fill, Path, Point, Step, Stroke
from planbuild.records.legibility import PaperBox, text_box


def ink_box(ink: Ink, boxes: Sequence[PaperBox] = ()) -> PaperBox:
    """The smallest box around strokes, arrowheads, texts and the boxes given (at least one of all)."""
    paths = [stroke.path for stroke in ink.strokes] + [fill.path for fill in ink.covers]
    points = [p for path in paths for step in path for p in step.points]
    every = [*boxes, *(text_box(text) for text in ink.texts), *((x, y, x, y) for x, y in points)]
    lefts, tops, rights, bottoms = zip(*every, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def moved_ink(ink: Ink, by: Point) -> Ink:
    """The same ink elsewhere on the paper."""
    covers = tuple(Fill(fill.tint, _moved(fill.path, by)) for fill in ink.covers)
    texts = tuple(replace(text, at=(text.at[0] + by[0], text.at[1] + by[1])) for text in ink.texts)
    return Ink(moved_strokes(ink.strokes, by), covers, texts)


def moved_strokes(strokes: Sequence[Stroke], by: Point) -> tuple[Stroke, ...]:
    return tuple(Stroke(stroke.pen, _moved(stroke.path, by)) for stroke in strokes)


def _moved(path: Path, by: Point) -> Path:
    return tuple(Step(step.verb, tuple((x + by[0], y + by[1]) for x, y in step.points)) for step in path)
