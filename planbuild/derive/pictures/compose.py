"""A view put on paper as large as it goes with its marks and arrows around it, and no more paper than all that takes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from planbuild.derive.dimension_lines import Ink
from planbuild.derive.paint import Frame, ViewBox, centred, scale_to_fit
from planbuild.derive.pictures.ink_boxes import ink_box, moved_ink, moved_strokes
from planbuild.records.drawing import Stroke
from planbuild.records.legibility import PaperBox

_SHARES = (1.0, 0.95, 0.9, 0.85, 0.8, 0.74, 0.68)
"""Of the largest scale that fits; tried in this order until everything around the picture finds a place."""
_RIM = 0.8
_SMALLER = 40.0
"""A picture half the size is as bad as leaders that are half this (mm) too long."""
_EDGE = 0.6


@dataclass(frozen=True)
class Written:
    """What is written around a picture, the rims painted last, and what is wrong with the places it found (0: nothing)."""

    ink: Ink
    rims: tuple[Stroke, ...]
    flaws: float


@dataclass(frozen=True)
class Composed:
    """Where the view lies, how high the drawing is, and what is written on it."""

    frame: Frame
    tall: float
    written: Written


Write = Callable[[Frame, PaperBox], Written]


def composed(box: ViewBox, width: float, height: float, write: Write, largest: float = 1e9) -> Composed:
    """The view with this box in the given room, `write` asked what goes around it; `largest` limits the scale."""
    room: PaperBox = (0.0, 0.0, width, height)
    best: tuple[float, Frame, Written] | None = None
    whole = min(scale_to_fit(box, width - 2 * _RIM, height - 2 * _RIM), largest)
    for scale in dict.fromkeys(share * whole for share in _SHARES):
        smaller = _SMALLER * (1 - scale / whole)
        if best is not None and best[0] <= smaller:
            break
        frame = centred(box, room, scale)
        written = write(frame, room)
        bad = round(written.flaws + smaller, 3)
        if best is None or bad < best[0]:
            best = bad, frame, written
    assert best is not None
    return _trimmed(box, *best[1:])


def _trimmed(box: ViewBox, frame: Frame, written: Written) -> Composed:
    """Without the empty paper above and below."""
    (left, bottom), (right, top) = frame.point((box[0], box[1])), frame.point((box[2], box[3]))
    every = Ink(written.ink.strokes + written.rims, written.ink.covers, written.ink.texts)
    _, high, _, low = ink_box(every, [(left, top, right, bottom)])
    up = _EDGE - high
    moved = Written(moved_ink(written.ink, (0.0, up)), moved_strokes(written.rims, (0.0, up)), written.flaws)
    return Composed(Frame(frame.scale, frame.x, frame.y + up), low - high + 2 * _EDGE, moved)
