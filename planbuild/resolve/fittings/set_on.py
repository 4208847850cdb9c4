"""What is put on a face: knobs, pulls, catches, stops and all that is known by its size alone."""

from __future__ import annotations

from dataclasses import replace

from planbuild.core.geometry import Box, Vec
from planbuild.records.hardware import Item, Lump
from planbuild.resolve.fittings.base import CutFor, Put, Seat, length_of, sizes_of, with_place


def turned_knob(item: Item, seat: Seat) -> Put:
    """A round knob; its spigot is glued into a hole as deep as the spigot is long."""
    wide, tall = length_of(item, "diameter") or 0.0, length_of(item, "projection") or 0.0
    lumps, cuts = [Lump(seat.box(wide, wide, 0.0, tall), seat.face.axis)], []
    spigot = sizes_of(item, "spigot")
    if spigot:
        thick, long = spigot
        lumps.append(Lump(seat.box(thick, thick, -long, 0.0), seat.face.axis))
        cuts.append(CutFor(seat.holder, seat.hole(thick, long, "spigot"), ("spigot",)))
    return Put(seat.point, tuple(lumps), (seat.holder,), tuple(cuts))


def pull(item: Item, seat: Seat) -> Put:
    """A handle on two bolts through the wood, their middles `centres` apart along it."""
    centres, bolt = length_of(item, "centres"), length_of(item, "bolt")
    put = block(item, seat)
    if centres is None or bolt is None:
        return put
    cuts = []
    for number, side in enumerate((-1, 1), 1):
        place = with_place(seat.point, seat.along, seat.point[seat.along.value] + side * centres / 2)
        there = Seat(seat.holder.moved(place), seat.body, seat.along, seat.origin)
        cuts.append(CutFor(there.holder, there.hole(bolt, None, "clearance"), ("bolt", str(number))))
    return Put(put.at, put.lumps, put.holders, (*put.cuts, *cuts))


def block(item: Item, seat: Seat) -> Put:
    """A block of its size on the face, let in by `recess` if that is said; nothing is drawn of what has no size."""
    size = sizes_of(item, "size")
    if len(size) != 3:
        return Put(seat.point, (), (seat.holder,))
    along, across, tall = size
    sunk = length_of(item, "recess") or 0.0
    lump = Lump(seat.box(along, across, -sunk, tall - sunk))
    room = _room(seat.box(along, across, -sunk, 0.0), seat)
    cuts = (CutFor(seat.holder, seat.recess(room), ("recess",)),) if sunk else ()
    return Put(seat.point, (lump,), (seat.holder,), cuts)


def lock(item: Item, seat: Seat) -> Put:
    """Let in flush, or by its `recess`; the hole for its `key` goes through, `backset` in from the nearest edge of the wood,
    else through the middle of the lock."""
    if length_of(item, "recess") is None:
        item = replace(item, fields=(*item.fields, ("recess", sizes_of(item, "size")[2])))
    put, key = block(item, seat), length_of(item, "key")
    if key is None:
        return put
    there = replace(seat, holder=seat.holder.moved(_key_place(item, seat, put.lumps[0].box)))
    return replace(put, cuts=(*put.cuts, CutFor(there.holder, there.hole(key, None, "key"), ("key",))))


def _key_place(item: Item, seat: Seat, box: Box) -> Vec:
    backset = length_of(item, "backset")
    if backset is None:
        return seat.point
    edges = [face for axis in seat.face.axis.others for face in (axis.low, axis.high)]
    edge = min(edges, key=lambda face: abs(seat.body.at(face) - box.at(face)))
    return with_place(seat.point, edge.axis, seat.body.at(edge) - edge.sign * backset)


def castor(item: Item, seat: Seat) -> Put:
    """A plate with its wheel on the face, or one on a stem that goes into a hole as deep as the stem is long."""
    put, stem = block(item, seat), sizes_of(item, "stem")
    if not stem:
        return put
    thick, long = stem
    rod = Lump(seat.box(thick, thick, -long, 0.0), seat.face.axis)
    cut = CutFor(seat.holder, seat.hole(thick, long, "stem"), ("stem",))
    return replace(put, lumps=(*put.lumps, rod), cuts=(*put.cuts, cut))


def _room(box: Box, seat: Seat) -> Box:
    """No wider than the wood: a thing that stands over an edge is let in up to the edge."""
    return box.meet(seat.body)


def counterpart(item: Item, seat: Seat) -> Put:
    """The half on the other part: a thin plate of the size `strike`, let in flush."""
    size = sizes_of(item, "strike")
    if len(size) != 3:
        return Put(seat.point, (), (seat.holder,))
    along, across, thick = size
    box = seat.box(along, across, -thick, 0.0)
    return Put(seat.point, (Lump(box),), (seat.holder,), (CutFor(seat.holder, seat.recess(_room(box, seat)), ("strike",)),))
