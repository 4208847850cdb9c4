"""Screws in rows: where they go on each seam, and the holes they want in both parts.

A seam is where one standing part lies flat against another.  Its screws stand in one row along its middle, or in several
side by side; they go through the outer part and hold in the inner one.  Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import Axis, Box, Face, Vec
from planbuild.joints.base import Board, Standing
from planbuild.joints.copies import Struck
from planbuild.joints.screws import Screw
from planbuild.joints.spacing import Spacing
from planbuild.records.features import Hole, Slot
from planbuild.records.piece import Contact


@dataclass(frozen=True)
class Seam:
    """Where screws go from `outer` into `inner`; `way` is the face of the outer that lies on the inner, as it stands."""

    outer: Standing
    inner: Standing
    way: Face
    patch: Box
    span: Span

    @property
    def run(self) -> Axis:
        """The longer way of the patch, along which the row stands; in doubt along the grain of the outer part."""
        return max(self.way.axis.others, key=lambda axis: (round(self.patch.size(axis), 3), axis is self.outer.grain))

    @property
    def across(self) -> Axis:
        (axis,) = (each for each in self.way.axis.others if each is not self.run)
        return axis

    @property
    def thick(self) -> float:
        """How much wood of the outer part a screw has before it."""
        return abs(self.outer.body.at(self.way.opposite) - self.patch.along(self.way.axis).low)

    @property
    def deep(self) -> float:
        """How much wood of the inner part lies behind the seam."""
        return abs(self.inner.body.at(self.way) - self.patch.along(self.way.axis).low)


def seam_of(contact: Contact, through_first: bool, span: Span, boards: Mapping[str, Board]) -> Seam:
    """A contact as a seam; the screws go through its first part, or through its second."""
    (face,) = (each for each in Face if sum(a * b for a, b in zip(each.normal, contact.insert, strict=True)) > 0.5)
    first, second = (Standing(boards[id], copy) for id, copy in (contact.a, contact.b))
    if through_first:
        return Seam(first, second, face, contact.shoulder, span)
    return Seam(second, first, face.opposite, contact.shoulder, span)


@dataclass(frozen=True)
class Place:
    """One screw: the how-manieth on its seam, the middle of its head on the outer face, and how deep it stands in the inner."""

    seam: Seam
    number: int
    head: Vec
    depth: float
    slot: Slot | None = None

    def at(self, axis: Axis) -> float:
        return self.head[axis.value]

    @property
    def entry(self) -> Vec:
        """The middle of the pilot hole, on the face of the inner part."""
        x, y, z = (self.seam.patch.along(a).low if a is self.seam.way.axis else self.at(a) for a in Axis)
        return x, y, z


def places_on(seam: Seam, spacing: Spacing, depth: float, rows: int = 1) -> list[Place]:
    """The screws of a seam, row by row, each from the low end of the seam."""
    surface = seam.outer.body.at(seam.way.opposite)
    along = spacing.within(seam.patch.along(seam.run)).places(seam.patch.along(seam.run))
    found = []
    for number, (across, place) in enumerate(product(row_lines(seam, rows), along), start=1):
        spots = {seam.run: place, seam.across: across, seam.way.axis: surface}
        x, y, z = (spots[axis] for axis in Axis)
        found.append(Place(seam, number, (x, y, z), depth))
    return found


def row_lines(seam: Seam, rows: int) -> tuple[float, ...]:
    """Where the rows lie across a seam: each in the middle of its share of the width."""
    wide = seam.patch.along(seam.across)
    return tuple(wide.low + wide.size * (number + 0.5) / rows for number in range(rows))


@dataclass(frozen=True)
class Seat:
    """How a head sits: let in by a (diameter, depth), or flush in a countersink of (diameter, angle), or on the face."""

    counterbore: tuple[float, float] | None = None
    countersink: tuple[float, float] | None = None

    @property
    def let_in(self) -> float:
        return self.counterbore[1] if self.counterbore else 0.0


def struck(joint: str, places: Sequence[Place], screw: Screw, seat: Seat, why: str) -> list[Struck]:
    """The clearance hole or slot in the outer part, and the pilot hole in the inner one, for each screw."""
    cuts = []
    for each in places:
        seam = each.seam
        for member, other, hole in (
            (seam.outer, seam.inner, clearance(joint, each, screw, seat, why)),
            (seam.inner, seam.outer, pilot(joint, each, screw)),
        ):
            words = (other.board.id, hole.purpose, other.hand, seam.outer.hand, str(each.number))
            cuts.append(Struck(member.board, member.copy, hole, words, None, seam.span))
    return cuts


def clearance(joint: str, place: Place, screw: Screw, seat: Seat, why: str) -> Hole:
    """Through the outer part: the thread passes free, so that the head draws both together."""
    return Hole(
        id="",
        origin=place.seam.span,
        joint=joint,
        why=why,
        face=place.seam.way.opposite,
        centre=place.head,
        diameter=screw.clearance,
        depth=None,
        purpose="clearance",
        counterbore=seat.counterbore,
        gauge=screw.gauge,
        slot=place.slot,
        countersink=seat.countersink,
    )


def pilot(joint: str, place: Place, screw: Screw) -> Hole:
    return Hole(
        id="",
        origin=place.seam.span,
        joint=joint,
        why="",
        face=place.seam.way.opposite,
        centre=place.entry,
        diameter=screw.pilot,
        depth=place.depth,
        purpose="pilot",
        gauge=screw.gauge,
    )
