"""One view of a sheet complete: lines, dimensions, leaders, signs, title.  Units: paper mm, y down."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from planbuild.core.lettering import text_width
from planbuild.derive.dimension_lines import Ink
from planbuild.derive.dimensions.layout import Side, arrange
from planbuild.derive.dimensions.notes import place_note
from planbuild.derive.dimensions.paper import Paper, around
from planbuild.derive.sheets.block import Block
from planbuild.derive.sheets.lie import Lie
from planbuild.derive.sheets.pane import Pane
from planbuild.derive.sheets.plan import Kind, Plan
from planbuild.derive.sheets.scales import scale_text
from planbuild.derive.sheets.signs import centre_lines, face_marks, grain_arrow, mate_marks, section_trace
from planbuild.derive.sheets.titles import title_of
from planbuild.derive.sheets.wanted import notes_of, wanted_of
from planbuild.records.drawing import Anchor, Text, TextRole
from planbuild.records.legibility import path_box, text_box
from planbuild.records.piece import Part, Piece

TITLE, SAID = 3.0, 2.5
_TITLE_GAP, _TITLE_LEADING = 2.5, 4.2
_LEFT = 7.0
"""Room left of a long view for arrows that stand outside."""


@dataclass(frozen=True)
class Work:
    """What all views of one sheet share."""

    piece: Piece
    part: Part
    lie: Lie
    plan: Plan
    texts: Mapping[str, str]


def draw_view(
    work: Work, pane: Pane, scale: Fraction, outer: Side = Side.BELOW, own_scale: bool = True, width: float | None = None
) -> Block:
    """A view with all that belongs to it.  `own_scale` prints its scale in its title; `width` is that of the page."""
    paper, plan = Paper((-_LEFT, width - _LEFT) if width else None), pane.seen.plan
    ink = pane.ink().plus(centre_lines(work.part, pane)).plus(_traces(work, pane, outer))
    paper.add(ink)
    ink = ink.plus(arrange(wanted_of(work.part, work.lie, pane, work.texts, outer), pane.box, paper))
    if plan.id == _face_marked(work.plan):
        ink = ink.plus(face_marks(work.part, pane, paper))
    for lines, tip in notes_of(pane, work.texts, outer):
        ink = ink.plus(place_note(lines, tip, pane.box, paper))
    ink = ink.plus(_signs(work, pane, paper))
    name, said = title_of(work.piece, work.part, work.lie, plan)
    said = ", ".join(each for each in (said, scale_text(scale) if own_scale else "") if each)
    return Block(ink.plus(_title(name, said, ink, plan.kind)), pane.fills(), pane.box)


def _traces(work: Work, pane: Pane, outer: Side) -> Ink:
    """Where the sections of this sheet are cut, on the first long view."""
    ink = Ink()
    if pane.seen.plan.kind is Kind.LONG and pane.seen.plan.face is work.lie.main:
        for each in work.plan.views:
            if each.letter:
                ink = ink.plus(section_trace(pane, each.letter, each.station, each.face, outer is Side.ABOVE))
    return ink


def _signs(work: Work, pane: Pane, paper: Paper) -> Ink:
    """Marks of neighbours and the grain, on long views."""
    plan = pane.seen.plan
    if plan.kind is not Kind.LONG:
        return Ink()
    ink = mate_marks(work.piece, work.part, pane, paper)
    return ink.plus(grain_arrow(work.part, pane, paper)) if plan.face is work.lie.main else ink


def _face_marked(plan: Plan) -> str:
    """The view that carries the face marks: one that shows all four long faces as lines, an end rather than a section."""
    found = [each for each in plan.views if each.kind is Kind.END] + [each for each in plan.views if each.letter]
    return found[0].id if found else ""


def _title(name: str, said: str, ink: Ink, kind: Kind) -> Ink:
    """Above all the ink of a view, at its left; of a small view on two lines."""
    boxes = [path_box(each.path) for each in (*ink.strokes,)] + [path_box(each.path) for each in ink.covers]
    left, top, _, _ = around([*boxes, *(text_box(text) for text in ink.texts)])
    base = top - _TITLE_GAP
    if not said:
        return Ink(texts=(Text(name, (left, base), TITLE, TextRole.TITLE, Anchor.START, 0.0, True),))
    level = kind is Kind.LONG
    after = (left + text_width(name, TITLE, bold=True) + 2.5, base) if level else (left, base)
    spot = (left, base if level else base - _TITLE_LEADING)
    return Ink(
        texts=(
            Text(name, spot, TITLE, TextRole.TITLE, Anchor.START, 0.0, True),
            Text(said, after, SAID, TextRole.NOTE, Anchor.START),
        )
    )
