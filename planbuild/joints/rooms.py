"""Room for wood to move, measured from where parts and grooves stand: panels in grooves, and what opens in an opening.

Apart from the joints that sized it: the proofs measure with it, and the plan tells the gaps of the day by it.
Units: mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Box, Face
from planbuild.core.seasons import change
from planbuild.joints.movers import Mover, movers
from planbuild.joints.proportions import movement_coefficient
from planbuild.records.features import Groove
from planbuild.records.piece import Joint, Part, Piece

PANELS = "panel in groove"
HAIR = 1.0
"""mm; what overlaps by less does not face each other."""
NEAR = 10.0
"""mm; what stands farther from a door or a drawer is not what it closes against."""

Key = tuple[str, int]


def across(part: Part, copy: int) -> Axis:
    """The direction in which a standing copy moves most: across its grain, along its width."""
    return part.copies[copy].motion.axis(part.width_axis)


def grows(piece: Piece, part: Part, size: float, moisture: float, now: float | None = None) -> float:
    """What a size across the grain gains from the workshop (or from `now`) to another moisture; 0 where nothing is known."""
    start = piece.moisture[2] if now is None else now
    return change(size, movement_coefficient(piece.stock_of(part)) or 0.0, start, moisture)


# ---------------------------------------------------------------- panels


@dataclass(frozen=True)
class Held:
    """One edge of a panel in its groove: the room behind it, and how far it stands in."""

    room: float
    engaged: float


@dataclass(frozen=True)
class Floating:
    """A panel held at both edges across its grain, which moves in its grooves."""

    joint: Joint
    part: Part
    copy: int
    width: float
    low: Held
    high: Held

    @property
    def room(self) -> float:
        return self.low.room + self.high.room


def floating(piece: Piece) -> Iterator[Floating]:
    """Every solid panel that stands square to the piece, copy by copy."""
    for joint in (each for each in piece.joints if each.kind == PANELS):
        for id in dict.fromkeys(contact.a[0] for contact in joint.contacts):
            part = piece.part(id)
            if part.pose is None and piece.stock_of(part).sheet is None:
                for copy in range(len(part.copies)):
                    found = _floating(piece, joint, part, copy)
                    if found:
                        yield found


def _floating(piece: Piece, joint: Joint, part: Part, copy: int) -> Floating | None:
    body, axis = part.copies[copy].motion.box(part.body), across(part, copy)
    span, edges = body.along(axis), {}
    for face, void in _grooves(piece, joint, part.id):
        if face.axis is axis and void.meet(body).is_solid:
            reach = void.along(axis)
            if face.sign > 0:
                edges["low"] = Held(span.low - reach.low, reach.high - span.low)
            else:
                edges["high"] = Held(reach.high - span.high, span.high - reach.low)
    return Floating(joint, part, copy, span.size, edges["low"], edges["high"]) if len(edges) == 2 else None


def _grooves(piece: Piece, joint: Joint, panel: str) -> Iterator[tuple[Face, Box]]:
    """The grooves that take a panel, as they stand: where each opens, and its room."""
    for part in piece.parts:
        for groove in part.features:
            if isinstance(groove, Groove) and groove.joint == joint.id and groove.mate and groove.mate.part == panel:
                for copy in part.copies:
                    yield copy.motion.face(groove.face), copy.motion.box(groove.void)


# ---------------------------------------------------------------- doors and drawers


@dataclass(frozen=True)
class Gap:
    """Where something that opens closes beside what stays: the room it has there (`both` sides together, or its `half` of
    a gap that it shares with another), and the widths that swell into it.

    `keys` are the solid parts whose width lies one behind the other in that direction.
    """

    mover: Mover
    axis: Axis
    beside: Key
    room: float
    keys: tuple[Key, ...]
    both: bool
    half: bool

    def swells(self, piece: Piece, boxes: Mapping[Key, Box], moisture: float) -> float:
        return sum(grows(piece, piece.part(id), boxes[id, copy].size(self.axis), moisture) for id, copy in self.keys)


def gaps(piece: Piece, boxes: Mapping[Key, Box]) -> Iterator[Gap]:
    """The narrowest gap in each direction of each thing that opens, where wood swells into it."""
    found = movers(piece, boxes)
    loose = {(each.part.id, each.copy) for each in floating(piece)}
    for mover in found:
        room = piece.room_of(mover.keys[0][0])
        around = {key: box for key, box in boxes.items() if piece.room_of(key[0]) == room}
        near = _Beside(piece, around, mover, loose, {key for other in found if other is not mover for key in other.keys})
        facing = mover.moves.opens or mover.moves.swings
        for axis in (each for each in Axis if facing and each is not facing.axis):
            open_ = [gap for key in mover.keys if (gap := near.gap(key, axis))]
            if open_:
                yield min(open_, key=lambda gap: gap.room - gap.swells(piece, boxes, piece.moisture[1]))


@dataclass(frozen=True)
class _Beside:
    """A thing that opens among what stands beside it: `loose` are panels with room of their own, `moving` what opens too."""

    piece: Piece
    boxes: Mapping[Key, Box]
    mover: Mover
    loose: set[Key]
    moving: set[Key]

    def gap(self, key: Key, axis: Axis) -> Gap | None:
        """None where nothing swells, or nothing stands near.  A door cannot give way toward its hinges; two that meet
        share what is between them."""
        line, about = self._line(key, axis), self.mover.moves.about
        chain = tuple(each for each in line if across(self.piece.part(each[0]), each[1]) is axis and self._swells(each))
        ends = {axis.low: min(line, key=lambda each: self.boxes[each].along(axis).low)}
        ends[axis.high] = max(line, key=lambda each: self.boxes[each].along(axis).high)
        beside = [near for face, end in ends.items() if face is not about and (near := self._nearest(end, face))]
        if not chain or not beside:
            return None
        room = sum(distance / 2 if other in self.moving else distance for other, distance in beside)
        halved = any(other in self.moving for other, _ in beside)
        return Gap(self.mover, axis, beside[0][0], room, chain, both=len(beside) == 2, half=halved)

    def _line(self, key: Key, axis: Axis) -> tuple[Key, ...]:
        """What lies in one line with `key`, one behind the other, and itself."""
        own = self.boxes[key]
        return (key, *(each for each in self.mover.keys if each not in self.loose and _in_line(own, self.boxes[each], axis)))

    def _swells(self, key: Key) -> bool:
        return bool(movement_coefficient(self.piece.stock_of(self.piece.part(key[0]))))

    def _nearest(self, key: Key, face: Face) -> tuple[Key, float] | None:
        """What stands next to a moving part on one of its sides, outside of what moves with it, and how far away."""
        own, still = self.boxes[key], (each for each in self.boxes if each not in self.mover.keys)
        beside = [(_distance(own, self.boxes[each], face), each) for each in still if _overlap(own, self.boxes[each], face.axis)]
        near = min((each for each in beside if -0.5 < each[0] < NEAR), default=None)
        return (near[1], max(near[0], 0.0)) if near else None


def _in_line(one: Box, other: Box, axis: Axis) -> bool:
    """True if the other lies beyond the one along the axis, beside it in no other direction."""
    first, second = one.along(axis), other.along(axis)
    return (second.low > first.high - TINY or second.high < first.low + TINY) and _overlap(one, other, axis)


def _overlap(one: Box, other: Box, axis: Axis) -> bool:
    """True if they face each other along the axis over more than a hair."""
    sides = [(one.along(each), other.along(each)) for each in axis.others]
    return all(min(a.high, b.high) - max(a.low, b.low) > HAIR for a, b in sides)


def _distance(own: Box, other: Box, face: Face) -> float:
    one, beyond = own.along(face.axis), other.along(face.axis)
    return beyond.low - one.high if face.sign > 0 else one.low - beyond.high
