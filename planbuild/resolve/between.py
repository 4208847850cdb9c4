"""The two faces between which something lies: of the two hands of one part, of two parts, or of the frame."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from planbuild.core.geometry import Axis
from planbuild.records.design import Said
from planbuild.resolve.copies import LOW_HIGH
from planbuild.resolve.expressions.grammar import Step
from planbuild.resolve.expressions.values import Place
from planbuild.resolve.places import Places
from planbuild.resolve.poses import Over
from planbuild.resolve.references import Path


@dataclass(frozen=True)
class Ends:
    """Two planes along one direction, mm: the ends of a space, or the low and high face of something standing."""

    low: Fraction
    high: Fraction


def ends_between(saids: tuple[Said, ...], axis: Axis, places: Places, over: Over | None = None) -> Ends:
    """The faces that look at each other along `axis`; slanted ones where the middle of what lies between them is.

    Reports `place-between`; raises Poisoned.
    """
    if len(saids) == 1:
        return _between_hands(saids[0], axis, places, over)
    if len(saids) != 2:
        raise places.refuse("place-between", saids[2], "Something lies between two things, not more.", "one or two names")
    first, second = (_side(said, axis, places, over) for said in saids)
    if first.high <= second.low:
        return Ends(first.high, second.low)
    if second.high <= first.low:
        return Ends(second.high, first.low)
    message = f"{saids[0].text} and {saids[1].text} leave no space between them {axis.words}."
    raise places.refuse("place-between", saids[0], message, "two faces that look at each other")


def _between_hands(said: Said, axis: Axis, places: Places, over: Over | None) -> Ends:
    """From the one mirrored hand of a part to the other."""
    if said.text == "frame":
        return Ends(places.frame_at(axis.low, said.scope), places.frame_at(axis.high, said.scope))
    path = places.named(said)
    if path is None:
        places.value(said, axis)
        message = f"`{said.text}` is one place; two are wanted."
        raise places.refuse("place-between", said, message, "the name of a mirrored part, or two names in [ ]")
    *around, last = path
    if axis not in places.spread_of(places.id_of(path, said)).mirrors:
        message = f'"{last.name}" is not mirrored {axis.words}, so nothing lies between its hands that way.'
        hint = f"Name two things: `between: [{said.text}, ...]`."
        raise places.refuse("place-between", said, message, hints=(hint,))
    hands = ((*around, Step((*last.hands, hand), last.name)) for hand in LOW_HIGH[axis])
    low, high = (_standing(hand, axis, said, places, over) for hand in hands)
    if low.high >= high.low:
        message = f'The two hands of "{last.name}" leave no space between them {axis.words}.'
        raise places.refuse("place-between", said, message, "two faces that look at each other")
    return Ends(low.high, high.low)


def _side(said: Said, axis: Axis, places: Places, over: Over | None) -> Ends:
    path = places.named(said)
    if path is not None:
        return _standing(path, axis, said, places, over)
    place = places.place(said, axis)
    if isinstance(place, Place):
        return Ends(place.mm, place.mm)
    message = f"`{said.text}` is a length; a part or a face is wanted."
    raise places.refuse("place-between", said, message, hints=(f"Write `{said.text} inside {axis.low.value}`.",))


def _standing(path: Path, axis: Axis, said: Said, places: Places, over: Over | None) -> Ends:
    return Ends(places.face_of(path, axis.low, said, over), places.face_of(path, axis.high, said, over))
