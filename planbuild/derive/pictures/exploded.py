"""Parts at a glance: the piece moved apart along the directions in which it goes together, each kind of part marked."""

from __future__ import annotations

from planbuild.derive.paint import BOLD, Frame, fills, strokes
from planbuild.derive.pictures.apart import bodies_apart, bought_along
from planbuild.derive.pictures.compose import Written, composed
from planbuild.derive.pictures.guides import guide_strokes
from planbuild.derive.pictures.marks import drawn, marked, sites
from planbuild.derive.pictures.spread import spread
from planbuild.derive.pictures.studio import USUAL, Studio
from planbuild.derive.pictures.tones import woods
from planbuild.records.drawing import Drawing
from planbuild.records.legibility import PaperBox


def exploded(studio: Studio, width: float, height: float) -> Drawing:
    """Every part of the piece, moved apart, as large as the paper allows.  Units: paper mm."""
    piece = studio.piece
    found, boxes = studio.links, studio.boxes
    moved = spread(boxes, found, USUAL, width, height)
    view = studio.see("exploded", [*bodies_apart(studio, boxes, moved), *bought_along(studio, moved)], USUAL)

    def write(frame: Frame, room: PaperBox) -> Written:
        return marked(sites(studio, view, frame, [part.id for part in piece.parts]), drawn(view, frame), room)

    made = composed(view.box, width, height, write)
    ink, frame = made.written.ink, made.frame
    return Drawing(
        "exploded",
        width,
        made.tall,
        fills(view, frame, woods(piece)),
        (*guide_strokes(view, frame, found, boxes, moved), *strokes(view, frame, lambda key: BOLD), *ink.strokes),
        ink.covers,
        made.written.rims,
        ink.texts,
        _alt(studio),
    )


def _alt(studio: Studio) -> str:
    names = ", ".join(f"{part.mark} {part.name}" for part in studio.piece.parts)
    return f"The parts of the {studio.piece.imprint.title.lower()} moved apart the way they go together: {names}."
