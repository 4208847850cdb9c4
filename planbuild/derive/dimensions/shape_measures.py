"""What fixes a shape: taper, chamfer, round-over, arch, curve, bevel."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.derive.dimensions.measure import Datum, Measure, Points, Style, Weight, linear, told, told_distance
from planbuild.derive.dimensions.where import at, edge_words, place_words, third, with_plane
from planbuild.records.features import Arch, Bevel, Chamfer, Curve, Edge, EdgeBevel, RoundOver, Taper
from planbuild.records.piece import Part

Found = Iterator[Measure]


def of_taper(part: Part, f: Taper, datum: Datum) -> Found:
    """Where it starts, and what it leaves at the end."""
    face = datum[part.grain]
    start = part.body.at(face)
    starts_inside = min(abs(part.body.at(end) - f.start) for end in _both(part.grain)) > TINY
    if starts_inside:
        sides = tuple(side for axis in dict.fromkeys(each.axis for each in f.faces) for side in _sides(part, axis))
        region = part.body.with_span(part.grain, Span1(f.start, f.start))
        yield linear(f.id, f"start {place_words(part, face)}", part.grain, (start, f.start), region, sides, Weight.DATUM)
    for axis, left in f.leaving:
        yield from _left(part, f, axis, left)


def _left(part: Part, f: Taper, axis: Axis, left: float) -> Found:
    """The size at the end, from the straight face; where both faces slope, also how far in the first one comes."""
    where = f"at {f.end.value} end" + (f" {axis.words}" if len(f.leaving) > 1 else "")
    end = with_plane(part.body, f.end, part.body.at(f.end))
    tapered = [face for face in f.faces if face.axis is axis]
    cut = (part.body.size(axis) - left) / len(tapered)
    low = part.body.along(axis).low + (cut if axis.low in tapered else 0.0)
    yield linear(f.id, f"left {where}", axis, (low, low + left), end, _sides(part, axis))
    if len(tapered) == 2:
        edge = part.body.along(axis).low
        yield linear(f.id, f"in {where}", axis, (edge, low), end, _sides(part, axis), Weight.DATUM)


def _both(axis: Axis) -> tuple[Face, Face]:
    return axis.low, axis.high


def _sides(part: Part, axis: Axis) -> tuple[Face, Face]:
    """The faces from which a slope along the grain, off a face of that axis, is seen edge on."""
    return _both(third(axis, part.grain))


def of_chamfer(part: Part, f: Chamfer, datum: Datum) -> Found:
    points = corners_of(part, f.edges, f.size / 2)
    yield told(f.id, "size", f.size, part.body, points, "{} × 45° " + edge_words(f.edges, f.group))
    yield from reach_of(part, f.id, f.edges, f.reach, datum)


def of_round_over(part: Part, f: RoundOver, datum: Datum) -> Found:
    points = corners_of(part, f.edges, f.radius * (1 - math.sqrt(0.5)))
    yield told(f.id, "radius", f.radius, part.body, points, "R {} " + edge_words(f.edges, f.group))
    yield from reach_of(part, f.id, f.edges, f.reach, datum)


def corners_of(part: Part, edges: tuple[Edge, ...], inward: float) -> Points:
    """Where the profile of an edge shows, for each face from which it does; `inward` of the corner on both faces."""
    found = []
    for one, other in edges:
        for face in _both(third(one.axis, other.axis)):
            corner = {each.axis: part.body.at(each) - each.sign * inward for each in (one, other)}
            found.append((face, at({**corner, face.axis: part.body.at(face)})))
    return tuple(found)


def reach_of(part: Part, id: str, edges: tuple[Edge, ...], reach: tuple[float, float] | None, datum: Datum) -> Found:
    """A stopped edge: where it begins and ends along the board, from the datum."""
    if reach is None:
        return
    (axis,) = {third(one.axis, other.axis) for one, other in edges}
    face, faces = datum[axis], tuple(dict.fromkeys(face for edge in edges for face in edge))
    start = part.body.at(face)
    for end, word in zip(reach, ("begins", "ends"), strict=True):
        if abs(end - start) > TINY:
            region = part.body.with_span(axis, Span1(end, end))
            yield linear(id, f"{word} {place_words(part, face)}", axis, (start, end), region, faces, Weight.DATUM)


def of_arch(part: Part, f: Arch, datum: Datum) -> Found:
    """Springing points from both shoulders, so that neither hand needs the length; the rise; the radius to check with."""
    view = third(part.grain, f.face.axis)
    surface = part.body.at(f.face)
    region = with_plane(part.body, f.face, surface)
    for end, spot in ((part.grain.low, f.start), (part.grain.high, f.stop)):
        edge = part.body.at(end)
        if abs(edge - spot) > TINY:
            here = with_plane(region, end, spot)
            yield linear(f.id, f"start {place_words(part, end)}", part.grain, (edge, spot), here, _both(view), Weight.DATUM)
    yield from _rise(part, f, region, view)


def _rise(part: Part, f: Arch, region: Box, view: Axis) -> Found:
    surface, inner = part.body.at(f.face), part.body.at(f.face) - f.face.sign * f.rise
    middle = {part.grain: (f.start + f.stop) / 2, f.face.axis: surface if f.crown else inner}
    points = tuple((face, at({**middle, view: part.body.at(face)})) for face in _both(view))
    say = f"{'crown' if f.crown else 'arch'}: rise {{}} at the middle"
    yield told_distance(f.id, "rise", f.face.axis, (surface, inner), region, points, say)
    yield told(f.id, "radius", f.radius, region, points, "R {}", rank=1, weight=Weight.REFERENCE)


def of_curve(part: Part, f: Curve, datum: Datum) -> Found:
    """Each point by its distance from the low end and its depth from the face: a list beside the drawing.

    The curve itself is seen side on.
    """
    sides = _both(third(part.grain, f.face.axis))
    start, surface = part.body.along(part.grain).low, part.body.at(f.face)
    for number, (along, depth) in enumerate(f.points, start=1):
        here, inner = start + along, surface - f.face.sign * depth
        region = with_plane(with_plane(part.body, part.grain.low, here), f.face, inner)
        if along > TINY:
            yield _noted(linear(f.id, f"point {number} along", part.grain, (start, here), region, sides, Weight.DATUM))
        if depth > TINY:
            yield _noted(linear(f.id, f"point {number} deep", f.face.axis, (surface, inner), region, sides, Weight.DATUM))


def _noted(measure: Measure) -> Measure:
    return replace(measure, style=Style.NOTE)


def of_bevel(part: Part, f: Bevel, datum: Datum) -> Found:
    view = third(f.face.axis, f.keeps.axis)
    points = tuple((face, at({each.axis: part.body.at(each) for each in (f.face, f.keeps, face)})) for face in _both(view))
    yield told(f.id, "angle", f.angle, part.body, points, f"{{}} bevel from the {f.keeps.value} edge", unit="deg")


def of_edge_bevel(part: Part, f: EdgeBevel, datum: Datum) -> Found:
    """How far in it begins, and the thickness that it leaves at the edge: both seen from the ends of the edge."""
    side, cut = f.edge
    view = third(side.axis, cut.axis)
    edge, inner = part.body.at(side), part.body.at(side) - side.sign * f.margin
    region = part.body.with_span(side.axis, Span1(*sorted((edge, inner))))
    yield linear(f.id, f"margin from the {side.value} edge", side.axis, (edge, inner), region, (cut, *_both(view)))
    if f.step:
        step = (part.body.at(cut), part.body.at(cut) - cut.sign * f.step)
        yield linear(f.id, f"step at the {side.value} edge", cut.axis, step, with_plane(part.body, side, inner), _both(view))
    left = (part.body.at(cut.opposite), part.body.at(cut) - cut.sign * f.depth)
    yield linear(f.id, f"thickness at the {side.value} edge", cut.axis, left, with_plane(part.body, side, edge), _both(view))
