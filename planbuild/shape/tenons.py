"""Tenons: wood left standing beyond the shoulder, added when the body is done."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planbuild.core.geometry import Axis, Span1
from planbuild.core.poses import along, placed_at, rim
from planbuild.records.features import Tenon
from planbuild.records.slanted import EndCut
from planbuild.records.tenon_work import Haunch, Keyway
from planbuild.shape import kernel
from planbuild.shape.kernel import NOTHING, OVERSHOOT, Fault, Flat, Shape
from planbuild.shape.pegs import bored
from planbuild.shape.slanted import beyond
from planbuild.shape.split import split
from planbuild.shape.wedged import across, length_of, side_view
from planbuild.shape.workpiece import Workpiece


@kernel.guarded
def add_tenon(tenon: Tenon, work: Workpiece, fitted: bool) -> None:
    """Joins a tenon to the body, as sawn or as it sits in its mortise.  Raises Fault."""
    if tenon.round:
        _add_round(tenon, work, fitted)
        return
    through = _third(tenon)
    outline = side_view(tenon, fitted)
    rooted = _rooted(outline, _depth_of_roots(tenon, work))
    corners = [_place(tenon, through, across(tenon), point) for point in rooted]
    solid = kernel.polygon(through, tenon.block.along(through), corners)
    volume = kernel.polygon_area(outline) * tenon.block.size(through)
    before, _ = kernel.volume_and_centre(solid)
    if tenon.tip_chamfer:
        solid = _chamfered(tenon, solid, through)
    if tenon.keyway:
        solid = _keyed(tenon, tenon.keyway, solid)
    if tenon.pegs:
        solid = bored(tenon, solid)
    volume += kernel.volume_and_centre(solid)[0] - before
    work.add(solid, _beyond_shoulder(tenon, solid, volume, work))
    if tenon.haunch:
        _add_haunch(tenon, tenon.haunch, work)


def _add_round(tenon: Tenon, work: Workpiece, fitted: bool) -> None:
    """A cylinder about the middle of its block."""
    axis, radius, long = tenon.end.axis, tenon.block.size(tenon.end.axis.others[0]) / 2, length_of(tenon)
    root = _depth_of_roots(tenon, work)
    base = along(placed_at(tenon.block.centre, axis, tenon.block.at(tenon.end.opposite)), tenon.end.normal, -root)
    whole = kernel.cylinder(base, tenon.end.normal, radius, long + root)
    solid = split(tenon, tenon.wedging, whole, fitted) if tenon.wedging else whole
    volume = math.pi * radius**2 * long + kernel.volume_and_centre(solid)[0] - kernel.volume_and_centre(whole)[0]
    work.add(solid, _beyond_shoulder(tenon, solid, volume, work))


def _add_haunch(tenon: Tenon, haunch: Haunch, work: Workpiece) -> None:
    """The step beside the tenon, square or sloped to nothing at the edge of the board."""
    box, (through,) = haunch.box, [axis for axis in tenon.end.axis.others if axis is not haunch.face.axis]
    inner, outer, long = box.at(haunch.face.opposite), box.at(haunch.face), box.size(tenon.end.axis)
    outline = [(0.0, inner), (long, inner), *([] if haunch.sloped else [(long, outer)]), (0.0, outer)]
    corners = [_place(tenon, through, haunch.face.axis, point) for point in outline]
    work.add(kernel.polygon(through, box.along(through), corners), box.volume / (2 if haunch.sloped else 1))


def _end_cut(tenon: Tenon, work: Workpiece) -> EndCut | None:
    return next((f for f in work.part.features if isinstance(f, EndCut) and f.end is tenon.end), None)


def _beyond_shoulder(tenon: Tenon, solid: Shape, volume: float, work: Workpiece) -> float:
    """What stands beyond the shoulder: `volume` if that is square."""
    cut = _end_cut(tenon, work)
    if cut is None:
        return volume
    outside = beyond(cut, work.body, tenon.block.size(tenon.end.axis))
    return kernel.volume_and_centre(kernel.common(solid, [outside]))[0]


def _depth_of_roots(tenon: Tenon, work: Workpiece) -> float:
    """How far behind the nominal shoulder a slanted one lies at its deepest, and a little more, so that no gap stays."""
    cut = _end_cut(tenon, work)
    if cut is None:
        return 0.0
    deepest = min(tenon.end.sign * (cut.place(work.body, corner) - cut.at) for corner in rim(tenon.block, tenon.end))
    return max(0.0, -deepest) + OVERSHOOT


def _rooted(outline: Sequence[Flat], depth: float) -> list[Flat]:
    """The side view with its root set back into the body."""
    return [(point[0] - depth if abs(point[0]) < NOTHING else point[0], point[1]) for point in outline]


def _third(tenon: Tenon) -> Axis:
    (axis,) = (axis for axis in Axis if axis not in (tenon.end.axis, across(tenon)))
    return axis


def _place(tenon: Tenon, through: Axis, upward: Axis, point: Flat) -> Flat:
    """A point (along from the shoulder, across) as places in the piece."""
    shoulder = tenon.block.at(tenon.end.opposite)
    places = {tenon.end.axis: shoulder + tenon.end.sign * point[0], upward: point[1]}
    first, second = (places[axis] for axis in through.others)
    return first, second


def _chamfered(tenon: Tenon, solid: Shape, through: Axis) -> Shape:
    """The two edges of the tip that the side view does not show, cut off."""
    cut, tip, drawn = tenon.tip_chamfer, length_of(tenon), across(tenon)
    wide = tenon.block.along(drawn)
    room = Span1(wide.low - wide.size, wide.high + wide.size)
    tools = []
    for face in (through.low, through.high):
        surface = tenon.block.at(face)
        corner = [(tip - cut - OVERSHOOT, OVERSHOOT), (tip + OVERSHOOT, -cut - OVERSHOOT), (tip + OVERSHOOT, OVERSHOOT)]
        points = [_place(tenon, drawn, through, (along, surface + face.sign * out)) for along, out in corner]
        tools.append(kernel.polygon(drawn, room, points))
    return kernel.only_solid(kernel.cut(solid, tools).Shape())


def _keyed(tenon: Tenon, way: Keyway, solid: Shape) -> Shape:
    """The mortise for the key: straight on the inner side, sloped on the outer."""
    depth = tenon.block.size(way.face.axis)
    if way.length_at(depth) <= 0 or way.start + way.length >= length_of(tenon):
        raise Fault("The mortise for the key closes inside the tenon, or comes out at its tip.", "say another key")
    surface, rim = tenon.block.at(way.face), (-OVERSHOOT, depth + OVERSHOOT)
    inner = [(way.start, down) for down in rim]
    outer = [(way.start + way.length_at(down), down) for down in reversed(rim)]
    rings = [(along, surface - way.face.sign * down) for along, down in (*inner, *outer)]
    points = [_place(tenon, way.across, way.face.axis, point) for point in rings]
    return kernel.only_solid(kernel.cut(solid, [kernel.polygon(way.across, way.walls, points)]).Shape())
