"""Hinges between a part that moves and one that stands: butt hinges let into both, concealed ones with a cup."""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.geometry import Axis, Box, Face, Span1, Vec
from planbuild.core.units import Ruler
from planbuild.records.features import Hole
from planbuild.records.hardware import Item, Lump
from planbuild.resolve.fittings.base import CutFor, Holder, Put, Seat, about, length_of, out_of, sizes_of, usual, with_place


@dataclass(frozen=True)
class Leaves:
    """The two parts of a hinge where they stand; `place` is its middle along the pin."""

    moving: Seat
    fixed: Seat
    pin: Axis
    place: float

    @property
    def gap(self) -> float:
        """Between the two faces; they look at each other."""
        face = self.moving.face
        return face.sign * (self.fixed.body.at(self.fixed.face) - self.moving.body.at(face))


# ---------------------------------------------------------------- butt hinges


def butt_depth(item: Item, gap: float) -> float:
    """How deep each leaf is let in, so that the closed leaves leave the gap: (knuckle - gap) / 2."""
    return ((length_of(item, "knuckle") or 0.0) - gap) / 2


def butt_hinge(item: Item, leaves: Leaves, front: Face) -> Put:
    """Leaves on the floors of their recesses, the pin in the plane of the moving part's `front` and in the middle of the gap."""
    long, wide = sizes_of(item, "leaf")
    knuckle, thick = length_of(item, "knuckle") or 0.0, length_of(item, "thickness") or 0.0
    deep = butt_depth(item, leaves.gap)
    pin_at = leaves.moving.body.at(front)
    lumps, cuts = [], []
    for seat, word in ((leaves.moving, leaves.fixed.holder.board.id), (leaves.fixed, leaves.moving.holder.board.id)):
        void = _recess(seat, leaves, front, (long, wide, deep), knuckle)
        cuts.append(CutFor(seat.holder, seat.recess(void), (word, "leaf")))
        plane = seat.body.at(seat.face)
        inward = out_of(front, pin_at, -wide, 0.0)
        leaf = {leaves.pin: about(leaves.place, long), front.axis: inward}
        lumps.append(Lump(Box.of({**leaf, seat.face.axis: out_of(seat.face, plane, -deep, thick - deep)})))
    middle = leaves.moving.body.at(leaves.moving.face) + leaves.moving.face.sign * leaves.gap / 2
    barrel = {leaves.pin: about(leaves.place, long), front.axis: about(pin_at, knuckle)}
    lumps.append(Lump(Box.of({**barrel, leaves.moving.face.axis: about(middle, knuckle)}), leaves.pin))
    at = _point({leaves.pin: leaves.place, front.axis: pin_at, leaves.moving.face.axis: middle})
    return Put(at, tuple(lumps), (leaves.moving.holder, leaves.fixed.holder), tuple(cuts))


def _recess(seat: Seat, leaves: Leaves, front: Face, leaf: tuple[float, float, float], knuckle: float) -> Box:
    """From the inner edge of the leaf out to the edge of the part, or as far as the barrel needs if the part goes on."""
    long, wide, deep = leaf
    inner = leaves.moving.body.at(front) - front.sign * wide
    outer = leaves.moving.body.at(front) + front.sign * knuckle / 2
    edge = seat.body.at(front)
    outer = min(outer, edge) if front.sign > 0 else max(outer, edge)
    low, high = sorted((inner, outer))
    spans = {leaves.pin: about(leaves.place, long), front.axis: Span1(low, high)}
    return Box.of({**spans, seat.face.axis: out_of(seat.face, seat.body.at(seat.face), -deep, 0.0)})


# ---------------------------------------------------------------- concealed hinges


@dataclass(frozen=True)
class Cup:
    """Sizes of a concealed hinge, mm: what was not said is the trade's."""

    wide: float
    deep: float
    from_edge: float
    behind: float
    """From the front edge of the side, or from the back of an inset door, to the mounting holes."""


def cup_of(item: Item, ruler: Ruler) -> Cup:
    given = [length_of(item, name) or usual(name, ruler) for name in ("cup", "cup_depth", "cup_from_edge")]
    return Cup(given[0], given[1], given[2], length_of(item, "plate_back") or usual("plate_back", ruler))


def cup_hinge(item: Item, leaves: Leaves, ruler: Ruler) -> Put:
    """The cup in the back of the door, near its hinged edge; two mounting holes in the side behind it."""
    cup, inner = cup_of(item, ruler), leaves.fixed.face
    door, side = leaves.moving, leaves.fixed
    edge = door.body.at(inner.opposite)
    middle = edge + inner.sign * (cup.from_edge + cup.wide / 2)
    back = door.body.at(door.face)
    centre = _point({leaves.pin: leaves.place, inner.axis: middle, door.face.axis: back})
    bored = Seat(door.holder.moved(centre), door.body, leaves.pin, door.origin)
    cuts = [CutFor(bored.holder, bored.hole(cup.wide, cup.deep, "cup"), (side.holder.board.id, "cup"))]
    start = back if dict(item.fields).get("mounting") == "inset" else side.body.at(door.face.opposite)
    line = start + door.face.sign * cup.behind
    cuts += [_mount(side, leaves, line, number, ruler) for number in (-1, 1)]
    arm = {
        leaves.pin: about(leaves.place, usual("arm_height", ruler)),
        inner.axis: out_of(inner, side.body.at(inner), 0.0, usual("arm_width", ruler)),
        door.face.axis: out_of(door.face, back, 0.0, abs(line - back) + usual("arm_reach", ruler)),
    }
    lumps = (Lump(bored.box(cup.wide, cup.wide, -cup.deep, 0.0), door.face.axis), Lump(Box.of(arm)))
    plate = _point({leaves.pin: leaves.place, inner.axis: side.body.at(inner), door.face.axis: line})
    return Put(centre, lumps, (bored.holder, side.holder.moved(plate)), tuple(cuts))


def _mount(side: Seat, leaves: Leaves, line: float, number: int, ruler: Ruler) -> CutFor:
    place = leaves.place + number * usual("plate_apart", ruler) / 2
    at = {leaves.pin: place, side.face.axis: side.body.at(side.face), leaves.moving.face.axis: line}
    there = Seat(side.holder.moved(_point(at)), side.body, leaves.pin, side.origin)
    hole: Hole = there.hole(usual("plate_hole", ruler), usual("plate_hole_depth", ruler), "plate")
    return CutFor(there.holder, hole, (leaves.moving.holder.board.id, "plate", "lower" if number < 0 else "upper"))


def _point(places: dict[Axis, float]) -> Vec:
    x, y, z = (places[axis] for axis in Axis)
    return x, y, z


def seat_at(holder: Holder, body: Box, along: Axis, seat: Seat, place: float) -> Seat:
    """A seat of a hinge at its place along the pin."""
    return Seat(holder.moved(with_place(seat.point, along, place)), body, along, seat.origin)
