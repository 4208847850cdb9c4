"""The faces of a solid as flat facets in space: planar faces exactly, curved ones as strips or triangles."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from planbuild.derive.views.strips import strips

Points = NDArray[np.float64]
"""n x 3 in space or n x 2 in a view, mm."""

CHORD = 0.02
"""How far a polyline may stray from the curve it stands for, mm."""
_MESH = 0.05
_ANGLE = 0.2
_MESH_ANGLE = 0.5


@dataclass(frozen=True)
class Facet:
    """Rings (the outer one first, not closed) of a flat piece of surface and its unit normal out of the wood.

    `face` tells which face of the solid it is part of; `curved` that this face is not flat.
    """

    rings: tuple[Points, ...]
    normal: Points
    face: int
    curved: bool


def facets(shape: Any) -> tuple[Facet, ...]:
    """All facets of a `cadquery.Shape`, where it stands."""
    from OCP.TopLoc import TopLoc_Location

    location = shape.wrapped.Location()
    home = _home_facets(_Handle(shape.wrapped.Located(TopLoc_Location())))
    return home if location.IsIdentity() else tuple(_moved(home, location.Transformation()))


@dataclass(frozen=True)
class _Handle:
    """A shape at home, equal to others with the same underlying solid: copies are faceted once."""

    shape: Any

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Handle) and bool(self.shape.IsSame(other.shape))

    def __hash__(self) -> int:
        return hash(self.shape)


@lru_cache(maxsize=512)
def _home_facets(handle: _Handle) -> tuple[Facet, ...]:
    return tuple(_facets_of(handle.shape))


def _moved(home: tuple[Facet, ...], motion: Any) -> Iterator[Facet]:
    turn = np.array([[motion.Value(row, column) for column in (1, 2, 3)] for row in (1, 2, 3)])
    shift = np.array([motion.Value(row, 4) for row in (1, 2, 3)])
    for each in home:
        yield Facet(tuple(ring @ turn.T + shift for ring in each.rings), turn @ each.normal, each.face, each.curved)


def _facets_of(shape: Any) -> Iterator[Facet]:
    from OCP.BRepAdaptor import BRepAdaptor_Surface
    from OCP.GeomAbs import GeomAbs_Plane, GeomAbs_SurfaceOfExtrusion
    from OCP.TopAbs import TopAbs_FACE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    explorer, index = TopExp_Explorer(shape, TopAbs_FACE), 0
    while explorer.More():
        face = TopoDS.Face_s(explorer.Current())
        surface = BRepAdaptor_Surface(face)
        if surface.GetType() == GeomAbs_Plane:
            yield _flat(face, surface, index)
        elif surface.GetType() == GeomAbs_SurfaceOfExtrusion:
            turn = -1.0 if _reversed(face) else 1.0
            yield from (Facet(rings, turn * normal, index, True) for rings, normal in strips(face, surface, _ANGLE, CHORD))
        else:
            yield from _triangles(face, index)
        index += 1
        explorer.Next()


def _reversed(face: Any) -> bool:
    from OCP.TopAbs import TopAbs_REVERSED

    return bool(face.Orientation() == TopAbs_REVERSED)


def _flat(face: Any, surface: Any, index: int) -> Facet:
    from OCP.BRepTools import BRepTools
    from OCP.TopAbs import TopAbs_WIRE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    position = surface.Plane().Position()
    x, y = position.XDirection(), position.YDirection()
    normal = np.cross((x.X(), x.Y(), x.Z()), (y.X(), y.Y(), y.Z()))
    outer = BRepTools.OuterWire_s(face)
    rings, explorer = [_wire(outer, face)], TopExp_Explorer(face, TopAbs_WIRE)
    while explorer.More():
        wire = TopoDS.Wire_s(explorer.Current())
        ring = _wire(wire, face)
        if len(ring) and not wire.IsSame(outer):
            rings.append(ring)
        explorer.Next()
    return Facet(tuple(rings), -normal if _reversed(face) else normal, index, False)


def _wire(wire: Any, face: Any) -> Points:
    """The closed run of points round a wire, each corner once; none of a wire inside the face that bounds nothing.

    The kernel leaves such a line where another surface touches the face without cutting it.
    """
    from OCP.BRepTools import BRepTools_WireExplorer

    explorer, points = BRepTools_WireExplorer(wire, face), [np.empty((0, 3))]
    while explorer.More():
        points.append(edge_points(explorer.Current())[:-1])
        explorer.Next()
    return np.concatenate(points)


def edge_points(edge: Any) -> Points:
    """Points along an edge in the direction in which it is used, both ends included, within CHORD of it."""
    from OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.GCPnts import GCPnts_TangentialDeflection
    from OCP.GeomAbs import GeomAbs_Line

    curve = BRepAdaptor_Curve(edge)
    if curve.GetType() == GeomAbs_Line:
        found = [curve.Value(curve.FirstParameter()), curve.Value(curve.LastParameter())]
    else:
        sampled = GCPnts_TangentialDeflection(curve, _ANGLE, CHORD)
        found = [sampled.Value(i) for i in range(1, sampled.NbPoints() + 1)]
    points = np.array([(p.X(), p.Y(), p.Z()) for p in found])
    return points[::-1] if _reversed(edge) else points


def _triangles(face: Any, index: int) -> Iterator[Facet]:
    """A curved face as flat pieces; two triangles of a mesh that lie in one plane come as one piece."""
    from OCP.BRep import BRep_Tool
    from OCP.BRepMesh import BRepMesh_IncrementalMesh
    from OCP.TopLoc import TopLoc_Location

    BRepMesh_IncrementalMesh(face, _MESH, False, _MESH_ANGLE)
    location = TopLoc_Location()
    mesh = BRep_Tool.Triangulation_s(face, location)
    if mesh is None:
        return
    motion = location.Transformation()
    nodes = [mesh.Node(i).Transformed(motion) for i in range(1, mesh.NbNodes() + 1)]
    points = np.array([(p.X(), p.Y(), p.Z()) for p in nodes])
    corners = [tuple(i - 1 for i in mesh.Triangle(number).Get()) for number in range(1, mesh.NbTriangles() + 1)]
    turned = [(a, c, b) for a, b, c in corners] if _reversed(face) else [(a, b, c) for a, b, c in corners]
    for ring, normal in _paired(turned, points):
        yield Facet((points[list(ring)],), normal, index, True)


_Corners = tuple[int, ...]


def _paired(triangles: Sequence[tuple[int, int, int]], points: Points) -> Iterator[tuple[_Corners, Points]]:
    """Triangles, or two that share an edge and a plane as one ring of four, each with its normal."""
    flat = [(each, normal) for each in triangles if (normal := _normal(points[list(each)])) is not None]
    by_edge = {edge: i for i, (each, _) in enumerate(flat) for edge in zip(each, (*each[1:], each[0]), strict=True)}
    done: set[int] = set()
    for i, (each, normal) in enumerate(flat):
        if i in done:
            continue
        done.add(i)
        ring: _Corners = each
        for k in range(3):
            a, b, c = each[k], each[(k + 1) % 3], each[(k + 2) % 3]
            j = by_edge.get((b, a))
            if j is not None and j not in done and float(normal @ flat[j][1]) > 1 - 1e-9:
                (other,) = (corner for corner in flat[j][0] if corner not in (a, b))
                ring = (a, other, b, c)
                done.add(j)
                break
        yield ring, normal


def _normal(corners: Points) -> Points | None:
    """Unit normal of a triangle, None if it has no area to speak of."""
    (ax, ay, az), (bx, by, bz) = corners[1] - corners[0], corners[2] - corners[0]
    normal = np.array((ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx))  # many small ones: numpy's own is slow here
    length = float(np.linalg.norm(normal))
    return normal / length if length > 1e-9 else None
