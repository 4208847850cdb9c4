"""The seams of edging: lines on the surface of a part where a strip meets its sheet, or its neighbour in a mitre.

The part is one solid, since joints cut sheet and strips together; its faces are divided where the wood changes.
"""

from __future__ import annotations

from planbuild.core.geometry import Axis, Box, Face
from planbuild.records.edging import Edging, edgings_of
from planbuild.records.piece import Part
from planbuild.shape import kernel
from planbuild.shape.kernel import OVERSHOOT, Flat, Shape


@kernel.guarded
def seamed(solid: Shape, part: Part) -> Shape:
    """The same solid with the seams of its edging on its faces.  Raises Fault."""
    strips = edgings_of(part.features)
    return kernel.imprinted(solid, [_strip(each, part) for each in strips]) if strips else solid


def _strip(edging: Edging, part: Part) -> Shape:
    """A strip as a prism through the thickness, standing out beyond the part where nothing is to be divided."""
    through = part.thickness_axis
    run = edging.run(through)
    box = edging.strip.grown(edging.edge, OVERSHOOT)
    corners = [*_end(edging, box, part.body, run.low), *reversed(_end(edging, box, part.body, run.high))]
    span = part.body.grown(through.low, OVERSHOOT).grown(through.high, OVERSHOOT).along(through)
    return kernel.polygon(through, span, [_flat(place, run, edging.edge.axis) for place in corners])


def _end(edging: Edging, box: Box, body: Box, end: Face) -> list[tuple[float, float]]:
    """The two corners at one end, as (along the strip, across it): that at the seam, then the outer one."""
    at, seam, outer = box.at(end), edging.seam, box.at(edging.edge)
    if end in edging.mitred:
        inner = at - end.sign * edging.thickness
        return [(inner, seam), (at + end.sign * OVERSHOOT, outer)]
    if abs(at - body.at(end)) < kernel.NOTHING + 1e-6:
        at += end.sign * OVERSHOOT
    return [(at, seam), (at, outer)]


def _flat(place: tuple[float, float], run: Axis, across: Axis) -> Flat:
    along, out = place
    return (along, out) if run.value < across.value else (out, along)
