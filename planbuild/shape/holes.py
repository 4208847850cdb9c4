"""Holes: bored round or drawn out to slots, counterbored, countersunk."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planbuild.core.geometry import TINY, Axis, Span1, Vec
from planbuild.records.features import Hole
from planbuild.shape import kernel
from planbuild.shape.kernel import OVERSHOOT, Fault, Shape
from planbuild.shape.workpiece import Cut, Workpiece


def cut_hole(hole: Hole, work: Workpiece) -> Iterator[Cut]:
    """Flat-bottomed: the point of the bit is left out.  The wider counterbore comes first, the countersink last."""
    if hole.counterbore:
        yield _open(hole, _bore(hole, work, *hole.counterbore), work) if hole.open_at else _bore(hole, work, *hole.counterbore)
    yield _bore(hole, work, hole.diameter, hole.depth)
    if hole.countersink:
        yield _countersink(hole, work, hole.countersink[0])


def _bore(hole: Hole, work: Workpiece, diameter: float, depth: float | None) -> Cut:
    axis, surface, sign = hole.face.axis, hole.centre[hole.face.axis.value], hole.face.sign
    thick = abs(surface - work.body.at(hole.face.opposite))
    through = depth is None or depth >= thick - TINY
    deep, radius = thick if depth is None or through else depth, diameter / 2
    ends = (surface + sign * OVERSHOOT, surface - sign * (deep + (OVERSHOOT if through else 0.0)))
    along = hole.slot.along if hole.slot else axis
    middles = [hole.centre] if hole.slot is None else _ends_of_slot(hole)
    tools = [_drilled(axis, ends, point, radius) for point in middles]
    reach = hole.reach(diameter).with_span(axis, Span1(*sorted((surface, surface - sign * deep))))
    area = math.pi * radius**2 + (diameter * hole.travel if hole.slot else 0.0)
    if hole.slot and hole.travel > TINY:
        middle = hole.centre[along.value]
        between = reach.with_span(along, Span1(middle - hole.travel / 2, middle + hole.travel / 2))
        tools.append(kernel.block(between.with_span(axis, Span1(*sorted(ends)))))
    return Cut(tools, area * deep, [reach])


def _open(hole: Hole, bore: Cut, work: Workpiece) -> Cut:
    """A round recess that runs out at one side: what lies beyond that side takes no wood (plane geometry)."""
    assert hole.open_at is not None and hole.counterbore is not None
    wide, deep = hole.counterbore
    radius, side = wide / 2, hole.open_at
    inside = side.sign * (work.body.at(side) - hole.centre[side.axis.value])
    if hole.slot or not -radius < inside < radius:
        raise Fault("It does not run out at the side it is open at.", "look at where it is placed")
    beyond = radius**2 * math.acos(inside / radius) - inside * math.sqrt(radius**2 - inside**2)
    return Cut(bore.tools, bore.volume - beyond * deep, [region.meet(work.body) for region in bore.regions])


def _ends_of_slot(hole: Hole) -> list[Vec]:
    """The middles of its two round ends."""
    assert hole.slot is not None
    places = list(hole.centre)
    found = []
    for sign in (-1, 1):
        places[hole.slot.along.value] = hole.centre[hole.slot.along.value] + sign * hole.travel / 2
        found.append((places[0], places[1], places[2]))
    return found


def _drilled(axis: Axis, ends: tuple[float, float], point: Vec, radius: float) -> Shape:
    places = dict(zip(Axis, point, strict=True))
    start, stop = ends
    inward = (axis.high if stop > start else axis.low).normal
    return kernel.cylinder(kernel.lift(axis, start, kernel.flat(places, axis)), inward, radius, abs(stop - start))


def _countersink(hole: Hole, work: Workpiece, wide: float) -> Cut:
    """The cone for a flat head, from the face down to where it is as narrow as the hole."""
    axis, deep, surface = hole.face.axis, hole.countersink_depth, hole.centre[hole.face.axis.value]
    base = kernel.lift(axis, surface, kernel.flat(dict(zip(Axis, hole.centre, strict=True)), axis))
    tool = kernel.cone(base, hole.face.opposite.normal, wide / 2, hole.diameter / 2, deep)
    large, small = wide / 2, hole.diameter / 2
    ring = math.pi * deep * (large * large + large * small + small * small) / 3 - math.pi * small * small * deep
    reach = hole.reach(wide).with_span(axis, Span1(*sorted((surface, surface - hole.face.sign * deep))))
    return Cut([tool], ring, [reach])
