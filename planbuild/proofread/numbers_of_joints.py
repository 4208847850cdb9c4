"""The numbers of what is cut for joints, edging and hardware.

Written from the features alone, apart from the room that chooses dimensions, so that what was forgotten there
is found here.  Units: mm, degrees; positions in the frame of the piece.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from planbuild.core.geometry import TINY, Axis, Box
from planbuild.proofread.even_rows import steps_of
from planbuild.proofread.needs import Need, between, ends, into, place
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.edging import Edging
from planbuild.records.features import (
    Groove,
    Hole,
    Mortise,
    Rabbet,
    Tenon,
)
from planbuild.records.piece import Part
from planbuild.records.pockets import Pocket
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.records.tails import Sockets, Tails
from planbuild.records.tenon_work import Keyway


def of_round(part: Part, f: Tenon | Mortise, box: Box, along: Axis) -> Iterator[Need]:
    """Where its middle lies, how thick, how long or deep."""
    for axis in along.others:
        yield from place(part, f, "middle", axis, box.along(axis).middle)
    yield Need(f.id, "diameter", box.size(along.others[0]))


def of_tenon(part: Part, f: Tenon) -> Iterator[Need]:
    if f.round:
        yield from of_round(part, f, f.block, f.end.axis)
        yield between(f.id, "length", f.end.axis, *ends(f.block, f.end.axis))
        yield from of_kerfs(f)
        return
    for axis in Axis:
        yield between(f.id, "length" if axis is f.end.axis else "section", axis, *ends(f.block, axis))
        if axis is not f.end.axis:
            yield from place(part, f, "place", axis, *ends(f.block, axis))
    wide = max(reversed(f.end.axis.others), key=lambda axis: round(f.block.size(axis), 6))
    for face in (wide.low, wide.high):
        yield between(f.id, f"shoulder at the {face.value}", wide, part.body.at(face), f.block.at(face))
    shoulder = f.block.at(f.end.opposite)
    if f.mitre:
        yield between(f.id, "short side of the mitre", f.end.axis, shoulder, shoulder + f.end.sign * f.mitre.start)
        yield Need(f.id, "angle of the mitre", 45.0)
    if f.tip_chamfer:
        yield Need(f.id, "chamfer of the tip", f.tip_chamfer)
    yield from of_kerfs(f)
    if f.haunch:
        for axis in Axis:
            words = "length" if axis is f.end.axis else "section"
            yield between(f.id, f"{words} of the haunch", axis, *ends(f.haunch.box, axis))
    for hole in f.pegs:
        inner = shoulder + f.end.sign * hole.start
        yield between(f.id, "start of a peg hole", f.end.axis, shoulder, inner)
        spans = tuple((min(edge, hole.plane), max(edge, hole.plane)) for edge in ends(f.block, hole.across))
        yield Need(f.id, "place of a peg hole", axis=hole.across, spans=spans)
        yield Need(f.id, "diameter of a peg hole", hole.diameter)
    if f.keyway:
        yield from of_keyway(f, f.keyway)


def of_kerfs(f: Tenon) -> Iterator[Need]:
    tip = f.block.at(f.end)
    for kerf in f.wedging.kerfs if f.wedging else ():
        spans = tuple((min(edge, kerf.plane), max(edge, kerf.plane)) for edge in ends(f.block, kerf.across))
        yield Need(f.id, "place of a kerf", axis=kerf.across, spans=spans)
        yield between(f.id, "depth of a kerf", f.end.axis, tip, tip - f.end.sign * kerf.depth)
        yield Need(f.id, "width of a kerf", kerf.width)


def of_keyway(f: Tenon, way: Keyway) -> Iterator[Need]:
    """How long it is at both faces of the tenon, how far from its shoulder, how wide, and where across."""
    inner = f.block.at(f.end.opposite) + f.end.sign * way.start
    low, high = way.plane - way.width / 2, way.plane + way.width / 2
    for words, length in (("length", way.length), ("length below", way.length - way.slope * f.block.size(way.face.axis))):
        yield between(f.id, f"{words} of the key mortise", f.end.axis, inner, inner + f.end.sign * length)
    yield between(f.id, "start of the key mortise", f.end.axis, f.block.at(f.end.opposite), inner)
    yield between(f.id, "width of the key mortise", way.across, low, high)
    spans = tuple((min(edge, wall), max(edge, wall)) for edge in ends(f.block, way.across) for wall in (low, high))
    yield Need(f.id, "place of the key mortise", axis=way.across, spans=spans)


def of_mortise(part: Part, f: Mortise) -> Iterator[Need]:
    if f.round:
        yield from of_round(part, f, f.void, f.face.axis)
        if not f.through:
            yield between(f.id, "depth", f.face.axis, *ends(f.void, f.face.axis))
        yield from of_flare(part, f)
        return
    for axis in f.face.axis.others:
        yield between(f.id, "mouth", axis, *ends(f.void, axis))
        yield from place(part, f, "place", axis, *ends(f.void, axis))
    if not f.through:
        yield between(f.id, "depth", f.face.axis, *ends(f.void, f.face.axis))
    yield from of_flare(part, f)


def of_flare(part: Part, f: Mortise) -> Iterator[Need]:
    if f.flare and f.flare_axis:
        low, high = ends(f.void, f.flare_axis)
        yield between(f.id, "flare", f.flare_axis, low - f.flare, low)
        yield between(f.id, "flare", f.flare_axis, high, high + f.flare)
    if f.flare and f.flare_from is not None:
        yield between(f.id, "start of the flare", f.face.axis, f.flare_from, part.body.at(f.face.opposite))


def of_angled_mortise(part: Part, f: AngledMortise) -> Iterator[Need]:
    """Where its middle lies, its own size, and every angle that is not square."""
    for axis in f.face.axis.others:
        yield from place(part, f, "middle", axis, f.mouth[axis.value])
    sides = sorted(f.void.size(axis) for axis in f.face.axis.others)
    words = ("diameter",) if f.round else ("width", "length")
    yield from (Need(f.id, word, side) for word, side in zip(words, sides, strict=False))
    if not f.through:
        yield Need(f.id, "depth", f.void.size(f.face.axis))
    if not f.round:
        yield from of_turned_sides(part, f)
    deep = abs(f.way[f.face.axis.value])
    for axis in f.face.axis.others:
        if abs(f.way[axis.value]) > 1e-4 * deep:
            yield Need(f.id, f"lean {axis.words}", math.degrees(math.atan(abs(f.way[axis.value]) / deep)))


def of_turned_sides(part: Part, f: AngledMortise) -> Iterator[Need]:
    run = f.pose.direction(f.long_axis.high.normal)
    (one, other) = (abs(run[axis.value]) for axis in f.face.axis.others)
    if min(one, other) > math.sin(math.radians(0.5)) * math.hypot(one, other):
        along = one if part.grain not in f.face.axis.others or part.grain is f.face.axis.others[0] else other
        yield Need(f.id, "angle of the long sides", math.degrees(math.acos(along / math.hypot(one, other))))


def of_end_cut(part: Part, f: EndCut) -> Iterator[Need]:
    for axis, angle in f.slopes:
        if abs(angle) > 0.01:
            yield Need(f.id, f"slope {axis.words}", abs(angle))


def of_corner_slot(part: Part, f: CornerSlot) -> Iterator[Need]:
    """Its place and width along the edge of the corner, unless it runs right through, and its place on the mitre."""
    low, high = ends(part.body, f.axis)
    if f.across.size < high - low - TINY:
        yield between(f.id, "width", f.axis, f.across.low, f.across.high)
        yield from place(part, f, "place", f.axis, f.across.low, f.across.high)
    else:
        yield Need(f.id, "width", f.stop - f.start)
        yield Need(f.id, "from the outer corner", f.start)
    yield Need(f.id, "depth", f.stop if f.deep is None else f.deep)


def of_groove(part: Part, f: Groove) -> Iterator[Need]:
    for axis in Axis:
        yield between(f.id, "size", axis, *ends(f.void, axis))
        if axis is not f.face.axis:
            yield from place(part, f, "place", axis, *ends(f.void, axis))


def of_rabbet(part: Part, f: Rabbet) -> Iterator[Need]:
    """Each way either what is cut or what is left; from where to where, if it is stopped."""
    for face in f.edge:
        wall, low, high = f.void.at(face.opposite), *ends(part.body, face.axis)
        yield Need(f.id, "size", axis=face.axis, spans=((low, wall), (wall, high)))
    (run,) = (axis for axis in Axis if axis not in (f.edge[0].axis, f.edge[1].axis))
    yield between(f.id, "length", run, *ends(f.void, run))
    yield from place(part, f, "place", run, *ends(f.void, run))


def of_edging(part: Part, f: Edging) -> Iterator[Need]:
    yield into(part, f, "thickness", f.edge, f.thickness)
    for words, value in zip(("thickness of the tongue", "length of the tongue"), f.tongue or (), strict=False):
        yield Need(f.id, words, value)


def of_hole(part: Part, f: Hole) -> Iterator[Need]:
    for axis in f.face.axis.others:
        steps = steps_of(part, f, axis)
        for need in place(part, f, "centre", axis, f.centre[axis.value]):
            yield replace(need, spans=(*need.spans, *steps.spans)) if steps else need
        if steps:
            yield Need(f.id, "number of the row", axis=axis, spans=steps.spans, told=f"{steps.count} in a row")
    yield Need(f.id, "diameter", f.diameter)
    if f.slot:
        middle, half = f.centre[f.slot.along.value], f.slot.length / 2
        yield between(f.id, "length of the slot", f.slot.along, middle - half, middle + half)
    if f.countersink:
        yield Need(f.id, "diameter of the countersink", f.countersink[0])
    if f.depth is not None:
        yield _from_mouth(f, "depth", f.depth)
    if f.counterbore:
        yield Need(f.id, "diameter of the counterbore", f.counterbore[0])
        yield _from_mouth(f, "depth of the counterbore", f.counterbore[1])


def _from_mouth(f: Hole, words: str, depth: float) -> Need:
    mouth = f.centre[f.face.axis.value]
    return between(f.id, words, f.face.axis, mouth, mouth - f.face.sign * depth)


def of_comb(part: Part, f: Tails | Sockets) -> Iterator[Need]:
    """How long, and either the row of like tails in words, or each from wall to wall."""
    comb = f.comb
    yield between(f.id, "depth", comb.tip.axis, *ends(comb.block, comb.tip.axis))
    if isinstance(f, Sockets) and f.mouth:
        yield between(f.id, "mouth", comb.spread, f.mouth.low, f.mouth.high)
        yield from place(part, f, "place", comb.spread, f.mouth.low, f.mouth.high)
        yield Need(f.id, "width at the bottom", comb.tails[0].size)
        if comb.slim:
            yield Need(f.id, "width at the narrow end", f.mouth.size - comb.slim.by)
        yield Need(f.id, "slope", comb.slope)
        return
    if comb.slim:
        yield Need(f.id, "width at the narrow end", comb.tails[0].size - comb.slim.by)
    if isinstance(f, Sockets):
        yield between(f.id, "reach", comb.run, *ends(comb.block, comb.run))
    if comb.slope:
        yield Need(f.id, "slope", comb.slope)
    if comb.even:
        low, high = ends(comb.block, comb.spread)
        spans = ((low, comb.tails[0].low), (comb.tails[-1].high, high))
        yield Need(f.id, "half pin", axis=comb.spread, spans=spans)
        yield Need(f.id, "width of a tail", comb.tails[0].size)
        yield from (Need(f.id, "room between tails", room) for room in comb.between[:1])
    else:
        for tail in comb.tails:
            yield between(f.id, "width of a tail", comb.spread, tail.low, tail.high)


def of_pocket(part: Part, f: Pocket) -> Iterator[Need]:
    """Where its middle lies on the face, how the bit is set, and both of its diameters."""
    inward, out = f.deep / math.tan(math.radians(f.angle)), f.exit[f.end.axis.value]
    yield between(f.id, "middle from the end", f.end.axis, out, out - f.end.sign * inward)
    (side,) = (axis for axis in Axis if axis not in (f.face.axis, f.end.axis))
    yield from place(part, f, "middle", side, f.exit[side.value])
    yield Need(f.id, "diameter", f.width)
    yield Need(f.id, "angle", f.angle)
    yield Need(f.id, "diameter of the narrow hole", f.diameter)
    yield Need(f.id, "wood under the head", f.shoulder)
