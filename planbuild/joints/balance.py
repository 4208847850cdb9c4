"""Whether a free-standing piece keeps its feet when what opens is open: moments about the feet it would tip over.

The scope by size and the test loads are those of ASTM F2057-23 (16 CFR 1261, clothing storage), from what its abstract and
public guides say; what is from memory says so.  It is a reckoning for the designer; no compliance is claimed.
Units: mm, kg.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from planbuild.core.geometry import Axis, Box, Face, hull
from planbuild.joints.movers import Key, Mover, movers
from planbuild.joints.weights import Weighed, weigh
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids

HEIGHT, MASS, VOLUME = 686.0, 13.6, 90.6e6
"""At least so high (27 in), so heavy (30 lb) and with so much room behind doors and drawers (3.2 cubic feet, mm3) is a piece
to which the standard's tests apply (ASTM F2057-23, 1.1; the guide of the Consumer Product Safety Commission)."""

CHILD = 27.2
"""kg: the test weight for a child, 60 lb (ASTM F2057-23)."""
CLOTHES = 136e-9
"""kg in a mm3 of a drawer: 8.5 lb in a cubic foot (from memory for this edition)."""
CARPET = 10.9
"""mm: block under the back feet in the test on carpet, 0.43 in (from memory)."""
PUSH, REACH = 4.54, 1422.0
"""kg (10 lbf) pushed at the top edge, at most 56 in up (from memory)."""
GRAVITY = 9.80665
"""m/s2: a load of so many newtons weighs a kilogram."""
STANDS = 1.0
"""mm: what is so near to the lowest point stands on the floor."""


@dataclass(frozen=True)
class Trial:
    """One way it is tried: toward which side, and the moment about the feet there, kg mm; above 0 it tips."""

    toward: Face
    what: str
    moment: float
    mass: float
    depth: float

    @property
    def tips(self) -> bool:
        return self.moment > 0

    @property
    def forward(self) -> float:
        """How much farther out those feet would have to stand."""
        return self.moment / self.mass

    @property
    def ballast(self) -> float:
        """What would have to lie above the feet behind."""
        return self.moment / self.depth


def is_free_standing(piece: Piece) -> bool:
    """A part that stays on the wall carries the piece."""
    return not any(part.stays_on for part in piece.parts)


def is_anchored(piece: Piece) -> bool:
    """A tip restraint is put on it."""
    restraints = {item.id for item in piece.items if item.kind == "tip restraint"}
    return any(placed.item in restraints for placed in piece.hardware)


def trials(piece: Piece, solids: Solids) -> tuple[Trial, ...]:
    """Every trial of what opens toward a side; () for a piece that hangs or has nothing that opens."""
    boxes = {(part.id, copy): part.box(copy, part.extent) for part in piece.parts for copy in range(len(part.copies))}
    opening = [(mover, way) for mover in movers(piece, boxes) if (way := mover.moves.opens or mover.moves.swings)]
    if not is_free_standing(piece) or not opening:
        return ()
    weights = {key: weigh(piece, solids, key) for key in boxes}
    sides = [way for way in dict.fromkeys(way for _, way in opening) if way.axis is not Axis.BOTTOM_TOP]
    tried = [_Tried(piece, boxes, weights, side, tuple(mover for mover, way in opening if way is side)) for side in sides]
    return tuple(trial for each in tried for trial in each.trials())


def needs_a_warning(piece: Piece, solids: Solids) -> bool:
    """Whether its owner is told to anchor it: it tips in a trial, or is so large that the tests apply, or more than twice as
    high as deep (common practice) with doors or drawers."""
    found = trials(piece, solids)
    whole = hull([part.box(copy, part.extent) for part in piece.parts for copy in range(len(part.copies))])
    slender = whole.size(Axis.BOTTOM_TOP) > 2 * whole.size(Axis.FRONT_BACK)
    return bool(found) and (slender or any(each.tips or each.what in _TESTS for each in found))


_OPEN = "everything open and filled as the design says"
_CHILD, _PUSH = "everything open and filled, and a child of 60 lb (27 kg) on one of them", "everything open, pushed at the top"
_TESTS = (_CHILD, _PUSH)


@dataclass(frozen=True)
class _Tried:
    """A piece tried toward one side, with all that opens that way."""

    piece: Piece
    boxes: Mapping[Key, Box]
    weights: Mapping[Key, Weighed]
    side: Face
    open: tuple[Mover, ...]

    def trials(self) -> Iterator[Trial]:
        own = [*self._standing(), *(each for mover in self.open for each in self._filled(mover, clothes=False))]
        yield self._trial(_OPEN, own, 0.0)
        if self._in_scope():
            filled = [*self._standing(), *(each for mover in self.open for each in self._filled(mover, clothes=True))]
            yield self._trial(_CHILD, [*filled, max((self._child(mover) for mover in self.open), key=self._out)], CARPET)
            height = hull(list(self.boxes.values())).size(Axis.BOTTOM_TOP)
            yield self._trial(_PUSH, filled, 0.0, PUSH * min(height, REACH))

    def _trial(self, what: str, weights: list[Weighed], raised: float, pushed: float = 0.0) -> Trial:
        floor = min(box.along(Axis.BOTTOM_TOP).low for box in self.boxes.values())
        tilt = math.atan(raised / self._depth)
        lean = [each.mass * (each.centre[2] - floor) * math.sin(tilt) for each in weights]
        moment = sum(each.mass * self._out(each) for each in weights) * math.cos(tilt) + sum(lean) + pushed
        return Trial(self.side, what, moment, sum(each.mass for each in weights), self._depth)

    def _in_scope(self) -> bool:
        whole = hull(list(self.boxes.values()))
        mass = sum(each.mass for each in self.weights.values())
        room = sum(self._room(mover) for mover in self.open)
        return whole.size(Axis.BOTTOM_TOP) >= HEIGHT and mass >= MASS and room >= VOLUME

    def _room(self, mover: Mover) -> float:
        """What a drawer holds; of a door half of the room behind it, down to the back of the piece."""
        if mover.moves.opens:
            return mover.box.volume
        across = [mover.box.size(axis) for axis in Axis if axis is not self.side.axis]
        return across[0] * across[1] * hull(list(self.boxes.values())).size(self.side.axis) / 2

    # ------------------------------------------------------------ places

    @property
    def _feet(self) -> Box:
        low = min(box.along(Axis.BOTTOM_TOP).low for box in self.boxes.values())
        return hull([box for box in self.boxes.values() if box.along(Axis.BOTTOM_TOP).low < low + STANDS])

    @property
    def _depth(self) -> float:
        return self._feet.size(self.side.axis)

    def _out(self, weight: Weighed) -> float:
        """How far beyond the feet on this side."""
        return self.side.sign * (weight.centre[self.side.axis.value] - self._feet.at(self.side))

    def _standing(self) -> list[Weighed]:
        """Every part, those that open moved out."""
        moving = {key: mover for mover in self.open for key in mover.keys}
        return [self._opened(moving[key], each) if key in moving else each for key, each in self.weights.items()]

    def _opened(self, mover: Mover, weight: Weighed) -> Weighed:
        """A drawer drawn out, a door turned square to the front."""
        moves, axis, centre = mover.moves, self.side.axis.value, list(weight.centre)
        if moves.opens:
            centre[axis] += self.side.sign * moves.by
        elif moves.about:
            far = abs(weight.centre[moves.about.axis.value] - mover.box.at(moves.about))
            centre[axis] = mover.box.at(self.side) + self.side.sign * far
        return Weighed(weight.mass, (centre[0], centre[1], centre[2]))

    def _filled(self, mover: Mover, clothes: bool) -> Iterator[Weighed]:
        """Its stated load; a drawer for which none is said is filled with clothes where the tests apply."""
        ids = [id for id, _ in mover.keys]
        loads = [load for load in self.piece.loads if load.on in ids]
        for load in loads:
            share = len(self.piece.part(load.on).copies) if load.shared else 1
            mass = load.newtons / GRAVITY / share * ids.count(load.on)
            yield self._opened(mover, Weighed(mass, mover.box.centre))
        if clothes and not loads and mover.moves.opens:
            yield self._opened(mover, Weighed(CLOTHES * mover.box.volume, mover.box.centre))

    def _child(self, mover: Mover) -> Weighed:
        """At the outer edge of what is open."""
        edge = list(mover.box.centre)
        if mover.moves.opens:
            edge[self.side.axis.value] = mover.box.at(self.side)
        elif mover.moves.about:
            edge[mover.moves.about.axis.value] = mover.box.at(mover.moves.about.opposite)
        return self._opened(mover, Weighed(CHILD, (edge[0], edge[1], edge[2])))
