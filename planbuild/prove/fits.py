"""Tenons fit: each stands in its mortise with the room the joint states, in width, thickness and depth.

The tenon is measured on the solid, the mortise is what its numbers say and must be free of wood.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.geometry import Axis, Box, Face, Span1, hull
from planbuild.core.poses import same_way
from planbuild.prove.measuring import pieces_within
from planbuild.prove.standing import Standing
from planbuild.prove.telling import told
from planbuild.records.features import Mortise, Tenon
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Contact, Joint, Part
from planbuild.records.slanted import AngledMortise

AROUND = 10.0
"""How far around its block a tenon is looked for, mm."""

NEARLY = 0.05
"""A fit is measured this exactly, mm."""

CLEARANCE = "clearance"
"""The number of a joint that states the gap it leaves between cheeks; none: the fit is snug."""


@dataclass(frozen=True)
class _Fit:
    """A tenon in its mortise, both as boxes in the piece; `inward` is the way in.

    Where they stand askew in the piece, both are seen in the tenon part's own straight frame.
    """

    joint: Joint
    contact: Contact
    tenon: Tenon
    mortise: Mortise | AngledMortise
    inward: Face
    wood: Box
    room: Box

    @property
    def across(self) -> dict[Axis, float]:
        """Room on both sides together, by direction; below zero where the tenon is too large."""
        return {axis: self.room.size(axis) - self.wood.size(axis) for axis in self.inward.axis.others}

    @property
    def beside(self) -> float:
        """The least room on any side; below zero where the tenon stands in the wall."""
        gaps = []
        for axis in self.inward.axis.others:
            inner, outer = self.wood.along(axis), self.room.along(axis)
            gaps += [inner.low - outer.low, outer.high - inner.high]
        return min(gaps)

    @property
    def lies_askew(self) -> bool:
        """True if the room, seen from the tenon, is not square to it: then the box around it is larger than it is."""
        return self.room.volume > self.mortise.void.volume * (1 + 1e-4)

    @property
    def beyond(self) -> float:
        """Room past the tip; below zero where the tenon reaches farther than the mortise."""
        return (self.room.at(self.inward) - self.wood.at(self.inward)) * self.inward.sign

    @property
    def clearance(self) -> float:
        stated = dict(self.joint.numbers).get(CLEARANCE, 0.0)
        return stated if isinstance(stated, int | float) else 0.0


def tenons_fit(standing: Standing) -> Findings:
    """Reports `joint-no-mortise`, `joint-tenon-wide`, `joint-fit`, `joint-askew`, `joint-bottoms`,
    `joint-proud`, `joint-mortise-blocked`."""
    measured = {(p.id, t.id): _measured(standing, p, t) for p in standing.piece.parts for t in _tenons(p)}
    fits: list[_Fit] = []
    told_once: dict[tuple[str, str, str], Diagnostic] = {}
    for joint in standing.piece.joints:
        for contact in joint.contacts:
            for tenon, mortise in _pairs(standing, joint, contact):
                fit = _fit(standing, joint, contact, tenon, mortise, measured[contact.a[0], tenon.id]) if mortise else None
                found = _faults(standing, fit) if fit else [_no_mortise(standing, joint, contact, tenon)]
                fits += [fit] if fit else []
                for diagnostic in found:
                    told_once.setdefault((diagnostic.code, contact.a[0], contact.b[0]), diagnostic)
    diagnostics = (*told_once.values(), *_blocked(standing))
    return Findings(diagnostics, (Proof("Every tenon fits its mortise", len(fits), _worst(standing, fits)),))


def _tenons(part: Part) -> Iterator[Tenon]:
    return (feature for feature in part.features if isinstance(feature, Tenon))


def _pairs(standing: Standing, joint: Joint, contact: Contact) -> Iterator[tuple[Tenon, Mortise | AngledMortise | None]]:
    """The tenons that go home at a contact, each with its mortise."""
    into, out = standing.copy(contact.a).motion, standing.copy(contact.b).motion
    part = standing.part(contact.a)
    for tenon in _tenons(part):
        if tenon.joint != joint.id or not same_way(part.way(contact.a[1], tenon.end), contact.insert):
            continue
        askew = [f for f in standing.part(contact.b).features if isinstance(f, AngledMortise) and _is_for(f, tenon, part)]
        if askew:
            yield tenon, next((f for f in askew if _room(standing, contact, f).meet(tenon.block).is_solid), None)
            continue
        block, entered = into.box(tenon.block), into.face(tenon.end).opposite
        fitting = [
            feature
            for feature in standing.part(contact.b).features
            if isinstance(feature, Mortise) and feature.joint == joint.id and out.face(feature.face) is entered
        ]
        meeting = [mortise for mortise in fitting if out.box(mortise.void).meet(block).is_solid]
        yield tenon, meeting[0] if meeting else None


def _is_for(mortise: AngledMortise, tenon: Tenon, part: Part) -> bool:
    return mortise.joint == tenon.joint and mortise.mate.part == part.id


def _room(standing: Standing, contact: Contact, mortise: AngledMortise) -> Box:
    """A mortise that stands askew, in the own frame of the part that enters it: square again, if it is cut right."""
    part, mate = standing.part(contact.a), standing.part(contact.b)
    seen = part.stands(contact.a[1]).inverse.after(mate.stands(contact.b[1])).after(mortise.pose)
    return seen.around(mortise.void)


def _measured(standing: Standing, part: Part, tenon: Tenon) -> Box | None:
    """The box around a tenon as it is on the solid (kerfs not yet spread); None if there is no wood."""
    block, face = tenon.block, tenon.end
    region = Box.of({axis: _wider(block.along(axis)) for axis in Axis})
    # A slanted shoulder has a long corner: only beyond it stands nothing but the tenon.
    shoulder = max(block.at(face.opposite), part.body.at(face), key=lambda place: face.sign * place)
    tip = block.at(face) + face.sign * AROUND
    region = region.with_span(face.axis, Span1(min(shoulder, tip), max(shoulder, tip)))
    if tenon.haunch:
        side = tenon.haunch.face  # what stands there is the haunch, whose room the overlaps show
        ends = sorted((region.at(side.opposite), block.at(side)))
        region = region.with_span(side.axis, Span1(ends[0], ends[1]))
    pieces = [box for _, box in pieces_within(standing.solids.of[part.id].cut, region) if box.meet(block).is_solid]
    return hull(pieces) if pieces else None


def _wider(span: Span1) -> Span1:
    return Span1(span.low - AROUND, span.high + AROUND)


def _fit(
    standing: Standing, joint: Joint, contact: Contact, tenon: Tenon, mortise: Mortise | AngledMortise, wood: Box | None
) -> _Fit:
    if isinstance(mortise, AngledMortise):
        room = _room(standing, contact, mortise)
        return _Fit(joint, contact, tenon, mortise, tenon.end, wood or tenon.block, room)
    into, out = standing.copy(contact.a).motion, standing.copy(contact.b).motion
    return _Fit(
        joint, contact, tenon, mortise, into.face(tenon.end), into.box(wood or tenon.block), out.box(mortise.void)
    )


# ---------------------------------------------------------------- telling


def _faults(standing: Standing, fit: _Fit) -> Iterator[Diagnostic]:
    ruler, where, tenon = standing.piece.ruler, _where(standing, fit.contact), fit.tenon
    if fit.lies_askew:
        message = f"{where}: the mortise does not lie as the tenon does."
        yield Diagnostic("joint-askew", message, span=tenon.origin, expected="the same angles on both sides")
    elif fit.beside < -NEARLY:
        message = f"{where}: the tenon stands {told(ruler, -fit.beside)} in the wall of its mortise."
        yield Diagnostic("joint-tenon-wide", message, span=tenon.origin, expected="a tenon inside its mortise")
    elif max(fit.across.values()) > fit.clearance + NEARLY:
        gap = told(ruler, max(fit.across.values()))
        message = f"{where}: the mortise is {gap} larger than the tenon, but joint {fit.joint.id} is {fit.joint.fit}."
        yield Diagnostic("joint-fit", message, Severity.WARNING, tenon.origin, expected=told(ruler, fit.clearance))
    if not tenon.through and fit.beyond < -NEARLY:
        message = f"{where}: the tenon is {told(ruler, -fit.beyond)} longer than its mortise is deep."
        hint = "make the tenon shorter, or let it go through"
        yield Diagnostic("joint-bottoms", message, span=tenon.origin, expected="room at the bottom of a mortise", hints=(hint,))
    if tenon.through and abs(fit.beyond + tenon.proud) > NEARLY:
        message = f"{where}: the tenon stands {told(ruler, -fit.beyond)} proud, {told(ruler, tenon.proud)} is stated."
        yield Diagnostic("joint-proud", message, span=tenon.origin)


def _no_mortise(standing: Standing, joint: Joint, contact: Contact, tenon: Tenon) -> Diagnostic:
    message = f"{_where(standing, contact)}: joint {joint.id} cuts no mortise where the tenon goes in."
    return Diagnostic("joint-no-mortise", message, span=tenon.origin, expected="a mortise for every tenon")


def _blocked(standing: Standing) -> Iterator[Diagnostic]:
    """Mortises of the drawn solids in which wood is left."""
    for part in standing.piece.parts:
        for mortise in (feature for feature in part.features if isinstance(feature, Mortise | AngledMortise)):
            pose = mortise.pose if isinstance(mortise, AngledMortise) else None
            left = sum(volume for volume, _ in pieces_within(standing.solids.of[part.id].cut, mortise.void, pose))
            standing_floor = _beside(mortise)
            if left > (standing_floor + 1e-6) * mortise.void.volume:
                message = f"Wood is left in the mortise {mortise.id} of {part.name}."
                yield Diagnostic("joint-mortise-blocked", message, span=mortise.origin)


def _beside(mortise: Mortise | AngledMortise) -> float:
    """The share of its block in which wood may stand: below a rising floor, in the corners around a round one."""
    rises = isinstance(mortise, Mortise) and mortise.rises
    return 1 - math.pi / 4 if mortise.round else 0.5 if rises else 0.0


def _where(standing: Standing, contact: Contact) -> str:
    return f"{standing.name(contact.a)} in {standing.name(contact.b)}"


def _worst(standing: Standing, fits: list[_Fit]) -> str:
    """The tightest side and the least room at the bottom."""
    if not fits:
        return "no tenons"
    ruler = standing.ruler
    side = told(ruler, min(fit.beside for fit in fits))
    blind = [fit.beyond for fit in fits if not fit.tenon.through]
    bottom = f", least room at the bottom {told(ruler, min(blind))}" if blind else ""
    return f"least room beside a tenon {side}{bottom}"
