"""Shapes beyond tapers, arches and eased edges: flat outlines sawn square to a face, mouldings, dishes, turnings.

All positions are those of the drawn copy of a part, in the frame of the piece.  Units: mm, degrees.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import ClassVar

from planbuild.core.geometry import TINY, Axis, Box, Face, Motion, Span1, Vec
from planbuild.core.outlines import Corner, Piece
from planbuild.core.turnings import curve_between
from planbuild.records.features import Edge, Feature, Mate, Tenon


@dataclass(frozen=True)
class Sawn(Feature):
    """A flat outline cut square to `face`, `depth` deep (None: through).

    What lies within it is cut away; with `keeps`, what lies outside.  A corner's place is that along
    `face.axis.others`.  `what` is the trade's word for it: notch, cut-out, recess, outline, clipped corner, rounded corner.
    """

    kind: ClassVar[str] = "sawn outline"
    face: Face
    corners: tuple[Corner, ...]
    what: str
    depth: float | None = None
    keeps: bool = False
    mate: Mate | None = None

    @property
    def spans(self) -> tuple[Span1, Span1]:
        """From where to where it reaches along `face.axis.others`."""
        x, y = ([corner.at[index] for corner in self.corners] for index in (0, 1))
        return Span1(min(x), max(x)), Span1(min(y), max(y))

    @property
    def is_square(self) -> bool:
        """True for a hole or notch with four square sides, rounded or not: it is set out by its walls, not by its corners."""
        walls = {(round(corner.at[0], 3), round(corner.at[1], 3)) for corner in self.corners}
        x, y = ({wall[index] for wall in walls} for index in (0, 1))
        return not self.keeps and len(walls) == 4 and len(x) == len(y) == 2

    @property
    def is_round_corner(self) -> bool:
        """True for a corner of the board cut to an arc: its radius says all."""
        return any(corner.arc for corner in self.corners)

    @property
    def radii(self) -> tuple[float, ...]:
        """Each radius once, in the order in which they are met."""
        return tuple(dict.fromkeys(r for corner in self.corners for r in (corner.arc, corner.radius) if r))

    def rim(self, body: Box, at: tuple[float, float]) -> tuple[Face, ...]:
        """The faces of the body on which a point of the outline lies."""
        return tuple(
            face
            for axis, place in zip(self.face.axis.others, at, strict=True)
            for face in (axis.low, axis.high)
            if abs(body.at(face) - place) <= TINY
        )

    def moved(self, motion: Motion) -> Sawn:
        """The same on a copy."""
        axes, face = self.face.axis.others, motion.face(self.face)
        found = []
        for corner in self.corners:
            places = dict(zip(axes, corner.at, strict=True)) | {self.face.axis: 0.0}
            there = motion.point((places[Axis.LEFT_RIGHT], places[Axis.FRONT_BACK], places[Axis.BOTTOM_TOP]))
            first, second = (there[axis.value] for axis in face.axis.others)
            found.append(replace(corner, at=(first, second)))
        return replace(self, face=face, corners=tuple(found))

    def moved_out(self, rim: Box, new_rim: Box) -> Sawn:
        """With each corner that lies on the rim of one body brought to that of a larger one."""
        axes = self.face.axis.others

        def place(index: int, at: float) -> float:
            old, new = rim.along(axes[index]), new_rim.along(axes[index])
            return new.low if abs(at - old.low) <= TINY else new.high if abs(at - old.high) <= TINY else at

        moved = (replace(corner, at=(place(0, corner.at[0]), place(1, corner.at[1]))) for corner in self.corners)
        return replace(self, corners=tuple(moved))

    def region(self, body: Box) -> Box:
        """The box around what it concerns: all of the body's depth if it goes through."""
        found, axis = body, self.face.axis
        for each, span in zip(axis.others, self.spans, strict=True):
            found = found.with_span(each, span)
        if self.depth is None:
            return found
        at = body.at(self.face)
        return found.with_span(axis, Span1(*sorted((at, at - self.face.sign * self.depth))))

    def stands_free(self, body: Box, index: int) -> tuple[float, ...]:
        """Places of its corners along one of its two directions that do not lie on a face of the body, each once."""
        whole = body.along(self.face.axis.others[index])
        found: list[float] = []
        for corner in self.corners:
            place = corner.at[index]
            if min(abs(place - end) for end in (whole.low, whole.high, *found)) > TINY:
                found.append(place)
        return tuple(found)


@dataclass(frozen=True)
class Moulding(Feature):
    """Edges worked to a profile: a `cove` is a quarter round hollowed out of the corner, `size` its radius; a `bead` a
    half round as wide as `size`, worked on the first face of each edge beside a `quirk`, a narrow channel that sets it off.

    `reach` limits it (stopped), None = whole edge; `group` are the words that chose the edges.
    """

    kind: ClassVar[str] = "moulding"
    edges: tuple[Edge, ...]
    form: str
    size: float
    quirk: float = 0.0
    reach: tuple[float, float] | None = None
    group: str = ""

    @property
    def width(self) -> float:
        """How far it reaches in from the edge."""
        return self.size + self.quirk


def goes_in_whole(part: Iterable[Feature], tenon: Tenon) -> bool:
    """True for a round tenon that is as thick as its end is turned: it has no shoulder."""
    thick, shoulder = tenon.block.size(tenon.end.axis.others[0]), tenon.block.at(tenon.end.opposite)
    ends = [each.station_at(tenon.end) for each in part if isinstance(each, Turned)]
    return tenon.round and any(each.diameter < thick + TINY and abs(each.at - shoulder) < TINY for each in ends)


@dataclass(frozen=True)
class Dished(Feature):
    """A round hollow like a shallow bowl in `face`, about `centre` (a point on the face): part of a ball."""

    kind: ClassVar[str] = "dish"
    face: Face
    centre: Vec
    diameter: float
    depth: float

    @property
    def radius(self) -> float:
        """Of the ball, from chord and rise (plane geometry)."""
        half = self.diameter / 2
        return (half * half + self.depth * self.depth) / (2 * self.depth)


@dataclass(frozen=True)
class Station:
    """A place on a turned part: `at` along the grain, the `diameter` there, and the `way` by which it is reached from
    the station before: straight, cove, bead or ogee."""

    at: float
    diameter: float
    way: str = "straight"


@dataclass(frozen=True)
class Turned(Feature):
    """Round about the long middle line from the first station to the last; before and after them the part stays square."""

    kind: ClassVar[str] = "turning"
    stations: tuple[Station, ...]

    @property
    def span(self) -> Span1:
        return Span1(self.stations[0].at, self.stations[-1].at)

    def station_at(self, end: Face) -> Station:
        """Its last station toward an end."""
        return self.stations[0 if end.sign < 0 else -1]

    def straight_at(self, end: Face, angle: float) -> Turned:
        """The same, as thick as its last station as far back as a plane through that at an angle (degrees from square) cuts
        it; unchanged if the station before lies nearer."""
        last, near = self.station_at(end), self.stations[1 if end.sign < 0 else -2]
        back = math.tan(math.radians(angle)) * last.diameter / 2
        if abs(last.at - near.at) < back + TINY:
            return self
        here = replace(last, at=last.at - end.sign * back)
        if end.sign > 0:
            return replace(self, stations=(*self.stations[:-1], here, replace(last, way="straight")))
        return replace(self, stations=(last, replace(here, way="straight"), *self.stations[1:]))

    def drawn_out(self, end: Face, seen: float, sawn: float) -> Turned:
        """The same, turned on as thick as it is up to where the part is sawn, if it ended at the end that is seen."""
        last = self.station_at(end)
        if abs(last.at - seen) > TINY or abs(sawn - seen) < TINY:
            return self
        if end.sign > 0:
            return replace(self, stations=(*self.stations, Station(sawn, last.diameter)))
        first, *others = self.stations
        return replace(self, stations=(Station(sawn, first.diameter), replace(first, way="straight"), *others))

    @property
    def profile(self) -> tuple[Piece, ...]:
        """The outline of one side, as (along the grain, out from the middle line)."""
        found: list[Piece] = []
        for before, after in pairwise(self.stations):
            start, end = (before.at, before.diameter / 2), (after.at, after.diameter / 2)
            found += curve_between(start, end, after.way)
        return tuple(found)
