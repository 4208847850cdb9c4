"""Rabbets and grooves of `shape:`: what is cut from an edge or along a face with square walls."""

from __future__ import annotations

from fractions import Fraction

from planbuild.core.geometry import Axis, Box, Face, Span1
from planbuild.records.design import Said
from planbuild.records.features import Groove, Rabbet
from planbuild.records.shapes_said import GrooveSaid, RabbetSaid
from planbuild.resolve.blank import Blank, said_of
from planbuild.resolve.expressions.values import Place
from planbuild.resolve.sayings import AXES

Reach = tuple[Fraction, Fraction]


def rabbets(said: RabbetSaid, blank: Blank) -> tuple[Rabbet, ...]:
    """One for each edge.  Reports `shape-edge`, `shape-edge-twice`, `shape-eats`, `shape-outside`; raises Poisoned."""
    edges = [_edge(word, blank) for word in said.edge]
    for number, (edge, word) in enumerate(zip(edges, said.edge, strict=True)):
        if frozenset(edge) in {frozenset(each) for each in edges[:number]}:
            raise blank.sayings.refuse("shape-edge-twice", word, f"The edge {word.text} is chosen twice.")
    return tuple(_rabbet(edge, said, blank) for edge in edges)


def _edge(word: Said, blank: Blank) -> tuple[Face, Face]:
    """Two faces in the order said: the width is counted from the first."""
    faces = {face.value: face for face in Face}
    named = word.text.split()
    if len(named) == 2 and all(each in faces for each in named):
        first, second = faces[named[0]], faces[named[1]]
        if first.axis is not second.axis:
            return first, second
    message = f'"{word.text}" is no edge of "{blank.id}".'
    raise blank.sayings.refuse("shape-edge", word, message, "two faces that meet, the one that `width` is counted from first")


def _rabbet(edge: tuple[Face, Face], said: RabbetSaid, blank: Blank) -> Rabbet:
    width = blank.less_than(said.width, blank.size(edge[0].axis), "A rabbet")
    depth = blank.less_than(said.depth, blank.size(edge[1].axis), "A rabbet")
    (along,) = (axis for axis in Axis if axis not in (edge[0].axis, edge[1].axis))
    void = Box.of(
        {
            edge[0].axis: _in_from(edge[0], width, blank),
            edge[1].axis: _in_from(edge[1], depth, blank),
            along: _span(blank.stretch(said.start, said.to, along)),
        }
    )
    id = blank.unique("rabbet", edge[0].value, edge[1].value)
    return Rabbet(id, **said_of(said), edge=edge, void=void)


def groove(said: GrooveSaid, blank: Blank) -> Groove:
    """A groove runs square to the way in which it is placed.

    Reports `shape-groove`, `shape-face`, `shape-eats`, `shape-outside`; raises Poisoned.
    """
    face = blank.sayings.face(said.face)
    across, walls = _walls(said, face, blank)
    (run,) = (axis for axis in face.axis.others if axis is not across)
    depth = blank.less_than(said.depth, blank.size(face.axis), "A groove")
    void = Box.of(
        {
            across: _span(walls),
            face.axis: _in_from(face, depth, blank),
            run: _span(blank.stretch(said.start, said.to, run)),
        }
    )
    return Groove(blank.unique("groove", face.value), **said_of(said), face=face, void=void)


def _walls(said: GrooveSaid, face: Face, blank: Blank) -> tuple[Axis, Reach]:
    """The axis across the groove and where its walls lie."""
    if (said.at is None) is (said.centred is None):
        word = said.at or said.face
        raise blank.sayings.refuse("shape-groove", word, "A groove is placed once.", "either `at` (its nearer wall) or `centred`")
    if said.at is not None:
        return _placed(said.at, said, face, blank)
    assert said.centred is not None
    axis = AXES.get(said.centred.text)
    if axis is None or axis is face.axis:
        raise _no_way(said.centred, face, blank)
    width = blank.less_than(said.width, blank.size(axis), "A groove")
    low, high = blank.spans[axis]
    middle = (low + high) / 2
    return axis, (middle - width / 2, middle + width / 2)


def _placed(word: Said, said: GrooveSaid, face: Face, blank: Blank) -> tuple[Axis, Reach]:
    """From the wall that lies nearer to a side of the part, toward the other side."""
    place = blank.sayings.value(word)
    axis = place.axis if isinstance(place, Place) else next(each for each in face.axis.others)
    wall = blank.place(word, axis)
    if axis is face.axis:
        raise _no_way(word, face, blank)
    low, high = blank.spans[axis]
    if wall - low == high - wall:
        message = f'`{word.text}` is the middle of "{blank.id}", so neither wall is the nearer one.'
        raise blank.sayings.refuse("shape-groove", word, message, hints=(f"Write `centred: {axis.words}`.",))
    upward = wall - low < high - wall
    width = blank.less_than(said.width, high - wall if upward else wall - low, "A groove")
    return axis, (wall, wall + width) if upward else (wall - width, wall)


def _no_way(word: Said, face: Face, blank: Blank) -> Exception:
    known = " or ".join(axis.words for axis in face.axis.others)
    message = f'`{word.text}` does not place a groove in the {face.value} of "{blank.id}".'
    return blank.sayings.refuse("shape-face", word, message, f"a place {known}")


def _in_from(face: Face, size: Fraction, blank: Blank) -> Span1:
    plane = blank.at(face)
    return _span((min(plane, plane - face.sign * size), max(plane, plane - face.sign * size)))


def _span(reach: Reach) -> Span1:
    return Span1(float(reach[0]), float(reach[1]))
