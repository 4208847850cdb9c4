"""What fixes a slot across a mitre: its place along the edge of the corner, its width, and how deep it goes."""

from __future__ import annotations

from collections.abc import Iterator

from planbuild.core.geometry import TINY, Axis
from planbuild.derive.dimensions.measure import Datum, Measure, linear, told
from planbuild.derive.dimensions.where import at, far_wall, near_wall, place_words
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.piece import Part


def of_corner_slot(part: Part, f: CornerSlot, datum: Datum) -> Iterator[Measure]:
    """Walls square to the part as lengths; what lies along the mitre in words, since no face shows it true."""
    region, along = f.region(part.body), f.axis
    spot = {axis: region.along(axis).middle for axis in Axis}
    points = tuple((face, at(spot | {along: part.body.at(face)})) for face in (along.low, along.high))
    if f.across.size < part.body.size(along) - TINY:
        seen = (f.side, f.end)
        walls = near_wall(region, datum[along]), far_wall(region, datum[along])
        yield linear(f.id, "width", along, walls, region, seen)
        if abs(part.body.at(datum[along]) - walls[0]) > TINY:
            place = part.body.at(datum[along]), walls[0]
            yield linear(f.id, place_words(part, datum[along]), along, place, region, seen)
    else:
        yield told(f.id, "width", f.stop - f.start, region, points, "{} wide, square to the mitre")
        yield told(f.id, "place", f.start, region, points, "{} from the outer corner", rank=1)
    if f.deep is None:
        yield told(f.id, "depth", f.stop, region, points, "{} deep, along the mitre", rank=2)
    else:
        yield told(f.id, "depth", f.deep, region, points, "{} deep", rank=2)
