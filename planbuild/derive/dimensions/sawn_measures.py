"""What fixes a flat outline: its walls from the faces of the board, or its corners as offsets from a baseline; radii; depth."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.core.outlines import pieces
from planbuild.derive.dimensions.measure import Datum, Measure, Points, Style, Weight, linear, told, told_distance
from planbuild.derive.dimensions.where import at, place_words
from planbuild.records.piece import Part
from planbuild.records.shaped import Sawn

Found = Iterator[Measure]

DRAWN = 12
"""Offsets of an outline that are drawn; where there are more they stand in the list beside the drawing (a choice of ours)."""


def of_sawn(part: Part, f: Sawn, datum: Datum) -> Found:
    """A corner cut to an arc by its radius; a square opening by its walls; anything else corner by corner."""
    if f.is_square:
        for index, axis in enumerate(f.face.axis.others):
            yield from _walls(part, f, axis, f.spans[index], datum)
    elif len(f.corners) == 3 and not f.keeps and not f.is_round_corner:
        for face in f.rim(part.body, f.corners[1].at):
            yield from _clipped(part, f, face)
    elif not f.is_round_corner:
        yield from _offsets(part, f)
    yield from _radii(part, f)
    if f.depth is not None:
        surface = part.body.at(f.face)
        ends = (surface, surface - f.face.sign * f.depth)
        middle = {axis: span.middle for axis, span in zip(f.face.axis.others, f.spans, strict=True)}
        points = ((f.face, at({**middle, f.face.axis: surface})),)
        yield told_distance(f.id, "depth", f.face.axis, ends, f.region(part.body), points, "{} deep")


def _seen(f: Sawn) -> tuple[Face, ...]:
    return (f.face, f.face.opposite) if f.depth is None else (f.face,)


def _walls(part: Part, f: Sawn, axis: Axis, span: Span1, datum: Datum) -> Found:
    """In from the face on which it opens; from wall to wall, and its place, if it stands inside the board."""
    whole, region = part.body.along(axis), f.region(part.body)
    open_at = [face for face in (axis.low, axis.high) if abs(part.body.at(face) - region.at(face)) <= TINY]
    word = "length" if axis is part.grain else "width"
    if len(open_at) == 2:
        return
    if open_at:
        face = open_at[0]
        ends = (part.body.at(face), region.at(face.opposite))
        yield linear(f.id, f"{word} {place_words(part, face)}", axis, ends, region, _seen(f))
        return
    face = datum[axis]
    start = whole.low if face.sign < 0 else whole.high
    near, far = (span.low, span.high) if face.sign < 0 else (span.high, span.low)
    yield linear(f.id, place_words(part, face), axis, (start, near), region, _seen(f))
    yield linear(f.id, word, axis, (near, far), region, _seen(f))


def _clipped(part: Part, f: Sawn, face: Face) -> Found:
    region = f.region(part.body)
    ends = (part.body.at(face), region.at(face.opposite))
    if abs(ends[1] - part.body.at(face.opposite)) > TINY:
        yield linear(f.id, f"clipped {place_words(part, face)}", face.axis, ends, region, _seen(f))


def _offsets(part: Part, f: Sawn) -> Found:
    """Each corner from the low ends of the board: the baselines that the design counts from."""
    axes = f.face.axis.others
    many = sum(len(f.stands_free(part.body, index)) for index in (0, 1)) > DRAWN
    for number, corner in enumerate(f.corners, start=1):
        for axis, place in zip(axes, corner.at, strict=True):
            start = part.body.along(axis).low
            if abs(place - start) > TINY and (many or abs(place - part.body.along(axis).high) > TINY):
                region = part.body
                for each, spot in zip(axes, corner.at, strict=True):
                    region = region.with_span(each, Span1(spot, spot))
                measure = linear(
                    f.id, f"point {number} {place_words(part, axis.low)}", axis, (start, place), region, _seen(f), Weight.DATUM
                )
                yield replace(measure, style=Style.NOTE) if many else measure


def _radii(part: Part, f: Sawn) -> Found:
    """Each radius once, with the number of corners that have it."""
    for rank, radius in enumerate(f.radii, start=1):
        same = [corner for corner in f.corners if radius in (corner.radius, corner.arc)]
        count = f", {len(same)} corners" if len(same) > 1 else ""
        word = "radius" if rank == 1 else f"radius {rank}"
        yield told(f.id, word, radius, _box(part, f), _on_arc(part, f, radius), f"R {{}}{count}", rank)


def _box(part: Part, f: Sawn) -> Box:
    return f.region(part.body)


def _on_arc(part: Part, f: Sawn, radius: float) -> Points:
    """The middle of the first arc of that radius, for each face from which it is seen."""
    arcs = [piece.through for piece in pieces(f.corners) if piece.through]
    order = [r for corner in f.corners for r in (corner.arc, corner.radius) if r]
    spot = dict(zip(f.face.axis.others, arcs[order.index(radius)], strict=True))
    return tuple((face, at({**spot, face.axis: part.body.at(face)})) for face in _seen(f))
