"""Panels that go into their grooves when all around is glued up: a drawer bottom is slid in from behind.

Reckoned with boxes: the grooves beside it must run out where it comes from, and nothing that is joined to its mates may
stand behind it.
"""

from __future__ import annotations

from collections.abc import Iterator

from planbuild.core.geometry import TINY, Axis, Face, Span1, Vec
from planbuild.records.features import Groove
from planbuild.records.piece import Contact, Joint, Piece
from planbuild.records.solids import Key


def slid_in(piece: Piece, part: str) -> Face | None:
    """The side from which the drawn copy of a part is slid in, None if it goes in otherwise."""
    ways = (way_in(piece, joint, (part, 0)) for joint in piece.joints if not joint.glue)
    way = next((each for each in ways if each is not None), None)
    return _face(way).opposite if way else None


def way_in(piece: Piece, joint: Joint, key: Key) -> Vec | None:
    """The direction in which a panel slides into all its grooves at once; None if it stands in one groove, or is shut in."""
    contacts = [each for each in joint.contacts if each.a == key]
    if joint.kind != "panel in groove" or len({each.insert for each in contacts}) < 2:
        return None
    ways = dict.fromkeys(each.insert for each in contacts)
    return next((way for way in ways if _slides(piece, joint, key, contacts, way)), None)


def _slides(piece: Piece, joint: Joint, key: Key, contacts: list[Contact], way: Vec) -> bool:
    axis = _face(way).axis
    aside = [each for each in contacts if abs(each.insert[axis.value]) < 0.5]
    ahead = [each for each in contacts if each.insert == way]
    if len(aside) + len(ahead) < len(contacts) or not all(_runs_out(piece, joint, each, way) for each in aside):
        return False
    return not _blocked(piece, key, contacts, way)


def _runs_out(piece: Piece, joint: Joint, contact: Contact, way: Vec) -> bool:
    """Whether the groove is open at the end of its board from which the panel comes."""
    part, behind = piece.part(contact.b[0]), _face(way).opposite
    cut = [f for f in part.features if isinstance(f, Groove) and f.joint == joint.id]
    grooves = [each for each in cut if each.mate and each.mate.part == contact.a[0]]
    end = part.box(contact.b[1], part.body).at(behind)
    return any(abs(part.box(contact.b[1], each.void).at(behind) - end) <= TINY for each in grooves)


def _blocked(piece: Piece, key: Key, contacts: list[Contact], way: Vec) -> bool:
    """Whether something joined to its mates stands in the way, as far back as the panel is long."""
    part, axis = piece.part(key[0]), _face(way).axis
    box = part.box(key[1], part.body)
    span, sign = box.along(axis), _face(way).sign
    behind = Span1(span.low - span.size, span.low) if sign > 0 else Span1(span.high, span.high + span.size)
    path = box.with_span(axis, behind)
    around = set(_joined_to(piece, {each.b for each in contacts})) - {key}
    return any(piece.part(id).box(copy, piece.part(id).body).meet(path).is_solid for id, copy in around)


def _joined_to(piece: Piece, mates: set[Key]) -> Iterator[Key]:
    for joint in piece.joints:
        for each in joint.contacts if joint.glue else ():
            if mates & {each.a, each.b}:
                yield from (each.a, each.b)


def _face(way: Vec) -> Face:
    axis = Axis(max(range(3), key=lambda index: abs(way[index])))
    return axis.high if way[axis.value] > 0 else axis.low
