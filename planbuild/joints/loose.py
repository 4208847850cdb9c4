"""Loose: a part rests on another; nothing is cut, and nothing holds it.

It is a line of its own so that a touch without a joint is never an oversight.
"""

from __future__ import annotations

from typing import ClassVar

from planbuild.joints.base import Family, Joined, Site
from planbuild.joints.commons import commons
from planbuild.joints.lying import lying, say_apart
from planbuild.records.design import JointSaid, Said
from planbuild.records.piece import Joint


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
        contacts = lying(part, on)
        if not contacts:
            say_apart(part, on, site, "Parts with a gap between them need no line; leave this one out, or move one of them.")
            return None
        fit = common.fit if said.fit else "loose"
        joint = Joint(
            id, self.name, common.name, said.origin, tuple(contacts), False, fit, (), (), (), note=common.note, why=common.why
        )
        return Joined(joint, {})
