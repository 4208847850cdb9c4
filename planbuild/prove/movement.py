"""A top on buttons can move: each button's room takes the swelling, its tongue still holds after the shrinking.

Measured from where the buttons and grooves lie, apart from the joint that sized them.  The worst case is taken:
the top stays where it is at one side, and all it moves between its outermost screws is met at the other.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.geometry import Axis, Box, Face
from planbuild.joints.proportions import movement_coefficient
from planbuild.prove.standing import Standing
from planbuild.prove.telling import told
from planbuild.records.features import Groove, Hole, Rabbet
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Joint, Part
from planbuild.records.solids import Key

KIND = "buttons"


@dataclass(frozen=True)
class _Tongue:
    """A button's tongue in its groove: how far it is in, and the lesser room before its shoulder and behind its tip."""

    button: Key
    engaged: float
    room: float


@dataclass(frozen=True)
class _Top:
    """A top across its grain, by the season.  Lengths in mm."""

    joint: Joint
    part: Part
    swell: float
    shrink: float
    tongues: tuple[_Tongue, ...]


def tops_can_move(standing: Standing) -> Findings:
    """Reports `movement-room` and `movement-holds`.

    Source: Wood Handbook (USDA Forest Products Laboratory), equation 13-2 and table 13-5.
    """
    tops = [top for joint in standing.piece.joints if joint.kind == KIND if (top := _top(standing, joint))]
    checked = sum(len(top.tongues) for top in tops)
    saying = "; ".join(_worst(standing, top) for top in tops) or "no top on buttons"
    diagnostics = tuple(d for top in tops for d in _faults(standing, top))
    return Findings(diagnostics, (Proof("Every top on buttons is free to move", checked, saying),))


def _top(standing: Standing, joint: Joint) -> _Top | None:
    """The top that a joint holds; None where its wood has no published movement or nothing lies across its grain."""
    key = joint.contacts[0].a
    part, motion = standing.part(key), standing.copy(key).motion
    coefficient, across = movement_coefficient(standing.piece.stock_of(part)), motion.axis(part.width_axis)
    buttons = [(id, index) for id in joint.makes for index in range(len(standing.piece.part(id).copies))]
    crosswise = [tongue for button in buttons if (tongue := _tongue(standing, joint, button, across))]
    if coefficient is None or not crosswise:
        return None
    dry, damp, workshop = standing.piece.moisture
    screws = [_screw(standing, tongue.button, across) for tongue in crosswise]
    apart = max(screws) - min(screws)
    return _Top(joint, part, apart * coefficient * (damp - workshop), apart * coefficient * (workshop - dry), tuple(crosswise))


def _tongue(standing: Standing, joint: Joint, button: Key, across: Axis) -> _Tongue | None:
    """The tongue of a button whose groove looks across the grain of the top; None for other buttons."""
    motion, part = standing.copy(button).motion, standing.part(button)
    body = motion.box(part.body)
    steps = [motion.box(feature.void) for feature in part.features if isinstance(feature, Rabbet)]
    for face, groove in _grooves(standing, joint):
        if face.axis is across and groove.meet(body).is_solid and steps:
            engaged = groove.meet(body).size(across)
            behind, before = groove.size(across) - engaged, steps[0].size(across) - engaged
            return _Tongue(button, engaged, min(behind, before))
    return None


def _grooves(standing: Standing, joint: Joint) -> Iterator[tuple[Face, Box]]:
    """The grooves of a joint, as they stand: the face they are cut in, and their room."""
    for part in standing.piece.parts:
        for groove in (f for f in part.features if isinstance(f, Groove) and f.joint == joint.id):
            for copy in part.copies:
                yield copy.motion.face(groove.face), copy.motion.box(groove.void)


def _screw(standing: Standing, button: Key, across: Axis) -> float:
    """Where the screw of a button stands across the grain of the top; the button's middle if it has none."""
    part, motion = standing.part(button), standing.copy(button).motion
    centre = next((f.centre for f in part.features if isinstance(f, Hole)), part.body.centre)
    return motion.point(centre)[across.value]


# ---------------------------------------------------------------- telling


def _faults(standing: Standing, top: _Top) -> Iterator[Diagnostic]:
    ruler, name = standing.piece.ruler, top.part.name
    tight = min(top.tongues, key=lambda tongue: tongue.room)
    if tight.room < top.swell:
        message = f"The {name} swells {told(ruler, top.swell)}, its buttons have room for {told(ruler, tight.room)}."
        hint = "a deeper groove and a longer tongue, or quartersawn stock"
        yield Diagnostic("movement-room", message, span=top.joint.origin, hints=(hint,), source="core/tables/species.csv")
    short = min(top.tongues, key=lambda tongue: tongue.engaged)
    if short.engaged <= top.shrink:
        drawn = told(ruler, short.engaged)
        message = f"The {name} shrinks {told(ruler, top.shrink)} and draws tongues of {drawn} out of their grooves."
        hint = "a longer tongue, or quartersawn stock"
        yield Diagnostic("movement-holds", message, span=top.joint.origin, hints=(hint,), source="core/tables/species.csv")


def _worst(standing: Standing, top: _Top) -> str:
    ruler = standing.ruler
    room, engaged = min(t.room for t in top.tongues), min(t.engaged for t in top.tongues)
    moves = f"between its outer screws the {top.part.name} swells {told(ruler, top.swell)} and shrinks {told(ruler, top.shrink)}"
    return f"{moves}; room {told(ruler, room)}, and {told(ruler, engaged - top.shrink)} of each tongue still holds"
