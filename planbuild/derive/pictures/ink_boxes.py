"""How much paper a picture takes up with all that is written around it."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.derive.dimension_lines import Ink
from planbuild.derive.text_boxes import PaperBox, text_box


def ink_box(ink: Ink, boxes: Sequence[PaperBox] = ()) -> PaperBox:
    """The smallest box around strokes, arrowheads, texts and the boxes given (at least one of all)."""
    paths = [stroke.path for stroke in ink.strokes] + [fill.path for fill in ink.covers]
    points = [p for path in paths for step in path for p in step.points]
    every = [*boxes, *(text_box(text) for text in ink.texts), *((x, y, x, y) for x, y in points)]
    lefts, tops, rights, bottoms = zip(*every, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)
