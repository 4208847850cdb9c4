"""How tails and their sockets are cut: prisms along the way in which the tails go together.

Cutters reach past the wood wherever the comb lies on its surface, each flank going on in its own line.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from planbuild.core.geometry import Axis, Box, Face, Span1
from planbuild.records.tails import Comb, Sockets, Tails, Trapezium
from planbuild.shape import kernel
from planbuild.shape.kernel import NOTHING, OVERSHOOT, Flat, Shape
from planbuild.shape.workpiece import Cut, Workpiece


def cut_tails(tails: Tails, work: Workpiece) -> Iterator[Cut]:
    """The wood beside the tails."""
    cut, comb = _cut(tails.comb, tails.comb.gaps, work), tails.comb
    wedge = [_beside(comb, work.body)] if comb.slim else []
    yield replace(cut, tools=[*cut.tools, *wedge], volume=cut.volume + _wedge(comb))


def cut_sockets(sockets: Sockets, work: Workpiece) -> Iterator[Cut]:
    """The wood that the tails of the mate take up; of one that narrows, what its straight room and the same room drawn aside
    have in common."""
    cut, comb = _cut(sockets.comb, sockets.comb.sides, work), sockets.comb
    aside = [_drawn_aside(comb, shape, work.body) for shape in comb.sides] if comb.slim else []
    tools = [kernel.common(tool, aside) if aside else tool for tool in cut.tools]
    yield replace(cut, tools=tools, volume=cut.volume - _wedge(comb))


def _cut(comb: Comb, shapes: Sequence[Trapezium], work: Workpiece) -> Cut:
    area = sum((base[1] - base[0] + tip[1] - tip[0]) / 2 * comb.depth for base, tip in shapes)
    tools = [_tool(comb, each, work.body) for each in shapes]
    return Cut(tools, area * comb.block.size(comb.run), [comb.block])


def _wedge(comb: Comb) -> float:
    """What a tail loses by narrowing, mm3."""
    return comb.slim.by / 2 * comb.depth * comb.block.size(comb.run) if comb.slim else 0.0


def _tool(comb: Comb, shape: Trapezium, body: Box) -> Shape:
    (base_low, base_high), (tip_low, tip_high) = shape
    low, high = _flank(comb, base_low, tip_low, comb.spread.low, body), _flank(comb, base_high, tip_high, comb.spread.high, body)
    run = comb.block.along(comb.run)
    span = Span1(run.low - _over(comb, comb.run.low, body), run.high + _over(comb, comb.run.high, body))
    return kernel.polygon(comb.run, span, [_flat(comb, *point) for point in (*low, *high[::-1])])


def _beside(comb: Comb, body: Box) -> Shape:
    """The wedge that a narrowing tail loses besides; at the wide end it lies in what is cut away anyhow."""
    assert comb.slim
    (((base_low, base_high), (tip_low, tip_high)),) = comb.sides
    by = comb.slim.by
    low = (base_low - by, base_low), (tip_low - by, tip_low)
    high = (base_high, base_high + by), (tip_high, tip_high + by)
    return _drawn_aside(comb, low if comb.slim.side.sign < 0 else high, body)


def _drawn_aside(comb: Comb, shape: Trapezium, body: Box) -> Shape:
    """A prism that starts at the wide end as its outline says, and has come in by what the tail narrows at the other end."""
    assert comb.slim
    wide, run = comb.slim.wide, comb.block.size(comb.run)
    slant, start = -comb.slim.side.sign * comb.slim.by / run, _over(comb, wide, body)
    far = run + start + _over(comb, wide.opposite, body)
    (base_low, base_high), (tip_low, tip_high) = shape
    low, high = (_flank(comb, *ends, None, body) for ends in ((base_low, tip_low), (base_high, tip_high)))
    points = [_flat(comb, across - slant * start, along) for across, along in (*low, *high[::-1])]
    by = {comb.run: -wide.sign * far, comb.spread: slant * far, comb.tip.axis: 0.0}
    x, y, z = (by[axis] for axis in Axis)
    return kernel.Outline(comb.run, points[0]).to(*points[1:]).drawn(comb.block.at(wide) + wide.sign * start, (x, y, z))


def _flank(comb: Comb, base: float, tip: float, side: Face | None, body: Box) -> tuple[Flat, Flat]:
    """One side of a cutter from the base line to the tips, as (along the spread, along the tip axis); `side` is where it
    reaches past the wood if it lies there."""
    start, stop = comb.block.at(comb.tip.opposite), comb.block.at(comb.tip)
    before, after = _over(comb, comb.tip.opposite, body), _over(comb, comb.tip, body)
    slope = (tip - base) / comb.depth
    if side and abs(slope) < NOTHING and abs(base - comb.block.at(side)) < NOTHING:
        base += side.sign * _over(comb, side, body)
    sign = comb.tip.sign
    return (base - slope * before, start - sign * before), (base + slope * (comb.depth + after), stop + sign * after)


def _over(comb: Comb, face: Face, body: Box) -> float:
    """How far a cutter reaches past one side of the comb."""
    return OVERSHOOT if (comb.block.at(face) - body.at(face)) * face.sign > -NOTHING else 0.0


def _flat(comb: Comb, across: float, along: float) -> Flat:
    places = {comb.spread: across, comb.tip.axis: along}
    first, second = (places[axis] for axis in comb.run.others)
    return first, second
