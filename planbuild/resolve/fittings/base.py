"""What every kind of hardware is given and what it gives back: where it sits, its solid, its cuts.

Everything here lies where the thing stands in the piece; copies are made afterwards by motions.  Units: mm.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Axis, Box, Face, Span1, Vec
from planbuild.core.tables import row
from planbuild.core.units import Ruler, Unit
from planbuild.joints.base import Board
from planbuild.records.features import Feature, Groove, Hole
from planbuild.records.hardware import Item, Lump


@dataclass(frozen=True)
class Holder:
    """A part that holds the thing: some copy of `board` has a `face` on which `point` lies."""

    board: Board
    face: Face
    point: Vec

    def moved(self, point: Vec) -> Holder:
        return Holder(self.board, self.face, point)

    @property
    def copy(self) -> int | None:
        """The copy that stands there, or None."""
        for index in range(len(self.board.copies)):
            body = self.board.standing(index)
            if abs(body.at(self.face) - self.point[self.face.axis.value]) < TINY and all(
                body.along(axis).low - TINY < self.point[axis.value] < body.along(axis).high + TINY
                for axis in self.face.axis.others
            ):
                return index
        return None


@dataclass(frozen=True)
class CutFor:
    """What is cut into a holder; `words` tell it from others of the same hardware, the most telling first."""

    holder: Holder
    feature: Feature
    words: tuple[str, ...]


@dataclass(frozen=True)
class Put:
    """One thing in its place: its middle, its solid, who holds it (the carrier first), and its cuts."""

    at: Vec
    lumps: tuple[Lump, ...]
    holders: tuple[Holder, ...]
    cuts: tuple[CutFor, ...] = ()


@dataclass(frozen=True)
class Seat:
    """A place on a face: `along` is the longer way of the face, `across` the other, and `face` looks out of the wood."""

    holder: Holder
    body: Box
    along: Axis
    origin: Span

    @property
    def face(self) -> Face:
        return self.holder.face

    @property
    def point(self) -> Vec:
        return self.holder.point

    @property
    def across(self) -> Axis:
        (axis,) = (each for each in self.face.axis.others if each is not self.along)
        return axis

    def box(self, along: float, across: float, low: float, high: float) -> Box:
        """A block of that size about the place, from `low` to `high` out of the face (below 0: in the wood)."""
        return Box.of(
            {
                self.along: about(self.point[self.along.value], along),
                self.across: about(self.point[self.across.value], across),
                self.face.axis: out_of(self.face, self.point[self.face.axis.value], low, high),
            }
        )

    def hole(self, diameter: float, depth: float | None, purpose: str = "plain") -> Hole:
        return Hole("", self.origin, "", "", self.face, self.point, diameter, depth, purpose)

    def recess(self, box: Box) -> Groove:
        return Groove("", self.origin, "", "", self.face, box, None, "recess")


def about(middle: float, size: float) -> Span1:
    return Span1(middle - size / 2, middle + size / 2)


def out_of(face: Face, plane: float, low: float, high: float) -> Span1:
    """From `low` to `high` out of a face that lies at `plane`."""
    ends = sorted((plane + face.sign * low, plane + face.sign * high))
    return Span1(ends[0], ends[1])


def with_place(point: Vec, axis: Axis, place: float) -> Vec:
    x, y, z = (place if each is axis else point[each.value] for each in Axis)
    return x, y, z


def length_of(item: Item, name: str) -> float | None:
    """A field that is a length, None if it was not said."""
    found = dict(item.fields).get(name)
    return found if isinstance(found, float) else None


def sizes_of(item: Item, name: str) -> tuple[float, ...]:
    """A field like `2 x 3/4`, () if it was not said."""
    found = dict(item.fields).get(name)
    return found if isinstance(found, tuple) else ()


def usual(name: str, ruler: Ruler) -> float:
    """The usual size of the table `hardware`, mm; sizes of the trade's metric system are the same in an inch plan."""
    found = row("hardware", "name", name)
    if found is None:
        raise LookupError(f"no row {name!r} in the table of hardware")
    written = found["inch"]
    if ruler.unit is Unit.INCH and written:
        return float(sum((Fraction(piece) for piece in written.split("-")), Fraction(0)) * ruler.unit.mm)
    return float(Fraction(found["mm"]))
