"""How much paper a picture takes up with all that is written around it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planbuild.derive.dimension_lines import Ink
from planbuild.records.drawing import Fill, Path, Step, Stroke
from planbuild.records.legibility import PaperBox, text_box


def ink_box(ink: Ink, boxes: Sequence[PaperBox] = ()) -> PaperBox:
    """The smallest box around strokes, arrowheads, texts and the boxes given (at least one of all)."""
    paths = [stroke.path for stroke in ink.strokes] + [fill.path for fill in ink.covers]
    points = [p for path in paths for step in path for p in step.points]
    every = [*boxes, *(text_box(text) for text in ink.texts), *((x, y, x, y) for x, y in points)]
    lefts, tops, rights, bottoms = zip(*every, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def moved_ink(ink: Ink, down: float) -> Ink:
    """The same ink further down the paper."""
    covers = tuple(Fill(fill.tint, _moved(fill.path, down)) for fill in ink.covers)
    texts = tuple(replace(text, at=(text.at[0], text.at[1] + down)) for text in ink.texts)
    return Ink(moved_strokes(ink.strokes, down), covers, texts)


def moved_strokes(strokes: Sequence[Stroke], down: float) -> tuple[Stroke, ...]:
    return tuple(Stroke(stroke.pen, _moved(stroke.path, down)) for stroke in strokes)


def _moved(path: Path, down: float) -> Path:
    return tuple(Step(step.verb, tuple((x, y + down) for x, y in step.points)) for step in path)
