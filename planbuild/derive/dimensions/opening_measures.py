"""What fixes an opening: mortise, groove, rabbet, hole."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.derive.dimensions.even_rows import Row, even_row
from planbuild.derive.dimensions.measure import Datum, Measure, Points, linear, told, told_distance
from planbuild.derive.dimensions.where import far_wall, near_wall, place_words, third, with_plane
from planbuild.joints.screws import screw_words
from planbuild.records.features import Feature, Groove, Hole, Mortise, Rabbet
from planbuild.records.piece import Part

Found = Iterator[Measure]


def of_mortise(part: Part, f: Mortise, datum: Datum) -> Found:
    """Place and size of the mouth, depth, and how it opens for wedges: then its far mouth is wider than its tenon."""
    if f.round:
        yield from of_hole(part, f.hole, datum)
        if f.flare and f.flare_axis:
            yield from _flare(part, f, f.flare_axis)
        return
    seen = (f.face, f.face.opposite) if f.through and not f.flare else (f.face,)
    longer = max(f.face.axis.others, key=lambda axis: (round(f.void.size(axis), 2), axis is part.grain))
    for axis in f.face.axis.others:
        yield from _mouth(part, f, axis, "length" if axis is longer else "width", datum, seen)
    if not f.through:
        ends = (part.body.at(f.face), f.void.at(f.face.opposite))
        yield linear(f.id, "depth", f.face.axis, ends, f.void, _who_sees_depth(part, f.face, datum), inside=True)
    if f.flare and f.flare_axis:
        yield from _flare(part, f, f.flare_axis)


def _who_sees_depth(part: Part, face: Face, datum: Datum) -> tuple[Face, ...]:
    """The viewer of a cut across the grain, or along it for what goes into an end."""
    if face.axis is part.grain:
        return part.thickness_axis.low, part.thickness_axis.high
    return datum[part.grain], datum[part.grain].opposite


def _mouth(part: Part, f: Mortise | Groove, axis: Axis, word: str, datum: Datum, seen: tuple[Face, ...]) -> Found:
    """From the datum to the nearer wall, then from wall to wall."""
    yield from _place(part, f, f.void, axis, datum, seen)
    yield linear(f.id, word, axis, (near_wall(f.void, datum[axis]), far_wall(f.void, datum[axis])), f.void, seen)


def _place(part: Part, f: Feature, void: Box, axis: Axis, datum: Datum, seen: tuple[Face, ...]) -> Found:
    face = datum[axis]
    ends = (part.body.at(face), near_wall(void, face))
    if abs(ends[0] - ends[1]) > TINY:
        yield linear(f.id, place_words(part, face), axis, ends, void, seen)


def _flare(part: Part, f: Mortise, axis: Axis) -> Found:
    """How far a wedged mortise opens at its far face, and from how deep."""
    view, far = third(axis, f.face.axis), f.face.opposite
    seen = (view.low, view.high)
    mouth = with_plane(f.void, far, part.body.at(far))
    for face in (axis.low, axis.high):
        wall = f.void.at(face)
        yield linear(f.id, f"flare at the {face.value}", axis, (wall, wall + face.sign * f.flare), mouth, seen, inside=True)
    if f.flare_from is not None:
        yield linear(f.id, "flare begins", far.axis, (part.body.at(far), f.flare_from), f.void, seen, inside=True)


def of_groove(part: Part, f: Groove, datum: Datum) -> Found:
    """A channel that runs the whole length shows at the ends; a stopped one has ends of its own."""
    run = f.run(part.body, part.grain)
    across = third(run, f.face.axis)
    stopped = f.void.size(run) < part.body.size(run) - TINY
    seen = (f.face,) if stopped else (run.low, run.high, f.face)
    yield from _mouth(part, f, across, "width", datum, seen)
    ends = (part.body.at(f.face), f.void.at(f.face.opposite))
    yield linear(f.id, "depth", f.face.axis, ends, f.void, (run.low, run.high), inside=stopped)
    if stopped:
        yield from _mouth(part, f, run, "length", datum, (f.face,))


def of_rabbet(part: Part, f: Rabbet, datum: Datum) -> Found:
    """A step by its two sizes; one that leaves a tongue for a joint by what is left of the thickness."""
    view = third(f.edge[0].axis, f.edge[1].axis)
    seen = (view.low, view.high)
    tongue = f.joint and part.thickness_axis is not view
    for face in f.edge:
        wall = f.void.at(face.opposite)
        if tongue and face.axis is part.thickness_axis:
            yield linear(f.id, "tongue thickness", face.axis, (part.body.at(face.opposite), wall), f.void, seen)
        else:
            word = "tongue length" if tongue else f"in from {face.value} face"
            yield linear(f.id, word, face.axis, (part.body.at(face), wall), f.void, seen)
    yield from _run(part, f, view, f.edge, datum)


def _run(part: Part, f: Rabbet, axis: Axis, seen: tuple[Face, ...], datum: Datum) -> Found:
    """From where to where a stopped step goes; one that runs from end to end needs no word."""
    if f.void.size(axis) < part.body.size(axis) - TINY:
        yield from _place(part, f, f.void, axis, datum, seen)
        walls = (near_wall(f.void, datum[axis]), far_wall(f.void, datum[axis]))
        yield linear(f.id, "length", axis, walls, f.void, seen)


def of_hole(part: Part, f: Hole, datum: Datum) -> Found:
    """Centre from two datums, diameter, depth, counterbore."""
    region = f.reach(f.diameter).with_span(f.face.axis, _near(f.centre[f.face.axis.value], f.diameter / 2))
    seen = (f.face, f.face.opposite) if f.depth is None else (f.face,)
    for axis in f.face.axis.others:
        row = even_row(part, f, axis, datum)
        if row and row.before(f):
            yield _step(f, row)
            continue
        ends = (part.body.at(datum[axis]), f.centre[axis.value])
        yield linear(f.id, f"centre {place_words(part, datum[axis])}", axis, ends, region, seen)
    yield from _bore(part, f, region, tuple((face, f.centre) for face in seen))


def _step(f: Hole, row: Row) -> Measure:
    """From the hole before it, told beside the first hole of the row."""
    first, number = row.holes[0], row.holes.index(f)
    ends = (row.holes[number - 1].centre[row.axis.value], f.centre[row.axis.value])
    points = ((f.face, first.centre),)
    say = f"{len(row.holes)} in a row, {{}} apart"
    told = told_distance(first.id, f"step {number} of the row", row.axis, ends, first.reach(f.diameter), points, say, rank=4)
    return replace(told, step=True)


def _near(place: float, half: float) -> Span1:
    return Span1(place - half, place + half)


def _bore(part: Part, f: Hole, region: Box, points: Points) -> Found:
    through = " through" if f.depth is None else ""
    screw = f", for a {screw_words(f.gauge)} screw" if f.gauge else ""
    if f.slot:
        half = f.slot.length / 2
        middle = f.centre[f.slot.along.value]
        yield told(f.id, "slot diameter", f.diameter, region, points, f"slot {{}} wide{through}{screw}")
        ends = (middle - half, middle + half)
        yield told_distance(f.id, "length of the slot", f.slot.along, ends, region, points, "{} long", rank=1)
    else:
        yield told(f.id, "diameter", f.diameter, region, points, f"⌀ {{}}{through}{screw}")
    surface = f.centre[f.face.axis.value]  # the floor of a rabbet, where it is drilled in one
    if f.depth is not None:
        ends = (surface, surface - f.face.sign * f.depth)
        yield told_distance(f.id, "depth", f.face.axis, ends, region, points, "{} deep", rank=1)
    if f.counterbore:
        wide, deep = f.counterbore
        yield told(f.id, "counterbore diameter", wide, region, points, "counterbore ⌀ {}", rank=2)
        ends = (surface, surface - f.face.sign * deep)
        yield told_distance(f.id, "counterbore depth", f.face.axis, ends, region, points, "{} deep", rank=3)
    if f.countersink:
        wide, angle = f.countersink
        yield told(f.id, "countersink", wide, region, points, f"countersink ⌀ {{}} × {angle:g}°", rank=2)
