"""Edges of a part by their words: `front top`, `long`, `around bottom`, `ends`, `all`."""

from __future__ import annotations

from planbuild.core.geometry import Axis, Face
from planbuild.records.design import Said
from planbuild.records.features import Edge
from planbuild.resolve.sayings import Sayings

_ALL: tuple[Edge, ...] = tuple((a, b) for a in Face for b in Face if a.axis.value < b.axis.value)
"""The twelve edges of a board, each once."""


def edges_of(said: Said, grain: Axis, sayings: Sayings) -> tuple[Edge, ...]:
    """The edges that words choose.  Reports `shape-edge`; raises Poisoned."""
    words = said.text.split()
    if said.text == "all":
        return _ALL
    if said.text == "long":
        return tuple(edge for edge in _ALL if grain not in (edge[0].axis, edge[1].axis))
    if said.text == "ends":
        return around(grain.low) + around(grain.high)
    faces = {face.value: face for face in Face}
    if len(words) == 2 and words[0] == "around" and words[1] in faces:
        return around(faces[words[1]])
    if len(words) == 2 and words[0] in faces and words[1] in faces:
        first, second = faces[words[0]], faces[words[1]]
        if first.axis is not second.axis:
            return ((first, second) if first.axis.value < second.axis.value else (second, first),)
    expected = "two faces that meet (`front top`), `long`, `around bottom`, `ends` or `all`"
    raise sayings.refuse("shape-edge", said, f'"{said.text}" is no edge of a board.', expected)


def around(face: Face) -> tuple[Edge, ...]:
    """The four edges of a face, that face named first."""
    return tuple((face, other) for other in Face if other.axis is not face.axis)


def chosen_edges(saids: tuple[Said, ...], grain: Axis, sayings: Sayings) -> tuple[Edge, ...]:
    """All edges of a list, each once, in the order said.  Reports `shape-edge`, `shape-edge-twice`; raises Poisoned."""
    found: list[Edge] = []
    for said in saids:
        for edge in edges_of(said, grain, sayings):
            if frozenset(edge) in {frozenset(each) for each in found}:
                message = f"The edge {edge[0].value} {edge[1].value} is chosen twice."
                raise sayings.refuse("shape-edge-twice", said, message)
            found.append(edge)
    return tuple(found)
