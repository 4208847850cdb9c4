"""Are the two ends of a part alike?  Then what is drawn for one is said for both."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from planbuild.core.geometry import TINY, Axis, Face, Motion
from planbuild.derive.dimensions.measure import Measure, Style
from planbuild.derive.dimensions.where import stands_at
from planbuild.records.features import Tenon
from planbuild.records.piece import Part
from planbuild.records.tails import Sockets


def ends_alike(part: Part) -> bool:
    """True if the part has tenons, or rows of sockets, at both ends, those of one the mirror images of those of the other."""
    if _sockets_alike(part):
        return True
    ends = (part.grain.low, part.grain.high)
    low, high = (sorted(_terms(part, each) for each in _tenons(part) if each.end is end) for end in ends)
    return bool(low) and len(low) == len(high) and all(_same(one, other) for one, other in zip(low, high, strict=True))


def _sockets_alike(part: Part) -> tuple[Sockets, Sockets] | None:
    """Two rows of sockets, open at either end, that are mirror images."""
    rows = [each for each in part.features if isinstance(each, Sockets) and each.comb.run is part.grain]
    if len(rows) != 2:
        return None
    middle = part.body.centre[part.grain.value]
    sx, sy, sz = (-1 if axis is part.grain else 1 for axis in Axis)
    dx, dy, dz = (2 * middle if axis is part.grain else 0.0 for axis in Axis)
    mirror = Motion((sx, sy, sz), (dx, dy, dz))
    return (rows[0], rows[1]) if rows[0].comb.moved(mirror).is_like(rows[1].comb) else None


def tenons_alike(part: Part) -> bool:
    """True if all tenons of a part are alike, wherever they stand."""
    first, *others = _tenons(part)
    return all(_are_alike(part, first, each) for each in others)


def _tenons(part: Part) -> list[Tenon]:
    return [each for each in part.features if isinstance(each, Tenon) and each.end.axis is part.grain]


def _same(one: Sequence[float], other: Sequence[float]) -> bool:
    return len(one) == len(other) and all(abs(a - b) <= TINY for a, b in zip(one, other, strict=True))


def _are_alike(part: Part, one: Tenon, other: Tenon) -> bool:
    """The same numbers but for where they stand across the end."""
    words = [_sides(each) for each in (one, other)]
    return words[0] == words[1] and _same(*(_terms(part, _at_the_corner(part, each)) for each in (one, other)))


def _sides(tenon: Tenon) -> tuple[Face | Axis | None, ...]:
    """Which way what is cut into it looks."""
    found = (tenon.mitre and tenon.mitre.short, tenon.wedging and tenon.wedging.across, tenon.haunch and tenon.haunch.face)
    return tuple(each or None for each in found)


def _at_the_corner(part: Part, tenon: Tenon) -> Tenon:
    """The tenon moved until its low edges lie at 0, so that only its own numbers are left."""
    x, y, z = (0.0 if axis is part.grain else -tenon.block.along(axis).low for axis in Axis)
    moved = Motion(shift=(x, y, z))
    by = {axis: (x, y, z)[axis.value] for axis in Axis}
    way = replace(tenon.keyway, plane=tenon.keyway.plane + by[tenon.keyway.across]) if tenon.keyway else None
    wedging = tenon.wedging and replace(
        tenon.wedging, kerfs=tuple(replace(kerf, plane=kerf.plane + by[kerf.across]) for kerf in tenon.wedging.kerfs)
    )
    pegs = tuple(replace(hole, plane=hole.plane + by[hole.across]) for hole in tenon.pegs)
    return replace(tenon, block=moved.box(tenon.block), keyway=way, wedging=wedging, pegs=pegs)


def _terms(part: Part, tenon: Tenon) -> list[float]:
    """The numbers of a tenon, along the grain counted from its own shoulder and tip."""
    found = [tenon.block.size(tenon.end.axis), tenon.tip_chamfer, tenon.mitre.start if tenon.mitre else 0.0]
    for axis in Axis:
        if axis is not part.grain:
            found += [tenon.block.along(axis).low, tenon.block.along(axis).high]
    if tenon.keyway:
        way = tenon.keyway
        found += [way.start, way.length, way.width, way.plane, way.slope]
    found += [number for hole in tenon.pegs for number in (hole.plane, hole.start, hole.diameter)]
    found += [tenon.haunch.box.size(axis) for axis in Axis] if tenon.haunch else []
    kerfs = sorted(tenon.wedging.kerfs, key=lambda kerf: kerf.plane) if tenon.wedging else []
    return found + [number for kerf in kerfs for number in (kerf.plane, kerf.width, kerf.depth)]


def twins_of(part: Part, start: Face, measures: Sequence[Measure]) -> tuple[tuple[Measure, Measure], ...]:
    """Numbers of a tenon that are printed with those of one like it, of the near end where there is one: (its, that one's).

    Lengths along the whole are drawn at both ends; what belongs into a detail or on a leader is drawn once.
    """
    tenons = sorted(_tenons(part), key=lambda tenon: tenon.end is not start)
    by_id = {each.id: each for each in measures}
    found = []
    for index, tenon in enumerate(tenons):
        model = next((each for each in tenons[:index] if _are_alike(part, each, tenon)), None)
        mine = [each for each in measures if model and each.feature == tenon.id and (each.fine or each.style is Style.LEADER)]
        for each in mine:
            like = by_id.get(replace(each, feature=model.id if model else "").id)
            found += [(each, like)] if like is not None else []
    return (*found, *_of_sockets(part, start, measures))


def _of_sockets(part: Part, start: Face, measures: Sequence[Measure]) -> Iterator[tuple[Measure, Measure]]:
    """What is told on leaders of two rows of sockets that are alike: once, at the near end."""
    rows = _sockets_alike(part) or ()
    by_id = {each.id: each for each in measures}
    for near, far in (rows, rows[::-1]) if rows else ():
        if stands_at(part, near) is start:
            mine = [each for each in measures if each.feature == far.id and each.style is Style.LEADER]
            yield from ((each, by_id[replace(each, feature=near.id).id]) for each in mine)
