"""Chamfers and round-overs: a tool runs along each edge, and what it runs over is gone.

Each edge gets its own tool (a straight bar, a ring along an arch, a fair bar along a curve) that runs on
past its ends, so that two of them meet in a mitre, as they do at the bench.  The kernel's own chamfer
leaves corners open by a tenth of a millimetre where an arch runs out in a flat.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.GeomAbs import GeomAbs_CurveType

from planbuild.core.geometry import TINY, Axis, Box, Span1
from planbuild.records.features import Chamfer, Edge, Feature, RoundOver
from planbuild.records.shaped import Moulding
from planbuild.shape import kernel
from planbuild.shape.kernel import OVERSHOOT, Fault, Shape
from planbuild.shape.workpiece import Cut, Workpiece

SPARE = 0.05
"""Wood (mm) that must stay between two cuts on one face."""

INSIDE = 1e-3
"""A line that turns away from the wood by less than this (radians) still runs straight on."""

STATIONS = 24
"""Cross-sections by which a tool follows a curve that is neither straight nor an arc."""

Profile = Callable[["Corner"], Shape]
"""The outline of what is taken at a corner of the cross-section."""


@dataclass(frozen=True)
class Corner:
    """The cross-section of an edge at one point: unit vectors into its two faces, square to the edge."""

    at: Any
    first: Any
    second: Any

    @property
    def angle(self) -> float:
        """Between the two faces, through the wood (radians)."""
        return float(self.first.Angle(self.second))

    def place(self, along_first: float, along_second: float) -> Any:
        """A point given by its distances along the two faces."""
        return self.at.Translated(self.first.Multiplied(along_first).Added(self.second.Multiplied(along_second)))


@dataclass(frozen=True)
class _Run:
    """One edge of the solid where two named faces meet."""

    edge: Shape
    curve: Any
    corner: Callable[[float], Corner]

    @property
    def ends(self) -> tuple[float, float]:
        return float(self.curve.FirstParameter()), float(self.curve.LastParameter())

    def leaving(self, place: Any) -> list[Any]:
        """Directions in which this edge leaves a place, if it begins or ends there."""
        begin, end = self.ends
        ways = ((begin, self.curve.DN(begin, 1)), (end, self.curve.DN(end, 1).Reversed()))
        return [way.Normalized() for parameter, way in ways if self.curve.Value(parameter).Distance(place) < TINY]


# ---------------------------------------------------------------- what is taken


def cut_chamfer(chamfer: Chamfer, work: Workpiece) -> Iterator[Cut]:
    def profile(corner: Corner) -> Shape:
        """The slanted line runs on past both faces; the rest lies outside the wood."""
        size, past = chamfer.size, OVERSHOOT
        line = [corner.place(size + past, -past), corner.place(-past, size + past)]
        return kernel.ring([*line, corner.place(-past, -past)])

    def area(angle: float) -> float:
        return chamfer.size**2 / 2 * math.sin(angle)

    yield _along(chamfer, chamfer.size, profile, area, work)


def cut_round_over(over: RoundOver, work: Workpiece) -> Iterator[Cut]:
    def profile(corner: Corner) -> Shape:
        """From where the round leaves one face to where it meets the other; the rest lies outside the wood."""
        tangent, past = over.radius / math.tan(corner.angle / 2), OVERSHOOT
        bisector = corner.first.Added(corner.second).Normalized()
        to_round = over.radius / math.sin(corner.angle / 2) - over.radius
        summit = corner.at.Translated(bisector.Multiplied(to_round))
        start, end = corner.place(tangent, 0), corner.place(0, tangent)
        outside = [corner.place(-past, tangent), corner.place(-past, -past), corner.place(tangent, -past)]
        return kernel.ring([end, *outside, start], arc=summit)

    def area(angle: float) -> float:
        return over.radius**2 * (1 / math.tan(angle / 2) - (math.pi - angle) / 2)

    yield _along(over, over.radius, profile, area, work)


def cut_moulding(moulding: Moulding, work: Workpiece) -> Iterator[Cut]:
    """A cove in one go; of a bead the rounded corner and the quirk beside it, which touch and do not overlap."""
    if moulding.form == "cove":
        yield _along(moulding, moulding.size, _cove(moulding), lambda angle: moulding.size**2 * angle / 2, work)
        return
    radius = moulding.size / 2
    over = RoundOver(**_said_of(moulding), edges=moulding.edges, radius=radius, reach=moulding.reach)
    (corner,) = cut_round_over(over, work)
    beside = radius * radius * (1 - math.pi / 4) + moulding.quirk * radius
    quirk = _along(moulding, moulding.width, _quirk(moulding), lambda angle: beside, work)
    slack, regions = corner.slack + quirk.slack, (*corner.regions, *quirk.regions)
    yield Cut([*corner.tools, *quirk.tools], corner.volume + quirk.volume, regions, slack=slack)


def _said_of(feature: Moulding) -> dict[str, Any]:
    return {"id": feature.id, "origin": feature.origin, "joint": feature.joint, "why": feature.why}


def _cove(moulding: Moulding) -> Profile:
    def profile(corner: Corner) -> Shape:
        """A quarter round about the edge itself; the rest lies outside the wood."""
        size, past = moulding.size, OVERSHOOT
        summit = corner.at.Translated(corner.first.Added(corner.second).Normalized().Multiplied(size))
        outside = [corner.place(-past, size), corner.place(-past, -past), corner.place(size, -past)]
        return kernel.ring([corner.place(0, size), *outside, corner.place(size, 0)], arc=summit)

    return profile


def _quirk(moulding: Moulding) -> Profile:
    """From the top of the bead down its far side, and the channel beside it, as deep as the middle of the bead."""

    def profile(corner: Corner) -> Shape:
        radius, past = moulding.size / 2, OVERSHOOT
        inward = corner.second.Subtracted(corner.first.Multiplied(corner.first.Dot(corner.second))).Normalized()
        top = radius / math.tan(corner.angle / 2)

        def place(along: float, deep: float) -> Any:
            return corner.at.Translated(corner.first.Multiplied(along).Added(inward.Multiplied(deep)))

        far = top + radius + moulding.quirk
        summit = place(top + radius * math.sqrt(0.5), radius * (1 - math.sqrt(0.5)))
        corners = [place(top + radius, radius), place(far, radius), place(far, -past), place(top, -past), place(top, 0)]
        return kernel.ring(corners, arc=summit)

    return profile


def _along(
    feature: Chamfer | RoundOver | Moulding, size: float, profile: Profile, area: Callable[[float], float], work: Workpiece
) -> Cut:
    """One cut along all the edges of a feature."""
    past = _past(size, work)
    tools, regions, volume, slack = [], [], 0.0, 0.0
    for edge in feature.edges:
        _check_room(edge, feature.edges, size, work)
    found = {edge: _runs(edge, work) for edge in feature.edges}
    every = [run for runs in found.values() for run in runs]
    for edge, runs in found.items():
        _check_corners(runs)
        for run in runs:
            beyond = _Past(*(0.0 if _goes_on(run, end, every) else past for end in run.ends))
            tools.append(_limited(_tool(run, beyond, profile), edge, feature.reach, work))
            regions.append(_region(run, size))
            section = area(run.corner(sum(run.ends) / 2).angle)
            volume += section * _length_within(run, edge, feature.reach)
            slack += 2 * section * past
    return Cut(tools, volume, regions, slack=slack)


def _past(size: float, work: Workpiece) -> float:
    """How far a tool runs on past an edge: over its own mitre, and over corners eased before."""
    return 1.5 * size + max(map(_width, work.part.features)) + OVERSHOOT


def _width(feature: Feature) -> float:
    """How far in from an edge it reaches; 0 for what is not worked along edges."""
    if isinstance(feature, Chamfer):
        return feature.size
    if isinstance(feature, RoundOver):
        return feature.radius
    return feature.width if isinstance(feature, Moulding) else 0.0


def _check_room(edge: Edge, edges: Sequence[Edge], size: float, work: Workpiece) -> None:
    """Two cuts on one face must leave something of it."""
    for kept, gone in (edge, edge[::-1]):
        both = {kept, gone.opposite} in [set(other) for other in edges]
        room = work.body.size(gone.axis) / (2 if both else 1)
        if size > room - SPARE:
            raise Fault(f"It leaves nothing of the {kept.value}.", "make it smaller than half the thickness")


def _check_corners(runs: Sequence[_Run]) -> None:
    """Where one run goes on in another, the line must turn toward the wood: a tool runs past its end there."""
    for run in runs:
        for end in run.ends:
            corner = run.corner(end)
            into = corner.first.Added(corner.second)
            if any(away.Dot(into) < -INSIDE for other in runs if other is not run for away in other.leaving(corner.at)):
                raise Fault("The edge has an inside corner, which cannot be cut in one go.", "stop the cut before the corner")


@dataclass(frozen=True)
class _Past:
    """How far a tool runs on past both ends of its edge."""

    begin: float
    end: float


def _goes_on(run: _Run, end: float, runs: Sequence[_Run]) -> bool:
    """True where another run goes on in the same direction: a ring that ran on past a straight edge would gouge it."""
    at = run.corner(end).at
    own = run.leaving(at)
    return any(away.Dot(mine) < INSIDE - 1 for mine in own for other in runs if other is not run for away in other.leaving(at))


# ---------------------------------------------------------------- the edges themselves


def _runs(edge: Edge, work: Workpiece) -> list[_Run]:
    """All edges of the solid where the two named faces meet.  Raises Fault if they nowhere do."""
    first, second = (work.faces[face] for face in edge)
    runs = [_run(shared, a, b) for a in first for b in second for shared in _shared(a, b)]
    if not runs:
        raise Fault(f"There is no edge left between {edge[0].value} and {edge[1].value}.", "cut the edge before, or leave it out")
    return runs


def _shared(a: Shape, b: Shape) -> list[Shape]:
    others = kernel.edges_of(b)
    return [edge for edge in kernel.edges_of(a) if any(edge.IsSame(other) for other in others)]


def _run(edge: Shape, first: Shape, second: Shape) -> _Run:
    curve = BRepAdaptor_Curve(edge)

    def corner(parameter: float) -> Corner:
        at = curve.Value(parameter)
        out_first, out_second = kernel.outward(first, at), kernel.outward(second, at)
        return Corner(at, _inward(out_first, out_second), _inward(out_second, out_first))

    return _Run(edge, curve, corner)


def _inward(own: Any, other: Any) -> Any:
    """Along a face, away from its edge with the other face (the edge stands out, it is no inside corner)."""
    return other.Subtracted(own.Multiplied(other.Dot(own))).Reversed().Normalized()


# ---------------------------------------------------------------- tools


def _tool(run: _Run, past: _Past, profile: Profile) -> Shape:
    """The bar that runs along one edge and past its ends."""
    kind = run.curve.GetType()
    if kind == GeomAbs_CurveType.GeomAbs_Line:
        return _bar(run, past, profile)
    if kind == GeomAbs_CurveType.GeomAbs_Circle:
        return _hoop(run, past, profile)
    return _fair_bar(run, past, profile)


def _bar(run: _Run, past: _Past, profile: Profile) -> Shape:
    begin, end = run.ends
    corner, way = run.corner(begin), run.curve.DN(begin, 1).Normalized()
    start = Corner(corner.at.Translated(way.Multiplied(-past.begin)), corner.first, corner.second)
    return kernel.extruded(profile(start), way.Multiplied(end - begin + past.begin + past.end))


def _hoop(run: _Run, past: _Past, profile: Profile) -> Shape:
    circle, (begin, end) = run.curve.Circle(), run.ends
    most = (2 * math.pi - (end - begin)) / 3
    before, after = (min(each / circle.Radius(), most) for each in (past.begin, past.end))
    wire = profile(run.corner((begin + end) / 2))
    return kernel.turned(wire, circle.Axis(), (begin - end) / 2 - before, end - begin + before + after)


def _fair_bar(run: _Run, past: _Past, profile: Profile) -> Shape:
    begin, end = run.ends
    corners = [run.corner(begin + (end - begin) * index / (STATIONS - 1)) for index in range(STATIONS)]
    before = [_straight_on(run, begin, -past.begin)] if past.begin else []
    after = [_straight_on(run, end, past.end)] if past.end else []
    return kernel.lofted([profile(each) for each in (*before, *corners, *after)])


def _straight_on(run: _Run, parameter: float, by: float) -> Corner:
    """The cross-section straight on past an end."""
    corner = run.corner(parameter)
    return Corner(corner.at.Translated(run.curve.DN(parameter, 1).Normalized().Multiplied(by)), corner.first, corner.second)


def _limited(tool: Shape, edge: Edge, reach: tuple[float, float] | None, work: Workpiece) -> Shape:
    """The tool within the reach of a stopped cut."""
    if reach is None:
        return tool
    past = 2 * OVERSHOOT
    around = Box(*(Span1(span.low - past, span.high + past) for span in (work.body.x, work.body.y, work.body.z)))
    return kernel.only_solid(kernel.common(tool, [kernel.block(around.with_span(_direction(edge), Span1(*reach)))]))


def _direction(edge: Edge) -> Axis:
    (axis,) = (axis for axis in Axis if axis not in (edge[0].axis, edge[1].axis))
    return axis


def _length_within(run: _Run, edge: Edge, reach: tuple[float, float] | None) -> float:
    """Length of an edge; of a stopped cut, the share of it within the reach."""
    length = kernel.length_of(run.edge)
    if reach is None:
        return length
    axis = _direction(edge)
    spread = _region(run, 0.0).along(axis)
    return length * max(0.0, spread.meet(Span1(*reach)).size) / spread.size


def _region(run: _Run, size: float) -> Box:
    """A box around an edge and all that is taken there."""
    points = [run.curve.Value(p) for p in (*run.ends, sum(run.ends) / 2)]
    places = {Axis.LEFT_RIGHT: [p.X() for p in points], Axis.FRONT_BACK: [p.Y() for p in points]}
    places[Axis.BOTTOM_TOP] = [p.Z() for p in points]
    return Box.of({axis: Span1(min(each) - size, max(each) + size) for axis, each in places.items()})
