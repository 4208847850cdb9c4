"""Screws: a part screwed fast to others, heads in the open, let in, or under plugs."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import ClassVar

from planbuild.joints.base import Board, Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.copies import settled
from planbuild.joints.faults import refuse
from planbuild.joints.fixing import Fixing, fixed, screw_spacing
from planbuild.joints.lying import MOVE, lying_on_all
from planbuild.joints.screw_fields import ScrewFields
from planbuild.records.design import JointSaid, Said
from planbuild.records.piece import Contact, Joint


class ScrewedSaid(JointSaid, ScrewFields):
    """`part` is screwed to every one of `to`."""

    part: Said
    to: tuple[Said, ...]


class Screwed:
    """The kind: screws alone, or screws that clamp a glued face."""

    name = "screws"
    family = Family.MEETING
    said: ClassVar[type[JointSaid]] = ScrewedSaid

    def join(self, id: str, said: ScrewedSaid, site: Site) -> Joined | None:
        """Reports `joint-no-mate`, `joint-screws-from`, and what `fixed` reports."""
        common = commons(said, self.name, glued=False, site=site)
        part = site.words.part(said.part)
        contacts = lying_on_all(part, said.to, site, MOVE) if part else None
        if common is None or part is None or not contacts:
            return None
        fixing = screwed_on(id, contacts, said, common.glue, site)
        if fixing is None:
            return None
        return Joined(_told(id, said, common, contacts, fixing, site), settled(id, fixing.cuts, site), buys=fixing.buys)


def screwed_on(
    id: str, contacts: Sequence[Contact], said: ScrewFields, glued: bool, site: Site,
    boards: Mapping[str, Board] | None = None,
) -> Fixing | None:  # fmt: skip
    """The screws of a part that is fast; through the part itself, or from the other side (`from`)."""
    chosen = _from(contacts, said, site)
    if chosen is None:
        return None
    held, through_first = chosen
    plain, default = screw_spacing(site)
    return fixed(id, held, through_first, said, plain, default, site, glued=glued, boards=boards)


def with_screws(joined: Joined, fixing: Fixing, site: Site) -> Joined:
    """Another joint with its screws: their holes, numbers, tools and hardware added to its own."""
    joint, features = joined.joint, dict(joined.features)
    for part, cut in settled(joint.id, fixing.cuts, site).items():
        features[part] = (*features.get(part, ()), *cut)
    more = replace(
        joint,
        numbers=(*joint.numbers, *fixing.numbers()),
        operations=(*joint.operations, "bore", "screw"),
        tools=(*joint.tools, *fixing.tools(site)),
        hardware=(*joint.hardware, *fixing.hardware),
        defaults=(*joint.defaults, *fixing.defaults),
    )
    return replace(joined, joint=more, features=features, buys=(*joined.buys, *fixing.buys))


def _from(
    contacts: Sequence[Contact], said: ScrewFields, site: Site
) -> tuple[Sequence[Contact], Callable[[Contact], bool]] | None:
    """Which contacts get screws, and whether they go through their first part; None after reporting.

    `part` and `to` name the two sides; the name of one part takes only the places where that part lies.
    """
    word = said.start.text if said.start else "part"
    if word in ("part", "to"):
        return contacts, lambda contact: word == "part"
    for through_first in (True, False):
        held = [each for each in contacts if (each.a if through_first else each.b)[0] == word]
        if held:
            return held, lambda contact: contact.a[0] == word
    assert said.start is not None
    others = dict.fromkeys(key[0] for each in contacts for key in (each.a, each.b))
    message, expected = f'No screws can come from "{word}".', f"one of: part, to, {', '.join(others)}"
    refuse(site, "joint-screws-from", said.start.span, message, expected)
    return None


def _told(id: str, said: ScrewedSaid, common: Commons, contacts: Sequence[Contact], fixing: Fixing, site: Site) -> Joint:
    return Joint(
        id=id,
        kind=Screwed.name,
        name=common.name,
        origin=said.origin,
        contacts=tuple(contacts),
        glue=common.glue,
        fit="snug",
        numbers=fixing.numbers(),
        operations=("bore", "screw"),
        tools=fixing.tools(site),
        hardware=fixing.hardware,
        defaults=fixing.defaults,
        note=common.note,
        why=common.why,
    )
