"""Parts at a glance: the piece moved apart along the directions in which it goes together, each kind of part marked.

Of a piece of many parts the blocks are shown whole and named, and each kind of block has a picture of its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from planbuild.core.geometry import Box, Vec
from planbuild.derive.paint import BOLD, Frame, fills, strokes
from planbuild.derive.pictures.apart import bodies_apart, bought_along
from planbuild.derive.pictures.compose import Written, composed
from planbuild.derive.pictures.explosion import Link
from planbuild.derive.pictures.guides import guide_strokes
from planbuild.derive.pictures.labels import Site
from planbuild.derive.pictures.marks import drawn, marked, sites
from planbuild.derive.pictures.shares import most_seen
from planbuild.derive.pictures.spread import spread
from planbuild.derive.pictures.studio import USUAL, Studio
from planbuild.derive.pictures.together import Together, boxes_of, heads, kept_together, links_of
from planbuild.derive.pictures.tones import woods
from planbuild.derive.views.view import View
from planbuild.records import rooms
from planbuild.records.drawing import Drawing, Point, Text, TextRole
from planbuild.records.findings import Proof
from planbuild.records.legibility import PaperBox
from planbuild.records.piece import Part
from planbuild.records.solids import Key

_LETTERS = 2.5
_CAPTION, _BELOW = 4.5, 1.0
"""From the foot of a picture of a block to the base line of its name, and the room under that."""


@dataclass(frozen=True)
class _Apart:
    """What one picture shows: the boxes that are moved, the links between them, whom each key goes with."""

    id: str
    boxes: Mapping[Key, Box]
    links: Sequence[Link]
    keys: Sequence[Key]
    parts: Sequence[Part]
    head: Mapping[Key, Key]
    named: Sequence[Together] = ()
    caption: str = ""


def moved_apart(studio: Studio) -> Iterator[Drawing]:
    """The whole piece, and each kind of block that is one in it."""
    piece = studio.piece
    groups = kept_together(piece, studio.links)
    shown: dict[str, float] = {}
    yield _drawn(studio, _whole(studio, groups), *rooms.exploded(studio.edition, len(piece.parts), len(groups)), shown)
    for each in groups:
        yield _drawn(studio, _of_a_block(studio, each), *rooms.exploded_block(studio.edition, len(groups)), shown)
    least = min(shown, key=lambda id: shown[id])
    worst = f"least: {piece.part(least).mark} {piece.part(least).name}, {100 * shown[least]:.0f} % of one copy is seen"
    studio.proofs.append(Proof("Every kind of part is seen where the piece is moved apart", len(shown), worst))


def _whole(studio: Studio, groups: Sequence[Together]) -> _Apart:
    head = heads(groups)
    boxes = boxes_of(studio.boxes, head)
    within = {key[0] for key in head}
    parts = [part for part in studio.piece.parts if part.id not in within]
    return _Apart("exploded", boxes, links_of(studio.links, groups, boxes), list(studio.boxes), parts, head, groups)


def _of_a_block(studio: Studio, group: Together) -> _Apart:
    """The first copy of a block by itself."""
    keys, count = group.copies[0], len(group.copies)
    boxes = {key: studio.boxes[key] for key in keys}
    links = [link for link in studio.links if link.moving in boxes and link.mate in boxes]
    parts = [studio.piece.part(id) for id in dict.fromkeys(key[0] for key in keys)]
    name = group.block.name
    caption = name[:1].upper() + name[1:] + (f", one of {count}" if count > 1 else "")
    return _Apart(f"exploded.{group.block.id}", boxes, links, keys, parts, {}, (), caption)


def _drawn(studio: Studio, what: _Apart, width: float, height: float, shown: dict[str, float]) -> Drawing:
    """All that the picture shows, as large as the paper allows; `shown` is told how much of each part marked here is seen.

    Units: paper mm.
    """
    piece = studio.piece
    by_head = spread(what.boxes, what.links, USUAL, width, height)
    moved: dict[Key, Vec] = {key: by_head[what.head.get(key, key)] for key in what.keys}
    bodies = [*bodies_apart(studio, what.keys, moved), *bought_along(studio, moved)]
    view = studio.see(what.id, bodies, USUAL)
    shown.update(most_seen(view, bodies, [part.id for part in what.parts]))
    foot = _CAPTION + _BELOW if what.caption else 0.0

    def write(frame: Frame, room: PaperBox) -> Written:
        places = sites(studio, view, frame, [part.id for part in what.parts])
        places += [_named(studio, view, frame, each) for each in what.named]
        return marked(places, drawn(view, frame), room)

    made = composed(view.box, width, height - foot, write)
    ink, frame = made.written.ink, made.frame
    return Drawing(
        what.id,
        width,
        made.tall + foot,
        fills(view, frame, woods(piece)),
        (*guide_strokes(view, frame, what.links, what.boxes, by_head), *strokes(view, frame, lambda key: BOLD), *ink.strokes),
        ink.covers,
        made.written.rims,
        (*ink.texts, *_captions(what.caption, (width / 2, made.tall + _CAPTION))),
        _alt(studio, what),
    )


def _named(studio: Studio, view: View, frame: Frame, group: Together) -> Site:
    """The name of a block, led to what is seen of each copy."""
    copies = [sites(studio, view, frame, list(dict.fromkeys(key[0] for key in copy)), copy) for copy in group.copies]
    faces = (tuple(face for site in found for one in site.copies for face in one) for found in copies)
    return Site(group.block.name, group.block.id, tuple(each for each in faces if each))


def _captions(caption: str, at: Point) -> tuple[Text, ...]:
    return (Text(caption, at, _LETTERS, TextRole.TITLE),) if caption else ()


def _alt(studio: Studio, what: _Apart) -> str:
    names = [f"{part.mark} {part.name}" for part in what.parts] + [each.block.name for each in what.named]
    whole = what.caption.lower() or studio.piece.imprint.title.lower()
    return f"The parts of the {whole} moved apart the way they go together: {', '.join(names)}."
