"""Fields raised on panels, parts turned between centres, dishes hollowed into a face."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from planbuild.core.geometry import Axis, Face
from planbuild.core.turnings import WAYS, fits
from planbuild.records.design import Said
from planbuild.records.features import EdgeBevel
from planbuild.records.shaped import Dished, Station, Turned
from planbuild.records.shapes_said import DishSaid, RaisedSaid, TurnedSaid
from planbuild.resolve.blank import Blank, said_of
from planbuild.resolve.expressions.grammar import LENGTH_UNITS
from planbuild.resolve.sayings import AXES

# ---------------------------------------------------------------- raised fields


def raised(said: RaisedSaid, blank: Blank) -> tuple[EdgeBevel, ...]:
    """A bevel along each of the four edges of each face.  Reports `shape-face`, `shape-eats`; raises Poisoned."""
    faces = [_broad(word, blank) for word in said.faces]
    thick = blank.size(blank.lie.face.axis)
    left = blank.less_than(said.edge_thickness, thick, "The edge of a panel")
    depth = (thick - left) / len(faces)
    step = blank.less_than(said.step, depth, "The step of a field") if said.step else Fraction(0)
    sides = [face for face in Face if face.axis is not blank.lie.face.axis]
    narrow = min(blank.size(face.axis) for face in sides)
    margin = blank.less_than(said.margin, narrow / 2, "The margin of a field")
    return tuple(
        EdgeBevel(
            blank.unique("raised", face.value, side.value),
            **said_of(said), edge=(side, face), margin=float(margin), depth=float(depth), step=float(step),
        )
        for face in faces
        for side in sides
    )  # fmt: skip


def _broad(word: Said, blank: Blank) -> Face:
    face = blank.sayings.face(word)
    if face.axis is not blank.lie.face.axis:
        message = f'The {face.value} of "{blank.id}" is an edge: no field is raised on it.'
        expected = f"{blank.lie.face.value} or {blank.lie.face.opposite.value}"
        raise blank.sayings.refuse("shape-face", word, message, expected)
    return face


# ---------------------------------------------------------------- turned parts


def turned(said: TurnedSaid, blank: Blank) -> Turned:
    """Reports `shape-turned`, `shape-outside`, `shape-eats`; raises Poisoned."""
    stations = tuple(_station(pair, blank) for pair in said.profile)
    if len(stations) < 2:
        at = said.profile[0][0] if said.profile else Said("turned", said.origin)
        raise blank.sayings.refuse("shape-turned", at, "A turned part has two stations or more.")
    for before, after, pair in zip(stations, stations[1:], said.profile[1:], strict=False):
        _check_way(before, after, pair, blank)
    whole = Turned(blank.unique("turned"), **said_of(said), stations=stations)
    if whole.span.size <= 0:
        raise blank.sayings.refuse("shape-turned", said.profile[-1][0], "The profile has no length.")
    _check_room(whole, said, blank)
    return whole


def _station(pair: tuple[Said, Said], blank: Blank) -> Station:
    ends, long = {blank.grain.low.value: Fraction(0), blank.grain.high.value: blank.size(blank.grain)}, blank.size(blank.grain)
    offset = ends[pair[0].text] if pair[0].text in ends else blank.sayings.length(pair[0])
    if not 0 <= offset <= long:
        message = f'`{pair[0].text}` lies outside "{blank.id}", which is {blank.figure(long)} long.'
        raise blank.sayings.refuse("shape-outside", pair[0], message, f"0 to {blank.figure(long)}")
    text, way = _way(pair[1], blank)
    diameter = blank.sayings.size(replace(pair[1], text=text), "A diameter")
    thin = min(blank.size(axis) for axis in blank.grain.others)
    if diameter > thin:
        message = f'A diameter of {blank.figure(diameter)} is more than "{blank.id}" has: it is {blank.figure(thin)} thick.'
        raise blank.sayings.refuse("shape-eats", pair[1], message, f"at most {blank.figure(thin)}")
    return Station(float(blank.spans[blank.grain][0] + offset), float(diameter), way)


def _way(said: Said, blank: Blank) -> tuple[str, str]:
    """`1-3/4 cove` is a diameter and the way it is reached.  Reports `word-unknown`; raises Poisoned."""
    *words, last = said.text.split()
    if not words or not last.isalpha() or last in LENGTH_UNITS:
        return said.text, "straight"
    return " ".join(words), blank.sayings.choice(Said(last, said.span), WAYS, "way of turning")


def _check_way(before: Station, after: Station, pair: tuple[Said, Said], blank: Blank) -> None:
    if after.at < before.at:
        raise blank.sayings.refuse("shape-turned", pair[0], "The stations go on from the low end.", "a longer way")
    if after == before or (after.at == before.at and after.way != "straight"):
        raise blank.sayings.refuse("shape-turned", pair[1], "Between two stations at one place there is only a straight step.")
    if not fits((before.at, before.diameter / 2), (after.at, after.diameter / 2), after.way):
        message = f"A {after.way} is at least as long as it is deep."
        raise blank.sayings.refuse("shape-turned", pair[1], message, "stations farther apart, or diameters more alike")


def _check_room(whole: Turned, said: TurnedSaid, blank: Blank) -> None:
    """Half rounds between like diameters swell or sink between their stations."""
    thin = float(min(blank.size(axis) for axis in blank.grain.others))
    words = iter(said.profile[1:])
    for before, after in zip(whole.stations, whole.stations[1:], strict=False):
        word = next(words)[1]
        if before.diameter == after.diameter and after.way in ("bead", "cove"):
            rise = (after.at - before.at) / 2 * (1 if after.way == "bead" else -1)
            if not 0 < before.diameter + 2 * rise <= thin + 1e-6:
                message = f"The {after.way} is a half round, and so as high as half its length: there is no room for it."
                raise blank.sayings.refuse("shape-turned", word, message, "stations closer together")


# ---------------------------------------------------------------- dishes


def dish(said: DishSaid, blank: Blank) -> Dished:
    """Reports `shape-face`, `shape-outside`, `shape-eats`; raises Poisoned."""
    face = blank.sayings.face(said.face)
    centre = {axis: (low + high) / 2 for axis, (low, high) in blank.spans.items()}
    centre[face.axis] = blank.at(face)
    for word, place in said.at.items():
        axis = AXES.get(word)
        if axis is None or axis is face.axis:
            known = " or ".join(each.words for each in face.axis.others)
            message = f'"{word}" is no direction on the {face.value} of "{blank.id}".'
            raise blank.sayings.refuse("shape-face", place, message, known)
        centre[axis] = blank.place(place, axis)
    diameter = blank.sayings.size(said.diameter, "A dish")
    for axis in face.axis.others:
        low, high = blank.spans[axis]
        if centre[axis] - diameter / 2 < low or centre[axis] + diameter / 2 > high:
            message = f'A dish {blank.figure(diameter)} wide runs out of the {face.value} of "{blank.id}" {axis.words}.'
            raise blank.sayings.refuse("shape-outside", said.diameter, message)
    depth = blank.less_than(said.depth, min(blank.size(face.axis), diameter / 2), "A dish")
    x, y, z = (float(centre[axis]) for axis in Axis)
    id = blank.unique("dish", face.value)
    return Dished(id, **said_of(said), face=face, centre=(x, y, z), diameter=float(diameter), depth=float(depth))
