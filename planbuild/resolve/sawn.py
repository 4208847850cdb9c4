"""Flat outlines sawn square to a face: cut-outs and recesses, outlines, corners clipped or rounded (notches: `notches`).

Everything is worked out exactly and kept within the board: what lies outside it, or leaves nothing of it, is refused here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from planbuild.core.geometry import Axis, Face
from planbuild.core.outlines import Corner, area, without_room
from planbuild.records.design import Said
from planbuild.records.shaped import Sawn
from planbuild.records.shapes_said import ClipSaid, CutOutSaid, NotchSaid, OutlineSaid, RoundSaid
from planbuild.resolve.blank import Blank, said_of
from planbuild.resolve.sayings import AXES

Reach = tuple[Fraction, Fraction]
Exact = tuple[Fraction, Fraction]


# ---------------------------------------------------------------- corners of the board


def corner_of(word: Said, blank: Blank) -> tuple[Face, Face]:
    """A corner of the board, by two faces of which one is an end.  Reports `shape-edge`, `shape-edge-twice`."""
    faces = {face.value: face for face in Face}
    named = word.text.split()
    if len(named) == 2 and all(each in faces for each in named):
        first, second = faces[named[0]], faces[named[1]]
        if first.axis is not second.axis and blank.grain in (first.axis, second.axis):
            return first, second
        if first.axis is not second.axis:
            message = f'The edge {word.text} runs along the grain of "{blank.id}": it is no corner.'
            hints = ("Along the grain cut a `rabbet`, a `chamfer` or a `round_over`.",)
            raise blank.sayings.refuse("shape-edge", word, message, "an end and a side", hints)
    expected = f"an end and a side, such as `{blank.grain.low.value} {_side(blank).value}`"
    raise blank.sayings.refuse("shape-edge", word, f'"{word.text}" is no corner of "{blank.id}".', expected)


def _side(blank: Blank) -> Face:
    return next(face for face in Face if face.axis not in (blank.grain, blank.lie.face.axis))


def through_face(edge: tuple[Face, Face], blank: Blank) -> Face:
    """The face from which a corner is sawn through: the face side if it looks that way."""
    (axis,) = (axis for axis in Axis if axis not in (edge[0].axis, edge[1].axis))
    return blank.lie.face if blank.lie.face.axis is axis else axis.high if axis is Axis.BOTTOM_TOP else axis.low


def take_corner(edge: tuple[Face, Face], sizes: dict[Axis, Fraction], word: Said, blank: Blank) -> None:
    """Takes wood from a corner.  Reports `shape-edge-twice`, `shape-eats`."""
    if frozenset(edge) in blank.corners:
        raise blank.sayings.refuse("shape-edge-twice", word, f'The corner {word.text} of "{blank.id}" is already cut.')
    for face, other in (edge, (edge[1], edge[0])):
        opposite = blank.corners.get(frozenset((face.opposite, other)), {}).get(face.axis, Fraction(0))
        room = blank.size(face.axis) - opposite
        if sizes[face.axis] > room:
            message = f'{blank.figure(sizes[face.axis])} {face.axis.words} is more than "{blank.id}" has there.'
            raise blank.sayings.refuse("shape-eats", word, message, f"at most {blank.figure(room)}")
    blank.corners[frozenset(edge)] = sizes


def clips(said: ClipSaid, blank: Blank) -> tuple[Sawn, ...]:
    """One for each corner.  Reports `shape-face`, `shape-edge`, `shape-eats`; raises Poisoned."""
    found = []
    for word in said.corner:
        edge = corner_of(word, blank)
        sizes = {face.axis: _along(said, face.axis, word, blank) for face in edge}
        take_corner(edge, sizes, word, blank)
        found.append(_cornered(said, edge, sizes, "clipped corner", blank))
    return tuple(found)


def _along(said: ClipSaid, axis: Axis, word: Said, blank: Blank) -> Fraction:
    for name, size in said.along.items():
        if AXES.get(name) not in {face.axis for face in corner_of(word, blank)}:
            message = f'"{name}" is no direction in which the corner {word.text} can be clipped.'
            raise blank.sayings.refuse("shape-face", size, message)
    found = [size for name, size in said.along.items() if AXES.get(name) is axis]
    if not found:
        message = f"How far {axis.words} is the corner {word.text} clipped?"
        raise blank.sayings.refuse("shape-clip", word, message, hints=(f"Add `{axis.words}` to `along`.",))
    return blank.sayings.size(found[0], "A clipped corner")


def rounds(said: RoundSaid, blank: Blank) -> tuple[Sawn, ...]:
    """One for each corner.  Reports `shape-edge`, `shape-eats`; raises Poisoned."""
    radius = blank.sayings.size(said.radius, "A rounded corner")
    found = []
    for word in said.corner:
        edge = corner_of(word, blank)
        sizes = dict.fromkeys((face.axis for face in edge), radius)
        take_corner(edge, sizes, word, blank)
        found.append(_cornered(said, edge, sizes, "rounded corner", blank, float(radius)))
    return tuple(found)


def _cornered(
    said: ClipSaid | RoundSaid, edge: tuple[Face, Face], sizes: dict[Axis, Fraction], what: str, blank: Blank, arc: float = 0.0
) -> Sawn:
    """The corner itself, and on both its sides the point to which the wood is taken."""
    face = through_face(edge, blank)
    first, second = sorted(edge, key=lambda each: each.axis.value)
    tip = blank.at(first), blank.at(second)
    one = tip[0] - first.sign * sizes[first.axis], tip[1]
    other = tip[0], tip[1] - second.sign * sizes[second.axis]
    corners = (Corner(_floats(one), arc=arc), Corner(_floats(tip)), Corner(_floats(other)))
    id = blank.unique("clip" if what.startswith("clip") else "round", *(each.value for each in edge))
    return Sawn(id, **said_of(said), face=face, corners=corners, what=what)


def _floats(point: Exact) -> tuple[float, float]:
    return float(point[0]), float(point[1])


# ---------------------------------------------------------------- cut-outs


def cut_out(said: CutOutSaid, blank: Blank) -> Sawn:
    """Through a face, into it as a recess, or in from an edge.

    Reports `shape-cut-out`, `shape-face`, `shape-outside`, `shape-eats`, `shape-radius`; raises Poisoned.
    """
    face = blank.sayings.face(said.face)
    through = blank.sayings.yes(said.through) if said.through else False
    if through and said.depth:
        message = "A cut-out goes through or has a depth."
        raise blank.sayings.refuse("shape-cut-out", said.depth, message, "either `depth` or `through: yes`")
    if through or said.depth:
        return _in_a_face(said, face, blank)
    return _in_an_edge(said, face, blank)


def _in_a_face(said: CutOutSaid, face: Face, blank: Blank) -> Sawn:
    """The first size lies along the longer way of the face."""
    longer = max(face.axis.others, key=lambda axis: (blank.size(axis), axis is blank.grain))
    (shorter,) = (axis for axis in face.axis.others if axis is not longer)
    sizes = dict(zip((longer, shorter), _pair(said.size, blank), strict=True))
    middles = _middles(said, face, blank)
    spans = {axis: (middles[axis] - size / 2, middles[axis] + size / 2) for axis, size in sizes.items()}
    for axis, (low, high) in spans.items():
        whole = blank.spans[axis]
        if low < whole[0] or high > whole[1]:
            message = f'A cut-out of {said.size.text} runs out of the {face.value} of "{blank.id}" {axis.words}.'
            raise blank.sayings.refuse("shape-outside", said.size, message)
    depth = blank.less_than(said.depth, blank.size(face.axis), "A recess") if said.depth else None
    what = "recess" if said.depth else "cut-out"
    return squared(said, face, spans, what, blank, depth=depth, radius=said.radius)


def _middles(said: CutOutSaid, face: Face, blank: Blank) -> dict[Axis, Fraction]:
    """Where its middle lies: at the places said, else in the middle of the board."""
    found = {axis: (blank.spans[axis][0] + blank.spans[axis][1]) / 2 for axis in face.axis.others}
    if isinstance(said.at, Said):
        message = f"`{said.at.text}`: in which direction on the {face.value}?"
        hint = f"Write `at: {{{blank.grain.words}: {said.at.text}}}`."
        raise blank.sayings.refuse("shape-cut-out", said.at, message, hints=(hint,))
    for word, place in (said.at or {}).items():
        axis = AXES.get(word)
        if axis is None or axis is face.axis:
            known = " or ".join(each.words for each in face.axis.others)
            message = f'"{word}" is no direction on the {face.value} of "{blank.id}".'
            raise blank.sayings.refuse("shape-face", place, message, known)
        found[axis] = blank.place(place, axis)
    return found


def _in_an_edge(said: CutOutSaid, face: Face, blank: Blank) -> Sawn:
    """In from an edge or an end, through the thickness: the first size along the edge, the second into it."""
    along, into = _pair(said.size, blank)
    if face.axis is blank.lie.face.axis:
        message = f'How deep does a cut-out go into the {face.value} of "{blank.id}"?'
        raise blank.sayings.refuse("shape-cut-out", said.face, message, hints=("Add `through: yes` or a `depth`.",))
    (axis,) = (each for each in face.axis.others if each is not blank.lie.face.axis)
    if into >= blank.size(face.axis):
        message = f'A cut-out {blank.figure(into)} deep leaves nothing of "{blank.id}".'
        raise blank.sayings.refuse("shape-eats", said.size, message, f"less than {blank.figure(blank.size(face.axis))}")
    low, high = blank.spans[axis]
    place = blank.place(_place_said(said.at, axis, blank), axis) if said.at is not None else (low + high) / 2
    span = place - along / 2, place + along / 2
    if span[0] < low or span[1] > high:
        message = f'A cut-out {blank.figure(along)} long runs out of the {face.value} of "{blank.id}" {axis.words}.'
        raise blank.sayings.refuse("shape-outside", said.size, message)
    spans = {axis: span, face.axis: in_from(face, into, blank)}
    return squared(said, blank.lie.face, spans, "cut-out", blank, radius=said.radius)


def _place_said(at: Mapping[str, Said] | Said, axis: Axis, blank: Blank) -> Said:
    if isinstance(at, Said):
        return at
    assert isinstance(at, Mapping)
    found = [place for word, place in at.items() if AXES.get(word) is axis]
    if len(found) != len(at):
        odd = next(place for word, place in at.items() if AXES.get(word) is not axis)
        raise blank.sayings.refuse("shape-face", odd, f"A cut-out in this edge is placed {axis.words}.", f"`{axis.words}`")
    return found[0]


def _pair(said: Said, blank: Blank) -> Exact:
    """`4 x 1-1/2`.  Reports `shape-size`."""
    halves = said.text.split(" x ")
    if len(halves) != 2:
        raise blank.sayings.refuse("shape-size", said, f"`{said.text}` is no pair of sizes.", "two lengths, such as `4 x 1-1/2`")
    unit = halves[1].split()[-1] if halves[1].split() and halves[1].split()[-1].isalpha() else ""
    first = halves[0] if not unit or halves[0].split()[-1].isalpha() else f"{halves[0]} {unit}"
    one, other = (blank.sayings.size(replace(said, text=text), "A cut-out") for text in (first, halves[1]))
    return one, other


def in_from(face: Face, size: Fraction, blank: Blank) -> Reach:
    """From a face of the board inward."""
    plane = blank.at(face)
    return min(plane, plane - face.sign * size), max(plane, plane - face.sign * size)


def squared(
    said: CutOutSaid | NotchSaid, face: Face, spans: dict[Axis, Reach], what: str, blank: Blank,
    depth: Fraction | None = None, radius: Said | None = None,
) -> Sawn:  # fmt: skip
    """Four square sides; corners inside the board are rounded to the radius, if there is one."""
    first, second = face.axis.others
    round_to = blank.sayings.size(radius, "The radius") if radius else Fraction(0)
    (x0, x1), (y0, y1) = spans[first], spans[second]
    corners = tuple(_inner(point, face, round_to, blank) for point in ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
    if radius is not None:
        check_radii(corners, [radius] * 4, blank)
    id = blank.unique(what.replace("-", "_"), face.value)
    deep = float(depth) if depth is not None else None
    return Sawn(id, **said_of(said), face=face, corners=corners, what=what, depth=deep)


def _inner(point: Exact, face: Face, radius: Fraction, blank: Blank) -> Corner:
    """A corner at the rim of the board stays square."""
    inside = all(blank.spans[axis][0] < place < blank.spans[axis][1] for axis, place in zip(face.axis.others, point, strict=True))
    return Corner(_floats(point), float(radius) if inside else 0.0)


def check_radii(corners: tuple[Corner, ...], saids: list[Said], blank: Blank) -> None:
    """Reports `shape-radius`; raises Poisoned."""
    index = without_room(corners)
    if index is not None:
        message = f"A radius of {saids[index].text} has no room on the lines that meet in its corner."
        raise blank.sayings.refuse("shape-radius", saids[index], message, "a smaller radius")


# ---------------------------------------------------------------- outlines


def outline(said: OutlineSaid, blank: Blank) -> Sawn:
    """Reports `shape-outline`, `shape-outside`, `shape-radius`; raises Poisoned."""
    face = blank.sayings.face(said.on)
    corners = tuple(_point(point, face, blank) for point in said.points)
    if len(corners) < 3:
        raise blank.sayings.refuse("shape-outline", said.on, "An outline has three points or more.")
    _check_run(corners, said, blank)
    check_radii(corners, [point[-1] for point in said.points], blank)
    whole = float(blank.size(face.axis.others[0]) * blank.size(face.axis.others[1]))
    if area(corners) > whole - 1e-6:
        message = f'The outline is the {face.value} of "{blank.id}" itself: nothing is cut.'
        raise blank.sayings.refuse("shape-outline", said.on, message)
    id = blank.unique("outline", face.value)
    return Sawn(id, **said_of(said), face=face, corners=corners, what="outline", keeps=True)


def _point(words: tuple[Said, ...], face: Face, blank: Blank) -> Corner:
    if len(words) not in (2, 3):
        message = "A point of an outline is two distances, and a radius if its corner is round."
        raise blank.sayings.refuse("shape-outline", words[0], message, "`[x, y]` or `[x, y, radius]`")
    places = []
    for word, axis in zip(words, face.axis.others, strict=False):
        offset, size = blank.sayings.length(word), blank.size(axis)
        if not 0 <= offset <= size:
            message = f'`{word.text}` lies outside "{blank.id}", which is {blank.figure(size)} {axis.words}.'
            raise blank.sayings.refuse("shape-outside", word, message, f"0 to {blank.figure(size)}")
        places.append(float(blank.spans[axis][0] + offset))
    radius = float(blank.sayings.size(words[2], "The radius")) if len(words) == 3 else 0.0
    return Corner((places[0], places[1]), radius)


def _check_run(corners: tuple[Corner, ...], said: OutlineSaid, blank: Blank) -> None:
    """Each point once, no two lines crossing, and something within."""
    points = [corner.at for corner in corners]
    for index, point in enumerate(points):
        if point in points[:index]:
            raise blank.sayings.refuse("shape-outline", said.points[index][0], "The outline comes to this point twice.")
    sides = list(zip(points, [*points[1:], points[0]], strict=True))
    for index, one in enumerate(sides):
        for other in sides[index + 2 : len(sides) - (index == 0)]:
            if _meet(one, other):
                raise blank.sayings.refuse("shape-outline", said.points[index][0], "Two lines of the outline cross or touch.")
    if area(tuple(Corner(point) for point in points)) < 1e-6:
        raise blank.sayings.refuse("shape-outline", said.on, "The outline encloses nothing.")


Side = tuple[tuple[float, float], tuple[float, float]]


def _meet(one: Side, other: Side) -> bool:
    """True if two lines cross, or one ends on the other."""
    across = _turn(*one, other[0]) * _turn(*one, other[1]) <= 0 and _turn(*other, one[0]) * _turn(*other, one[1]) <= 0
    boxes = all(
        min(one[0][k], one[1][k]) <= max(other[0][k], other[1][k]) and min(other[0][k], other[1][k]) <= max(one[0][k], one[1][k])
        for k in (0, 1)
    )
    return across and boxes


def _turn(start: tuple[float, float], end: tuple[float, float], point: tuple[float, float]) -> int:
    cross = (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])
    return 0 if abs(cross) < 1e-9 else 1 if cross > 0 else -1
