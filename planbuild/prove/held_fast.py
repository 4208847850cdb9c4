"""Wood held fast across its grain: wide glued joints where grains cross, and wide boards shut in a rigid frame.

Screws are looked at where the joint is made; here it is glue, of every kind of joint alike.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.geometry import Axis
from planbuild.joints.proportions import length_rule, movement_coefficient
from planbuild.joints.rooms import across, grows
from planbuild.prove.standing import Standing
from planbuild.prove.telling import told
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Contact, Joint
from planbuild.records.solids import Key

SOURCE = "Wood Handbook (USDA Forest Products Laboratory), equation 13-2; the limit is common practice"
FREE = (
    "loose", "panel in groove", "tongue and groove", "buttons", "plates", "slotted screws", "breadboard end", "batten", "cleat",
)  # fmt: skip
"""Joints in which a board can move across its grain, or which only touch."""


def glue_crosses_narrowly(standing: Standing) -> Findings:
    """Reports `movement-cross-grain` (warning), once for each joint."""
    crossed = [(joint, each) for joint in standing.piece.joints if joint.glue for each in joint.contacts if each.cross_grain > 0]
    limit, worst = length_rule("glue_moves", standing.piece.ruler), 0.0
    found: dict[str, Diagnostic] = {}
    for joint, contact in crossed:
        moves = _moves(standing, contact)
        worst = max(worst, moves)
        if moves > limit:
            found.setdefault(joint.id, _crossed(standing, joint, contact, moves))
    saying = f"the widest moves {told(standing.ruler, worst)} in a year, at most {told(standing.ruler, limit)} is usual"
    return Findings(tuple(found.values()), (Proof("No glued joint is too wide where grains cross", len(crossed), saying),))


def _moves(standing: Standing, contact: Contact) -> float:
    """What the livelier of the two woods moves over the width where the grains cross, from dry to damp."""
    piece = standing.piece
    dry, damp, _ = piece.moisture
    woods = [piece.stock_of(standing.part(key)) for key in (contact.a, contact.b)]
    return contact.cross_grain * max(movement_coefficient(each) or 0.0 for each in woods) * (damp - dry)


def _crossed(standing: Standing, joint: Joint, contact: Contact, moves: float) -> Diagnostic:
    ruler, names = standing.piece.ruler, f"{standing.name(contact.a)} and {standing.name(contact.b)}"
    wide = told(ruler, contact.cross_grain)
    message = f"{names}: glued over {wide} where the grains cross; that moves {told(ruler, moves)} in a year."
    hint = "Two narrower tenons, glue only near the middle, or a joint that lets the wood move."
    return Diagnostic("movement-cross-grain", message, Severity.WARNING, joint.origin, hints=(hint,), source=SOURCE)


# ---------------------------------------------------------------- shut in


@dataclass(frozen=True)
class _Shut:
    """A board between two others that something holds at their distance."""

    joint: Joint
    board: Key
    between: tuple[Key, Key]
    swells: float


def boards_are_not_shut_in(standing: Standing) -> Findings:
    """Reports `movement-shut-in`, once for each part.  A heuristic: what is glued to both neighbours, with its grain from
    one to the other, holds them."""
    found = list(_shut(standing))
    limit, first = length_rule("glue_moves", standing.piece.ruler), {each.board[0]: each for each in reversed(found)}
    faults = tuple(_fault(standing, first[id]) for id in sorted(first) if first[id].swells > limit)
    worst = max(found, key=lambda each: each.swells, default=None)
    saying = f"the {standing.name(worst.board)} swells {told(standing.ruler, worst.swells)} there" if worst else "there is none"
    return Findings(faults, (Proof("No wide board is shut in between two that cannot give way", len(found), saying),))


def _shut(standing: Standing) -> Iterator[_Shut]:
    piece, damp = standing.piece, standing.piece.moisture[1]
    for joint in (each for each in piece.joints if each.kind not in FREE):
        for contact in joint.contacts:
            board, mate = contact.a, contact.b
            part = standing.part(board)
            axis = across(part, board[1])
            if not contact.insert[axis.value] or part.pose or not movement_coefficient(piece.stock_of(part)):
                continue
            for other in _opposite(standing, contact, axis):
                if _held_apart(standing, mate, other, board, axis):
                    size = standing.boxes[board].size(axis)
                    yield _Shut(joint, board, (mate, other), grows(piece, part, size, damp))


def _opposite(standing: Standing, contact: Contact, axis: Axis) -> Iterator[Key]:
    """What the same board meets on its other side."""
    for joint in (each for each in standing.piece.joints if each.kind not in FREE):
        for each in joint.contacts:
            if each.a == contact.a and each.insert[axis.value] * contact.insert[axis.value] < 0:
                yield each.b


def _held_apart(standing: Standing, one: Key, other: Key, board: Key, axis: Axis) -> bool:
    """Whether a part whose grain runs from one to the other is glued to both."""
    ties = [_glued_to(standing, key) for key in (one, other)]
    return any(key != board and standing.copy(key).motion.axis(standing.part(key).grain) is axis for key in ties[0] & ties[1])


def _glued_to(standing: Standing, key: Key) -> set[Key]:
    glued = [each for joint in standing.piece.joints if joint.glue for each in joint.contacts]
    return {each.b if each.a == key else each.a for each in glued if key in (each.a, each.b)}


def _fault(standing: Standing, shut: _Shut) -> Diagnostic:
    one, other = (standing.name(key) for key in shut.between)
    swells = told(standing.piece.ruler, shut.swells)
    message = f"The {standing.name(shut.board)} swells {swells} in damp air, shut in between {one} and {other}; it forces them."
    hint = "Let it move in grooves (`panel in groove`), leave a gap, or use a sheet."
    return Diagnostic("movement-shut-in", message, span=shut.joint.origin, hints=(hint,), source=SOURCE)
