"""The numbers that must stand on a sheet as they are, so that nobody has to add or subtract at the bench.

Written from the features alone, apart from the room that chooses dimensions, so that what was forgotten there
is found here.  Units: mm, degrees; positions in the frame of the piece.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from planbuild.core.geometry import TINY, Axis, Box, Face
from planbuild.proofread.even_rows import steps_of
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.edging import Edging
from planbuild.records.facts import Dimension
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    EdgeBevel,
    Feature,
    Groove,
    Hole,
    Mortise,
    Rabbet,
    RoundOver,
    Taper,
    Tenon,
)
from planbuild.records.piece import Part
from planbuild.records.pockets import Pocket
from planbuild.records.shaped import Dished, Moulding, Sawn, Turned
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.records.tails import Sockets, Tails
from planbuild.records.tenon_work import Keyway


@dataclass(frozen=True)
class Need:
    """One number: `words` say what it is.

    With an `axis` it is a distance; any one of `spans` (pairs of planes, low first) will do.  Without, it is a
    form of the feature itself with that `value`.  `told` are words that must stand beside it.
    """

    feature: str
    words: str
    value: float = 0.0
    axis: Axis | None = None
    spans: tuple[tuple[float, float], ...] = ()
    told: str = ""

    def is_met_by(self, printed: Dimension) -> bool:
        if self.axis is None:
            return printed.feature == self.feature and not printed.axis and abs(printed.value - self.value) <= TINY
        same_way = printed.axis == self.axis.words and self.told in printed.text
        return same_way and any(_same(span, printed.ends) for span in self.spans)


def _same(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return all(abs(a - b) <= TINY for a, b in zip(one, sorted(other), strict=True))


def needs_of(part: Part) -> tuple[Need, ...]:
    """Every number of the board and its features, those that are 0 left out."""
    found = [_between("body", words, axis, *_ends(box, axis)) for words, axis, box in _whole(part)]
    for feature in part.features:
        found += _KINDS[type(feature)](part, feature)
    return tuple(each for each in found if each.axis is None or any(b - a > TINY for a, b in each.spans))


def _whole(part: Part) -> tuple[tuple[str, Axis, Box], ...]:
    return (
        ("length", part.grain, part.extent),
        ("length between shoulders", part.grain, part.body),
        ("width", part.width_axis, part.body),
        ("thickness", part.thickness_axis, part.body),
    )


def _ends(box: Box, axis: Axis) -> tuple[float, float]:
    return box.along(axis).low, box.along(axis).high


def _between(feature: str, words: str, axis: Axis, one: float, other: float) -> Need:
    return Need(feature, words, axis=axis, spans=((min(one, other), max(one, other)),))


def _place(part: Part, f: Feature, words: str, axis: Axis, *walls: float) -> Iterator[Need]:
    """One of the walls from one of the ends or faces of the board; none if a wall lies on one of them."""
    edges = {*_ends(part.body, axis), *_ends(part.extent, axis)}
    spans = tuple((min(edge, wall), max(edge, wall)) for edge in sorted(edges) for wall in walls)
    if all(high - low > TINY for low, high in spans):
        yield Need(f.id, words, axis=axis, spans=spans)


# ---------------------------------------------------------------- kinds of feature


def _of_round(part: Part, f: Tenon | Mortise, box: Box, along: Axis) -> Iterator[Need]:
    """Where its middle lies, how thick, how long or deep."""
    for axis in along.others:
        yield from _place(part, f, "middle", axis, box.along(axis).middle)
    yield Need(f.id, "diameter", box.size(along.others[0]))


def _of_tenon(part: Part, f: Tenon) -> Iterator[Need]:
    if f.round:
        yield from _of_round(part, f, f.block, f.end.axis)
        yield _between(f.id, "length", f.end.axis, *_ends(f.block, f.end.axis))
        yield from _of_kerfs(f)
        return
    for axis in Axis:
        yield _between(f.id, "length" if axis is f.end.axis else "section", axis, *_ends(f.block, axis))
        if axis is not f.end.axis:
            yield from _place(part, f, "place", axis, *_ends(f.block, axis))
    wide = max(reversed(f.end.axis.others), key=lambda axis: round(f.block.size(axis), 6))
    for face in (wide.low, wide.high):
        yield _between(f.id, f"shoulder at the {face.value}", wide, part.body.at(face), f.block.at(face))
    shoulder = f.block.at(f.end.opposite)
    if f.mitre:
        yield _between(f.id, "short side of the mitre", f.end.axis, shoulder, shoulder + f.end.sign * f.mitre.start)
        yield Need(f.id, "angle of the mitre", 45.0)
    if f.tip_chamfer:
        yield Need(f.id, "chamfer of the tip", f.tip_chamfer)
    yield from _of_kerfs(f)
    if f.haunch:
        for axis in Axis:
            words = "length" if axis is f.end.axis else "section"
            yield _between(f.id, f"{words} of the haunch", axis, *_ends(f.haunch.box, axis))
    for hole in f.pegs:
        inner = shoulder + f.end.sign * hole.start
        yield _between(f.id, "start of a peg hole", f.end.axis, shoulder, inner)
        spans = tuple((min(edge, hole.plane), max(edge, hole.plane)) for edge in _ends(f.block, hole.across))
        yield Need(f.id, "place of a peg hole", axis=hole.across, spans=spans)
        yield Need(f.id, "diameter of a peg hole", hole.diameter)
    if f.keyway:
        yield from _of_keyway(f, f.keyway)


def _of_kerfs(f: Tenon) -> Iterator[Need]:
    tip = f.block.at(f.end)
    for kerf in f.wedging.kerfs if f.wedging else ():
        spans = tuple((min(edge, kerf.plane), max(edge, kerf.plane)) for edge in _ends(f.block, kerf.across))
        yield Need(f.id, "place of a kerf", axis=kerf.across, spans=spans)
        yield _between(f.id, "depth of a kerf", f.end.axis, tip, tip - f.end.sign * kerf.depth)
        yield Need(f.id, "width of a kerf", kerf.width)


def _of_keyway(f: Tenon, way: Keyway) -> Iterator[Need]:
    """How long it is at both faces of the tenon, how far from its shoulder, how wide, and where across."""
    inner = f.block.at(f.end.opposite) + f.end.sign * way.start
    low, high = way.plane - way.width / 2, way.plane + way.width / 2
    for words, length in (("length", way.length), ("length below", way.length - way.slope * f.block.size(way.face.axis))):
        yield _between(f.id, f"{words} of the key mortise", f.end.axis, inner, inner + f.end.sign * length)
    yield _between(f.id, "start of the key mortise", f.end.axis, f.block.at(f.end.opposite), inner)
    yield _between(f.id, "width of the key mortise", way.across, low, high)
    spans = tuple((min(edge, wall), max(edge, wall)) for edge in _ends(f.block, way.across) for wall in (low, high))
    yield Need(f.id, "place of the key mortise", axis=way.across, spans=spans)


def _of_mortise(part: Part, f: Mortise) -> Iterator[Need]:
    if f.round:
        yield from _of_round(part, f, f.void, f.face.axis)
        if not f.through:
            yield _between(f.id, "depth", f.face.axis, *_ends(f.void, f.face.axis))
        yield from _of_flare(part, f)
        return
    for axis in f.face.axis.others:
        yield _between(f.id, "mouth", axis, *_ends(f.void, axis))
        yield from _place(part, f, "place", axis, *_ends(f.void, axis))
    if not f.through:
        yield _between(f.id, "depth", f.face.axis, *_ends(f.void, f.face.axis))
    yield from _of_flare(part, f)


def _of_flare(part: Part, f: Mortise) -> Iterator[Need]:
    if f.flare and f.flare_axis:
        low, high = _ends(f.void, f.flare_axis)
        yield _between(f.id, "flare", f.flare_axis, low - f.flare, low)
        yield _between(f.id, "flare", f.flare_axis, high, high + f.flare)
    if f.flare and f.flare_from is not None:
        yield _between(f.id, "start of the flare", f.face.axis, f.flare_from, part.body.at(f.face.opposite))


def _of_angled_mortise(part: Part, f: AngledMortise) -> Iterator[Need]:
    """Where its middle lies, its own size, and every angle that is not square."""
    for axis in f.face.axis.others:
        yield from _place(part, f, "middle", axis, f.mouth[axis.value])
    sides = sorted(f.void.size(axis) for axis in f.face.axis.others)
    words = ("diameter",) if f.round else ("width", "length")
    yield from (Need(f.id, word, side) for word, side in zip(words, sides, strict=False))
    if not f.through:
        yield Need(f.id, "depth", f.void.size(f.face.axis))
    if not f.round:
        yield from _of_turned_sides(part, f)
    deep = abs(f.way[f.face.axis.value])
    for axis in f.face.axis.others:
        if abs(f.way[axis.value]) > 1e-4 * deep:
            yield Need(f.id, f"lean {axis.words}", math.degrees(math.atan(abs(f.way[axis.value]) / deep)))


def _of_turned_sides(part: Part, f: AngledMortise) -> Iterator[Need]:
    run = f.pose.direction(f.long_axis.high.normal)
    (one, other) = (abs(run[axis.value]) for axis in f.face.axis.others)
    if min(one, other) > math.sin(math.radians(0.5)) * math.hypot(one, other):
        along = one if part.grain not in f.face.axis.others or part.grain is f.face.axis.others[0] else other
        yield Need(f.id, "angle of the long sides", math.degrees(math.acos(along / math.hypot(one, other))))


def _of_end_cut(part: Part, f: EndCut) -> Iterator[Need]:
    for axis, angle in f.slopes:
        if abs(angle) > 0.01:
            yield Need(f.id, f"slope {axis.words}", abs(angle))


def _of_corner_slot(part: Part, f: CornerSlot) -> Iterator[Need]:
    """Its place and width along the edge of the corner, unless it runs right through, and its place on the mitre."""
    low, high = _ends(part.body, f.axis)
    if f.across.size < high - low - TINY:
        yield _between(f.id, "width", f.axis, f.across.low, f.across.high)
        yield from _place(part, f, "place", f.axis, f.across.low, f.across.high)
    else:
        yield Need(f.id, "width", f.stop - f.start)
        yield Need(f.id, "from the outer corner", f.start)
    yield Need(f.id, "depth", f.stop if f.deep is None else f.deep)


def _of_groove(part: Part, f: Groove) -> Iterator[Need]:
    for axis in Axis:
        yield _between(f.id, "size", axis, *_ends(f.void, axis))
        if axis is not f.face.axis:
            yield from _place(part, f, "place", axis, *_ends(f.void, axis))


def _of_rabbet(part: Part, f: Rabbet) -> Iterator[Need]:
    """Each way either what is cut or what is left; from where to where, if it is stopped."""
    for face in f.edge:
        wall, low, high = f.void.at(face.opposite), *_ends(part.body, face.axis)
        yield Need(f.id, "size", axis=face.axis, spans=((low, wall), (wall, high)))
    (run,) = (axis for axis in Axis if axis not in (f.edge[0].axis, f.edge[1].axis))
    yield _between(f.id, "length", run, *_ends(f.void, run))
    yield from _place(part, f, "place", run, *_ends(f.void, run))


def _of_edging(part: Part, f: Edging) -> Iterator[Need]:
    yield _into(part, f, "thickness", f.edge, f.thickness)
    for words, value in zip(("thickness of the tongue", "length of the tongue"), f.tongue or (), strict=False):
        yield Need(f.id, words, value)


def _of_hole(part: Part, f: Hole) -> Iterator[Need]:
    for axis in f.face.axis.others:
        steps = steps_of(part, f, axis)
        for need in _place(part, f, "centre", axis, f.centre[axis.value]):
            yield replace(need, spans=(*need.spans, *steps.spans)) if steps else need
        if steps:
            yield Need(f.id, "number of the row", axis=axis, spans=steps.spans, told=f"{steps.count} in a row")
    yield Need(f.id, "diameter", f.diameter)
    if f.slot:
        middle, half = f.centre[f.slot.along.value], f.slot.length / 2
        yield _between(f.id, "length of the slot", f.slot.along, middle - half, middle + half)
    if f.countersink:
        yield Need(f.id, "diameter of the countersink", f.countersink[0])
    if f.depth is not None:
        yield _from_mouth(f, "depth", f.depth)
    if f.counterbore:
        yield Need(f.id, "diameter of the counterbore", f.counterbore[0])
        yield _from_mouth(f, "depth of the counterbore", f.counterbore[1])


def _from_mouth(f: Hole, words: str, depth: float) -> Need:
    mouth = f.centre[f.face.axis.value]
    return _between(f.id, words, f.face.axis, mouth, mouth - f.face.sign * depth)


def _into(part: Part, f: Feature, words: str, face: Face, depth: float) -> Need:
    surface = part.body.at(face)
    return _between(f.id, words, face.axis, surface, surface - face.sign * depth)


def _of_comb(part: Part, f: Tails | Sockets) -> Iterator[Need]:
    """How long, and either the row of like tails in words, or each from wall to wall."""
    comb = f.comb
    yield _between(f.id, "depth", comb.tip.axis, *_ends(comb.block, comb.tip.axis))
    if isinstance(f, Sockets) and f.mouth:
        yield _between(f.id, "mouth", comb.spread, f.mouth.low, f.mouth.high)
        yield from _place(part, f, "place", comb.spread, f.mouth.low, f.mouth.high)
        yield Need(f.id, "width at the bottom", comb.tails[0].size)
        if comb.slim:
            yield Need(f.id, "width at the narrow end", f.mouth.size - comb.slim.by)
        yield Need(f.id, "slope", comb.slope)
        return
    if comb.slim:
        yield Need(f.id, "width at the narrow end", comb.tails[0].size - comb.slim.by)
    if isinstance(f, Sockets):
        yield _between(f.id, "reach", comb.run, *_ends(comb.block, comb.run))
    if comb.slope:
        yield Need(f.id, "slope", comb.slope)
    if comb.even:
        low, high = _ends(comb.block, comb.spread)
        spans = ((low, comb.tails[0].low), (comb.tails[-1].high, high))
        yield Need(f.id, "half pin", axis=comb.spread, spans=spans)
        yield Need(f.id, "width of a tail", comb.tails[0].size)
        yield from (Need(f.id, "room between tails", room) for room in comb.between[:1])
    else:
        for tail in comb.tails:
            yield _between(f.id, "width of a tail", comb.spread, tail.low, tail.high)


def _of_pocket(part: Part, f: Pocket) -> Iterator[Need]:
    """Where its middle lies on the face, how the bit is set, and both of its diameters."""
    inward, out = f.deep / math.tan(math.radians(f.angle)), f.exit[f.end.axis.value]
    yield _between(f.id, "middle from the end", f.end.axis, out, out - f.end.sign * inward)
    (side,) = (axis for axis in Axis if axis not in (f.face.axis, f.end.axis))
    yield from _place(part, f, "middle", side, f.exit[side.value])
    yield Need(f.id, "diameter", f.width)
    yield Need(f.id, "angle", f.angle)
    yield Need(f.id, "diameter of the narrow hole", f.diameter)
    yield Need(f.id, "wood under the head", f.shoulder)


def _of_taper(part: Part, f: Taper) -> Iterator[Need]:
    yield from _place(part, f, "start", part.grain, f.start)
    for axis, left in f.leaving:
        tapered = [face for face in f.faces if face.axis is axis]
        low, high = _ends(part.body, axis)
        cut = (high - low - left) / len(tapered)
        low, high = low + (cut if axis.low in tapered else 0.0), high - (cut if axis.high in tapered else 0.0)
        yield _between(f.id, "what is left at the end", axis, low, high)


def _of_chamfer(part: Part, f: Chamfer) -> Iterator[Need]:
    yield Need(f.id, "size", f.size)
    yield from _reach(part, f)


def _of_round_over(part: Part, f: RoundOver) -> Iterator[Need]:
    yield Need(f.id, "radius", f.radius)
    yield from _reach(part, f)


def _of_moulding(part: Part, f: Moulding) -> Iterator[Need]:
    yield Need(f.id, "size", f.size)
    if f.quirk:
        yield Need(f.id, "quirk", f.quirk)
    yield from _reach(part, f)


def _reach(part: Part, f: Chamfer | RoundOver | Moulding) -> Iterator[Need]:
    (one, other) = f.edges[0]
    (axis,) = (axis for axis in Axis if axis not in (one.axis, other.axis))
    for end in f.reach or ():
        yield from _place(part, f, "end", axis, end)


def _of_dished(part: Part, f: Dished) -> Iterator[Need]:
    for axis in f.face.axis.others:
        yield from _place(part, f, "middle", axis, f.centre[axis.value])
    yield Need(f.id, "width", f.diameter)
    yield Need(f.id, "radius", f.radius)
    yield _into(part, f, "depth", f.face, f.depth)


def _of_turned(part: Part, f: Turned) -> Iterator[Need]:
    """Every station with its diameter; of curves the radius, from their chord and rise as a maker would have to find it."""
    for station in f.stations:
        yield from _place(part, f, "station", part.grain, station.at)
        yield Need(f.id, "diameter", station.diameter)
    for before, after in pairwise(f.stations):
        long, deep = after.at - before.at, abs(after.diameter - before.diameter) / 2
        if after.way != "straight":
            radius = (long * long + deep * deep) / (2 * deep) if deep > TINY else long / 2
            halved = after.way == "ogee" and deep > TINY
            yield Need(f.id, f"radius of a {after.way}", radius / 2 if halved else radius)


def _of_arch(part: Part, f: Arch) -> Iterator[Need]:
    for end in (f.start, f.stop):
        yield from _place(part, f, "springing point", part.grain, end)
    yield _into(part, f, "rise", f.face, f.rise)
    yield Need(f.id, "radius", f.radius)


def _of_curve(part: Part, f: Curve) -> Iterator[Need]:
    start = part.body.along(part.grain).low
    for along, depth in f.points:
        yield _between(f.id, "point along", part.grain, start, start + along)
        yield _into(part, f, "depth of a point", f.face, depth)


def _of_bevel(part: Part, f: Bevel) -> Iterator[Need]:
    yield Need(f.id, "angle", f.angle)


def _of_edge_bevel(part: Part, f: EdgeBevel) -> Iterator[Need]:
    """How far in, and either what is cut or what is left at the edge."""
    side, cut = f.edge
    yield _into(part, f, "margin", side, f.margin)
    if f.step:
        yield _into(part, f, "step", cut, f.step)
    wall, low, high = part.body.at(cut) - cut.sign * f.depth, *_ends(part.body, cut.axis)
    yield Need(f.id, "thickness at the edge", axis=cut.axis, spans=((low, wall), (wall, high)))


def _of_sawn(part: Part, f: Sawn) -> Iterator[Need]:
    """Square openings from wall to wall and their place; else each corner from a face of the board; radii; depth."""
    places = [corner.at for corner in f.corners if not any(each.arc for each in f.corners)]
    for index, axis in enumerate(f.face.axis.others):
        across = sorted({place[index] for place in places})
        if f.is_square:
            yield from _opening(part, f, axis, across[0], across[-1])
        else:
            for place in across:
                yield from _place(part, f, "place of a corner", axis, place)
    for radius in {r for corner in f.corners for r in (corner.radius, corner.arc) if r}:
        yield Need(f.id, "radius", radius)
    if f.depth is not None:
        yield _into(part, f, "depth", f.face, f.depth)


def _opening(part: Part, f: Feature, axis: Axis, low: float, high: float) -> Iterator[Need]:
    """Nothing to be said where it runs through."""
    whole = _ends(part.body, axis)
    if (abs(low - whole[0]) > TINY) or (abs(high - whole[1]) > TINY):
        yield _between(f.id, "size", axis, low, high)
        yield from _place(part, f, "place", axis, low, high)


_KINDS: dict[type[Feature], Callable[[Part, Any], Iterator[Need]]] = {
    Tenon: _of_tenon,
    Mortise: _of_mortise,
    AngledMortise: _of_angled_mortise,
    Groove: _of_groove,
    Rabbet: _of_rabbet,
    Edging: _of_edging,
    Hole: _of_hole,
    Tails: _of_comb,
    Sockets: _of_comb,
    Taper: _of_taper,
    Chamfer: _of_chamfer,
    RoundOver: _of_round_over,
    Arch: _of_arch,
    Curve: _of_curve,
    Bevel: _of_bevel,
    EdgeBevel: _of_edge_bevel,
    Sawn: _of_sawn,
    EndCut: _of_end_cut,
    CornerSlot: _of_corner_slot,
    Pocket: _of_pocket,
    Moulding: _of_moulding,
    Dished: _of_dished,
    Turned: _of_turned,
}
