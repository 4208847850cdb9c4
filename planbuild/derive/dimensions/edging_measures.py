"""What fixes the edging of a sheet: how thick each strip is, and its tongue."""

from __future__ import annotations

from collections.abc import Iterator

from planbuild.derive.dimensions.measure import Datum, Measure, Points, linear, told
from planbuild.records.edging import Edging
from planbuild.records.piece import Part


def of_edging(part: Part, f: Edging, datum: Datum) -> Iterator[Measure]:
    """Seen on both faces of the part and at the ends of the strip."""
    run = f.run(part.thickness_axis)
    seen = (part.face, part.face.opposite, run.low, run.high)
    yield linear(f.id, "edging", f.edge.axis, (part.body.at(f.edge), f.seam), f.strip, seen)
    if f.tongue:
        points: Points = tuple((face, f.strip.centre) for face in (f.edge, part.face))
        thick, long = f.tongue
        yield told(f.id, "tongue thickness", thick, f.strip, points, "tongue {} thick")
        yield told(f.id, "tongue length", long, f.strip, points, "{} long", rank=1)
