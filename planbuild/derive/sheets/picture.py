"""A small picture of the part, and of both hands where some copies are mirrored."""

from __future__ import annotations

from dataclasses import dataclass

import cadquery as cq

from planbuild.core.lettering import text_width
from planbuild.derive.dimension_lines import Ink
from planbuild.derive.paint import BOLD, WOOD, centred, fills, scale_to_fit, strokes
from planbuild.derive.sheets.block import Block
from planbuild.derive.views import project
from planbuild.derive.views.view import Body, View, pictorial
from planbuild.records.drawing import Text, TextRole
from planbuild.records.findings import Findings
from planbuild.records.legibility import PaperBox
from planbuild.records.piece import Part
from planbuild.records.solids import Solids

_TURN, _TILT = 35.0, 25.0
_LETTERING, _LEADING, _GAP, _BELOW = 2.5, 4.0, 6.0, 2.5


@dataclass(frozen=True)
class Hand:
    """One hand of a part: a view of a copy of it and what is said below."""

    view: View
    lines: tuple[str, ...]

    @property
    def ratio(self) -> float:
        """Width over height."""
        low_u, low_v, high_u, high_v = self.view.box
        return (high_u - low_u) / (high_v - low_v)


def hands_of(part: Part, solids: Solids, findings: Findings) -> tuple[Hand, ...]:
    """The part as drawn, and mirrored if some copies are."""
    alike = findings.alike(part.id)
    groups = (("as drawn", alike.as_drawn), ("mirrored", alike.mirrored)) if alike.mirrored else (("", alike.as_drawn),)
    return tuple(_hand(part, solids, word, copies) for word, copies in groups)


def _hand(part: Part, solids: Solids, word: str, copies: tuple[int, ...]) -> Hand:
    """A mirrored one is drawn from its own copy, so that it stands as it will stand."""
    first = copies[0] if word == "mirrored" else 0
    shape = solids.of[part.id].cut if first == 0 else cq.Shape.cast(solids.placed[(part.id, first)].wrapped)
    view = project([Body((part.id, first), shape)], pictorial(_TURN, _TILT))
    names = [part.copies[i].hand for i in copies] if word else []
    return Hand(view, tuple(each for each in (word, *names) if each))


def has_room(hands: tuple[Hand, ...], width: float, height: float) -> bool:
    """True if the hands can be shown there, large enough and with their words below them."""
    words = max((text_width(line, _LETTERING) for hand in hands for line in hand.lines), default=0.0)
    each, tall = _room_of_one(hands, width, height)
    return min(each, tall) >= _LEAST and words <= each


def _room_of_one(hands: tuple[Hand, ...], width: float, height: float) -> tuple[float, float]:
    labels = max(len(hand.lines) for hand in hands)
    return (width - _GAP * (len(hands) - 1)) / len(hands), height - _LEADING * labels - _BELOW


def picture(hands: tuple[Hand, ...], width: float, height: float, largest: float) -> Block | None:
    """The hands side by side in a room of the paper, no larger than at scale `largest`; None if they would be too small."""
    if not has_room(hands, width, height):
        return None
    each, tall = _room_of_one(hands, width, height)
    scale = min(largest, *(scale_to_fit(hand.view.box, each, tall) for hand in hands))
    blocks = [_drawn(hand, (i * (each + _GAP), 0.0, i * (each + _GAP) + each, tall), scale) for i, hand in enumerate(hands)]
    whole = blocks[0]
    for block in blocks[1:]:
        whole = whole.plus(block)
    return whole


_LEAST = 14.0


def _drawn(hand: Hand, room: PaperBox, scale: float) -> Block:
    frame = centred(hand.view.box, room, scale)
    middle = (room[0] + room[2]) / 2
    base = frame.y - scale * hand.view.box[1] + 1.5 + _LETTERING
    texts = tuple(Text(line, (middle, base + _LEADING * row), _LETTERING, TextRole.NOTE) for row, line in enumerate(hand.lines))
    ink = Ink(strokes(hand.view, frame, lambda key: BOLD), (), texts)
    return Block(ink, fills(hand.view, frame, lambda key, normal: WOOD), room)
