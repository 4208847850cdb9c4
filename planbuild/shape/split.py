"""Round tenons split by a wedge, and the hole that opens for them.

A kerf runs right across.  From its bottom each half lies aside, nothing there and by `flare` at the far face, and on at
that slope to the tip: a slanted half cylinder.  The hole opens likewise, from a circle to an oval with straight sides.
"""

from __future__ import annotations

from OCP.gp import gp_Vec

from planbuild.core.geometry import Axis, Face, Span1, Vec
from planbuild.core.poses import along, placed_at
from planbuild.records.features import Kerf, Mortise, Tenon, Wedging
from planbuild.shape import kernel
from planbuild.shape.kernel import OVERSHOOT, Fault, Shape


def split(tenon: Tenon, wedging: Wedging, whole: Shape, fitted: bool) -> Shape:
    """A round tenon with its kerf, as sawn or as it sits in its hole.  Raises Fault."""
    (kerf,) = wedging.kerfs
    tip = tenon.block.at(tenon.end)
    bottom = tip - tenon.end.sign * kerf.depth
    if kerf.depth >= tenon.block.size(tenon.end.axis) or kerf.width >= tenon.block.size(kerf.across):
        raise Fault("Its kerf is deeper or wider than the tenon.", "use a thinner wedge")
    if not fitted:
        room = tenon.block.with_span(kerf.across, _about(kerf)).with_span(tenon.end.axis, _from(bottom, tip + tenon.end.sign))
        third = next(axis for axis in Axis if axis not in (kerf.across, tenon.end.axis))
        slot = room.grown(third.low, OVERSHOOT).grown(third.high, OVERSHOOT)
        return kernel.only_solid(kernel.cut(whole, [kernel.block(slot)]).Shape())
    slope = wedging.flare / (kerf.depth - tenon.proud)
    stem = _clipped(whole, tenon, bottom)
    halves = [_half(tenon, kerf, side, slope, bottom) for side in (kerf.across.low, kerf.across.high)]
    return kernel.only_solid(kernel.fuse(stem, halves).Shape())


def _about(kerf: Kerf) -> Span1:
    return Span1(kerf.plane - kerf.width / 2, kerf.plane + kerf.width / 2)


def _from(one: float, other: float) -> Span1:
    return Span1(min(one, other), max(one, other))


def _clipped(whole: Shape, tenon: Tenon, bottom: float) -> Shape:
    """What is not split: from the root to the bottom of the kerf."""
    start = bottom - tenon.end.sign * 4 * tenon.block.size(tenon.end.axis)
    room = tenon.block.with_span(tenon.end.axis, _from(start, bottom))
    for axis in tenon.end.axis.others:
        room = room.grown(axis.low, OVERSHOOT).grown(axis.high, OVERSHOOT)
    return kernel.only_solid(kernel.common(whole, [kernel.block(room)]))


def _half(tenon: Tenon, kerf: Kerf, side: Face, slope: float, bottom: float) -> Shape:
    """One half from the bottom of the kerf to the tip, moved outward on the way."""
    end, long = tenon.end, kerf.depth
    base = placed_at(tenon.block.centre, end.axis, bottom)
    leaning = kernel.slanted_cylinder(base, end.normal, tenon.block.size(kerf.across) / 2, _by(end, side, slope, long))
    view = next(axis for axis in Axis if axis not in (kerf.across, end.axis))
    inner, outer = kerf.plane + side.sign * kerf.width / 2, kerf.plane + side.sign * 4 * tenon.block.size(kerf.across)
    rim = [(0.0, inner), (long, inner + side.sign * slope * long), (long, outer), (0.0, outer)]
    corners = [kernel.flat({end.axis: bottom + end.sign * run, kerf.across: place}, view) for run, place in rim]
    wide = tenon.block.along(view)
    keep = kernel.polygon(view, Span1(wide.low - OVERSHOOT, wide.high + OVERSHOOT), corners)
    return kernel.only_solid(kernel.common(leaning, [keep]))


def _by(end: Face, side: Face, slope: float, long: float) -> Vec:
    return along(along((0.0, 0.0, 0.0), end.normal, long), side.normal, slope * long)


def opened(mortise: Mortise, begin: float, far: float) -> list[Shape]:
    """The tool that opens a round hole along `flare_axis`, from a plane inside to a little past the far face."""
    assert mortise.flare_axis is not None
    way, long, across = mortise.face.opposite, abs(far - begin), mortise.flare_axis
    slope, past = mortise.flare / long, long + OVERSHOOT
    view = next(axis for axis in Axis if axis not in (across, way.axis))
    base = placed_at(mortise.void.centre, way.axis, begin)
    sides = [_half_disc(base, side, view, mortise.void.size(across) / 2, _by(way, side, slope, past)) for side in _both(across)]
    middle = mortise.void.along(across).middle
    rim = [(0.0, middle), (past, middle - slope * past), (past, middle + slope * past)]
    corners = [kernel.flat({way.axis: begin + way.sign * run, across: place}, view) for run, place in rim]
    between = kernel.polygon(view, mortise.void.along(view), corners)
    return [kernel.only_solid(kernel.fuse(between, sides).Shape())]


def _both(axis: Axis) -> tuple[Face, Face]:
    return axis.low, axis.high


def _half_disc(base: Vec, side: Face, view: Axis, radius: float, by: Vec) -> Shape:
    """Half of a disc on one side of its middle, drawn along `by`."""
    ends = [kernel.point(along(base, face.normal, radius)) for face in _both(view)]
    return kernel.extruded(kernel.ring(ends, kernel.point(along(base, side.normal, radius))), gp_Vec(*by))
