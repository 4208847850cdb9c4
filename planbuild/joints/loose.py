"""Loose: a part rests on another; nothing is cut, and nothing holds it.

It is a line of its own so that a touch without a joint is never an oversight.
"""

from __future__ import annotations

from typing import ClassVar

from planbuild.joints.base import Family, Joined, Site
from planbuild.joints.commons import commons
from planbuild.joints.lying import all_touching, chosen
from planbuild.records.design import JointSaid, Said
from planbuild.records.piece import Joint


class LooseSaid(JointSaid):
    """Each `part` rests on, runs on or hangs at `on`; of several, each touches one on the other side."""

    part: tuple[Said, ...]
    on: tuple[Said, ...]


class Loose:
    """The kind: contact without a joint."""

    name = "loose"
    family = Family.MEETING
    said: ClassVar[type[JointSaid]] = LooseSaid

    def join(self, id: str, said: LooseSaid, site: Site) -> Joined | None:
        """Reports `joint-no-mate` for each that touches nothing on the other side."""
        common = commons(said, self.name, glued=False, site=site)
        parts, on = chosen(said.part, site), chosen(said.on, site)
        if common is None or parts is None or on is None:
            return None
        found = all_touching(parts, on, site, "Parts with a gap between them need no line; leave it out, or move one of them.")
        contacts = tuple(dict.fromkeys(contact for _, _, lies in found for contact in lies))
        fit = common.fit if said.fit else "loose"
        joint = Joint(id, self.name, common.name, said.origin, contacts, False, fit, (), (), (), note=common.note, why=common.why)
        return Joined(joint, {})
