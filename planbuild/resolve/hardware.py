"""Hardware put on a face: where on the drawn copy, and how many over all copies."""

from __future__ import annotations

from collections.abc import Mapping

from planbuild.core.geometry import Axis, Face
from planbuild.records.design import HardwareSaid, Said
from planbuild.records.piece import Placed
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.expressions.values import Place
from planbuild.resolve.layout import LaidOut
from planbuild.resolve.references import Shaping
from planbuild.resolve.sayings import AXES, Sayings, tried


def hardware(said: Mapping[str, HardwareSaid], laid: LaidOut) -> tuple[Placed, ...]:
    """What is put where.  Reports `item-missing`, `hardware-face`, `hardware-count`."""
    found = (tried(_placed, id, each, laid) for id, each in said.items())
    return tuple(placed for placed in found if placed is not None)


def _placed(id: str, said: HardwareSaid, laid: LaidOut) -> Placed:
    item, chosen = laid.words.item(said.item), laid.words.part(said.on)
    if item is None or chosen is None:
        raise Poisoned
    sayings = Sayings(Shaping(laid.setting_out.placing, chosen.board.id), laid.setting_out.report)
    face = chosen.face
    if face is None:
        message = f'On which face of "{chosen.board.id}"?'
        raise sayings.refuse("hardware-face", said.on, message, hints=(f"Write `{said.on.text}.front`, for example.",))
    centre = {axis: chosen.board.body.along(axis).middle for axis in Axis}
    centre[face.axis] = chosen.board.body.at(face)
    for word, place in said.at.items():
        centre[_direction(word, place, face, sayings)] = _place(place, AXES[word], sayings)
    x, y, z = (centre[axis] for axis in Axis)
    count = len(chosen.copies)
    _check_count(said.count, count, sayings)
    return Placed(id, said.origin, item.id, chosen.board.id, face, ((x, y, z),), count)


def _direction(word: str, place: Said, face: Face, sayings: Sayings) -> Axis:
    axis = AXES.get(word)
    if axis is None or axis is face.axis:
        known = " or ".join(each.words for each in face.axis.others)
        raise sayings.refuse("hardware-face", place, f'"{word}" is no direction on the {face.value}.', known)
    return axis


def _place(said: Said, axis: Axis, sayings: Sayings) -> float:
    found = sayings.place(said, axis)
    if isinstance(found, Place):
        return float(found.mm)
    message = f"`{said.text}` is a length; from which face?"
    raise sayings.refuse("shape-plain", said, message, "a place", (f"Write `{said.text} inside {axis.low.value}`.",))


def _check_count(said: Said | None, count: int, sayings: Sayings) -> None:
    """One place is given, so there is one on each copy; a count that says otherwise is a slip."""
    if said is None:
        return
    each = said.text.endswith(" each")
    number = sayings.count(Said(said.text.removesuffix(" each"), said.span))
    if number * (count if each else 1) != count:
        message = f"`{said.text}` does not agree with one place on each of {count} copies."
        raise sayings.refuse("hardware-count", said, message, f"`{count}`, or nothing")
