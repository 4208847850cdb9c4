"""What fixes mouldings along edges, dishes and turnings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.core.turnings import radius_of
from planbuild.derive.dimensions.measure import Datum, Measure, Style, Weight, linear, told, told_distance
from planbuild.derive.dimensions.shape_measures import corners_of, reach_of
from planbuild.derive.dimensions.where import at, edge_words, place_words, with_plane
from planbuild.records.piece import Part
from planbuild.records.shaped import Dished, Moulding, Station, Turned

Found = Iterator[Measure]

DRAWN = 8
"""Stations of a turning that are drawn; where there are more they stand in the list beside the drawing (a choice of ours)."""


def of_moulding(part: Part, f: Moulding, datum: Datum) -> Found:
    points = corners_of(part, f.edges, f.size / 3)
    where = edge_words(f.edges, f.group)
    if f.form == "cove":
        yield told(f.id, "radius", f.size, part.body, points, "cove R {} " + where)
    else:
        yield told(f.id, "width of the bead", f.size, part.body, points, "bead {} wide " + where)
        yield told(f.id, "width of the quirk", f.quirk, part.body, points, "quirk {} wide", rank=1)
    yield from reach_of(part, f.id, f.edges, f.reach, datum)


def of_dished(part: Part, f: Dished, datum: Datum) -> Found:
    """Its middle from two datums, its width, its depth there; the radius of the template to check with."""
    half = f.diameter / 2
    region = Box.of({axis: Span1(f.centre[axis.value] - half, f.centre[axis.value] + half) for axis in Axis})
    for axis in f.face.axis.others:
        ends = (part.body.at(datum[axis]), f.centre[axis.value])
        yield linear(f.id, f"middle {place_words(part, datum[axis])}", axis, ends, region, (f.face,))
    points = ((f.face, f.centre),)
    yield told(f.id, "width", f.diameter, region, points, "dish ⌀ {}")
    surface = part.body.at(f.face)
    yield told_distance(
        f.id, "depth", f.face.axis, (surface, surface - f.face.sign * f.depth), region, points, "{} deep at its middle", rank=1
    )
    yield told(f.id, "radius", f.radius, region, points, "R {}", rank=2, weight=Weight.REFERENCE)


def of_turned(part: Part, f: Turned, datum: Datum) -> Found:
    """Each station from the datum end, with its diameter and the curve that leads there."""
    many = len(f.stations) > DRAWN
    for number, station in enumerate(f.stations, start=1):
        before = f.stations[number - 2] if number > 1 else None
        for measure in _station(part, f, number, station, before, datum):
            yield replace(measure, style=Style.NOTE) if many else measure


def _station(part: Part, f: Turned, number: int, here: Station, before: Station | None, datum: Datum) -> Found:
    grain, face = part.grain, datum[part.grain]
    sides = tuple(side for side in Face if side.axis is not grain)
    region, start = with_plane(part.body, face, here.at), part.body.at(face)
    if abs(here.at - start) > TINY:
        yield linear(f.id, f"station {number} {place_words(part, face)}", grain, (start, here.at), region, sides, Weight.DATUM)
    points = tuple((side, _on_rim(part, here, side)) for side in sides)
    yield told(f.id, f"station {number} across", here.diameter, region, points, "⌀ {}")
    ends = ((before.at, before.diameter / 2), (here.at, here.diameter / 2)) if before else None
    radius = radius_of(*ends, here.way) if ends else None
    if radius is not None:
        yield told(f.id, f"station {number} {here.way}", radius, region, points, f"{here.way} R {{}}", rank=1)


def _on_rim(part: Part, here: Station, side: Face) -> tuple[float, float, float]:
    """A point of the outline as it shows to someone who looks at a side."""
    (across,) = (axis for axis in Axis if axis not in (part.grain, side.axis))
    places = dict(zip(Axis, part.body.centre, strict=True))
    out = places[across] + here.diameter / 2
    return at({**places, part.grain: here.at, across: out, side.axis: part.body.at(side)})


