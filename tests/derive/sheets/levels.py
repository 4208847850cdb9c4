"""Where a solid has planes, edges and curves, measured on the solid itself: the other side of "value equals distance".

Units: mm, frame of the piece.
"""

from __future__ import annotations

from itertools import combinations

import cadquery as cq
from OCP.BRepAdaptor import BRepAdaptor_Surface

from planbuild.core.geometry import Axis, Face

NEAR = 0.011


def levels(shape: cq.Shape, axis: Axis) -> set[float]:
    """Places along an axis at which the solid has a corner, the centre of a round edge or the crown of an arc."""
    found = {vertex.toTuple()[axis.value] for vertex in shape.Vertices()}
    for edge in shape.Edges():
        if edge.geomType() == "CIRCLE":
            found.add(edge.arcCenter().toTuple()[axis.value])
            found.add(edge.positionAt(0.5).toTuple()[axis.value])
    return {round(each, 4) for each in found}


def sloped_levels(shape: cq.Shape, axis: Axis, end: Face, at: float) -> set[float]:
    """Where sloping faces, extended, meet the plane of an end: what a taper leaves, had its foot no chamfer."""
    found = set()
    for face in shape.Faces():
        normal = face.normalAt().toTuple()
        along, across = normal[end.axis.value], normal[axis.value]
        if face.geomType() == "PLANE" and 1e-6 < abs(along) < 0.7 and abs(across) > 0.7:
            spot = face.Center().toTuple()
            found.add(round(spot[axis.value] - along / across * (at - spot[end.axis.value]), 4))
    return found


def middles(places: set[float]) -> set[float]:
    """Places halfway between two others: the plane of a kerf lies between its walls."""
    return {round((a + b) / 2, 4) for a, b in combinations(sorted(places), 2)}


def has(places: set[float], place: float) -> bool:
    return any(abs(each - place) <= NEAR for each in places)


def forms(shape: cq.Shape) -> dict[str, set[float]]:
    """Sizes of chamfers, radii of round faces, gaps between walls that face each other."""
    chamfers, radii = set(), set()
    for face in shape.Faces():
        if face.geomType() == "CYLINDER":
            radii.add(round(_radius(face), 4))
        elif face.geomType() == "PLANE":
            normal = [abs(each) for each in face.normalAt().toTuple()]
            if sorted(round(each, 3) for each in normal) == [0.0, 0.707, 0.707]:
                box = face.BoundingBox()
                sizes = (box.xlen, box.ylen, box.zlen)
                chamfers.add(round(min(size for size, part in zip(sizes, normal, strict=True) if part > 0.5), 3))
    return {"chamfer": chamfers, "radius": radii}


def _radius(face: cq.Face) -> float:
    radius: float = BRepAdaptor_Surface(face.wrapped).Cylinder().Radius()
    return radius
