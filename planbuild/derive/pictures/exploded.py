"""Parts at a glance: the piece moved apart along the directions in which it goes together, each kind of part marked."""

from __future__ import annotations

from planbuild.derive.paint import BOLD, Frame, ViewBox, centred, fills, scale_to_fit, strokes
from planbuild.derive.pictures.explosion import links, standing
from planbuild.derive.pictures.guides import guide_strokes
from planbuild.derive.pictures.labels import RADIUS, place
from planbuild.derive.pictures.marks import drawn, mark_ink, sites
from planbuild.derive.pictures.spread import spread
from planbuild.derive.pictures.studio import USUAL, Studio
from planbuild.derive.pictures.tones import wood_of
from planbuild.records.drawing import Drawing

_RIM = 2 * RADIUS + 3.0
"""Paper kept free around the picture for marks, mm."""


def exploded(studio: Studio, width: float, height: float) -> Drawing:
    """Every part of the piece, moved apart, as large as the paper allows.  Units: paper mm."""
    piece = studio.piece
    found = links(piece)
    moved = spread(standing(piece), found, USUAL, width, height - 2 * _RIM)
    view = studio.see("exploded", studio.bodies(standing(piece), moved), USUAL)
    frame, tall = _frame(view.box, width, height)
    labels = place(sites(studio, view, frame, [part.id for part in piece.parts]), drawn(view, frame), (0.0, 0.0, width, tall))
    ink, rims = mark_ink(labels)
    return Drawing(
        "exploded",
        width,
        tall,
        fills(view, frame, lambda key, normal: wood_of(piece, key)),
        (*guide_strokes(view, frame, found, standing(piece), moved), *strokes(view, frame, lambda key: BOLD), *ink.strokes),
        ink.covers,
        rims,
        ink.texts,
        _alt(studio),
    )


def _frame(box: ViewBox, width: float, height: float) -> tuple[Frame, float]:
    """The picture across the whole width, with a rim above and below for marks."""
    scale = scale_to_fit(box, width - 1.0, height - 2 * _RIM)
    tall = scale * (box[3] - box[1]) + 2 * _RIM
    return centred(box, (0.0, 0.0, width, tall), scale), tall


def _alt(studio: Studio) -> str:
    names = ", ".join(f"{part.mark} {part.name}" for part in studio.piece.parts)
    return f"The parts of the {studio.piece.imprint.title.lower()} moved apart the way they go together: {names}."
