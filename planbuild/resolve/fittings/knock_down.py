"""Fittings by which a joint can be taken apart: a bolt that draws on a barrel nut, a cam that turns on a pin.

Their holes meet inside the wood: that of the bolt or the pin runs along it, that of the barrel or the cam across it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from planbuild.core.geometry import Axis, Box, Face, Span1, Vec
from planbuild.core.units import Ruler
from planbuild.records.features import Hole
from planbuild.records.hardware import BOLT, CAM, Item, Lump
from planbuild.resolve.fittings.base import CutFor, Holder, Put, Seat, about, length_of, out_of, sizes_of, usual, with_place

KNOCK_DOWN = (BOLT, CAM)
"""Kinds that are set `on` a face of one part and meet a face of another, which lies against it."""

IN_THE_WOOD = ("bolt", "barrel", "cam", "thread")
"""Purposes of their holes; these may not break into what a joint cuts."""


@dataclass(frozen=True)
class Met:
    """Two parts that lie against each other: `seat` where the thing is set, `joint` the other's face that touches the
    first part, `across` its face in which the barrel or the pin's thread goes (for a cam the same as `joint`)."""

    seat: Seat
    joint: Holder
    body: Box
    across: Face


@dataclass(frozen=True)
class Bolt:
    """Its sizes, mm: `stands` is how much of it is in the part that holds the barrel, `middle` where the barrel's middle is,
    both from the joint; `under` how far that lies below the face in which the barrel goes."""

    thick: float
    barrel: tuple[float, float]
    head: tuple[float, float]
    recess: float
    stands: float
    middle: float
    under: float


def bolt_of(item: Item, met: Met, ruler: Ruler) -> Bolt:
    """As it comes to stand: the bolt ends just behind the barrel, whose thread then holds on its whole width."""
    thick, long = length_of(item, "diameter") or 0.0, length_of(item, "length") or 0.0
    wide, tall = sizes_of(item, "barrel")
    head = sizes_of(item, "head_size") or (2 * thick, thick / 2)
    recess = length_of(item, "recess") or 0.0
    stands = long - (met.seat.body.size(met.seat.face.axis) - recess)
    step = float(ruler.step * ruler.unit.mm)
    middle = step * int((stands - wide / 2) / step + 1e-9)
    under = abs(met.body.at(met.across) - met.joint.point[met.across.axis.value])
    return Bolt(thick, (wide, tall), (head[0], head[1]), recess, stands, middle, under)


def bolted(item: Item, met: Met, ruler: Ruler) -> Put:
    """A hole right through the first part and on into the second, and one across it for the barrel."""
    bolt, seat, axis = bolt_of(item, met, ruler), met.seat, met.seat.face.axis
    through = bolt.thick + usual("bolt_over", ruler)
    let_in = (bolt.head[0] + usual("bolt_head_over", ruler), bolt.recess) if bolt.recess else None
    first = replace(seat.hole(through, None, "bolt"), counterbore=let_in)
    inner = Hole("", seat.origin, "", "", seat.face, met.joint.point, through, bolt.stands + usual("bolt_beyond", ruler), "bolt")
    mouth = _barrel_mouth(met, bolt)
    deep = bolt.under + bolt.barrel[1] / 2
    barrel = Hole("", seat.origin, "", "", met.across, mouth, bolt.barrel[0], deep, "barrel")
    crossing = Holder(met.joint.board, met.across, mouth)
    names = seat.holder.board.id, met.joint.board.id
    cuts = (
        CutFor(seat.holder, first, (names[1], "bolt")),
        CutFor(met.joint, inner, (names[0], "bolt")),
        CutFor(crossing, barrel, (names[0], "barrel")),
    )
    return Put(seat.point, _bolt_lumps(met, bolt, mouth, axis), (seat.holder, met.joint, crossing), cuts)


def _barrel_mouth(met: Met, bolt: Bolt) -> Vec:
    """Where the barrel goes in, on its face."""
    axis, inward = met.seat.face.axis, met.seat.face.opposite.sign
    place = with_place(met.joint.point, axis, met.joint.point[axis.value] + inward * bolt.middle)
    return with_place(place, met.across.axis, met.body.at(met.across))


def _bolt_lumps(met: Met, bolt: Bolt, mouth: Vec, axis: Axis) -> tuple[Lump, ...]:
    seat, thin = met.seat, bolt.thick
    wide, tall = bolt.head
    shank = seat.box(thin, thin, -seat.body.size(axis) - bolt.stands, -bolt.recess)
    head = seat.box(wide, wide, -bolt.recess, tall - bolt.recess)
    size, long = bolt.barrel
    spans = {each: about(mouth[each.value], size) for each in met.across.axis.others}
    depth = out_of(met.across, mouth[met.across.axis.value], -bolt.under - long / 2, -bolt.under + long / 2)
    barrel = Box.of({**spans, met.across.axis: depth})
    return Lump(shank, axis), Lump(head, axis), Lump(barrel, met.across.axis)


# ---------------------------------------------------------------- cam and pin


@dataclass(frozen=True)
class Cam:
    """Sizes of a cam and its pin, mm: what was not said is the trade's."""

    cam: tuple[float, float]
    reach: float
    pin: float
    thread: tuple[float, float]


def cam_of(item: Item, ruler: Ruler) -> Cam:
    cam = sizes_of(item, "cam") or (usual("cam_wide", ruler), usual("cam_deep", ruler))
    thread = sizes_of(item, "thread") or (usual("cam_thread", ruler), usual("cam_thread_deep", ruler))
    reach, pin = (length_of(item, name) or usual(f"cam_{name}", ruler) for name in ("reach", "pin"))
    return Cam((cam[0], cam[1]), reach, pin, (thread[0], thread[1]))


def cammed(item: Item, met: Met, ruler: Ruler) -> Put:
    """The cam in the broad face, the pin from the other part through the end to the middle of the cam."""
    cam, seat = cam_of(item, ruler), met.seat
    end = met.across.opposite
    level = seat.point[seat.face.axis.value] - seat.face.sign * seat.body.size(seat.face.axis) / 2
    middle = with_place(seat.point, end.axis, seat.body.at(end) - end.sign * cam.reach)
    sunk = Holder(seat.holder.board, seat.face, middle)
    enters = with_place(with_place(middle, end.axis, seat.body.at(end)), seat.face.axis, level)
    in_end, in_mate = Holder(seat.holder.board, end, enters), Holder(met.joint.board, met.across, enters)
    names = seat.holder.board.id, met.joint.board.id
    cuts = (
        CutFor(sunk, Hole("", seat.origin, "", "", seat.face, middle, *cam.cam, "cam"), (names[1], "cam")),
        CutFor(in_end, Hole("", seat.origin, "", "", end, enters, cam.pin, cam.reach, "bolt"), (names[1], "bolt")),
        CutFor(in_mate, Hole("", seat.origin, "", "", met.across, enters, *cam.thread, "thread"), (names[0], "thread")),
    )
    there = replace(seat, holder=sunk)
    housing = Lump(there.box(cam.cam[0], cam.cam[0], -cam.cam[1], 0.0), seat.face.axis)
    thin, plane = cam.thread[0], enters[end.axis.value]
    spans = {axis: about(enters[axis.value], thin) for axis in end.axis.others}
    far, near = plane + end.sign * cam.thread[1], plane - end.sign * (cam.reach - cam.cam[0] / 2 + thin / 2)
    rod = Lump(Box.of({**spans, end.axis: Span1(*sorted((far, near)))}), end.axis)
    return Put(middle, (housing, rod), (sunk, in_end, in_mate), cuts)
