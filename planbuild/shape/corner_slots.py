"""Slots across a mitre: a turned block, of which each part loses its own half."""

from __future__ import annotations

from collections.abc import Iterator

from planbuild.core.geometry import TINY, Span1
from planbuild.records.corner_slots import CornerSlot
from planbuild.shape import kernel
from planbuild.shape.kernel import OVERSHOOT, Fault
from planbuild.shape.workpiece import Cut, Workpiece


def cut_corner_slot(slot: CornerSlot, work: Workpiece) -> Iterator[Cut]:
    body = work.body
    rim = slot.profile(body)
    if len(rim) < 3:
        raise Fault("The slot lies beside the mitre.", "look at how deep it is")
    deepest = max(v for _, v in rim)
    start = slot.start - OVERSHOOT if slot.start < TINY else slot.start
    stop = slot.stop + OVERSHOOT if slot.stop > slot.mitre(body) - TINY else slot.stop
    deep = deepest + 2 * OVERSHOOT + (stop - start) if slot.deep is None else slot.deep
    corners = [(start, -OVERSHOOT), (stop, -OVERSHOOT), (stop, deep), (start, deep)]
    axes = slot.end.axis, slot.side.axis
    places = [kernel.flat(dict(zip(axes, slot.place(body, *each), strict=True)), slot.axis) for each in corners]
    whole = body.along(slot.axis)
    span = Span1(
        slot.across.low - (OVERSHOOT if slot.across.low < whole.low + TINY else 0.0),
        slot.across.high + (OVERSHOOT if slot.across.high > whole.high - TINY else 0.0),
    )
    volume = kernel.polygon_area(rim) * slot.across.size
    yield Cut([kernel.polygon(slot.axis, span, places)], volume, [slot.region(body)])
