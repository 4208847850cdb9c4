"""What is round: parts turned between centres, and dishes hollowed into a face."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planbuild.core.geometry import TINY, Axis, Box, Span1
from planbuild.core.turnings import volume
from planbuild.records.shaped import Dished, Turned
from planbuild.shape import kernel
from planbuild.shape.kernel import OVERSHOOT, Fault, Outline, Shape
from planbuild.shape.workpiece import Cut, Workpiece


def cut_turned(turned: Turned, work: Workpiece) -> Iterator[Cut]:
    """All that stands out beyond the profile, from the first station to the last."""
    body, grain, span = work.body, work.part.grain, turned.span
    thin = min(body.size(axis) for axis in grain.others)
    if max(station.diameter for station in turned.stations) > thin + TINY:
        raise Fault("A diameter is larger than the part is thick.", "turn it from thicker stock")
    across = {axis: Span1(body.along(axis).low - OVERSHOOT, body.along(axis).high + OVERSHOOT) for axis in grain.others}
    slab = kernel.block(Box.of({**across, grain: _past(span, body.along(grain))}))
    tools = kernel.solids_of(kernel.cut(slab, [_round(turned, body, grain)]).Shape())
    region = body.with_span(grain, span)
    yield Cut(tools, region.volume - volume(turned.profile), [region])


def _past(span: Span1, whole: Span1) -> Span1:
    """On past the ends of the part, where it is turned up to them."""
    low = span.low - OVERSHOOT if span.low < whole.low + TINY else span.low
    return Span1(low, span.high + OVERSHOOT if span.high > whole.high - TINY else span.high)


def _round(turned: Turned, body: Box, grain: Axis) -> Shape:
    """The round part, on past its ends by a little so that no end of it lies on an end of the slab."""
    plane, run = grain.others[0], turned.profile
    centre = dict(zip(Axis, body.centre, strict=True))

    def flat(along: float, out: float) -> kernel.Flat:
        places = {grain: along, grain.others[1]: centre[grain.others[1]] + out}
        first, second = (places[axis] for axis in plane.others)
        return first, second

    span, past = turned.span, 2 * OVERSHOOT
    outline = Outline(plane, flat(span.low - past, 0.0)).to(flat(span.low - past, run[0].start[1]), flat(*run[0].start))
    for piece in run:
        if piece.through:
            outline.arc(flat(*piece.through), flat(*piece.end))
        else:
            outline.to(flat(*piece.end))
    outline.to(flat(span.high + past, run[-1].end[1]), flat(span.high + past, 0.0))
    return outline.revolved(centre[plane], body.centre, grain)


def cut_dished(dish: Dished, work: Workpiece) -> Iterator[Cut]:
    """Part of a ball whose middle stands above the face."""
    axis, surface = dish.face.axis, work.body.at(dish.face)
    if not 0 < dish.depth < min(work.body.size(axis), dish.diameter / 2 + TINY):
        raise Fault("A dish is at most half a ball, and leaves wood below it.", "make it shallower")
    middle = dict(zip(Axis, dish.centre, strict=True)) | {axis: surface + dish.face.sign * (dish.radius - dish.depth)}
    x, y, z = (middle[each] for each in Axis)
    half = dish.diameter / 2
    spans = {each: Span1(middle[each] - half, middle[each] + half) for each in axis.others}
    ends = sorted((surface, surface - dish.face.sign * dish.depth))
    taken = math.pi * dish.depth * (3 * half * half + dish.depth**2) / 6
    yield Cut([kernel.ball((x, y, z), dish.radius, dish.face)], taken, [Box.of({**spans, axis: Span1(*ends)})])
