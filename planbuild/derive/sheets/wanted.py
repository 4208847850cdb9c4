"""From numbers of a part to dimensions and leaders on the paper of one view."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import shapely

from planbuild.core.geometry import TINY, Box
from planbuild.derive.dimensions.layout import Side, Wanted
from planbuild.derive.dimensions.measure import Measure, Style
from planbuild.derive.sheets.lie import Lie
from planbuild.derive.sheets.pane import Pane
from planbuild.derive.sheets.plan import Kind
from planbuild.records.drawing import Point
from planbuild.records.legibility import PaperBox, box_of
from planbuild.records.piece import Part

_ACROSS = (Side.ABOVE, Side.BELOW)
_DOWN = (Side.LEFT, Side.RIGHT)
_CENTRAL = 0.12
_NEAR = 0.3
"""A leader's point may miss the outline by so much (paper mm)."""


def wanted_of(part: Part, lie: Lie, pane: Pane, texts: Mapping[str, str], outer: Side) -> tuple[Wanted, ...]:
    """The dimensions of a view; on a long view lengths stand on its `outer` side."""
    found = [each for each in pane.seen.plan.measures if each.style is Style.LINE]
    return tuple(_wanted(part, lie, pane, each, texts[each.id], outer) for each in found)


def _wanted(part: Part, lie: Lie, pane: Pane, measure: Measure, text: str, outer: Side) -> Wanted:
    assert measure.axis is not None
    region = box_on_paper(pane, measure.region)
    camera = pane.seen.plan.camera
    index = 0 if abs(camera.right[measure.axis.value]) > 0.5 else 1
    places = [_place(pane, measure, end, index) for end in measure.ends]
    reach = [_reach(pane, measure, end, place, region, index) for end, place in zip(measure.ends, places, strict=True)]
    order = (0, 1) if places[0] < places[1] else (1, 0)
    is_place = measure.feature != "body" and abs(measure.ends[0] - part.body.at(lie.datum[measure.axis])) <= TINY
    return Wanted(
        measure.id,
        text,
        (places[order[0]], places[order[1]]),
        (reach[order[0]], reach[order[1]]),
        _sides(pane, measure, region, index, outer, " × " in text),
        order.index(0) if is_place else None,
    )


def _place(pane: Pane, measure: Measure, end: float, index: int) -> float:
    """Where a plane lies along the dimension on paper."""
    assert measure.axis is not None
    spot = [0.0, 0.0, 0.0]
    spot[measure.axis.value] = end
    return pane.spot((spot[0], spot[1], spot[2]))[index]


def box_on_paper(pane: Pane, region: Box) -> PaperBox:
    """A box of the piece as the view shows it."""
    low, high = ((region.x.low, region.y.low, region.z.low), (region.x.high, region.y.high, region.z.high))
    return box_of([pane.spot(low), pane.spot(high)])


def _reach(pane: Pane, measure: Measure, end: float, place: float, region: PaperBox, index: int) -> tuple[float, float]:
    """What the extension line of a plane starts from: the feature, or the outline where the plane is the board's."""
    assert measure.axis is not None
    span = measure.region.along(measure.axis)
    own = measure.feature != "body" and min(abs(span.low - end), abs(span.high - end)) <= TINY
    if own or (measure.feature != "body" and span.low - TINY < end < span.high + TINY):
        return (region[1], region[3]) if index == 0 else (region[0], region[2])
    return pane.reach(place, index == 0)


def _sides(pane: Pane, measure: Measure, region: PaperBox, index: int, outer: Side, row: bool) -> tuple[Side, ...]:
    """The nearer side first, below and left for what lies near the middle; lengths on the outer side of a long view.

    The size of a whole `row` may stand on the other side, clear of the places of its neighbours.
    """
    low, high = _ACROSS if index == 0 else _DOWN
    if pane.seen.plan.kind is Kind.LONG and index == 0:
        return (outer, high if outer is low else low) if row else (outer,)
    home, away = (high, low) if index == 0 else (low, high)
    box = pane.box
    middle, here = (box[1 - index] + box[3 - index]) / 2, (region[1 - index] + region[3 - index]) / 2
    if measure.feature == "body" or abs(here - middle) < _CENTRAL * (box[3 - index] - box[1 - index]):
        return (home, away)
    return (low, high) if here < middle else (high, low)


def notes_of(pane: Pane, texts: Mapping[str, str], outer: Side) -> list[tuple[list[tuple[str, str]], Point]]:
    """The leaders of a view: their lines of words (with ids), and what each points at.

    Numbers of one feature that point at the same spot are lines of one note.
    """
    groups: dict[tuple[str, Point], list[Measure]] = {}
    for each in pane.seen.plan.measures:
        if each.style is Style.LEADER:
            groups.setdefault((each.feature, _tip(pane, each, outer)), []).append(each)
    return [(_lines(found, texts), tip) for (_, tip), found in groups.items()]


def _lines(measures: Sequence[Measure], texts: Mapping[str, str]) -> list[tuple[str, str]]:
    return [(texts[each.id], each.id) for each in sorted(measures, key=lambda each: each.rank)]


def _tip(pane: Pane, measure: Measure, outer: Side) -> Point:
    """The first of its points that lies on the wood this view shows, the rightmost on the side without dimensions."""
    spots = [pane.spot(point) for face, point in measure.points if face is pane.seen.plan.face]
    wood = pane.outline.buffer(_NEAR)
    real = [spot for spot in spots if shapely.covers(wood, shapely.Point(spot))]
    down = -1.0 if outer is Side.ABOVE else 1.0
    return min(real or spots, key=lambda p: (round(down * p[1] - p[0], 3), p))
