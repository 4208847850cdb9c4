"""The numbers of the shapes of a part.

Written from the features alone, apart from the room that chooses dimensions, so that what was forgotten there
is found here.  Units: mm, degrees; positions in the frame of the piece.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from planbuild.core.geometry import TINY, Axis
from planbuild.proofread.needs import Need, between, ends, into, place
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    EdgeBevel,
    Feature,
    RoundOver,
    Taper,
)
from planbuild.records.piece import Part
from planbuild.records.shaped import Dished, Moulding, Sawn, Turned


def of_taper(part: Part, f: Taper) -> Iterator[Need]:
    yield from place(part, f, "start", part.grain, f.start)
    for axis, left in f.leaving:
        tapered = [face for face in f.faces if face.axis is axis]
        low, high = ends(part.body, axis)
        cut = (high - low - left) / len(tapered)
        low, high = low + (cut if axis.low in tapered else 0.0), high - (cut if axis.high in tapered else 0.0)
        yield between(f.id, "what is left at the end", axis, low, high)


def of_chamfer(part: Part, f: Chamfer) -> Iterator[Need]:
    yield Need(f.id, "size", f.size)
    yield from _reach(part, f)


def of_round_over(part: Part, f: RoundOver) -> Iterator[Need]:
    yield Need(f.id, "radius", f.radius)
    yield from _reach(part, f)


def of_moulding(part: Part, f: Moulding) -> Iterator[Need]:
    yield Need(f.id, "size", f.size)
    if f.quirk:
        yield Need(f.id, "quirk", f.quirk)
    yield from _reach(part, f)


def _reach(part: Part, f: Chamfer | RoundOver | Moulding) -> Iterator[Need]:
    (one, other) = f.edges[0]
    (axis,) = (axis for axis in Axis if axis not in (one.axis, other.axis))
    for end in f.reach or ():
        yield from place(part, f, "end", axis, end)


def of_dished(part: Part, f: Dished) -> Iterator[Need]:
    for axis in f.face.axis.others:
        yield from place(part, f, "middle", axis, f.centre[axis.value])
    yield Need(f.id, "width", f.diameter)
    yield Need(f.id, "radius", f.radius)
    yield into(part, f, "depth", f.face, f.depth)


def of_turned(part: Part, f: Turned) -> Iterator[Need]:
    """Every station with its diameter; of curves the radius, from their chord and rise as a maker would have to find it."""
    for station in f.stations:
        yield from place(part, f, "station", part.grain, station.at)
        yield Need(f.id, "diameter", station.diameter)
    for before, after in pairwise(f.stations):
        long, deep = after.at - before.at, abs(after.diameter - before.diameter) / 2
        if after.way != "straight":
            radius = (long * long + deep * deep) / (2 * deep) if deep > TINY else long / 2
            halved = after.way == "ogee" and deep > TINY
            yield Need(f.id, f"radius of a {after.way}", radius / 2 if halved else radius)


def of_arch(part: Part, f: Arch) -> Iterator[Need]:
    for end in (f.start, f.stop):
        yield from place(part, f, "springing point", part.grain, end)
    yield into(part, f, "rise", f.face, f.rise)
    yield Need(f.id, "radius", f.radius)


def of_curve(part: Part, f: Curve) -> Iterator[Need]:
    start = part.body.along(part.grain).low
    for along, depth in f.points:
        yield between(f.id, "point along", part.grain, start, start + along)
        yield into(part, f, "depth of a point", f.face, depth)


def of_bevel(part: Part, f: Bevel) -> Iterator[Need]:
    yield Need(f.id, "angle", f.angle)


def of_edge_bevel(part: Part, f: EdgeBevel) -> Iterator[Need]:
    """How far in, and either what is cut or what is left at the edge."""
    side, cut = f.edge
    yield into(part, f, "margin", side, f.margin)
    if f.step:
        yield into(part, f, "step", cut, f.step)
    wall, low, high = part.body.at(cut) - cut.sign * f.depth, *ends(part.body, cut.axis)
    yield Need(f.id, "thickness at the edge", axis=cut.axis, spans=((low, wall), (wall, high)))


def of_sawn(part: Part, f: Sawn) -> Iterator[Need]:
    """Square openings from wall to wall and their place; else each corner from a face of the board; radii; depth."""
    places = [corner.at for corner in f.corners if not any(each.arc for each in f.corners)]
    for index, axis in enumerate(f.face.axis.others):
        across = sorted({spot[index] for spot in places})
        if f.is_square:
            yield from _opening(part, f, axis, across[0], across[-1])
        else:
            for wall in across:
                yield from place(part, f, "place of a corner", axis, wall)
    for radius in {r for corner in f.corners for r in (corner.radius, corner.arc) if r}:
        yield Need(f.id, "radius", radius)
    if f.depth is not None:
        yield into(part, f, "depth", f.face, f.depth)


def _opening(part: Part, f: Feature, axis: Axis, low: float, high: float) -> Iterator[Need]:
    """Nothing to be said where it runs through."""
    whole = ends(part.body, axis)
    if (abs(low - whole[0]) > TINY) or (abs(high - whole[1]) > TINY):
        yield between(f.id, "size", axis, low, high)
        yield from place(part, f, "place", axis, low, high)
