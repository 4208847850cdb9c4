"""The whole of the piece: what its parts reach must be what the frame says."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.diagnostics import Diagnostic, Related
from planbuild.core.geometry import TINY, Axis, Box, Span1
from planbuild.core.spelling import did_you_mean
from planbuild.records.piece import Part
from planbuild.records.spaces import FrameSaid
from planbuild.resolve.sayings import Sayings, figure

_MEASURES = {Axis.LEFT_RIGHT: ("width", "wide"), Axis.FRONT_BACK: ("depth", "deep"), Axis.BOTTOM_TOP: ("height", "high")}


def check_reach(said: FrameSaid, frame: Box, parts: Sequence[Part], sayings: Sayings) -> None:
    """The parts of the design, tenons counted, reach from face to face of the frame, but for those that may reach
    beyond it.  Reports `place-frame`, `ref-unknown`."""
    beyond = {each.text for each in said.beyond}
    for each in said.beyond:
        if each.text not in {part.id for part in parts}:
            hints = did_you_mean(each.text, [part.id for part in parts])
            sayings.refuse("ref-unknown", each, f'No part "{each.text}" to reach beyond the frame.', hints=hints)
    counted = [part for part in parts if not part.made_by]
    standing = [(part, _counted(part, copy, frame, beyond)) for part in counted for copy in range(len(part.copies))]
    if not standing:
        return
    for axis in Axis:
        low_part, low = min(((part, box.along(axis).low) for part, box in standing), key=lambda each: each[1])
        high_part, high = max(((part, box.along(axis).high) for part, box in standing), key=lambda each: each[1])
        reach, whole = Span1(low, high), frame.along(axis)
        if abs(reach.low - whole.low) > TINY or abs(reach.high - whole.high) > TINY:
            odd = [p for p, off in ((low_part, reach.low - whole.low), (high_part, reach.high - whole.high)) if abs(off) > TINY]
            sayings.report.add(_off(axis, said, whole, reach, odd, sayings))


def _counted(part: Part, copy: int, frame: Box, beyond: set[str]) -> Box:
    """Where a copy reaches; of a part that may reach beyond the frame, as far as the frame."""
    reach = part.box(copy, part.extent)
    return reach.meet(frame) if part.id in beyond else reach


def _off(axis: Axis, said: FrameSaid, whole: Span1, reach: Span1, odd: list[Part], sayings: Sayings) -> Diagnostic:
    unit = sayings.unit
    measure, adjective = _MEASURES[axis]
    names = " and ".join(f'"{part.id}", {part.origin.line}:{part.origin.column}' for part in dict.fromkeys(odd))
    if abs(reach.size - whole.size) > TINY:
        parts = f"the parts reach {figure(reach.size, unit)}"
    else:
        low, high = (figure(each, unit) for each in (reach.low, reach.high))
        parts = f"the parts stand from {low} to {high} from its {axis.low.value}"
    message = f"The frame says {figure(whole.size, unit)} {adjective}; {parts} ({names})."
    related = tuple(Related(part.origin, f'"{part.id}" reaches there') for part in dict.fromkeys(odd))
    span = getattr(said, measure).span
    return Diagnostic("place-frame", message, span=span, hints=("Change the frame or the part.",), related=related)


