"""The paper that a line of lettering takes up, so that nothing is put on top of it."""

from __future__ import annotations

from planbuild.core.lettering import text_width
from planbuild.records.drawing import Anchor, Text

PaperBox = tuple[float, float, float, float]
"""Left, top, right, bottom in paper mm (y down)."""

_BELOW = 0.3
"""How far figures hang below the base line, as a share of the capital height (denominators, tails of letters)."""


def text_box(text: Text) -> PaperBox:
    """The box around a text that runs level (angle 0) or upward (angle 90)."""
    width, above, below = text_width(text.text, text.height, text.bold), text.height, _BELOW * text.height
    back = {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[text.anchor]
    x, y = text.at
    if text.angle == 90:
        return x - above, y + back - width, x + below, y + back
    return x - back, y - above, x - back + width, y + below


def overlap(a: PaperBox, b: PaperBox, gap: float = 0.0) -> bool:
    """True if the boxes come nearer to each other than `gap`."""
    return a[0] < b[2] + gap and b[0] < a[2] + gap and a[1] < b[3] + gap and b[1] < a[3] + gap
