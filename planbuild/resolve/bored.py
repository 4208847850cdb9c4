"""Holes of a part's own: one or a row of them, counterbored or plain."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from planbuild.core.geometry import Axis, Face
from planbuild.records.features import Hole
from planbuild.records.shapes_said import HoleSaid
from planbuild.resolve.blank import Blank, said_of
from planbuild.resolve.sayings import AXES

MOST = 100
"""Holes of one row (a choice of ours)."""

Centre = dict[Axis, Fraction]


def holes(said: HoleSaid, blank: Blank) -> tuple[Hole, ...]:
    """Reports `shape-face`, `shape-outside`, `shape-hole`, `shape-eats`."""
    face = blank.sayings.face(said.face)
    diameter, depth = blank.sayings.size(said.diameter, "A hole"), _depth(said, face, blank)
    wider = _counterbore(said, face, diameter, depth, blank)
    widest = Fraction(wider[0]) if wider else diameter
    made = []
    for centre in _row(said, face, _first(said, face, blank), blank):
        _within(said, face, centre, widest, blank)
        x, y, z = (float(centre[axis]) for axis in Axis)
        made.append(
            Hole(
                blank.unique("hole", face.value),
                **said_of(said),
                face=face,
                centre=(x, y, z),
                diameter=float(diameter),
                depth=depth,
                counterbore=wider and (float(wider[0]), float(wider[1])),
            )
        )
    return tuple(made)


def _first(said: HoleSaid, face: Face, blank: Blank) -> Centre:
    centre = {axis: (low + high) / 2 for axis, (low, high) in blank.spans.items()}
    centre[face.axis] = blank.at(face)
    for word, place in said.at.items():
        axis = AXES.get(word)
        if axis is None or axis is face.axis:
            known = " or ".join(each.words for each in Axis if each is not face.axis)
            message = f'"{word}" is no direction on the {face.value} of "{blank.id}".'
            raise blank.sayings.refuse("shape-face", place, message, known)
        centre[axis] = blank.place(place, axis)
    return centre


def _row(said: HoleSaid, face: Face, first: Centre, blank: Blank) -> Iterator[Centre]:
    """The first hole, and those that repeat it."""
    if said.repeat is None:
        yield first
        return
    count = blank.sayings.count(said.repeat.count, most=MOST)
    apart = blank.sayings.size(said.repeat.apart, "The way between holes")
    along = blank.sayings.axis(said.repeat.along)
    if along is face.axis:
        message = f'The {face.value} of "{blank.id}" does not run {along.words}.'
        raise blank.sayings.refuse("shape-face", said.repeat.along, message, " or ".join(each.words for each in face.axis.others))
    for number in range(count):
        yield {**first, along: first[along] + number * apart}


def _counterbore(
    said: HoleSaid, face: Face, diameter: Fraction, depth: float | None, blank: Blank
) -> tuple[Fraction, Fraction] | None:
    """(diameter, depth): wider than the hole and less deep."""
    if said.counterbore is None:
        return None
    wide = blank.sayings.size(said.counterbore.diameter, "A counterbore")
    deep = blank.less_than(said.counterbore.depth, blank.size(face.axis), "A counterbore")
    if wide <= diameter or (depth is not None and float(deep) >= depth):
        message = "A counterbore is wider than its hole, and less deep."
        raise blank.sayings.refuse("shape-hole", said.counterbore.diameter, message, f"more than {blank.figure(diameter)} wide")
    return wide, deep


def _within(said: HoleSaid, face: Face, centre: Centre, diameter: Fraction, blank: Blank) -> None:
    for axis in face.axis.others:
        low, high = blank.spans[axis]
        if centre[axis] - diameter / 2 <= low or centre[axis] + diameter / 2 >= high:
            message = f'A hole of {blank.figure(diameter)} runs out of the {face.value} of "{blank.id}" {axis.words}.'
            raise blank.sayings.refuse("shape-outside", said.diameter, message)


def _depth(said: HoleSaid, face: Face, blank: Blank) -> float | None:
    through = blank.sayings.yes(said.through) if said.through else False
    if through is (said.depth is not None):
        at = said.depth or said.diameter
        raise blank.sayings.refuse("shape-hole", at, "A hole has a depth or goes through.", "either `depth` or `through: yes`")
    return float(blank.less_than(said.depth, blank.size(face.axis), "A hole")) if said.depth else None
