"""A part as it is on the way: a plain blank, or with its joints cut but not yet shaped."""

from __future__ import annotations

from typing import cast

from planbuild.core.geometry import Axis, Box
from planbuild.derive.pictures.studio import Studio
from planbuild.derive.scene import State
from planbuild.records.features import Groove, Hole, Mortise, Rabbet
from planbuild.records.piece import Part


def as_far_as(studio: Studio, id: str, state: State) -> object:
    """The drawn copy's `cadquery.Shape` in that state."""
    part = studio.piece.part(id)
    if state is State.BLANK:
        return _block(part.extent)
    shaped = any(not feature.joint for feature in part.features)
    return _unshaped(studio, part) if state is State.JOINED and shaped else studio.solids.of[id].cut


def _unshaped(studio: Studio, part: Part) -> object:
    """The finished part with all that only shaping took away put back."""
    import cadquery as cq

    cut = cast("cq.Shape", studio.solids.of[part.id].cut)
    waste = cast("cq.Shape", _block(part.body)).cut(cut, *_openings(part))
    pieces = [solid for solid in waste.Solids() if solid.Volume() > 1.0]
    return cut.fuse(*pieces).clean() if pieces else cut


def _openings(part: Part) -> list[cq.Shape]:  # type: ignore[name-defined]  # noqa: F821
    """What joints take away, each a little larger so that no skin is left."""
    import cadquery as cq

    found = []
    for feature in part.features:
        if isinstance(feature, (Mortise, Groove, Rabbet)) and feature.joint:
            found.append(cast("cq.Shape", _block(feature.void, _SKIN)))
        elif isinstance(feature, Hole):
            way = cq.Vector(*feature.face.opposite.normal)
            reach = feature.depth if feature.depth is not None else part.body.size(feature.face.axis)
            start = cq.Vector(*feature.centre) - way
            found.append(cq.Solid.makeCylinder(feature.diameter / 2 + _SKIN, reach + 2, start, way))
    return found


_SKIN = 0.01


def _block(box: Box, larger: float = 0.0) -> object:
    import cadquery as cq

    low = cq.Vector(*(box.along(axis).low - larger for axis in Axis))
    sizes = [box.size(axis) + 2 * larger for axis in Axis]
    return cq.Solid.makeBox(*sizes, low)
