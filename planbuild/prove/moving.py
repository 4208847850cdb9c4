"""Drawers open and doors swing: what moves in use is moved on the solids, and must come free of all else.

Tried at places, not swept: each of the first degrees of a swing, where a door binds, then every `EVERY_ANGLE`, and
every `EVERY_LENGTH` of a slide, from rest to where the design says it opens to.  What is thinner than one such step,
and only in the way between two places, is missed.  A door is turned about the edge that is named, at its outer corner;
the pin of a hinge stands a little before that.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.geometry import Axis, Box, Face, Vec
from planbuild.core.poses import Pose, cross
from planbuild.joints.movers import Mover, movers
from planbuild.prove.measuring import THIN, Shared, box_around, moved, shared_wood
from planbuild.prove.standing import Standing
from planbuild.prove.telling import told
from planbuild.records.findings import Findings, Proof
from planbuild.records.solids import Key

EVERY_LENGTH = 12.0
"""mm between two places of a slide."""

EVERY_ANGLE = 5.0
"""Degrees between two places of a swing."""

BINDS = 10
"""Within so many degrees the free edge of a door passes its jamb; each of them is tried."""

MOST_PLACES = 120
"""Places that one thing is tried at; on a longer way they lie farther apart."""


@dataclass(frozen=True)
class _Hit:
    mover: Mover
    moving: Key
    still: Key
    how_far: float
    shared: Shared


def all_moves_free(standing: Standing) -> Findings:
    """Reports `moves-blocked` once for each thing that moves, where it first meets something."""
    found = movers(standing.piece, standing.boxes)
    tried = [(mover, list(_ways(mover))) for mover in found]
    hits = [hit for mover, ways in tried for places in ways if (hit := _first_hit(standing, mover, places))]
    count = sum(len(places) for _, ways in tried for places in ways)
    step = told(standing.ruler, EVERY_LENGTH)
    saying = f"tried at {count} places, {step} or at most {EVERY_ANGLE:g} degrees apart" if found else "nothing moves in use"
    diagnostics = tuple(_finding(standing, hit) for hit in {hit.mover.name: hit for hit in hits}.values())
    return Findings(diagnostics, (Proof("What opens or swings comes free", len(found), saying),))


# ---------------------------------------------------------------- the places it is tried at


def _ways(mover: Mover) -> Iterator[list[tuple[float, Pose]]]:
    """Each way it goes, as places from rest on: how far (mm or degrees), and the motion."""
    for places in _straight_ways(mover):
        turned = mover.turned
        yield [(far, turned.after(pose).after(turned.inverse)) for far, pose in places] if turned else places


def _straight_ways(mover: Mover) -> Iterator[list[tuple[float, Pose]]]:
    """The same before the block around it is turned."""
    moves = mover.moves
    if moves.opens:
        yield [(far, Pose(shift=_along(moves.opens, far))) for far in _steps(moves.by, EVERY_LENGTH)]
    if moves.swings and moves.about:
        yield [(angle, _swing(mover.box, moves.swings, moves.about, angle)) for angle in _angles(moves.by)]
    if moves.goes_in and moves.goes_in is not moves.opens:
        out = mover.box.size(moves.goes_in.axis)
        yield [(far, Pose(shift=_along(moves.goes_in, far))) for far in _steps(out, EVERY_LENGTH)]


def _steps(whole: float, every: float) -> list[float]:
    count = min(MOST_PLACES, max(1, math.ceil(whole / every)))
    return [whole * number / count for number in range(1, count + 1)]


def _angles(whole: float) -> list[float]:
    first = [float(degree) for degree in range(1, BINDS + 1) if degree < whole]
    return first + [angle for angle in _steps(whole, EVERY_ANGLE) if angle > BINDS or angle == whole]


def _along(face: Face, far: float) -> Vec:
    x, y, z = (far * part for part in face.normal)
    return x, y, z


def _swing(box: Box, toward: Face, about: Face, angle: float) -> Pose:
    """Turned about the corner of the box between the two faces, so that the far side comes `toward` its side."""
    (axis,) = (each for each in Axis if each not in (toward.axis, about.axis))
    pivot = [0.0, 0.0, 0.0]
    for face in (toward, about):
        pivot[face.axis.value] = box.at(face)
    sense = cross(about.opposite.normal, toward.normal)[axis.value]
    return Pose.turning(axis.high.normal, angle * sense, (pivot[0], pivot[1], pivot[2]))



# ---------------------------------------------------------------- trying it


def _first_hit(standing: Standing, mover: Mover, places: list[tuple[float, Pose]]) -> _Hit | None:
    """The first place where it shares wood with what stays, and with what."""
    still = [key for key in standing.boxes if key not in mover.keys and not _held_by(standing, key, mover)]
    for far, pose in places:
        for moving in mover.keys:
            shape = moved(standing.solid(moving), pose)
            around = box_around(shape.wrapped)
            for other in still:
                if all(around.meet(standing.boxes[other]).size(axis) > THIN for axis in Axis):
                    shared = shared_wood(shape, standing.solid(other))
                    if shared:
                        return _Hit(mover, moving, other, far, shared)
    return None


def _held_by(standing: Standing, key: Key, mover: Mover) -> bool:
    """A small part that a joint inside the mover calls for goes with it: a wedge, a peg."""
    part = standing.part(key)
    if not part.made_by:
        return False
    ids = {id for id, _ in mover.keys}
    held = next(joint for joint in standing.piece.joints if joint.id == part.made_by)
    return bool(held.contacts) and all({c.a[0], c.b[0]} <= ids | set(held.makes) for c in held.contacts)


def _finding(standing: Standing, hit: _Hit) -> Diagnostic:
    moves, ruler = hit.mover.moves, standing.piece.ruler
    swings = bool(moves.swings) and hit.how_far <= moves.by
    far = f"{hit.how_far:g}°" if swings else told(ruler, hit.how_far)
    moving, still = standing.name(hit.moving), standing.name(hit.still)
    does = "swing" if moves.swings else "open" if moves.opens else "go in"
    message = f"The {hit.mover.name} cannot {does}: after {far} its {moving} meets the {still}."
    hint = f"Give it more room there: they share {told(ruler, min(hit.shared.box.size(axis) for axis in Axis))}."
    return Diagnostic("moves-blocked", message, span=hit.mover.origin, expected="a free way", hints=(hint,))
