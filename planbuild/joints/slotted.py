"""Slotted screws and battens: a panel held down by screws that can travel, so that it moves with the seasons.

One line of the panel stays where it is; each screw off that line stands in a slot that is as long as the panel can
carry it, both ways, from where it is put in.  Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from planbuild.core.geometry import Axis
from planbuild.joints.base import Chosen, Family, Joined, Site, Standing
from planbuild.joints.commons import Commons, commons, glue_word
from planbuild.joints.copies import settled
from planbuild.joints.faults import refuse
from planbuild.joints.fixing import Fixing, fixed
from planbuild.joints.lying import MOVE, lying_on_all
from planbuild.joints.proportions import length_rule, movement_coefficient, used, used_practice
from planbuild.joints.screw_fields import ScrewFields
from planbuild.joints.screw_rows import Place
from planbuild.joints.screws import Screw
from planbuild.joints.spacing import Spacing
from planbuild.records.design import ItemSaid, JointSaid, Said
from planbuild.records.features import Slot
from planbuild.records.piece import Contact, Joint

MIDDLE = "middle"
NEAR = 1.0
"""Screws this near the line that stays need no slot, mm."""


class SlottedScrewsSaid(JointSaid):
    """`top` is held on the parts `on`; the line `fixed_along` (a face of the top, or its middle) stays."""

    top: Said
    on: tuple[Said, ...]
    screw: Said | ItemSaid
    count: Said | None = None
    spacing: Said | None = None
    edge: Said | None = None
    counterbore: Said | None = None
    fixed_along: Said | None = None


class BattenSaid(JointSaid):
    """`part` lies across the grain of `to` and keeps it flat."""

    part: Said
    to: Said
    screws: ScrewFields
    fixed: Said | None = None


@dataclass(frozen=True)
class _Moving:
    """The panel that moves (its parts as chosen), the word for the line that stays, and where that was said."""

    panel: Chosen
    line: str
    said: Said

    def member(self, place: Place) -> Standing:
        outer = place.seam.outer
        return outer if outer.board.id == self.panel.board.id else place.seam.inner


class SlottedScrews:
    """The kind: a top on its rails, a drawer bottom under its back."""

    name = "slotted screws"
    family = Family.MEETING
    said: ClassVar[type[JointSaid]] = SlottedScrewsSaid

    def join(self, id: str, said: SlottedScrewsSaid, site: Site) -> Joined | None:
        """Reports `joint-no-mate`, `joint-glue`, `joint-fixed-along`, `joint-movement`, and what `fixed` reports."""
        common = unglued(said, self.name, site)
        top = site.words.part(said.top)
        contacts = lying_on_all(top, said.on, site, MOVE) if top else None
        if common is None or top is None or not contacts:
            return None
        line = said.fixed_along.text if said.fixed_along else MIDDLE
        moving = _Moving(top, line, said.fixed_along or said.top)
        told = {"count": said.count, "spacing": said.spacing, "edge": said.edge, "counterbore": said.counterbore}
        fields = ScrewFields(origin=said.origin, item=said.screw, **told)
        fixing = _fixed(id, contacts, fields, moving, site)
        return _joined(id, self.name, said, common, contacts, fixing, moving, site) if fixing else None


class Batten:
    """The kind: a batten screwed across a panel."""

    name = "batten"
    family = Family.MEETING
    said: ClassVar[type[JointSaid]] = BattenSaid

    def join(self, id: str, said: BattenSaid, site: Site) -> Joined | None:
        """Reports `joint-no-mate`, `joint-glue`, `joint-batten-along`, and what `SlottedScrews` reports."""
        common = unglued(said, self.name, site)
        part, to = site.words.part(said.part), site.words.part(said.to)
        contacts = lying_on_all(part, (said.to,), site, MOVE) if part and to else None
        if common is None or part is None or to is None or not contacts or not _lies_across(contacts, part, to, site):
            return None
        moving = _Moving(to, said.fixed.text if said.fixed else MIDDLE, said.fixed or said.part)
        fixing = _fixed(id, contacts, said.screws, moving, site, through=part.board.id)
        return _joined(id, self.name, said, common, contacts, fixing, moving, site) if fixing else None


def unglued(said: JointSaid, kind: str, site: Site) -> Commons | None:
    """The common fields of a joint that lets wood move; None after reporting `joint-glue`."""
    common = commons(said, kind, glued=False, site=site)
    if common is None or not common.glue:
        return common
    message = "Glue would hold the panel fast, and it would split."
    refuse(site, "joint-glue", glue_word(said).span, message, "no glue", "Leave `glue` out.")
    return None


def _lies_across(contacts: Sequence[Contact], part: Chosen, to: Chosen, site: Site) -> bool:
    for each in contacts:
        batten, panel = Standing(part.board, each.a[1]), Standing(to.board, each.b[1])
        if batten.grain is panel.grain:
            message = f'The grain of "{part.board.id}" runs like that of "{to.board.id}": it keeps nothing flat.'
            refuse(site, "joint-batten-along", part.span, message, "a batten across the grain", source="common practice")
            return False
    return True


# ---------------------------------------------------------------- slots


def _fixed(
    id: str, contacts: Sequence[Contact], fields: ScrewFields, moving: _Moving, site: Site, through: str = ""
) -> Fixing | None:
    """Through the part named; else from below, or through what does not move."""

    def first(contact: Contact) -> bool:
        if through:
            return contact.a[0] == through
        return contact.insert[2] > 0.5 if abs(contact.insert[2]) > 0.5 else contact.a[0] != moving.panel.board.id

    ruler = site.ruler
    corner = (used("Screws from the corners", "slot_corner", ruler),)
    plain = Spacing(length_rule("slot_corner", ruler), site.practice.button_spacing, defaults=corner)
    default = used_practice("Distance of the screws", "button_spacing")
    return fixed(
        id, contacts, first, fields, plain, default, site, lambda places, screw: _slotted(places, screw, moving, site)
    )


def _slotted(places: Sequence[Place], screw: Screw, moving: _Moving, site: Site) -> list[Place] | None:
    """All slots of a joint are alike, as long as the screw farthest from the line that stays asks; a sheet needs none.

    Source of the formula: Wood Handbook (USDA Forest Products Laboratory), equation 13-2.
    """
    away = _away(places, moving, site)
    coefficient = movement_coefficient(moving.panel.board.stock)
    if coefficient is None:
        board = moving.panel.board
        message = f'There is no published movement of {board.stock.species}, so the slots for "{board.id}" cannot be worked out.'
        refuse(site, "joint-movement", board.stock.origin, message, "a wood of the table of woods with its coefficients")
    if away is None or coefficient is None:
        return None
    if not coefficient:
        return list(places)
    dry, damp, workshop = site.moisture
    farthest = max((distance for _, distance in away), default=0.0)
    travel = 2 * farthest * coefficient * max(damp - workshop, workshop - dry)
    step = float(site.ruler.step * site.ruler.unit.mm)
    length = max(length_rule("slot_shortest", site.ruler), step * math.ceil((screw.clearance + travel) / step - 1e-9))
    return [
        each if distance <= NEAR else replace(each, slot=Slot(axis, length))
        for each, (axis, distance) in zip(places, away, strict=True)
    ]


def _away(places: Sequence[Place], moving: _Moving, site: Site) -> list[tuple[Axis, float]] | None:
    """For each screw, the direction in which the panel moves there and how far the screw is from the line that stays."""
    found = []
    for each in places:
        member = moving.member(each)
        axis = _moves_along(member, each)
        line = _line([p for p in places if moving.member(p).key == member.key], member, axis, moving, site)
        if line is None:
            return None
        found.append((axis, abs(each.at(axis) - line)))
    return found


def _moves_along(member: Standing, place: Place) -> Axis:
    """Across its grain, in its width where the seam lies so."""
    wide = member.board.copies[member.copy].motion.axis(member.board.width_axis)
    axes = [axis for axis in place.seam.way.axis.others if axis is not member.grain]
    return wide if wide in axes else axes[0]


def _line(places: Sequence[Place], member: Standing, axis: Axis, moving: _Moving, site: Site) -> float | None:
    """Where the panel stays; None after reporting `joint-fixed-along`."""
    if moving.line == MIDDLE:
        return member.body.along(axis).middle
    face = next((each for each in (axis.low, axis.high) if each.value == moving.line), None)
    if face is None:
        message = f'"{member.board.id}" does not move along `{moving.line}`: its grain runs {member.grain.words}.'
        expected = f"{axis.low.value}, {axis.high.value} or {MIDDLE}"
        refuse(site, "joint-fixed-along", moving.said.span, message, expected)
        return None
    spots = [each.at(axis) for each in places]
    return min(spots) if face is axis.low else max(spots)


# ---------------------------------------------------------------- telling


def _joined(
    id: str, kind: str, said: JointSaid, common: Commons, contacts: Sequence[Contact], fixing: Fixing, moving: _Moving, site: Site
) -> Joined:
    slots = any(each.slot for each in fixing.places)
    joint = Joint(
        id=id,
        kind=kind,
        name=common.name,
        origin=said.origin,
        contacts=tuple(contacts),
        glue=False,
        fit=common.fit,
        numbers=(*fixing.numbers(), ("line that stays", moving.line)),
        operations=("bore", "screw"),
        tools=fixing.tools(site),
        hardware=fixing.hardware,
        defaults=(*fixing.defaults, *([used("Length of the slots", "slot_shortest", site.ruler)] if slots else [])),
        note=common.note,
        why=common.why,
    )
    return Joined(joint, settled(id, fixing.cuts, site), buys=fixing.buys)
