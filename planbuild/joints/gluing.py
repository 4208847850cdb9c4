"""Joints of glue alone: a butt joint, and boards glued edge to edge.  Nothing is cut.

Glue holds long grain to long grain.  What ends against a board holds hardly at all, and that is said.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations
from typing import ClassVar

from planbuild.core.geometry import Axis, Face
from planbuild.joints.base import Chosen, Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.dado import THIRD
from planbuild.joints.dowel import DowelFields, doweled
from planbuild.joints.edge_splines import EdgeSplinesSaid, splined
from planbuild.joints.faults import refuse, warn
from planbuild.joints.lying import MOVE, all_touching, chosen, lying, say_apart
from planbuild.joints.proportions import length_rule, movement_coefficient, rule
from planbuild.joints.screw_fields import ScrewFields
from planbuild.joints.screwed import screwed_on, with_screws
from planbuild.joints.tongue_and_groove import TongueAndGroove, TongueAndGrooveSaid
from planbuild.records.design import JointSaid, Said
from planbuild.records.piece import Contact, Joint


class ButtSaid(JointSaid):
    """Each `part` is set against `to`; of several, each meets one on the other side.  `screws` draw them home,
    `dowels` hold them."""

    part: tuple[Said, ...]
    to: tuple[Said, ...]
    screws: ScrewFields | None = None
    dowels: DowelFields | None = None


class EdgeGlueSaid(JointSaid):
    """All places where any two of the standing `parts` lie edge to edge; `dowels`, `splines` (or their thickness) or a
    `tongue` (a third, or its thickness) on the first keep their faces in one plane."""

    parts: tuple[Said, ...]
    tongue: Said | None = None
    dowels: DowelFields | None = None
    splines: Said | EdgeSplinesSaid | None = None


class Butt:
    """The kind: a part set square against another."""

    name = "butt"
    family = Family.MEETING
    said: ClassVar[type[JointSaid]] = ButtSaid

    def join(self, id: str, said: ButtSaid, site: Site) -> Joined | None:
        """Reports `joint-no-mate`, `joint-cross-grain`, `joint-end-grain` (warning), and what screws report."""
        common = commons(said, self.name, glued=True, site=site)
        parts, to = chosen(said.part, site), chosen(said.to, site)
        if common is None or parts is None or to is None:
            return None
        found = all_touching(parts, to, site, MOVE)
        contacts = [contact for _, _, lies in found for contact in lies]
        if common.glue and any(_crosses([c for c in contacts if c.a[0] == part.board.id], part, site) for part in parts):
            return None
        if said.dowels and not said.screws:
            return doweled(id, said, said.part, said.to, said.dowels, site) if contacts else None
        plain = Joined(_told(id, self.name, said, common, contacts, site), {})
        if said.screws:
            fixing = screwed_on(id, contacts, said.screws, common.glue, site) if contacts else None
            return with_screws(plain, fixing, site) if fixing else None
        for part in parts if common.glue else ():
            _warn_of_ends([each for each in contacts if each.a[0] == part.board.id], part, site)
        return plain


class EdgeGlue:
    """The kind: boards glued to a wider one, each a part of its own."""

    name = "edge glue"
    family = Family.MEETING
    said: ClassVar[type[JointSaid]] = EdgeGlueSaid

    def join(self, id: str, said: EdgeGlueSaid, site: Site) -> Joined | None:
        """Reports `joint-no-mate`, `joint-end-grain` and `joint-grain-crosses`."""
        common = commons(said, self.name, glued=True, site=site)
        named = chosen(said.parts, site)
        if common is None or named is None:
            return None
        contacts = _between(named)
        if not contacts:
            say_apart(named[0], named[1:] or named, site, "Set them side by side, edge against edge.")
            return None
        sound = [_along_the_grain(each, named, site) for each in contacts]
        if not all(sound):
            return None
        if said.tongue:
            return _tongued(id, said, said.tongue, site)
        if said.dowels:
            return doweled(id, said, _edges(said, named, contacts, site), said.parts, said.dowels, site)
        plain = _told(id, self.name, said, common, contacts, site)
        return splined(id, plain, said.splines, site) if said.splines else Joined(plain, {})


def _tongued(id: str, said: EdgeGlueSaid, tongue: Said, site: Site) -> Joined | None:
    """Glued, else a tongue and groove."""
    own = {name: getattr(said, name) for name in JointSaid.model_fields} | {"glue": said.glue or replace(tongue, text="yes")}
    thickness = None if tongue.text == THIRD else tongue
    return TongueAndGroove().join(id, TongueAndGrooveSaid(**own, parts=said.parts, thickness=thickness), site)


def _edges(said: EdgeGlueSaid, named: Sequence[Chosen], contacts: Sequence[Contact], site: Site) -> list[Said]:
    """The edges, by their own names, with which the first of each two boards meets the other."""
    found: dict[str, Said] = {}
    for contact in contacts:
        part, copy = contact.a
        way = next(face for face in Face if face.normal == contact.insert)
        own = site.boards[part].copies[copy].motion.inverse.face(way)
        word = next(text for text, each in zip(said.parts, named, strict=True) if each.board.id == part)
        text = word.text if "." in word.text else f"{word.text}.{own.value}"
        found.setdefault(text, replace(word, text=text))
    return list(found.values())


def _between(named: Sequence[Chosen]) -> list[Contact]:
    """Between any two standing copies, each pair once."""
    standing = [replace(each, copies=(copy,)) for each in named for copy in each.copies]
    return [contact for one, other in combinations(standing, 2) for contact in lying(one, other)]


# ---------------------------------------------------------------- what holds


def _grains(contact: Contact, site: Site) -> tuple[Axis, Axis]:
    """How the grain of both parts runs where they stand."""
    one, other = (
        site.boards[id].copies[copy].motion.axis(site.boards[id].grain) for id, copy in (contact.a, contact.b)
    )  # fmt: skip
    return one, other


def _across(contact: Contact) -> Axis:
    """The direction in which the two parts press on each other."""
    return next(axis for axis in Axis if contact.insert[axis.value])


def _ends(contact: Contact, site: Site) -> bool:
    """True if one of the two parts shows its end grain at the joint; a sheet shows half its plies along at every edge."""
    parts = (contact.a[0], contact.b[0])
    return any(
        grain is _across(contact) and site.boards[id].stock.sheet is None
        for id, grain in zip(parts, _grains(contact, site), strict=True)
    )


def _tears(contact: Contact, site: Site) -> bool:
    """True if one wood moves along the joint and the other does not; a sheet never moves, nor does wood along its grain."""
    solid = [
        grain
        for id, grain in zip((contact.a[0], contact.b[0]), _grains(contact, site), strict=True)
        if site.boards[id].stock.sheet is None
    ]
    if len(solid) == 2:
        return solid[0] is not solid[1]
    run = max(_across(contact).others, key=contact.shoulder.size)
    return bool(solid) and solid[0] is not run


def _area(contact: Contact, site: Site) -> float:
    """Long grain against long grain; an end counts for nothing."""
    first, second = _across(contact).others
    return 0.0 if _ends(contact, site) else contact.shoulder.size(first) * contact.shoulder.size(second)


def _warn_of_ends(contacts: Sequence[Contact], part: Chosen, site: Site) -> None:
    weak = next((each for each in contacts if _ends(each, site)), None)
    if weak:
        message = f'Between "{weak.a[0]}" and "{weak.b[0]}" lies end grain: glue alone does not hold there.'
        hint = "Let one into the other (`dado`, `rabbet`, `mortise and tenon`), or let something else carry it."
        warn(site, "joint-end-grain", part.span, message, "long grain against long grain", hint, source="common practice")


def _crosses(contacts: Sequence[Contact], part: Chosen, site: Site) -> bool:
    """True after reporting `joint-cross-grain`: glued over more of a board's width than can move.

    Source of the formula: Wood Handbook (USDA Forest Products Laboratory), equation 13-2.
    """
    for each in contacts:
        for axis in _across(each).others:
            grains = _grains(each, site)
            if (grains[0] is axis) is (grains[1] is axis):
                continue
            mover, other = (each.b[0], each.a[0]) if grains[0] is axis else (each.a[0], each.b[0])
            dry, damp, _ = site.moisture
            wide = each.shoulder.size(axis)
            moves = wide * (movement_coefficient(site.boards[mover].stock) or 0.0) * (damp - dry)
            if moves > length_rule("screw_moves", site.ruler):
                figure = site.ruler.plain
                message = f'"{mover}" ({figure(wide)} wide there, moves {figure(moves)} in a year) is glued across "{other}".'
                hint, source = "Use `slotted screws` or a `batten`, and no glue.", rule("screw_moves", site.ruler).source
                refuse(site, "joint-cross-grain", part.span, message, "wood that can move", hint, source)
                return True
    return False


def _along_the_grain(contact: Contact, named: Sequence[Chosen], site: Site) -> bool:
    span = next(each.span for each in named if each.board.id == contact.a[0])
    names = f'"{contact.a[0]}" and "{contact.b[0]}"'
    if _ends(contact, site):
        message = f"{names} meet at an end: end grain glued on does not hold."
        refuse(site, "joint-end-grain", span, message, "edges that lie along the grain", source="common practice")
        return False
    if _tears(contact, site):
        message = f"The grain of {names} crosses: one moves where the other does not, and the joint tears."
        refuse(site, "joint-grain-crosses", span, message, "boards whose grain runs alike", source="common practice")
        return False
    return True


def _told(id: str, kind: str, said: JointSaid, common: Commons, contacts: Sequence[Contact], site: Site) -> Joint:
    held = tuple(
        replace(each, glue_area=_area(each, site) if common.glue else 0.0, face_glued=True) for each in contacts
    )  # fmt: skip
    return Joint(
        id=id,
        kind=kind,
        name=common.name,
        origin=said.origin,
        contacts=held,
        glue=common.glue,
        fit=common.fit,
        numbers=(),
        operations=(),
        tools=("jointer",) if kind == EdgeGlue.name else ("try square",),
        note=common.note,
        why=common.why,
    )
