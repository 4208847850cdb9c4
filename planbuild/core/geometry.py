"""Plain numbers in space: axes, faces, boxes and motions of the piece.

Apart from the CAD kernel so that placing, joining and listing never load it.

Frame of everything: x runs left to right, y front to back, z bottom to top, right-handed, with the
origin at the left front bottom corner of the design's frame.  Units: model mm.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from functools import reduce

Vec = tuple[float, float, float]

TINY = 0.01
"""Two planes nearer than this (mm) are one plane: far below any saw, far above rounding noise."""


class Axis(Enum):
    """A direction of the piece, named by the faces at its two ends."""

    LEFT_RIGHT = 0
    FRONT_BACK = 1
    BOTTOM_TOP = 2

    @property
    def low(self) -> Face:
        return _LOW[self]

    @property
    def high(self) -> Face:
        return _HIGH[self]

    @property
    def others(self) -> tuple[Axis, Axis]:
        first, second = (axis for axis in Axis if axis is not self)
        return first, second

    @property
    def words(self) -> str:
        return self.name.lower().replace("_", "-")


class Face(Enum):
    """A face of a box, named as seen by someone standing in front of the piece."""

    LEFT = "left"
    RIGHT = "right"
    FRONT = "front"
    BACK = "back"
    BOTTOM = "bottom"
    TOP = "top"

    @property
    def axis(self) -> Axis:
        return _AXIS[self]

    @property
    def sign(self) -> int:
        """-1 for left, front, bottom; +1 for right, back, top."""
        return -1 if self in (Face.LEFT, Face.FRONT, Face.BOTTOM) else 1

    @property
    def opposite(self) -> Face:
        return self.axis.low if self.sign > 0 else self.axis.high

    @property
    def normal(self) -> Vec:
        """Unit vector pointing out of the wood."""
        return _unit(self.axis, float(self.sign))


_LOW = {Axis.LEFT_RIGHT: Face.LEFT, Axis.FRONT_BACK: Face.FRONT, Axis.BOTTOM_TOP: Face.BOTTOM}
_HIGH = {Axis.LEFT_RIGHT: Face.RIGHT, Axis.FRONT_BACK: Face.BACK, Axis.BOTTOM_TOP: Face.TOP}
_AXIS = {face: axis for table in (_LOW, _HIGH) for axis, face in table.items()}


def _unit(axis: Axis, length: float) -> Vec:
    x, y, z = (length if each is axis else 0.0 for each in Axis)
    return x, y, z


@dataclass(frozen=True)
class Span1:
    """A stretch from `low` to `high` along one axis.  Units: mm."""

    low: float
    high: float

    @property
    def size(self) -> float:
        return self.high - self.low

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2

    def meet(self, other: Span1) -> Span1:
        """The common stretch; its size is negative where there is a gap."""
        return Span1(max(self.low, other.low), min(self.high, other.high))

    def join(self, other: Span1) -> Span1:
        return Span1(min(self.low, other.low), max(self.high, other.high))


@dataclass(frozen=True)
class Box:
    """A block with its faces square to the axes of the piece.  Units: mm."""

    x: Span1
    y: Span1
    z: Span1

    @staticmethod
    def of(spans: dict[Axis, Span1]) -> Box:
        return Box(spans[Axis.LEFT_RIGHT], spans[Axis.FRONT_BACK], spans[Axis.BOTTOM_TOP])

    def along(self, axis: Axis) -> Span1:
        return (self.x, self.y, self.z)[axis.value]

    def at(self, face: Face) -> float:
        """Where a face lies along its axis."""
        span = self.along(face.axis)
        return span.low if face.sign < 0 else span.high

    def size(self, axis: Axis) -> float:
        return self.along(axis).size

    @property
    def centre(self) -> Vec:
        return self.x.middle, self.y.middle, self.z.middle

    @property
    def volume(self) -> float:
        return self.x.size * self.y.size * self.z.size

    def with_span(self, axis: Axis, span: Span1) -> Box:
        return Box.of({each: span if each is axis else self.along(each) for each in Axis})

    def grown(self, face: Face, size: float) -> Box:
        """The same block, standing further out at one face."""
        span = self.along(face.axis)
        out = Span1(span.low - size, span.high) if face.sign < 0 else Span1(span.low, span.high + size)
        return self.with_span(face.axis, out)

    def meet(self, other: Box) -> Box:
        return Box(self.x.meet(other.x), self.y.meet(other.y), self.z.meet(other.z))

    def join(self, other: Box) -> Box:
        return Box(self.x.join(other.x), self.y.join(other.y), self.z.join(other.z))

    @property
    def is_solid(self) -> bool:
        return min(self.x.size, self.y.size, self.z.size) > TINY


def remainder(box: Box, void: Box) -> tuple[Box, ...]:
    """What is left of a box when another one is cut out of it, in as few boxes as a cut along each side gives."""
    taken = box.meet(void)
    if not taken.is_solid:
        return (box,)
    left, found = box, []
    for axis in Axis:
        span, cut = left.along(axis), taken.along(axis)
        beside = (Span1(span.low, cut.low), Span1(cut.high, span.high))
        found += [left.with_span(axis, each) for each in beside if each.size > TINY]
        left = left.with_span(axis, cut)
    return tuple(found)


def hull(boxes: list[Box]) -> Box:
    """Smallest box around all the boxes; there must be at least one."""
    return reduce(Box.join, boxes)


@dataclass(frozen=True)
class Motion:
    """Where a copy stands: along axis i a point p of the drawn part goes to `sign[i] * p[order[i]] + shift[i]`.

    A sign of -1 mirrors in that direction; an `order` other than (0, 1, 2) turns the part by quarter turns,
    so that its axes change places.  Copies are never turned by any other angle.
    """

    sign: tuple[int, int, int] = (1, 1, 1)
    shift: Vec = (0.0, 0.0, 0.0)
    order: tuple[int, int, int] = (0, 1, 2)

    @property
    def mirrors(self) -> bool:
        """True if the copy is of the other hand (the determinant of the motion is negative)."""
        swapped = sum(self.order[i] > self.order[j] for i, j in ((0, 1), (0, 2), (1, 2))) % 2 == 1
        return (self.sign[0] * self.sign[1] * self.sign[2] < 0) is not swapped

    def point(self, p: Vec) -> Vec:
        x, y, z = (s * p[o] + d for s, o, d in zip(self.sign, self.order, self.shift, strict=True))
        return x, y, z

    def direction(self, v: Vec) -> Vec:
        x, y, z = (s * v[o] for s, o in zip(self.sign, self.order, strict=True))
        return x, y, z

    def axis(self, axis: Axis) -> Axis:
        """The direction in which what ran along `axis` on the drawn copy runs on this one."""
        return Axis(self.order.index(axis.value))

    def face(self, face: Face) -> Face:
        axis = self.axis(face.axis)
        return axis.high if face.sign * self.sign[axis.value] > 0 else axis.low

    def box(self, box: Box) -> Box:
        spans = {}
        for axis in Axis:
            of = box.along(Axis(self.order[axis.value]))
            ends = [self.sign[axis.value] * end + self.shift[axis.value] for end in (of.low, of.high)]
            spans[axis] = Span1(min(ends), max(ends))
        return Box.of(spans)

    def after(self, first: Motion) -> Motion:
        """This motion done after another one."""
        sx, sy, sz = (s * first.sign[o] for s, o in zip(self.sign, self.order, strict=True))
        ox, oy, oz = (first.order[o] for o in self.order)
        return Motion((sx, sy, sz), self.point(first.shift), (ox, oy, oz))

    @property
    def inverse(self) -> Motion:
        """The motion that takes this copy back onto the drawn one."""
        back = [self.order.index(axis) for axis in range(3)]
        sx, sy, sz = (self.sign[i] for i in back)
        dx, dy, dz = (-self.sign[i] * self.shift[i] for i in back)
        return Motion((sx, sy, sz), (dx, dy, dz), (back[0], back[1], back[2]))


QUARTER_TURNS = (
    Motion(),
    Motion((-1, 1, 1), order=(1, 0, 2)),
    Motion((-1, -1, 1)),
    Motion((1, -1, 1), order=(1, 0, 2)),
)
"""Turns about the vertical through the origin by 0, 90, 180 and 270 degrees, anticlockwise as seen from above."""
