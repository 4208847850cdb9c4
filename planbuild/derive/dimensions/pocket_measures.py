"""What fixes a slanted pocket for a screw: where its middle lies on the face, how the bit is set, how thick it is."""

from __future__ import annotations

from collections.abc import Iterator

from planbuild.core.geometry import Box, Span1
from planbuild.derive.dimensions.measure import Datum, Measure, linear, told
from planbuild.derive.dimensions.where import place_words
from planbuild.records.piece import Part
from planbuild.records.pockets import Pocket


def of_pocket(part: Part, f: Pocket, datum: Datum) -> Iterator[Measure]:
    """The middle of its mouth from the end that the screw comes out of, and from a datum; the bit in words."""
    mouth, seen = _mouth(f), (f.face,)
    end = f.exit[f.end.axis.value]
    yield linear(f.id, f"middle from the {f.end.value}", f.end.axis, (end, f.mouth[f.end.axis.value]), mouth, seen)
    ends = (part.body.at(datum[f.side]), f.mouth[f.side.value])
    yield linear(f.id, f"middle {place_words(part, datum[f.side])}", f.side, ends, mouth, seen)
    points = ((f.face, f.mouth),)
    yield told(f.id, "diameter", f.width, mouth, points, "pocket ⌀ {}")
    where = "end" if f.end.axis is part.grain else "edge"
    yield told(f.id, "angle", f.angle, mouth, points, f"{{}} to the face, out at the {where}", rank=1, unit="deg")
    yield told(f.id, "wood under the head", f.shoulder, mouth, points, "stops {} from the joint, along the screw", rank=2)
    yield told(f.id, "narrow diameter", f.diameter, mouth, points, "goes on ⌀ {}", rank=3)


def _mouth(f: Pocket) -> Box:
    """Flat on the face."""
    spans = {}
    for axis, size in ((f.end.axis, f.length), (f.side, f.width), (f.face.axis, 0.0)):
        spans[axis] = Span1(f.mouth[axis.value] - size / 2, f.mouth[axis.value] + size / 2)
    return Box.of(spans)
