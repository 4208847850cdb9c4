"""Loose: a part rests on another; nothing is cut, and nothing holds it.

It is a line of its own so that a touch without a joint is never an oversight.
"""

from __future__ import annotations

from typing import ClassVar

from planbuild.core.geometry import TINY, Face
from planbuild.joints.base import Chosen, Family, Joined, Site
from planbuild.joints.commons import commons
from planbuild.joints.faults import refuse
from planbuild.joints.touching import crossed_width, gap, touches
from planbuild.records.design import JointSaid, Said
from planbuild.records.piece import Contact, Joint


class LooseSaid(JointSaid):
    """`part` rests on, runs on or hangs at `on`."""

    part: Said
    on: Said


class Loose:
    """The kind: contact without a joint."""

    name = "loose"
    family = Family.MEETING
    said: ClassVar[type[JointSaid]] = LooseSaid

    def join(self, id: str, said: LooseSaid, site: Site) -> Joined | None:
        """Reports `joint-no-mate` if the two do not touch."""
        common = commons(said, self.name, glued=False, site=site)
        part, on = site.words.part(said.part), site.words.part(said.on)
        if common is None or part is None or on is None:
            return None
        contacts = [contact for copy in part.copies for contact in _contacts(part, copy, on)]
        if not contacts:
            _apart(part, on, site)
            return None
        fit = common.fit if said.fit else "loose"
        joint = Joint(
            id, self.name, common.name, said.origin, tuple(contacts), False, fit, (), (), (), note=common.note, why=common.why
        )
        return Joined(joint, {})


def _contacts(part: Chosen, copy: int, on: Chosen) -> list[Contact]:
    """Where one standing copy lies against what it rests on: it goes there square to the face."""
    motion = part.board.copies[copy].motion
    faces = (motion.face(part.face),) if part.face else tuple(Face)
    found = []
    for face in faces:
        for touch in touches(part.board.standing(copy), face, [on.board], (part.board.id, copy)):
            own_face = on.board.copies[touch.copy].motion.inverse.face(touch.face)
            if touch.copy in on.copies and on.face in (None, own_face):
                width = crossed_width(touch.patch, face.axis, motion.axis(part.board.grain), touch.grain)
                found.append(Contact((part.board.id, copy), (on.board.id, touch.copy), face.normal, touch.patch, width, 0.0))
    return found


def _apart(part: Chosen, on: Chosen, site: Site) -> None:
    """They do not touch: says how far apart they are."""
    distance = min(gap(part.board.standing(a), on.board.standing(b)) for a in part.copies for b in on.copies)
    where = f"{site.ruler.plain(distance)} apart" if distance > TINY else "not flat against each other"
    message = f'"{part.board.id}" and "{on.board.id}" do not touch: they are {where}.'
    hint = "Parts with a gap between them need no line; leave this one out, or move one of them."
    refuse(site, "joint-no-mate", part.span, message, "parts that lie flat against each other", hint)
