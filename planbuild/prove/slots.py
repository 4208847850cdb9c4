"""A panel on slotted screws can move: each slot lets its screw go as far as the wood carries it, both ways.

Measured from where holes and slots lie, apart from the joint that made them.  What stays is the line of the screws
without slots; where all have slots, the middle of the panel.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.geometry import TINY, Axis
from planbuild.joints.proportions import movement_coefficient
from planbuild.prove.standing import Standing
from planbuild.prove.telling import told
from planbuild.records.features import Hole
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Joint, Part
from planbuild.records.solids import Key


@dataclass(frozen=True)
class _Travel:
    """One slot of a joint: how far its screw can go either way, and how far the wood carries it.  Lengths in mm."""

    joint: Joint
    panel: Part
    room: float
    wanted: float


def slots_let_move(standing: Standing) -> Findings:
    """Reports `movement-slot`.

    Source: Wood Handbook (USDA Forest Products Laboratory), equation 13-2 and table 13-5.
    """
    found = [each for joint in standing.piece.joints for each in _travels(standing, joint)]
    short: dict[str, _Travel] = {}
    for each in found:
        if each.room < each.wanted - TINY:
            short[each.joint.id] = max(each, short.get(each.joint.id, each), key=lambda one: one.wanted - one.room)
    least = min(found, key=lambda each: each.room - each.wanted, default=None)
    saying = _worst(standing, least) if least else "no slotted screws"
    proof = Proof("Every slot lets its screw travel", len(found), saying)
    return Findings(tuple(_fault(standing, each) for each in short.values()), (proof,) if found else ())


def _travels(standing: Standing, joint: Joint) -> Iterator[_Travel]:
    slotted = [(key, hole) for key, hole in _holes(standing, joint) if hole.slot]
    if not slotted:
        return
    panel = _panel(standing, joint, slotted)
    if panel is None:
        return
    part, axis = standing.part(panel), _way(standing, slotted[0])
    coefficient = movement_coefficient(standing.piece.stock_of(part)) or 0.0
    dry, damp, workshop = standing.piece.moisture
    moving = {key[0] for key, _ in slotted}
    round_ones = [(key, hole) for key, hole in _holes(standing, joint) if key[0] in moving and _stays(hole)]
    still = [_at(standing, key, hole, axis) for key, hole in round_ones]
    line = sum(still) / len(still) if still else standing.copy(panel).motion.box(part.body).along(axis).middle
    for key, hole in slotted:
        away = abs(_at(standing, key, hole, axis) - line)
        yield _Travel(joint, part, hole.travel / 2, away * coefficient * max(damp - workshop, workshop - dry))


def _stays(hole: Hole) -> bool:
    """True for a round hole on whose screw or peg the panel is held."""
    return hole.purpose in ("clearance", "peg") and not hole.slot


def _way(standing: Standing, slotted: tuple[Key, Hole]) -> Axis:
    """The direction of a slot where it stands."""
    key, hole = slotted
    assert hole.slot is not None
    return standing.copy(key).motion.axis(hole.slot.along)


def _holes(standing: Standing, joint: Joint) -> list[tuple[Key, Hole]]:
    return [
        ((part.id, copy), feature)
        for part in standing.piece.parts
        for feature in part.features
        if isinstance(feature, Hole) and feature.joint == joint.id
        for copy in range(len(part.copies))
    ]


def _at(standing: Standing, key: Key, hole: Hole, axis: Axis) -> float:
    return standing.copy(key).motion.point(hole.centre)[axis.value]


def _panel(standing: Standing, joint: Joint, slotted: list[tuple[Key, Hole]]) -> Key | None:
    """The member that moves along the slots: the widest that way of those whose grain does not run so."""
    axis = _way(standing, slotted[0])
    members = {key for contact in joint.contacts for key in (contact.a, contact.b)}
    moving = [key for key in sorted(members) if standing.copy(key).motion.axis(standing.part(key).grain) is not axis]
    return max(moving, key=lambda key: standing.copy(key).motion.box(standing.part(key).body).size(axis), default=None)


def _fault(standing: Standing, each: _Travel) -> Diagnostic:
    ruler = standing.piece.ruler
    wants, has = told(ruler, each.wanted), told(ruler, each.room)
    message = f"The {each.panel.name} carries a screw {wants} either way, its slot lets it go {has}."
    hint = "longer slots, or a line that stays nearer to the middle"
    return Diagnostic("movement-slot", message, span=each.joint.origin, hints=(hint,), source="core/tables/species.csv")


def _worst(standing: Standing, least: _Travel) -> str:
    ruler = standing.ruler
    wants, has = told(ruler, least.wanted), told(ruler, least.room)
    return f"the {least.panel.name} carries its screws up to {wants} either way; the slot there lets them go {has}"
