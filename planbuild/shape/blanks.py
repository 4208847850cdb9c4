"""The blank of a part: its body, square all over, from shoulder to shoulder."""

from __future__ import annotations

from planbuild.core.geometry import Face
from planbuild.records.piece import Part
from planbuild.shape import kernel
from planbuild.shape.workpiece import Workpiece


@kernel.guarded
def blank(part: Part) -> Workpiece:
    """The workpiece before any work, its six surfaces named.  Raises Fault if it has no thickness."""
    if not part.body.is_solid:
        raise kernel.Fault("The part has no thickness in one direction.", "look at how it is placed")
    solid = kernel.block(part.body)
    named: dict[Face, list[kernel.Shape]] = {face: [] for face in Face}
    for surface in kernel.faces_of(solid):
        middle = kernel.middle_of(surface)
        named[_nearest(part, middle)].append(surface)
    return Workpiece(part, solid, named, part.body.volume)


def _nearest(part: Part, middle: tuple[float, float, float]) -> Face:
    return min(Face, key=lambda face: abs(middle[face.axis.value] - part.body.at(face)))
