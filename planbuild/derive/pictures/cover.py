"""The finished piece as a maker will see it: no marks, nothing but wood, hardware and light."""

from __future__ import annotations

from planbuild.derive.paint import BOLD, centred, fills, scale_to_fit, strokes
from planbuild.derive.pictures.studio import USUAL, Studio, keys_of
from planbuild.derive.pictures.tones import woods
from planbuild.records.drawing import Drawing

_EDGE = 0.5
"""Half a heavy line and a little air at the rim of a drawing, mm."""


def cover(studio: Studio, width: float, height: float) -> Drawing:
    """The whole piece, as large as the paper allows.  Units: paper mm."""
    view = studio.see("cover", studio.bodies([*keys_of(studio.piece), *studio.bought]), USUAL)
    scale = scale_to_fit(view.box, width - 2 * _EDGE, height - 2 * _EDGE)
    tall = scale * (view.box[3] - view.box[1]) + 2 * _EDGE
    frame = centred(view.box, (0, 0, width, tall), scale)
    return Drawing(
        "cover",
        width,
        tall,
        fills(view, frame, woods(studio.piece)),
        strokes(view, frame, lambda key: BOLD),
        (),
        (),
        (),
        f"The finished {studio.piece.imprint.title.lower()}, seen from the left front and a little above.",
    )
