"""Few plain words for the CAD kernel: outlines, prisms, booleans, volumes.

Apart so that the other rooms read as woodwork.  Booleans are never run in parallel: the kernel's thread
pool does not survive a fork, and furniture is too small to gain from it.
Units: mm, mm3, radians.  Everything that goes wrong in the kernel comes out as `Fault`.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import wraps
from itertools import pairwise
from typing import Any, ParamSpec, TypeVar

from OCP.BRep import BRep_Builder, BRep_Tool
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common, BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse, BRepAlgoAPI_Splitter
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakeSolid,
    BRepBuilderAPI_MakeWire,
    BRepBuilderAPI_Transform,
)
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepGProp import BRepGProp, BRepGProp_Face
from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections
from OCP.BRepPrimAPI import (
    BRepPrimAPI_MakeBox,
    BRepPrimAPI_MakeCone,
    BRepPrimAPI_MakeCylinder,
    BRepPrimAPI_MakePrism,
    BRepPrimAPI_MakeRevol,
    BRepPrimAPI_MakeSphere,
)
from OCP.GC import GC_MakeArcOfCircle, GC_MakeCircle, GC_MakeSegment
from OCP.GeomAPI import GeomAPI_Interpolate
from OCP.gp import gp_Ax1, gp_Ax2, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec
from OCP.GProp import GProp_GProps
from OCP.ShapeAnalysis import ShapeAnalysis_Surface
from OCP.ShapeUpgrade import ShapeUpgrade_UnifySameDomain
from OCP.TColgp import TColgp_HArray1OfPnt
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS, TopoDS_Shell
from OCP.TopTools import TopTools_ListOfShape

from planbuild.core.geometry import Axis, Box, Face, Span1, Vec
from planbuild.core.poses import Pose

Shape = Any
"""A shape of the kernel (its library has no types)."""

Flat = tuple[float, float]
"""A point in a plane square to an axis: its places along `axis.others`, in that order."""

OVERSHOOT = 1.0
"""How far cutters reach past the wood (mm), so that no face of a cutter lies on a face of the part."""


NOTHING = 1e-9
"""A line shorter than this (mm) is none."""


class Fault(Exception):
    """Something could not be cut: `message` says what, `hint` what to try.  Never leaves this package."""

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.message, self.hint = message, hint


P = ParamSpec("P")
R = TypeVar("R")


def guarded(work: Callable[P, R]) -> Callable[P, R]:
    """Turns a failure inside the kernel into a `Fault`.

    The kernel's exceptions have no common class in Python; only the library they come from tells them.
    """

    @wraps(work)
    def careful(*args: P.args, **kwargs: P.kwargs) -> R:
        try:
            return work(*args, **kwargs)
        except Exception as failure:
            if type(failure).__module__.split(".")[0] != "OCP":
                raise
            raise Fault(f"The solid modeller gave up ({type(failure).__name__}).") from failure

    return careful


# ---------------------------------------------------------------- building


def lift(axis: Axis, place: float, flat: Flat) -> Vec:
    """The point in space of a flat point in the plane at `place` along `axis`."""
    along = dict(zip(axis.others, flat, strict=True)) | {axis: place}
    x, y, z = (along[each] for each in Axis)
    return x, y, z


def point(place: Vec) -> Any:
    return gp_Pnt(*place)


def flat(places: Mapping[Axis, float], axis: Axis) -> Flat:
    """The two places that are not along an axis, in the order of the axes."""
    first, second = (places[each] for each in axis.others)
    return first, second


def block(box: Box) -> Shape:
    low, high = zip(*((span.low, span.high) for span in (box.x, box.y, box.z)), strict=True)
    return BRepPrimAPI_MakeBox(gp_Pnt(*low), gp_Pnt(*high)).Solid()


def posed(shape: Shape, pose: Pose) -> Shape:
    """The shape after a rigid motion; its geometry is moved, so that booleans see it where it is."""
    trsf = gp_Trsf()
    trsf.SetValues(*(number for row, far in zip(pose.rows, pose.shift, strict=True) for number in (*row, far)))
    return BRepBuilderAPI_Transform(shape, trsf, True).Shape()


def ball(centre: Vec, radius: float, away: Face) -> Shape:
    """The poles and the seam of its surface lie on the side of `away`, out of the wood: the kernel cuts them badly."""
    poles = away.axis.others[0].high
    return BRepPrimAPI_MakeSphere(gp_Ax2(gp_Pnt(*centre), gp_Dir(*poles.normal), gp_Dir(*away.normal)), radius).Solid()


def cylinder(base: Vec, direction: Vec, radius: float, length: float) -> Shape:
    return BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(*base), gp_Dir(*direction)), radius, length).Solid()


def slanted_cylinder(base: Vec, direction: Vec, radius: float, by: Vec) -> Shape:
    """A disc square to `direction` drawn along `by`, which need not run that way: its ends stay parallel."""
    circle = GC_MakeCircle(gp_Ax2(gp_Pnt(*base), gp_Dir(*direction)), radius).Value()
    wire = BRepBuilderAPI_MakeWire(BRepBuilderAPI_MakeEdge(circle).Edge()).Wire()
    return _upright(BRepPrimAPI_MakePrism(BRepBuilderAPI_MakeFace(wire).Face(), gp_Vec(*by)).Shape())


def cone(base: Vec, direction: Vec, wide: float, narrow: float, length: float) -> Shape:
    """A cut-off cone from radius `wide` at its base to `narrow`."""
    return BRepPrimAPI_MakeCone(gp_Ax2(gp_Pnt(*base), gp_Dir(*direction)), wide, narrow, length).Solid()


class Outline:
    """A closed line drawn in a plane square to `axis`, then given thickness with `prism`."""

    def __init__(self, axis: Axis, start: Flat) -> None:
        self._axis, self._start, self._here = axis, start, start
        self._edges: list[Shape] = []

    def to(self, *points: Flat) -> Outline:
        """Straight on to each point in turn."""
        for each in points:
            if math.dist(each, self._here) < NOTHING:
                continue
            self._edges.append(BRepBuilderAPI_MakeEdge(self._lift(self._here), self._lift(each)).Edge())
            self._here = each
        return self

    def arc(self, through: Flat, end: Flat) -> Outline:
        curve = GC_MakeArcOfCircle(self._lift(self._here), self._lift(through), self._lift(end)).Value()
        return self._along(curve, end)

    def fair(self, points: Sequence[Flat]) -> Outline:
        """A fair curve from here through all the points."""
        every = [self._here, *points]
        array = TColgp_HArray1OfPnt(1, len(every))
        for index, each in enumerate(every, start=1):
            array.SetValue(index, self._lift(each))
        interpolation = GeomAPI_Interpolate(array, False, 1e-6)
        interpolation.Perform()
        return self._along(interpolation.Curve(), points[-1])

    def prism(self, span: Span1) -> Shape:
        """The solid between the two planes of `span` along the axis."""
        moved = lift(self._axis, span.size, (0.0, 0.0))
        return BRepPrimAPI_MakePrism(self._face(span.low), gp_Vec(*moved)).Shape()

    def drawn(self, place: float, by: Vec) -> Shape:
        """The solid that the outline, drawn in the plane at `place`, leaves behind when it is moved along `by`."""
        return BRepPrimAPI_MakePrism(self._face(place), gp_Vec(*by)).Shape()

    def revolved(self, place: float, centre: Vec, about: Axis) -> Shape:
        """The solid that the outline, drawn in the plane at `place`, sweeps about a line through `centre`."""
        line = gp_Ax1(gp_Pnt(*centre), gp_Dir(*about.high.normal))
        return _upright(BRepPrimAPI_MakeRevol(self._face(place), line, 2 * math.pi).Shape())

    def _face(self, place: float) -> Shape:
        """The surface within the closed line, in the plane at `place` along the axis."""
        self.to(self._start)
        wire = BRepBuilderAPI_MakeWire()
        for edge in self._edges:
            wire.Add(edge)
        face = BRepBuilderAPI_MakeFace(wire.Wire(), True).Face()
        return _moved(face, lift(self._axis, place, (0.0, 0.0)))

    def _along(self, curve: Any, end: Flat) -> Outline:
        self._edges.append(BRepBuilderAPI_MakeEdge(curve).Edge())
        self._here = end
        return self

    def _lift(self, flat: Flat) -> Any:
        return gp_Pnt(*lift(self._axis, 0.0, flat))


def polygon(axis: Axis, span: Span1, points: Sequence[Flat]) -> Shape:
    """A straight-sided prism."""
    return Outline(axis, points[0]).to(*points[1:]).prism(span)


def polygon_area(points: Sequence[Flat]) -> float:
    """Area within straight lines (the surveyor's formula); it does not matter which way round."""
    pairs = zip(points, [*points[1:], points[0]], strict=True)
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2


def _moved(shape: Shape, by: Vec) -> Shape:
    step = gp_Trsf()
    step.SetTranslation(gp_Vec(*by))
    return shape.Moved(TopLoc_Location(step))


# ---------------------------------------------------------------- booleans


def listed(shapes: Iterable[Shape]) -> Any:
    result = TopTools_ListOfShape()
    for each in shapes:
        result.Append(each)
    return result


def _run(operation: Any, body: Shape, tools: Sequence[Shape]) -> Any:
    operation.SetArguments(listed([body]))
    operation.SetTools(listed(tools))
    operation.SetRunParallel(False)
    operation.Build()
    if not operation.IsDone():
        raise Fault("The solid modeller could not combine the shapes.")
    return operation


def cut(body: Shape, tools: Sequence[Shape]) -> Any:
    """The finished operation; `Shape()` is the result, `Modified` what became of a face."""
    return _run(BRepAlgoAPI_Cut(), body, tools)


def fuse(body: Shape, tools: Sequence[Shape]) -> Any:
    return _run(BRepAlgoAPI_Fuse(), body, tools)


def common(body: Shape, tools: Sequence[Shape]) -> Shape:
    return _run(BRepAlgoAPI_Common(), body, tools).Shape()


def imprinted(solid: Shape, tools: Sequence[Shape]) -> Shape:
    """The same solid, its faces divided where the surfaces of the tools cut them."""
    pieces = solids_of(_run(BRepAlgoAPI_Splitter(), solid, tools).Shape())
    every = [face for piece in pieces for face in faces_of(piece)]
    outer = [face for i, face in enumerate(every) if not any(face.IsSame(other) for j, other in enumerate(every) if j != i)]
    builder, shell = BRep_Builder(), TopoDS_Shell()
    builder.MakeShell(shell)
    for face in outer:
        builder.Add(shell, face)
    shell.Closed(True)
    return only_solid(BRepBuilderAPI_MakeSolid(shell).Solid())


def smoothed(solid: Shape) -> Shape:
    """The same solid without seams between faces that lie in one plane."""
    unify = ShapeUpgrade_UnifySameDomain(solid, True, True, False)
    unify.Build()
    return only_solid(unify.Shape())


# ---------------------------------------------------------------- looking


def _explore(shape: Shape, kind: Any) -> Iterator[Shape]:
    explorer = TopExp_Explorer(shape, kind)
    while explorer.More():
        yield explorer.Current()
        explorer.Next()


def solids_of(shape: Shape) -> list[Shape]:
    return [TopoDS.Solid_s(each) for each in _explore(shape, TopAbs_ShapeEnum.TopAbs_SOLID)]


def faces_of(shape: Shape) -> list[Shape]:
    return [TopoDS.Face_s(each) for each in _explore(shape, TopAbs_ShapeEnum.TopAbs_FACE)]


def edges_of(shape: Shape) -> list[Shape]:
    return [TopoDS.Edge_s(each) for each in _explore(shape, TopAbs_ShapeEnum.TopAbs_EDGE)]


def only_solid(shape: Shape) -> Shape:
    """The one solid a part is.  Raises Fault if it fell apart or vanished."""
    found = solids_of(shape)
    if not found:
        raise Fault("Nothing is left of the part.")
    if len(found) > 1:
        raise Fault(f"The part falls into {len(found)} pieces.")
    return found[0]


def is_valid(shape: Shape) -> bool:
    return bool(BRepCheck_Analyzer(shape).IsValid())


def volume_and_centre(shape: Shape) -> tuple[float, Vec]:
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, properties)
    centre = properties.CentreOfMass()
    return float(properties.Mass()), (centre.X(), centre.Y(), centre.Z())


def outward(face: Shape, at: Any) -> Any:
    """Unit vector out of the wood at a point of a face."""
    place = ShapeAnalysis_Surface(BRep_Tool.Surface_s(face)).ValueOfUV(at, 1e-6)
    where, normal = gp_Pnt(), gp_Vec()
    BRepGProp_Face(face).Normal(place.X(), place.Y(), where, normal)
    return normal.Normalized()


def descendants(operation: Any, face: Shape) -> list[Shape]:
    """The faces that an operation made of one face: itself, pieces of it, or none."""
    if operation.IsDeleted(face):
        return []
    modified = [TopoDS.Face_s(each) for each in operation.Modified(face)]
    return modified or [face]


def middle_of(face: Shape) -> Vec:
    """Centre of area of a face."""
    properties = GProp_GProps()
    BRepGProp.SurfaceProperties_s(face, properties)
    centre = properties.CentreOfMass()
    return centre.X(), centre.Y(), centre.Z()


def length_of(edge: Shape) -> float:
    properties = GProp_GProps()
    BRepGProp.LinearProperties_s(edge, properties)
    return float(properties.Mass())


# ---------------------------------------------------------------- tools that follow an edge


def ring(corners: Sequence[Any], arc: Any = None) -> Shape:
    """A closed wire through the corners; with `arc`, an arc through that point closes it."""
    wire = BRepBuilderAPI_MakeWire()
    for a, b in pairwise(corners):
        wire.Add(BRepBuilderAPI_MakeEdge(a, b).Edge())
    last, first = corners[-1], corners[0]
    closing = GC_MakeArcOfCircle(last, arc, first).Value() if arc else GC_MakeSegment(last, first).Value()
    wire.Add(BRepBuilderAPI_MakeEdge(closing).Edge())
    return wire.Wire()


def extruded(wire: Shape, by: Any) -> Shape:
    return _upright(BRepPrimAPI_MakePrism(BRepBuilderAPI_MakeFace(wire, True).Face(), by).Shape())


def turned(wire: Shape, axis: Any, start: float, angle: float) -> Shape:
    """The solid swept by a flat outline about an axis, from `start` through `angle`."""
    turn = gp_Trsf()
    turn.SetRotation(axis, start)
    face = BRepBuilderAPI_MakeFace(wire, True).Face().Moved(TopLoc_Location(turn))
    return _upright(BRepPrimAPI_MakeRevol(face, axis, angle).Shape())


def lofted(wires: Sequence[Shape]) -> Shape:
    """The solid through a row of outlines with the same corners."""
    loft = BRepOffsetAPI_ThruSections(True, False, 1e-4)
    for wire in wires:
        loft.AddWire(wire)
    loft.Build()
    return _upright(loft.Shape())


def _upright(solid: Shape) -> Shape:
    """The solid with its inside inside, whichever way round its outline was drawn."""
    (only,) = solids_of(solid)
    if volume_and_centre(only)[0] < 0:
        only.Reverse()
    return only
