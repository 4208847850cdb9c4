"""Small questions about places on a board that every kind of feature asks."""

from __future__ import annotations

from collections.abc import Mapping

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1, Vec
from planbuild.records.features import Edge, Feature, Tenon
from planbuild.records.piece import Part
from planbuild.records.tails import Sockets


def third(one: Axis, other: Axis) -> Axis:
    """The direction square to two others."""
    (axis,) = (axis for axis in Axis if axis not in (one, other))
    return axis


def at(spot: Mapping[Axis, float]) -> Vec:
    """A point from its place in each direction."""
    x, y, z = (spot[axis] for axis in Axis)
    return x, y, z


def place_words(part: Part, face: Face) -> str:
    """`from top end`, `from left shoulder`, `from front face`."""
    if face.axis is not part.grain:
        return f"from {face.value} face"
    return f"from {face.value} {'shoulder' if abs(part.extent.at(face) - part.body.at(face)) > TINY else 'end'}"


def near_wall(box: Box, face: Face) -> float:
    """The wall of an opening that is nearer to a face of the board."""
    return box.at(face)


def far_wall(box: Box, face: Face) -> float:
    return box.at(face.opposite)


def with_plane(box: Box, face: Face, plane: float) -> Box:
    """The slice of a box that lies on a plane square to the direction of a face."""
    return box.with_span(face.axis, Span1(plane, plane))


def edge_words(edges: tuple[Edge, ...], group: str) -> str:
    """Which edges, as a maker says it: `long edges`, `around bottom`, `front top edge`."""
    if group == "long":
        return "long edges"
    if group:
        return group
    named = ", ".join(f"{one.value} {other.value}" for one, other in edges)
    return f"{named} {'edge' if len(edges) == 1 else 'edges'}"


def stands_at(part: Part, feature: Feature) -> Face | None:
    """The end of a part at which a tenon or a row of sockets is; None for all else."""
    if isinstance(feature, Tenon):
        return feature.end
    if not isinstance(feature, Sockets) or feature.comb.run is not part.grain:
        return None
    ends = (part.grain.low, part.grain.high)
    return min(ends, key=lambda end: abs(feature.comb.block.at(end) - part.body.at(end)))
