"""Notches: at a corner or in an edge by their own sizes, or around the copies of another part that stands in the wood."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from planbuild.core.geometry import Axis, Face
from planbuild.records.design import Said
from planbuild.records.features import Mate
from planbuild.records.shaped import Sawn
from planbuild.records.shapes_said import NotchSaid
from planbuild.resolve.blank import Blank
from planbuild.resolve.neighbours import Neighbour
from planbuild.resolve.sawn import Reach, corner_of, in_from, squared, take_corner, through_face

Void = dict[Axis, Reach]


def notches(said: NotchSaid, blank: Blank) -> tuple[Sawn, ...]:
    """Reports `shape-notch`, `shape-edge`, `shape-eats`, `shape-outside`, `ref-unknown`; raises Poisoned."""
    if said.mate:
        return _for_a_part(said, said.mate, blank)
    if said.corner and not said.edge:
        return tuple(_at_corner(said, word, blank) for word in said.corner)
    if said.edge and said.at and not said.corner:
        return (_in_edge(said, said.edge, said.at, blank),)
    word = said.edge or said.at or said.width or said.length or Said("notch", said.origin)
    expected = "`corner`, or `edge` and `at`, or `for` the part that stands there"
    raise blank.sayings.refuse("shape-notch", word, "Where is the notch?", expected)


def _size(said: NotchSaid, axis: Axis, blank: Blank) -> Fraction:
    """Its length along the grain, its width across it."""
    name = "length" if axis is blank.grain else "width"
    word = said.length if axis is blank.grain else said.width
    if word is None:
        at = said.corner[0] if said.corner else said.edge or Said("notch", said.origin)
        raise blank.sayings.refuse("shape-notch", at, f"The notch has no {name}.", hints=(f"Add `{name}`.",))
    return blank.less_than(word, blank.size(axis), "A notch")


def _at_corner(said: NotchSaid, word: Said, blank: Blank) -> Sawn:
    edge = corner_of(word, blank)
    sizes = {face.axis: _size(said, face.axis, blank) for face in edge}
    take_corner(edge, sizes, word, blank)
    spans = {face.axis: in_from(face, sizes[face.axis], blank) for face in edge}
    return squared(said, through_face(edge, blank), spans, "notch", blank)


def _in_edge(said: NotchSaid, edge: Said, at: Said, blank: Blank) -> Sawn:
    """In from an edge or an end, through the thickness; `at` is the place of its nearer wall."""
    face = blank.sayings.face(edge)
    if face.axis is blank.lie.face.axis:
        message = f'The {face.value} of "{blank.id}" is no edge: a notch goes through the thickness.'
        raise blank.sayings.refuse("shape-face", edge, message, hints=("For a place in the face use `cut_out` or `groove`.",))
    (axis,) = (each for each in face.axis.others if each is not blank.lie.face.axis)
    wall, (low, high) = blank.place(at, axis), blank.spans[axis]
    long = _size(said, axis, blank)
    span = (wall, wall + long) if wall - low <= high - wall else (wall - long, wall)
    if span[0] < low or span[1] > high:
        message = f'A notch {blank.figure(long)} from `{at.text}` runs out of "{blank.id}".'
        raise blank.sayings.refuse("shape-outside", at, message)
    spans = {axis: span, face.axis: in_from(face, _size(said, face.axis, blank), blank)}
    return squared(said, blank.lie.face, spans, "notch", blank)


# ---------------------------------------------------------------- around another part


def _for_a_part(said: NotchSaid, mate: Said, blank: Blank) -> tuple[Sawn, ...]:
    """One for each copy of the part that stands in the wood; each copy of this one must meet the same."""
    for word in (said.edge, said.at, said.width, said.length):
        if word:
            raise blank.sayings.refuse("shape-notch", word, f"A notch for a part takes its size from {mate.text}.", "`for` alone")
    assert blank.neighbours is not None
    seen = blank.neighbours.beside(mate, blank.id, blank.sayings)
    meeting = [[each for each in copies if _meets(each, blank)] for copies in seen]
    if not meeting[0]:
        message = f'"{mate.text}" does not stand in "{blank.id}": a notch for it would cut nothing.'
        raise blank.sayings.refuse("shape-notch", mate, message, "parts that overlap")
    places = [{tuple(sorted((a.value, span) for a, span in each.spans.items())) for each in copies} for copies in meeting]
    if any(each != places[0] for each in places):
        message = f'The copies of "{blank.id}" do not all meet "{mate.text}" alike, so one notch does not fit them.'
        raise blank.sayings.refuse("shape-notch", mate, message)
    gap = blank.sayings.size(said.gap, "The gap") if said.gap else Fraction(0)
    corners = _corners(said, meeting[0], mate, blank)
    return tuple(_around(said, each, gap, corner, blank) for each, corner in corners)


def _meets(other: Neighbour, blank: Blank) -> bool:
    return all(max(a[0], b[0]) < min(a[1], b[1]) for a, b in ((blank.spans[axis], other.spans[axis]) for axis in Axis))


def _corners(
    said: NotchSaid, meeting: list[Neighbour], mate: Said, blank: Blank
) -> list[tuple[Neighbour, tuple[Face, Face] | None]]:
    """Each copy with the corner it is nearest to, if corners are named.  One notch serves one corner."""
    if not said.corner:
        return [(each, None) for each in meeting]
    edges = [corner_of(word, blank) for word in said.corner]
    found: list[tuple[Neighbour, tuple[Face, Face] | None]] = []
    for edge, word in zip(edges, said.corner, strict=True):
        here = [each for each in meeting if min(edges, key=lambda other: _away(each, other, blank)) == edge]
        if not here:
            message = f'"{mate.text}" does not stand in the corner {word.text} of "{blank.id}".'
            raise blank.sayings.refuse("shape-notch", word, message)
        found += [(each, edge) for each in here]
    return found


def _away(other: Neighbour, edge: tuple[Face, Face], blank: Blank) -> Fraction:
    """How far the middle of a part is from a corner, the one way and the other."""
    middles = {axis: (low + high) / 2 for axis, (low, high) in other.spans.items()}
    return sum((abs(middles[face.axis] - blank.at(face)) for face in edge), Fraction(0))


def _around(said: NotchSaid, other: Neighbour, gap: Fraction, corner: tuple[Face, Face] | None, blank: Blank) -> Sawn:
    void: Void = {}
    for axis in Axis:
        (low, high), (own_low, own_high) = other.spans[axis], blank.spans[axis]
        void[axis] = max(low - gap, own_low), min(high + gap, own_high)
    for face in corner or ():
        low, high = void[face.axis]
        void[face.axis] = (blank.at(face), high) if face.sign < 0 else (low, blank.at(face))
    face = through_face(corner, blank) if corner else _open_face(void, blank)
    whole = void[face.axis] == blank.spans[face.axis]
    if not whole and blank.at(face) not in void[face.axis]:
        face = face.opposite
    if not whole and blank.at(face) not in void[face.axis]:
        message = f'"{other.part}" stands inside "{blank.id}": no notch can let it in.'
        raise blank.sayings.refuse("shape-notch", said.mate or Said("", said.origin), message)
    if all(void[axis] == blank.spans[axis] for axis in face.axis.others):
        message = f'A notch for "{other.part}" leaves nothing of "{blank.id}".'
        raise blank.sayings.refuse("shape-eats", said.mate or Said("", said.origin), message)
    depth = None if whole else void[face.axis][1] - void[face.axis][0]
    made = squared(said, face, {axis: void[axis] for axis in face.axis.others}, "notch", blank, depth=depth)
    return replace(made, mate=Mate(other.part, (other.copy,)))


def _open_face(void: Void, blank: Blank) -> Face:
    """The face from which it is cut: through the thickness if it goes through that, else whatever it goes through."""
    axes = sorted(Axis, key=lambda axis: (axis is not blank.lie.face.axis, axis is blank.grain))
    axis = next((axis for axis in axes if void[axis] == blank.spans[axis]), None)
    if axis is not None:
        return blank.lie.face if axis is blank.lie.face.axis else axis.low
    return next((face for axis in axes for face in (axis.high, axis.low) if blank.at(face) in void[axis]), blank.lie.face)

