"""Pegs: the holes for them in a tenon, and the peg as it lies bent once it is driven home."""

from __future__ import annotations

import math

from planbuild.core.geometry import Axis, Box, Span1, Vec
from planbuild.core.poses import Pose
from planbuild.records.features import Tenon
from planbuild.records.piece import Part
from planbuild.records.tenon_work import Bend, PegHole
from planbuild.shape import kernel
from planbuild.shape.kernel import OVERSHOOT, Fault, Shape


def bored(tenon: Tenon, solid: Shape) -> Shape:
    """A tenon with its peg holes.  Raises Fault for one that does not lie in it."""
    before, _ = kernel.volume_and_centre(solid)
    bored = kernel.only_solid(kernel.cut(solid, [_drill(tenon, hole) for hole in tenon.pegs]).Shape())
    wanted = sum(math.pi * hole.diameter**2 / 4 * tenon.block.size(hole.face.axis) for hole in tenon.pegs)
    taken = before - kernel.volume_and_centre(bored)[0]
    if abs(taken - wanted) > 1e-4 * wanted:
        raise Fault(f"Only {100 * taken / wanted:.0f} % of its peg holes lie in it.", "use thinner pegs, or fewer")
    return bored


def _drill(tenon: Tenon, hole: PegHole) -> Shape:
    through = hole.face.axis
    span = tenon.block.along(through)
    middles = {tenon.end.axis: hole.middle(tenon.block, tenon.end), hole.across: hole.plane, through: span.low - OVERSHOOT}
    x, y, z = (middles[axis] for axis in Axis)
    return kernel.cylinder((x, y, z), through.high.normal, hole.diameter / 2, span.size + 2 * OVERSHOOT)


@kernel.guarded
def bent(part: Part, solid: Shape, bend: Bend) -> Shape:
    """A straight part with what lies between the two places moved aside: the three lengths overlap where they meet.

    So it fills the holes that are bored out of line to the last, which a real peg does by giving way.  Raises Fault.
    """
    whole, between = part.body.along(part.grain), bend.between
    lengths = [Span1(whole.low, between.low), between, Span1(between.high, whole.high)]
    pieces = [_length(part, solid, each) for each in lengths]
    moved = [pieces[0], _aside(pieces[1], bend.by), pieces[2]]
    return kernel.only_solid(kernel.fuse(moved[0], moved[1:]).Shape())


def _length(part: Part, solid: Shape, span: Span1) -> Shape:
    past = {axis: part.body.along(axis) for axis in part.grain.others}
    room = Box.of({**{axis: Span1(s.low - OVERSHOOT, s.high + OVERSHOOT) for axis, s in past.items()}, part.grain: span})
    return kernel.only_solid(kernel.common(solid, [kernel.block(room)]))


def _aside(shape: Shape, by: Vec) -> Shape:
    return kernel.posed(shape, Pose(shift=by))
