"""What right looks like at the end of a step, with the figures to measure it by."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from math import hypot

from planbuild.core.geometry import TINY, Axis, Box, Face
from planbuild.derive.steps.assembly import Joining, body_of, hull_of
from planbuild.derive.steps.job import Job
from planbuild.records.piece import Joint

_FLAT = 1 / 3
"""An assembly thinner than this share of its next larger size is a flat frame (heuristic)."""
_NEAR = 0.1
"""An edge of an assembly is closed if something lies no farther inside it than this share of its size (heuristic)."""


def diagonals(job: Job, name: str, one: float, other: float) -> str:
    """Both diagonals of a rectangle, in figures.  Units: mm."""
    return f"Both diagonals of the {name} measure {job.size(hypot(one, other))}, within {job.habit('agree')} of each other."


def frame_diagonals(job: Job, joining: Joining) -> tuple[str, float] | None:
    """Where the diagonals of an assembly are measured, and what they are: across a flat frame, across the front of a
    case, across the top of a table.  None where something is missing at a corner, as of a T or of legs of two
    lengths: there is nothing to lay the tape on.  Outer corners of the bodies, chamfers not counted.  Units: mm."""
    box = hull_of(job.piece, joining.groups[0])
    bodies = [body_of(job.piece, key) for key in joining.groups[0] if not job.piece.part(key[0]).made_by]
    across = _plane(box, bodies)
    if across is None:
        return None
    length = hypot(*(box.size(axis) for axis in across.others))
    if _is_flat(box, across):
        return f"across the {joining.name}", length
    level = min(body.along(across).high for body in _at_corners(box, bodies, across)) >= box.along(across).high - TINY
    side = {Axis.FRONT_BACK: "front", Axis.LEFT_RIGHT: "side", Axis.BOTTOM_TOP: "top"}[across]
    if across is Axis.BOTTOM_TOP and not level:
        return f"across the {joining.name} at one height", length
    return f"across the {side} of the {joining.name}", length


def _plane(box: Box, bodies: Sequence[Box]) -> Axis | None:
    """The axis square to the plane in which it is measured: the largest that is closed all round, else the top."""
    thin = min(Axis, key=lambda axis: box.size(axis))
    if _is_flat(box, thin):
        return thin if _at_corners(box, bodies, thin) else None
    long = max(Axis, key=lambda axis: box.size(axis))
    closed = [axis for axis in long.others if _at_corners(box, bodies, axis) and _is_closed(box, bodies, axis)]
    largest = max(closed, key=lambda axis: box.size(axis.others[0]) * box.size(axis.others[1]), default=None)
    return largest or (Axis.BOTTOM_TOP if _at_corners(box, bodies, Axis.BOTTOM_TOP) else None)


def _is_flat(box: Box, across: Axis) -> bool:
    return box.size(across) <= _FLAT * min(box.size(axis) for axis in across.others)


def _at_corners(box: Box, bodies: Sequence[Box], across: Axis) -> list[Box]:
    """What stands at the four corners of the assembly, seen along an axis; [] if a corner is empty."""
    one, other = across.others
    found = []
    for a, b in product((one.low, one.high), (other.low, other.high)):
        here = (body for body in bodies if all(abs(body.at(face) - box.at(face)) <= TINY for face in (a, b)))
        corner = next(here, None)
        if corner is None:
            return []
        found.append(corner)
    return found


def _is_closed(box: Box, bodies: Sequence[Box], across: Axis) -> bool:
    """Whether something lies along the middle of each of the four edges."""
    one, other = across.others
    sides = [(along, face) for along, to in ((one, other), (other, one)) for face in (to.low, to.high)]
    return all(any(_closes(box, body, along, face) for body in bodies) for along, face in sides)


def _closes(box: Box, body: Box, along: Axis, face: Face) -> bool:
    middle, span = box.along(along).middle, body.along(along)
    near = abs(body.at(face) - box.at(face)) <= _NEAR * box.size(face.axis)
    return near and span.low < middle < span.high


def squareness(job: Job, joining: Joining) -> str:
    """Diagonals of an assembly as a sentence; where it has none, a square."""
    found = frame_diagonals(job, joining)
    if found is None:
        return f"A try square in each corner of the {joining.name} shows no light."
    return f"Diagonals {found[0]}, corner to corner, measure {job.size(found[1])} and agree within {job.habit('agree')}."


def compared(job: Job, joining: Joining) -> str:
    """How it is trued while the clamps can still be shifted."""
    return "compare diagonals" if frame_diagonals(job, joining) else "true it with a try square"


def fit(joint: Joint) -> str:
    """How a tenon should feel in its mortise, by the fit of the joint."""
    if joint.fit == "snug":
        return "Each tenon goes in by hand or with light taps and holds its own weight; the shoulders close all round."
    return "Each tenon goes in and comes out by hand, without rattling; the shoulders close all round."
