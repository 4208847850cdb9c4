"""How tails and their sockets are cut: prisms along the way in which the tails go together.

Cutters reach past the wood wherever the comb lies on its surface, each flank going on in its own line.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planbuild.core.geometry import Box, Face, Span1
from planbuild.records.tails import Comb, Sockets, Tails, Trapezium
from planbuild.shape import kernel
from planbuild.shape.kernel import NOTHING, OVERSHOOT, Flat, Shape
from planbuild.shape.workpiece import Cut, Workpiece


def cut_tails(tails: Tails, work: Workpiece) -> Iterator[Cut]:
    """The wood beside the tails."""
    yield _cut(tails.comb, tails.comb.gaps, work)


def cut_sockets(sockets: Sockets, work: Workpiece) -> Iterator[Cut]:
    """The wood that the tails of the mate take up."""
    yield _cut(sockets.comb, sockets.comb.sides, work)


def _cut(comb: Comb, shapes: Sequence[Trapezium], work: Workpiece) -> Cut:
    area = sum((base[1] - base[0] + tip[1] - tip[0]) / 2 * comb.depth for base, tip in shapes)
    tools = [_tool(comb, each, work.body) for each in shapes]
    return Cut(tools, area * comb.block.size(comb.run), [comb.block])


def _tool(comb: Comb, shape: Trapezium, body: Box) -> Shape:
    (base_low, base_high), (tip_low, tip_high) = shape
    low, high = _flank(comb, base_low, tip_low, comb.spread.low, body), _flank(comb, base_high, tip_high, comb.spread.high, body)
    run = comb.block.along(comb.run)
    span = Span1(run.low - _over(comb, comb.run.low, body), run.high + _over(comb, comb.run.high, body))
    return kernel.polygon(comb.run, span, [_flat(comb, *point) for point in (*low, *high[::-1])])


def _flank(comb: Comb, base: float, tip: float, side: Face, body: Box) -> tuple[Flat, Flat]:
    """One side of a cutter from the base line to the tips, as (along the spread, along the tip axis)."""
    start, stop = comb.block.at(comb.tip.opposite), comb.block.at(comb.tip)
    before, after = _over(comb, comb.tip.opposite, body), _over(comb, comb.tip, body)
    slope = (tip - base) / comb.depth
    if abs(slope) < NOTHING and abs(base - comb.block.at(side)) < NOTHING:
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
