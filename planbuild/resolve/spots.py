"""Faces that hardware names, as they stand; what places on them mean; and a thing set beside one copy of its part."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NoReturn

from planbuild.core.diagnostics import Diagnostic, Span
from planbuild.core.geometry import Axis, Box, Face, Vec
from planbuild.joints.base import Board, Chosen, Site
from planbuild.records.design import Said
from planbuild.records.hardware import Item
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.expressions.grammar import FACES, Reference, Step, parse
from planbuild.resolve.expressions.values import Place, Value
from planbuild.resolve.fittings.base import Holder, Put, Seat, with_place
from planbuild.resolve.references import Placing
from planbuild.resolve.sayings import AXES, Sayings
from planbuild.resolve.setting_out import SettingOut


@dataclass(frozen=True)
class Setting:
    """`puts` stand beside the first of `copies` of `board`, whose other copies have them too."""

    id: str
    span: Span
    item: Item
    puts: tuple[Put, ...]
    board: Board
    copies: tuple[int, ...]
    carrier: Holder
    meets: str = ""
    way: Vec | None = None
    """The way home of `board`, if this is what puts it in its place."""

    @property
    def home(self) -> int:
        """The copy of the carrying part that they were set on."""
        return self.carrier.copy or 0


@dataclass(frozen=True)
class Spot:
    """A face that was named: where it stands, and how its own places are understood."""

    chosen: Chosen
    face: Face
    body: Box
    sayings: Sayings

    def seat(self, origin: Span) -> Seat:
        board = self.chosen.board
        grain = board.copies[self.chosen.copies[0]].motion.axis(board.grain)
        longer = max(self.face.axis.others, key=lambda axis: (round(self.body.size(axis), 3), axis is grain))
        point = with_place(self.body.centre, self.face.axis, self.body.at(self.face))
        return Seat(Holder(board, self.face, point), self.body, longer, origin)


class OnFace:
    """Names as they are meant where hardware is put on a part: a bare face word or `middle` is that part's own."""

    def __init__(self, placing: Placing, own: Said) -> None:
        self._placing, self._own = placing, own

    @property
    def unit(self) -> Fraction:
        return self._placing.unit

    def within(self, scope: str) -> OnFace:
        return OnFace(self._placing.within(scope), self._own)

    def meaning(self, reference: Reference, axis: Axis | None) -> Value:
        if not reference.steps and (reference.last in FACES or reference.last == "middle"):
            return self._placing.within(self._own.scope).meaning(replace(reference, steps=steps_of(self._own)), axis)
        return self._placing.meaning(reference, axis)

    def at_level(self, reference: Reference, level: Value) -> Value:
        return self._placing.at_level(reference, level)

    def origin_of(self, reference: Reference) -> str:
        return self._placing.origin_of(reference)


def refuse(site: Site, code: str, span: Span, message: str, expected: str = "", hint: str = "") -> NoReturn:
    """Reports and raises Poisoned."""
    site.report.add(Diagnostic(code, message, span=span, expected=expected, hints=(hint,) if hint else ()))
    raise Poisoned


def spot(said: Said, setting_out: SettingOut, site: Site) -> Spot:
    """A face as it stands: of the copy that is named, else of the drawn one."""
    chosen = site.words.part(said)
    if chosen is None:
        raise Poisoned
    if chosen.board.pose:
        message = f'Hardware on "{chosen.board.id}", which is turned or leans, is not built yet.'
        refuse(site, "not-built-yet", said.span, message, "a part that stands square to the piece")
    if chosen.face is None:
        message = f'On which face of "{chosen.board.id}"?'
        refuse(site, "hardware-face", said.span, message, hint=f"Write `{said.text}.front`, for example.")
    assert chosen.face is not None
    names = OnFace(setting_out.placing, said)
    body = chosen.board.standing(chosen.copies[0])
    return Spot(chosen, chosen.face, body, Sayings(names, setting_out.report))


def steps_of(said: Said) -> tuple[Step, ...]:
    """The part as it was named, without its face; it was read before, so it parses."""
    reference = parse(said.text)
    assert isinstance(reference, Reference)
    return reference.steps


def directed(word: str, values: Sequence[Said], spot: Spot, around: Box | None) -> tuple[Axis, list[float]]:
    """Places along a direction; a face word says where that side of the thing is."""
    side = Face(word) if word in FACES else None
    axis = side.axis if side else AXES.get(word)
    if axis is None or axis is spot.face.axis:
        known = " or ".join(each.words for each in spot.face.axis.others)
        message = f'"{word}" is no direction on the {spot.face.value}.'
        raise spot.sayings.refuse("hardware-face", values[0] if values else _said_of(spot, word), message, known)
    shift = side.sign * around.size(axis) / 2 if side and around else 0.0
    return axis, [place_on(each, axis, spot.sayings) - shift for each in values]


def _said_of(spot: Spot, word: str) -> Said:
    """An empty list has no value to point at: the face that was named stands for it."""
    return Said(word, spot.chosen.span)


def listed(values: Sequence[Said], spot: Spot, seat: Seat) -> tuple[Axis, list[float]]:
    """Places that tell their direction themselves; `middle` alone lies along the longer way."""
    telling = next((each for each in values if each.text != "middle"), None)
    axis = seat.along
    if telling is not None:
        value = spot.sayings.value(telling)
        if not isinstance(value, Place):
            raise _no_place(telling, axis, spot.sayings)
        axis = value.axis
    if axis is spot.face.axis:
        known = " or ".join(each.words for each in axis.others)
        raise spot.sayings.refuse("hardware-face", values[0], f"`{values[0].text}` lies {axis.words}, square to the face.", known)
    return axis, [place_on(each, axis, spot.sayings) for each in values]


def place_on(said: Said, axis: Axis, sayings: Sayings) -> float:
    found = sayings.place(said, axis)
    if isinstance(found, Place):
        return float(found.mm)
    raise _no_place(said, axis, sayings)


def _no_place(said: Said, axis: Axis, sayings: Sayings) -> Poisoned:
    message = f"`{said.text}` is a length; from which face?"
    return sayings.refuse("shape-plain", said, message, "a place", (f"Write `{said.text} inside {axis.low.value}`.",))
