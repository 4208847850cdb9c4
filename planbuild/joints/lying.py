"""Where parts lie flat against each other, for the joints that cut nothing."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

from planbuild.core.geometry import TINY, Face, Vec
from planbuild.joints.base import Chosen, Site
from planbuild.joints.faults import refuse
from planbuild.joints.touching import crossed_width, gap, touches_of
from planbuild.records.design import Said
from planbuild.records.piece import Contact

MOVE = "Move one of them until they meet."


def lying(part: Chosen, on: Chosen) -> list[Contact]:
    """Every place where the copies that are meant lie against each other, without glue."""
    return [contact for copy in part.copies for contact in _of_copy(part, copy, on)]


def lying_on_all(part: Chosen, to: Sequence[Said], site: Site, hint: str) -> list[Contact] | None:
    """Where the part lies against each of those named; None after reporting any that it does not touch."""
    named = chosen(to, site)
    met = [(each, lying(part, each)) for each in named or ()]
    apart = [each for each, contacts in met if not contacts]
    for each in apart:
        say_apart(part, [each], site, hint)
    return None if apart or named is None else [contact for _, contacts in met for contact in contacts]


def _of_copy(part: Chosen, copy: int, on: Chosen) -> list[Contact]:
    """Where one standing copy lies against what it rests on: it goes there square to the face."""
    motion = part.board.copies[copy].motion
    faces = (motion.face(part.face),) if part.face else tuple(Face)
    found = []
    for face in faces:
        way = _way(part, copy, face)
        for touch in touches_of(part.board, copy, face, [on.board]):
            own_face = on.board.copies[touch.copy].motion.inverse.face(touch.face)
            if touch.copy in on.copies and on.face in (None, own_face):
                width = crossed_width(touch.patch, face.axis, motion.axis(part.board.grain), touch.grain)
                mates = (part.board.id, copy), (on.board.id, touch.copy)
                found.append(Contact(*mates, way, touch.patch, width, 0.0, outline=touch.outline))
    return found


def _way(part: Chosen, copy: int, face: Face) -> Vec:
    """The way in which a standing copy goes home on what lies against a face of it (as it stands)."""
    if part.board.is_square:
        return face.normal
    return part.board.normal(part.board.copies[copy].motion.inverse.face(face), copy)


def chosen(saids: Sequence[Said], site: Site) -> list[Chosen] | None:
    """The parts that a list names, for a block all of its own; None after reporting any that is not known, or if a block
    has none because they could not be placed."""
    found = [site.words.parts(each) for each in saids]
    return [part for each in found if each for part in each] if all(found) else None


Lying = tuple[Chosen, Chosen, tuple[Contact, ...]]
"""A part, what it lies against, and where."""


def all_touching(parts: Sequence[Chosen], others: Sequence[Chosen], site: Site, hint: str) -> list[Lying]:
    """Each part with each of the others that it lies against.  Reports `joint-no-mate` for one that touches none."""
    pairs = ((one, other, tuple(lying(one, other))) for one, other in product(parts, others))
    found = [(one, other, lies) for one, other, lies in pairs if lies]
    idle = [(each, others) for each in _idle(parts, [part for part, _, _ in found])]
    idle = idle or [(each, parts) for each in _idle(others, [other for _, other, _ in found])]
    for each, against in idle:
        say_apart(each, against, site, hint)
    return found


def _idle(named: Sequence[Chosen], touching: Sequence[Chosen]) -> list[Chosen]:
    """Those that touch nothing; of a block it is enough that one of its parts does."""
    idle = [each for each in named if not any(each is other or each.block == other.block != "" for other in touching)]
    return [each for n, each in enumerate(idle) if not each.block or each.block not in {one.block for one in idle[:n]}]


def say_apart(part: Chosen, others: Sequence[Chosen], site: Site, hint: str) -> None:
    """A part touches none of the others: says how far the nearest is."""
    distances = [
        (min(gap(part.board.standing(a), on.board.standing(b)) for a in part.copies for b in on.copies), on) for on in others
    ]
    distance, nearest = min(distances, key=lambda each: each[0])
    where = f"{site.ruler.plain(distance)} apart" if distance > TINY else "not flat against each other"
    message = f'"{part.board.id}" and "{nearest.board.id}" do not touch: they are {where}.'
    refuse(site, "joint-no-mate", part.span, message, "parts that lie flat against each other", hint)
