"""Shelf pins: rows of holes in the walls, and a pin under the shelf in each row."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planbuild.core.geometry import Axis, Face
from planbuild.core.units import Ruler
from planbuild.records.hardware import Item, Lump
from planbuild.resolve.fittings.base import CutFor, Put, Seat, length_of, usual, with_place


@dataclass(frozen=True)
class Holes:
    """A row of holes along `axis`: the middle one carries the shelf; `under` is the shelf's face that lies on the pins."""

    axis: Axis
    under: Face
    plane: float
    pitch: float
    count: int

    def places(self, diameter: float) -> list[float]:
        """The middle of each hole, from the low end; a pin touches the shelf with its side."""
        carrying = self.plane + self.under.sign * diameter / 2
        return [carrying + (number - self.count // 2) * self.pitch for number in range(self.count)]


def pin_depth(item: Item, ruler: Ruler) -> float:
    return length_of(item, "hole_depth") or usual("pin_hole_depth", ruler)


def pins(item: Item, walls: list[Seat], rows: list[float], holes: Holes, ruler: Ruler) -> Iterator[Put]:
    """A pin for each row in each wall, each with all the holes of its row."""
    for seat in walls:
        for number, row in enumerate(rows, 1):
            (level,) = (axis for axis in seat.face.axis.others if axis is not holes.axis)
            yield _pin(item, seat, with_place(seat.point, level, row), holes, str(number), ruler)


def _pin(item: Item, seat: Seat, at: tuple[float, float, float], holes: Holes, row: str, ruler: Ruler) -> Put:
    wide, deep = length_of(item, "diameter") or 0.0, pin_depth(item, ruler)
    places = [with_place(at, holes.axis, place) for place in holes.places(wide)]
    seats = [Seat(seat.holder.moved(place), seat.body, holes.axis, seat.origin) for place in places]
    cuts = tuple(
        CutFor(each.holder, each.hole(wide, deep, "pin"), ("pin", f"row_{row}", str(number)))
        for number, each in enumerate(seats, 1)
    )
    carrying = seats[holes.count // 2]
    stands = length_of(item, "projection") or usual("pin_stands", ruler)
    lump = Lump(carrying.box(wide, wide, -deep, stands), seat.face.axis)
    return Put(carrying.point, (lump,), (carrying.holder,), cuts)
