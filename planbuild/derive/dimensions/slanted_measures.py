"""What fixes a cut that is not square to its part: a slanted end, a mortise that stands askew."""

from __future__ import annotations

from collections.abc import Iterator

from planbuild.core.geometry import TINY, Axis, Vec
from planbuild.core.poses import around
from planbuild.derive.dimensions.measure import Datum, Measure, Points, Weight, linear, told
from planbuild.derive.dimensions.where import at, place_words, third, with_plane
from planbuild.records.features import Tenon
from planbuild.records.piece import Part
from planbuild.records.slanted import NO_ANGLE, AngledMortise, EndCut

SQUARE = 0.01
"""Degrees; a slope below this is none."""


def of_angled_mortise(part: Part, f: AngledMortise, datum: Datum) -> Iterator[Measure]:
    """The middle of the mouth from two datums; then size, depth and angles in words, as they are set at the bench."""
    seen = (f.face, f.face.opposite) if f.through and f.is_square_in else (f.face,)
    mouth = around(f.rim)
    for axis in f.face.axis.others:
        ends = (part.body.at(datum[axis]), f.mouth[axis.value])
        if abs(ends[0] - ends[1]) > TINY:
            yield linear(f.id, f"middle {place_words(part, datum[axis])}", axis, ends, mouth, seen)
    points = tuple((face, _between(f.rim[0], f.rim[1])) for face in seen)
    through = ", through" if f.through else ""
    if f.round:
        yield told(f.id, "diameter", f.breadth, mouth, points, f"⌀ {{}}{through}")
    else:
        yield told(f.id, "length", f.length, mouth, points, "{} long")
        yield told(f.id, "width", f.breadth, mouth, points, f"{{}} wide{through}", rank=1)
    if not f.through:
        yield told(f.id, "depth", f.depth, mouth, points, "{} deep", rank=2)
    yield from _angles(part, f, points)


def _between(a: Vec, b: Vec) -> Vec:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2


def _angles(part: Part, f: AngledMortise, points: Points) -> Iterator[Measure]:
    mouth, run = around(f.rim), part.grain if part.grain in f.face.axis.others else f.face.axis.others[0]
    if NO_ANGLE < f.off(run) < 90 - NO_ANGLE:
        words = "the grain" if run is part.grain else f"the {third(run, f.face.axis).low.value} end"
        yield told(f.id, "turned", f.off(run), mouth, points, f"{{}} to {words}", rank=3, unit="deg")
    for rank, axis in enumerate(f.face.axis.others, start=4):
        lean = f.lean(axis)
        if abs(lean) > SQUARE:
            toward = axis.high if lean > 0 else axis.low
            say = f"leans {{}} inward to the {toward.value}"
            yield told(f.id, f"lean {axis.words}", abs(lean), mouth, points, say, rank=rank, unit="deg")


def of_end_cut(part: Part, f: EndCut, datum: Datum) -> Iterator[Measure]:
    """The angle of the cut on each pair of faces on which it shows."""
    yield from _centre(part, f)
    corner = {axis: part.body.along(axis).middle for axis in Axis} | {f.end.axis: part.body.at(f.end)}
    for axis, angle in f.slopes:
        if abs(angle) > SQUARE:
            view = third(axis, f.end.axis)
            keeps = f.longer(axis)
            spot = corner | {axis: part.body.at(keeps)}
            points = tuple((face, at(spot | {view: part.body.at(face)})) for face in (view.low, view.high))
            say = f"{{}} off square, the {keeps.value} face longer"
            yield told(f.id, f"slope {axis.words}", abs(angle), part.body, points, say, unit="deg")


def _centre(part: Part, f: EndCut) -> Iterator[Measure]:
    """Where the shoulder crosses the centre line, from which a tenon on a slanted end is measured: in from the long corner."""
    if not any(isinstance(each, Tenon) and each.end is f.end for each in part.features):
        return
    sides = tuple(face for axis in f.end.axis.others for face in (axis.low, axis.high))
    region = with_plane(part.body, f.end, f.at)
    yield linear(f.id, "shoulder at the middle", f.end.axis, (part.body.at(f.end), f.at), region, sides, Weight.DATUM)
