"""Cuts that are not square to the part: slanted ends and mortises that stand askew."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planbuild.core.geometry import TINY, Axis, Box, Span1
from planbuild.core.poses import STRAIGHT, Pose, along, cross
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.shape import kernel
from planbuild.shape.kernel import OVERSHOOT, Fault
from planbuild.shape.workpiece import Cut, Workpiece


def cut_angled_mortise(mortise: AngledMortise, work: Workpiece) -> Iterator[Cut]:
    """A turned block or a slanted bore; its ends reach past the faces by which it enters and leaves."""
    past = OVERSHOOT + _slant(mortise)
    long = mortise.void.grown(mortise.face, past)
    if mortise.through:
        long = long.grown(mortise.face.opposite, past)
    if mortise.round:
        start = along(mortise.mouth, mortise.way, -past)
        tool = kernel.cylinder(start, mortise.way, mortise.breadth / 2, long.size(mortise.face.axis))
    else:
        tool = kernel.posed(kernel.block(long), mortise.pose)
    section = math.pi / 4 * mortise.breadth**2 if mortise.round else mortise.length * mortise.breadth
    volume = section * mortise.depth
    yield Cut([tool], volume, [mortise.pose.around(long).meet(work.body)])


def _slant(mortise: AngledMortise) -> float:
    """How much farther one edge of the mouth lies along the way in than its middle, at most."""
    leans = [abs(math.tan(math.radians(mortise.lean(axis)))) for axis in mortise.face.axis.others]
    return math.hypot(*leans) * math.hypot(mortise.length, mortise.breadth) / 2


def cut_end(cut: EndCut, work: Workpiece) -> Iterator[Cut]:
    """All wood beyond the plane, taken off the blank, which reaches to the longest corner."""
    body, axis = work.body, cut.end.axis
    reach, past = cut.beyond(body), cut.end.sign * (body.at(cut.end) - cut.at)
    if past < reach - TINY:
        raise Fault("The blank is shorter than its longest corner.")
    if min(cut.end.sign * (body.at(cut.end.opposite) - cut.at), 0.0) > -reach:
        raise Fault("The cut comes out of the other end.", "use a smaller angle or a longer part")
    tool = beyond(cut, body, past + reach)
    volume = past * math.prod(body.size(other) for other in axis.others)
    taken = Span1(*sorted((cut.at - cut.end.sign * reach, body.at(cut.end))))
    yield Cut([tool], volume, [body.with_span(axis, taken)], cut.end)


def beyond(cut: EndCut, body: Box, far: float) -> kernel.Shape:
    """A block on the far side of a slanted end, that reaches at least so far from the middle of the cut."""
    wide = math.hypot(*(body.size(other) for other in cut.end.axis.others)) + far + OVERSHOOT
    spans = {other: Span1(body.along(other).middle - wide, body.along(other).middle + wide) for other in cut.end.axis.others}
    out = Span1(*sorted((cut.at, cut.at + cut.end.sign * 2 * wide)))
    return kernel.posed(kernel.block(Box.of({**spans, cut.end.axis: out})), _tilted(cut, body))


def _tilted(cut: EndCut, body: Box) -> Pose:
    """The rotation that brings a square end into the plane of the cut."""
    places = {axis: cut.at if axis is cut.end.axis else body.along(axis).middle for axis in Axis}
    x, y, z = (places[axis] for axis in Axis)
    hinge = cross(cut.end.normal, cut.normal)
    return Pose.turning(hinge, cut.from_square, (x, y, z)) if math.hypot(*hinge) > STRAIGHT else Pose()
