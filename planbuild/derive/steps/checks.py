"""What right looks like at the end of a step, with the figures to measure it by."""

from __future__ import annotations

from math import hypot

from planbuild.core.geometry import Axis
from planbuild.derive.steps.assembly import Joining, hull_of
from planbuild.derive.steps.job import Job
from planbuild.records.piece import Joint

_FLAT = 0.25
"""An assembly thinner than this share of its next larger size is a flat frame (heuristic)."""


def diagonals(job: Job, name: str, one: float, other: float) -> str:
    """Both diagonals of a rectangle, in figures.  Units: mm."""
    return f"Both diagonals of the {name} measure {job.size(hypot(one, other))}, within {job.habit('agree')} of each other."


def frame_diagonals(job: Job, joining: Joining) -> tuple[str, float]:
    """Where the diagonals of an assembly are measured, and what they are: across a flat frame, across the tops
    (seen from above) of anything else.  Outer corners of the bodies, chamfers not counted.  Units: mm."""
    box = hull_of(job.piece, joining.groups[0])
    sizes = {axis: box.size(axis) for axis in Axis}
    thin = min(Axis, key=lambda axis: sizes[axis])
    rest = [axis for axis in Axis if axis is not thin]
    if sizes[thin] <= _FLAT * min(sizes[axis] for axis in rest):
        return f"across the {joining.name}", hypot(*(sizes[axis] for axis in rest))
    return f"across the top of the {joining.name}", hypot(sizes[Axis.LEFT_RIGHT], sizes[Axis.FRONT_BACK])


def squareness(job: Job, joining: Joining) -> str:
    """Diagonals of an assembly as a sentence."""
    where, length = frame_diagonals(job, joining)
    return f"Diagonals {where}, corner to corner, measure {job.size(length)} and agree within {job.habit('agree')}."


def fit(joint: Joint) -> str:
    """How a tenon should feel in its mortise, by the fit of the joint."""
    if joint.fit == "snug":
        return "Each tenon goes in by hand or with light taps and holds its own weight; the shoulders close all round."
    return "Each tenon goes in and comes out by hand, without rattling; the shoulders close all round."
