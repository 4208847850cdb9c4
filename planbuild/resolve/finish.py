"""The coatings in use: where each goes, what stays bare, what is finished before the glue-up."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from planbuild.core.geometry import Axis, Face
from planbuild.core.spelling import did_you_mean
from planbuild.joints.base import Board
from planbuild.records.design import CoatingSaid, Design, FinishSaid, Said
from planbuild.records.piece import Coating
from planbuild.resolve.amounts import COVERAGE, TIMES, amount, amount_said
from planbuild.resolve.sayings import Sayings, tried

MOST_COATS = 30
"""More than any finish is built up of; the days to dry are added up over them (a choice of ours)."""

Surface = tuple[str, Face | None]
"""A part, or one face of it."""


def coatings(design: Design, boards: Mapping[str, Board], middle: Mapping[Axis, float], sayings: Sayings) -> tuple[Coating, ...]:
    """The coatings that are put on something, in the order of `finishes`.  Reports `finish-unknown`, `finish-part`, ..."""
    finish = design.finish
    if finish is None:
        return ()
    surfaces = _Surfaces(design, boards, middle, sayings)
    everywhere = _name(finish.everywhere, design, sayings) if finish.everywhere else None
    bare, own = _exceptions(finish, design, surfaces)
    early = tuple(surface for said in finish.before_gluing for surface in surfaces.of(said.text, said))
    found = []
    for id, said in design.finishes.items():
        coating = tried(_coating, id, said, sayings)
        on = tuple(surface for surface, name in own if name == id)
        if coating and id == everywhere:
            elsewhere = tuple(surface for surface, name in own if name != id)
            first = tuple(surface for surface in early if surface not in elsewhere)
            found.append(replace(coating, everywhere=True, before_gluing=first, bare=bare))
        elif coating and on:
            found.append(replace(coating, on=on, before_gluing=tuple(surface for surface in early if surface in on)))
    return tuple(found)


def _coating(id: str, said: CoatingSaid, sayings: Sayings) -> Coating:
    """A coating as it is described, not yet put on anything."""
    covers = amount(said.covers, COVERAGE, "coverage", sayings) if said.covers else None
    coats = sayings.count(said.coats, most=MOST_COATS) if said.coats else 1
    dries, cures = (_time(each, sayings) for each in (said.dries, said.cures))
    sheen = said.sheen.text if said.sheen else ""
    return Coating(id, said.product.text, coats, sheen, dries, cures, covers, everywhere=False, before_gluing=())


def _time(said: Said | None, sayings: Sayings) -> str:
    """A time as it is printed, once it is known to be one."""
    if said is None:
        return ""
    amount_said(said, TIMES, "time", sayings)
    return said.text


def _name(said: Said, design: Design, sayings: Sayings) -> str | None:
    if said.text in design.finishes:
        return said.text
    expected = f"one of: {', '.join(design.finishes) or 'none is described under finishes'}"
    sayings.refuse("finish-unknown", said, f'No finish "{said.text}".', expected, did_you_mean(said.text, design.finishes))
    return None


def _exceptions(
    finish: FinishSaid, design: Design, surfaces: _Surfaces
) -> tuple[tuple[str, ...], tuple[tuple[Surface, str], ...]]:
    """Parts left bare, and surfaces with a coating of their own."""
    bare: list[str] = []
    own: list[tuple[Surface, str]] = []
    for place, said in finish.exceptions.items():
        found = surfaces.of(place, said)
        if said.text != "bare":
            name = _name(said, design, surfaces.sayings)
            own += [(surface, name) for surface in found if name]
        elif any(face for _, face in found):
            message = f'"{place}": only a whole part can be left bare.'
            surfaces.sayings.refuse("finish-part", said, message, hints=("Name the part.",))
        else:
            bare += [part for part, _ in found]
    return tuple(bare), tuple(own)


class _Surfaces:
    """Parts and faces by their words: `slat`, `lower_rail.inside`."""

    def __init__(self, design: Design, boards: Mapping[str, Board], middle: Mapping[Axis, float], sayings: Sayings) -> None:
        self.design, self.boards, self.middle, self.sayings = design, boards, middle, sayings

    def of(self, text: str, at: Said) -> tuple[Surface, ...]:
        part, _, face = text.partition(".")
        if part not in self.design.parts:
            message = f'No part "{part}" to be finished.'
            self.sayings.refuse("finish-part", at, message, hints=did_you_mean(part, self.design.parts))
            return ()
        board = self.boards.get(part)
        if board is None or not face:
            return ((part, None),) if board else ()
        if face in (each.value for each in Face):
            return ((part, Face(face)),)
        if face in ("inside", "outside"):
            return self._looking(board, face, at)
        self.sayings.refuse("finish-part", at, f'"{face}" is no face of "{part}".', "a face word, `inside` or `outside`")
        return ()

    def _looking(self, board: Board, way: str, at: Said) -> tuple[Surface, ...]:
        """The broad face of a board that looks to the frame's middle, or away from it."""
        axis = board.face.axis
        inner = axis.high if board.body.along(axis).middle < self.middle[axis] else axis.low
        if abs(board.body.along(axis).middle - self.middle[axis]) * 2 < board.body.size(axis):
            message = f'"{board.id}" stands in the middle: neither of its broad faces looks {way}.'
            self.sayings.refuse("finish-part", at, message, hints=("Name the face.",))
            return ()
        return ((board.id, inner if way == "inside" else inner.opposite),)
