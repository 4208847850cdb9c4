"""What is measured on the standing solids: wood that two of them share, and faces that lie on each other.

The only room of prove that talks to the CAD kernel.  Units: mm, mm2, mm3, places in the piece.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np
from OCP.Bnd import Bnd_Box
from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
from OCP.BRepGProp import BRepGProp
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
from OCP.BRepTools import BRepTools_WireExplorer
from OCP.GeomAbs import GeomAbs_CurveType, GeomAbs_SurfaceType
from OCP.gp import gp_Pnt, gp_Trsf
from OCP.GProp import GProp_GProps
from OCP.TopAbs import TopAbs_Orientation, TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS
from OCP.TopTools import TopTools_ListOfShape
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from planbuild.core.geometry import Box, Span1, Vec
from planbuild.core.poses import Pose
from planbuild.together import Mesh

if TYPE_CHECKING:
    import cadquery as cq

THIN = 0.001
"""Thinner than this (mm) a shared layer is rounding noise: turned solids that touch share some."""

COPLANAR = 0.002
"""Faces nearer to each other than this (mm) lie on each other."""

MESH_TRUE, MESH_TURN = 0.02, 0.12
"""How true a mesh follows a curve: mm, and radians from one triangle to the next."""

PARALLEL = 1e-6
ARC_POINTS = 48
"""Points by which the outline of a face follows a curved edge."""


# ---------------------------------------------------------------- shared wood


@dataclass(frozen=True)
class Shared:
    """Wood that two solids claim: its volume and the box around it."""

    volume: float
    box: Box


def shared_wood(one: cq.Shape, other: cq.Shape) -> Shared | None:
    """What two solids have in common, None if nothing thicker than rounding noise."""
    common = _common(one.wrapped, other.wrapped)
    volume, area = _volume(common), _area(common)
    # A flat layer has two faces, so its thickness is volume over half its surface.
    if volume <= 0 or volume / (area / 2) < THIN:
        return None
    return Shared(volume, box_around(common))


def moved(solid: cq.Shape, pose: Pose) -> cq.Shape:
    """The solid in another place; the one that is given stays."""
    return type(solid)(solid.wrapped.Moved(TopLoc_Location(_motion(pose))))


def wood_within(solid: cq.Shape, box: Box, pose: Pose | None = None) -> Any:
    """The part of a solid inside a box (turned as its pose says), as a shape of the kernel; empty if there is none."""
    return _common(solid.wrapped, _posed(_block(box), pose) if pose else _block(box))


def _posed(shape: Any, pose: Pose) -> Any:
    return BRepBuilderAPI_Transform(shape, _motion(pose), True).Shape()


def _motion(pose: Pose) -> gp_Trsf:
    trsf = gp_Trsf()
    trsf.SetValues(*(number for row, far in zip(pose.rows, pose.shift, strict=True) for number in (*row, far)))
    return trsf


def pieces_within(solid: cq.Shape, box: Box, pose: Pose | None = None) -> list[tuple[float, Box]]:
    """Volume and box of each separate piece of a solid inside a box."""
    explorer, found = TopExp_Explorer(wood_within(solid, box, pose), TopAbs_ShapeEnum.TopAbs_SOLID), []
    while explorer.More():
        found.append((_volume(explorer.Current()), box_around(explorer.Current())))
        explorer.Next()
    return found


def box_around(shape: Any) -> Box:
    """The tight box around a shape, without the kernel's padding of 1e-7 mm."""
    around = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape, around, False, False)  # not by the triangles of earlier pictures, which lie 0.05 off
    x0, y0, z0, x1, y1, z1 = (round(value, 5) for value in around.Get())
    return Box(Span1(x0, x1), Span1(y0, y1), Span1(z0, z1))


def mesh_around(solid: cq.Shape) -> Mesh:
    """The surface of a solid in triangles, curves within 0.02 mm.

    Of a copy: the kernel would keep the triangles with the solid, and measure its box by them ever after.
    """
    corners, triangles = solid.copy().tessellate(MESH_TRUE, MESH_TURN)
    places = np.array([corner.toTuple() for corner in corners], dtype=np.float64)
    mesh: Mesh = places[np.array(triangles, dtype=np.int64)]
    return mesh


def _common(one: Any, other: Any) -> Any:
    operation = BRepAlgoAPI_Common()
    operation.SetArguments(_listed(one))
    operation.SetTools(_listed(other))
    operation.SetRunParallel(False)
    operation.Build()
    return operation.Shape()


def _listed(shape: Any) -> Any:
    result = TopTools_ListOfShape()
    result.Append(shape)
    return result


def _block(box: Box) -> Any:
    low, high = zip(*((span.low, span.high) for span in (box.x, box.y, box.z)), strict=True)
    return BRepPrimAPI_MakeBox(gp_Pnt(*low), gp_Pnt(*high)).Solid()


def _volume(shape: Any) -> float:
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, properties)
    return float(properties.Mass())


def _area(shape: Any) -> float:
    properties = GProp_GProps()
    BRepGProp.SurfaceProperties_s(shape, properties)
    return float(properties.Mass())


# ---------------------------------------------------------------- flat faces


@dataclass(frozen=True)
class FlatFace:
    """A flat face of a standing solid: unit normal out of the wood, and its distance from the origin."""

    face: Any
    normal: Vec
    offset: float

    @cached_property
    def outline(self) -> Polygon:
        """The face drawn in its own plane; two faces in one plane use the same axes, whichever way they look."""
        across, up = _axes(self.normal)
        rings = [[_flat(point, across, up) for point in ring] for ring in _rings(self.face)]
        rings.sort(key=lambda ring: -abs(Polygon(ring).area))
        return Polygon(rings[0], rings[1:])

    def lies_on(self, other: FlatFace) -> bool:
        """True if both lie in one plane and look at each other."""
        facing = sum(a * b for a, b in zip(self.normal, other.normal, strict=True))
        return facing < PARALLEL - 1 and abs(self.offset + other.offset) < COPLANAR


def flat_faces(solid: cq.Shape) -> tuple[FlatFace, ...]:
    return tuple(face for each in _explored(solid.wrapped) if (face := _flat_face(TopoDS.Face_s(each))))


def contacts(one: Sequence[FlatFace], other: Sequence[FlatFace]) -> Iterator[tuple[Vec, BaseGeometry]]:
    """Where faces of two solids lie on each other: the normal of the first solid's face, and the common region."""
    for a in one:
        for b in other:
            if a.lies_on(b) and not (region := a.outline.intersection(b.outline)).is_empty:
                yield a.normal, region


def _explored(shape: Any) -> Iterator[Any]:
    explorer = TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_FACE)
    while explorer.More():
        yield explorer.Current()
        explorer.Next()


def _flat_face(face: Any) -> FlatFace | None:
    surface = BRepAdaptor_Surface(face)
    if surface.GetType() != GeomAbs_SurfaceType.GeomAbs_Plane:
        return None
    plane = surface.Plane()
    direction, at = plane.Axis().Direction(), plane.Location()
    # A plane with left-handed axes (after mirroring) and a face that is turned over each look the other way.
    turned = (face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED) != (not plane.Direct())
    sign = -1.0 if turned else 1.0
    normal = sign * direction.X(), sign * direction.Y(), sign * direction.Z()
    return FlatFace(face, normal, normal[0] * at.X() + normal[1] * at.Y() + normal[2] * at.Z())


def in_plane(points: Sequence[Vec], normal: Vec) -> Polygon:
    """An outline drawn in its own plane, with the axes that flat faces of that plane use."""
    across, up = _axes(normal)
    return Polygon([_flat(point, across, up) for point in points])


def _axes(normal: Vec) -> tuple[Vec, Vec]:
    """Two unit vectors in a plane, the same for a normal and its opposite."""
    leading = max(range(3), key=lambda i: (round(abs(normal[i]), 6), -i))
    sign = math.copysign(1.0, normal[leading])
    n = tuple(sign * part for part in normal)
    helper = tuple(1.0 if i == (leading + 1) % 3 else 0.0 for i in range(3))
    across = _unit(_cross(helper, n))
    return across, _cross(n, across)


def _cross(a: Sequence[float], b: Sequence[float]) -> Vec:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def _unit(a: Vec) -> Vec:
    length = math.hypot(*a)
    return a[0] / length, a[1] / length, a[2] / length


def _flat(point: Vec, across: Vec, up: Vec) -> tuple[float, float]:
    first = sum(p * a for p, a in zip(point, across, strict=True))
    return first, sum(p * a for p, a in zip(point, up, strict=True))


def _rings(face: Any) -> Iterator[list[Vec]]:
    """The outlines of a face as points in space, the outer one and the holes in no order."""
    wires = TopExp_Explorer(face, TopAbs_ShapeEnum.TopAbs_WIRE)
    while wires.More():
        edges, ring = BRepTools_WireExplorer(TopoDS.Wire_s(wires.Current()), face), []
        while edges.More():
            ring += _points(edges.Current())
            edges.Next()
        if len(ring) > 2:
            yield ring
        wires.Next()


def _points(edge: Any) -> list[Vec]:
    """Points along an edge in the sense of its wire, without the last."""
    curve = BRepAdaptor_Curve(edge)
    begin, end = curve.FirstParameter(), curve.LastParameter()
    steps = 1 if curve.GetType() == GeomAbs_CurveType.GeomAbs_Line else ARC_POINTS
    if edge.Orientation() == TopAbs_Orientation.TopAbs_REVERSED:
        begin, end = end, begin
    places = [curve.Value(begin + (end - begin) * index / steps) for index in range(steps)]
    return [(place.X(), place.Y(), place.Z()) for place in places]
