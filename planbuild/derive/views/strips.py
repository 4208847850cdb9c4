"""A face that is straight one way (a fair curve run through the thickness) as flat strips between its rulings.

The kernel would mesh it with thousands of triangles where a dozen strips say as much.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

Points = NDArray[np.float64]

Strip = tuple[tuple[Points, ...], Points]
"""Rings in space, the outer one first, not closed, and the unit normal of the surface."""

_LEAST = 1e-9
"""A piece of parameter space smaller than this is none."""


def strips(face: Any, surface: Any, angle: float, chord: float) -> Iterator[Strip]:
    """`surface` is the adaptor of the face, a surface of extrusion; strips stray from it by `chord` (mm) at most."""
    outline, straight = _outline(face, angle, chord), _vector(surface.Direction())
    for start, stop in pairwise(_stations(surface, angle, chord)):
        low, high = (_vector(surface.Value(u, 0.0)) for u in (start, stop))
        normal = np.cross(high - low, straight)
        piece = outline.intersection(shapely.box(start, -_FAR, stop, _FAR))
        for polygon in shapely.get_parts(piece):
            if polygon.geom_type == "Polygon" and polygon.area > _LEAST:
                rings = (polygon.exterior, *polygon.interiors)
                places = (np.array(ring.coords[:-1]) for ring in rings)
                lifted = (low + _share(p[:, :1], start, stop) * (high - low) + p[:, 1:] * straight for p in places)
                yield tuple(lifted), normal / np.linalg.norm(normal)


_FAR = 1e6


def _share(u: Points, start: float, stop: float) -> Points:
    return (u - start) / (stop - start)


def _vector(of: Any) -> Points:
    return np.array([of.X(), of.Y(), of.Z()])


def _stations(surface: Any, angle: float, chord: float) -> list[float]:
    """Where the rulings lie along the curve."""
    from OCP.GCPnts import GCPnts_TangentialDeflection

    ends = surface.FirstUParameter(), surface.LastUParameter()
    sampled = GCPnts_TangentialDeflection(surface.BasisCurve(), *ends, angle, chord)
    return [sampled.Parameter(i) for i in range(1, sampled.NbPoints() + 1)]


def _outline(face: Any, angle: float, chord: float) -> Any:
    """The rim of the face in the two parameters of its surface."""
    from OCP.TopAbs import TopAbs_WIRE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    explorer, rings = TopExp_Explorer(face, TopAbs_WIRE), []
    while explorer.More():
        rings.append(_ring(TopoDS.Wire_s(explorer.Current()), face, angle, chord))
        explorer.Next()
    areas = [shapely.Polygon(ring).buffer(0) for ring in rings if len(ring) > 2]
    whole, *holes = sorted(areas, key=lambda area: -area.area)
    return whole.difference(shapely.union_all(holes))


def _ring(wire: Any, face: Any, angle: float, chord: float) -> list[tuple[float, float]]:
    from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Curve2d
    from OCP.BRepTools import BRepTools_WireExplorer
    from OCP.GCPnts import GCPnts_TangentialDeflection
    from OCP.TopAbs import TopAbs_REVERSED

    explorer, found = BRepTools_WireExplorer(wire, face), []
    while explorer.More():
        edge = explorer.Current()
        sampled, flat = GCPnts_TangentialDeflection(BRepAdaptor_Curve(edge), angle, chord), BRepAdaptor_Curve2d(edge, face)
        points = [flat.Value(sampled.Parameter(i)) for i in range(1, sampled.NbPoints() + 1)]
        places = [(point.X(), point.Y()) for point in points]
        found += (places[::-1] if edge.Orientation() == TopAbs_REVERSED else places)[:-1]
        explorer.Next()
    return found
