"""The volume of a part reckoned from the numbers of its features alone, by plane and solid geometry.

Written without looking at how `shape` cuts: square voids are counted in cells between all their walls, round and sloped
ones by formula, each as far as it goes through wood.  What it does not know it names.  Units: mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise, product

import pytest

from planbuild.core.geometry import Axis, Box, Span1
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.features import Bevel, EdgeBevel, Feature, Groove, Hole, Mortise, Rabbet, Taper, Tenon
from planbuild.records.piece import Part
from planbuild.records.pockets import Pocket
from planbuild.records.shaped import Sawn, Turned
from planbuild.records.slanted import EndCut
from planbuild.records.tails import Comb, Sockets, Tails

SQUARE = (Mortise, Groove, Rabbet)
KNOWN = (*SQUARE, Tenon, Hole, Tails, Sockets, Bevel, EdgeBevel, Taper, Turned, Sawn, EndCut, CornerSlot, Pocket)


def volume_of(part: Part) -> float:
    """Body and tenons, less every void."""
    strange = [each.kind for each in part.features if not isinstance(each, KNOWN)]
    assert not strange, f"cut_again does not know these features yet, add them: {strange}"
    wood = [part.body, *(each.block for each in part.features if isinstance(each, Tenon))]
    cells = _cells(wood, list(_square_voids(part)))
    return sum(cell.volume for cell in cells) - sum(_sloped(each, part, cells) for each in part.features)


def _square_voids(part: Part) -> Iterable[Box]:
    for each in part.features:
        if isinstance(each, SQUARE) and not (isinstance(each, Mortise) and (each.round or each.rises)):
            yield each.void
        if isinstance(each, Sawn) and each.is_square:
            yield each.region(part.body)


def _cells(wood: Sequence[Box], voids: Sequence[Box]) -> list[Box]:
    """Small blocks that are wood, cut at every wall of any block."""
    spans = []
    for axis in Axis:
        places = sorted({round(end, 9) for each in (*wood, *voids) for end in (each.along(axis).low, each.along(axis).high)})
        spans.append([(a, b) for a, b in pairwise(places) if b - a > 1e-9])
    found = []
    for x, y, z in product(*spans):
        middle = [sum(pair) / 2 for pair in (x, y, z)]
        if any(_holds(each, middle) for each in wood) and not any(_holds(each, middle) for each in voids):
            found.append(_box(x, y, z))
    return found


def _box(*spans: tuple[float, float]) -> Box:
    return Box.of({axis: Span1(*span) for axis, span in zip(Axis, spans, strict=True)})


def _holds(box: Box, point: Sequence[float]) -> bool:
    return all(box.along(axis).low < point[axis.value] < box.along(axis).high for axis in Axis)


# ---------------------------------------------------------------- what is not square


def _sloped(feature: Feature, part: Part, cells: Sequence[Box]) -> float:
    """What a feature takes that is no block."""
    if isinstance(feature, Hole):
        return _hole(feature, part, cells)
    if isinstance(feature, Tails):
        return feature.comb.block.volume - _tails(feature.comb)
    if isinstance(feature, Sockets):
        return _tails(feature.comb)
    if isinstance(feature, Bevel):
        thick = part.body.size(feature.keeps.axis)
        (run,) = (axis for axis in Axis if axis not in (feature.face.axis, feature.keeps.axis))
        return thick * thick * math.tan(math.radians(feature.angle)) / 2 * part.body.size(run)
    if isinstance(feature, Turned):
        return part.body.volume - _round_bar(feature, part.body)
    if isinstance(feature, EdgeBevel):
        (run,) = (axis for axis in Axis if axis not in (feature.edge[0].axis, feature.edge[1].axis))
        return (feature.step + feature.depth) / 2 * feature.margin * part.body.size(run)
    if isinstance(feature, Taper):
        return _tapered(feature, part.body)
    if isinstance(feature, Mortise):
        return _beside_square(feature, part.body)
    if isinstance(feature, Sawn) and not feature.is_square:
        deep = feature.depth or part.body.size(feature.face.axis)
        return part.body.volume - _outlined(feature) * deep if feature.keeps else _outlined(feature) * deep
    if isinstance(feature, EndCut):
        off = abs(part.body.at(feature.end) - feature.at)
        return off * part.body.volume / part.body.size(part.grain)
    if isinstance(feature, Pocket):
        wide = feature.deep / math.sin(math.radians(feature.angle)) - feature.shoulder
        return math.pi / 4 * (feature.width**2 * wide + feature.diameter**2 * feature.shoulder)
    if isinstance(feature, CornerSlot):
        steep = part.body.size(feature.side.axis) / feature.reach
        flat = _under(feature.stop, steep, feature.deep) - _under(feature.start, steep, feature.deep)
        return flat * feature.across.size
    if isinstance(feature, Tenon):
        return _worked(feature)
    return 0.0


def _round_bar(turned: Turned, body: Box) -> float:
    """As thick from end to end, as pegs are."""
    (thick,) = {round(each.diameter, 9) for each in turned.stations}
    wide, *_, long = sorted(body.size(axis) for axis in Axis)
    assert thick == pytest.approx(wide) and turned.span.size == pytest.approx(long), "no formula yet for parts that stay square"
    return math.pi * thick**2 / 4 * long


def _tapered(taper: Taper, body: Box) -> float:
    """A wedge off one face, or half of it off each of two."""
    assert len(taper.leaving) == 1, "no formula yet for tapers on all faces"
    ((axis, left),) = taper.leaving
    run, (third,) = abs(body.at(taper.end) - taper.start), (each for each in Axis if each not in (axis, taper.end.axis))
    return (body.size(axis) - left) * run / 2 * body.size(third)


def _beside_square(mortise: Mortise, body: Box) -> float:
    """A bored hole, a floor that slopes up to nothing, or what opens beside a square mortise toward its far face."""
    if mortise.round or mortise.rises:
        return mortise.void.volume * (math.pi / 4 if mortise.round else 0.5)
    if not mortise.flare or mortise.flare_axis is None:
        return 0.0
    far, near = body.at(mortise.face.opposite), body.at(mortise.face)
    run = abs(far - (near if mortise.flare_from is None else mortise.flare_from))
    (third,) = (each for each in Axis if each not in (mortise.flare_axis, mortise.face.axis))
    return mortise.flare * run * mortise.void.size(third)


def _worked(tenon: Tenon) -> float:
    """What is taken from the block of a tenon, less the haunch that stands beside it."""
    block, taken = tenon.block, _chamfered(tenon)
    if tenon.round:
        assert not tenon.tip_chamfer, "no formula yet for round tips with a chamfer"
        taken += block.volume * (1 - math.pi / 4)
    if tenon.mitre:
        thick, (wide,) = tenon.mitre.short.axis, (a for a in Axis if a not in (tenon.mitre.short.axis, tenon.end.axis))
        taken += block.size(thick) ** 2 / 2 * block.size(wide)
    for kerf in tenon.wedging.kerfs if tenon.wedging else ():
        (third,) = (axis for axis in Axis if axis not in (kerf.across, tenon.end.axis))
        taken += kerf.width * (kerf.depth * block.size(third) - tenon.tip_chamfer**2)
    if tenon.keyway:
        way, deep = tenon.keyway, block.size(tenon.keyway.face.axis)
        taken += way.width * deep * (way.length - way.slope * deep / 2)
    for peg in tenon.pegs:
        taken += math.pi * peg.diameter**2 / 4 * block.size(peg.face.axis)
    if tenon.haunch:
        taken -= tenon.haunch.box.volume / (2 if tenon.haunch.sloped else 1)
    return taken


def _outlined(sawn: Sawn) -> float:
    """Area within straight lines, by the shoelace formula."""
    assert not any(each.radius or each.arc for each in sawn.corners), "no formula yet for outlines with arcs"
    points = [each.at for each in sawn.corners]
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*points, points[0]]))) / 2


def _under(far: float, steep: float, deep: float | None) -> float:
    """Area between a mitre and the outer face, no more than `deep` from the mitre, as far from the corner as `far`."""
    level = far if deep is None else min(far, deep / steep)
    return steep * level**2 / 2 + (deep or 0.0) * (far - level)


def _tails(comb: Comb) -> float:
    """As wide as they are at half their length, each."""
    wide = sum(tail.size - comb.depth * comb.slope for tail in comb.tails)
    narrowing = comb.slim.by / 2 if comb.slim else 0.0
    return (wide - narrowing) * comb.depth * comb.block.size(comb.run)


def _chamfered(tenon: Tenon) -> float:
    """What a chamfer takes all round the tip (prismoidal formula)."""
    wide, high = (tenon.block.size(axis) for axis in tenon.end.axis.others)
    size = tenon.tip_chamfer
    first, middle, last = ((wide - 2 * size * share) * (high - 2 * size * share) for share in (0, 0.5, 1))
    return first * size - size / 6 * (first + 4 * middle + last)


def _hole(hole: Hole, part: Part, cells: Sequence[Box]) -> float:
    """Bore, and what counterbore and countersink take beside it; no deeper than there is wood on its centre line."""
    inward = -hole.face.sign
    start = hole.centre[hole.face.axis.value]
    end = part.body.at(hole.face.opposite) if hole.depth is None else start + inward * hole.depth
    narrow = _flat(hole, hole.diameter) - _beside(hole, hole.diameter, part.body)
    taken = narrow * _wood(hole, start, end, cells)
    if hole.counterbore:
        wide, deep = hole.counterbore
        wider = _flat(hole, wide) - _beside(hole, wide, part.body) - narrow
        taken += wider * _wood(hole, start, start + inward * deep, cells)
    if hole.countersink:
        taken += _cone(hole)
    return taken


def _flat(hole: Hole, diameter: float) -> float:
    """Area of a bore, drawn out to its slot."""
    return math.pi * diameter**2 / 4 + diameter * hole.travel


def _beside(hole: Hole, diameter: float, body: Box) -> float:
    """What of a bore lies beside the part, where it opens at its side: segments of a circle."""
    radius, found = diameter / 2, 0.0
    for face in (each for axis in hole.face.axis.others for each in (axis.low, axis.high)):
        away = abs(body.at(face) - hole.centre[face.axis.value])
        if away < radius:
            assert hole.slot is None, "no formula yet for slots open at a side"
            found += radius**2 * math.acos(away / radius) - away * math.sqrt(radius**2 - away**2)
    return found


def _cone(hole: Hole) -> float:
    """Simpson's rule, exact for a cone and for a wedge."""
    assert hole.countersink
    wide, deep = hole.countersink[0], hole.countersink_depth
    areas = [_flat(hole, size) - _flat(hole, hole.diameter) for size in (wide, (wide + hole.diameter) / 2, hole.diameter)]
    return deep / 6 * (areas[0] + 4 * areas[1] + areas[2])


def _wood(hole: Hole, start: float, end: float, cells: Sequence[Box]) -> float:
    """How much of a stretch of the centre line runs through wood."""
    low, high = sorted((start, end))
    axis, point = hole.face.axis, list(hole.centre)
    found = 0.0
    for cell in cells:
        span = cell.along(axis)
        point[axis.value] = span.middle
        if _holds(cell, [each + 1e-7 for each in point]):
            found += max(0.0, min(high, span.high) - max(low, span.low))
    return found
