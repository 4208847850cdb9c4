"""Slots sawn square into a mitre: for a spline before it is glued, for a key across the corner when it stands.

Measured on the drawn copy of a part.  Units: mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from planbuild.core.geometry import Axis, Box, Face, Motion, Span1
from planbuild.records.features import Feature, Mate

Flat = tuple[float, float]

_FAR = 1e5


@dataclass(frozen=True)
class CornerSlot(Feature):
    """One half of a slot, in the part whose mitred `end` meets the `side` at the outer corner.

    Two ways are told of it: along the mitre, from the outer corner inward, it lies between `start` and `stop`; square to
    the mitre it goes `deep` into the wood, None: right through to the outer face.  Along the edge of the corner it is as
    wide as `across`.  `reach` is how much shorter than its `side` the mitre leaves the part's other face.
    """

    kind: ClassVar[str] = "corner slot"
    end: Face
    side: Face
    reach: float
    across: Span1
    start: float
    stop: float
    deep: float | None
    what: str
    mate: Mate

    @property
    def axis(self) -> Axis:
        """The way in which the edge of the corner runs."""
        (axis,) = (each for each in Axis if each not in (self.end.axis, self.side.axis))
        return axis

    @property
    def thickness(self) -> float:
        """Of the spline or key that it takes."""
        return self.across.size if self.deep is None else min(self.across.size, self.stop - self.start)

    def mitre(self, body: Box) -> float:
        """Length of the mitre from the outer corner to the inner one."""
        return math.hypot(self.reach, body.size(self.side.axis))

    def place(self, body: Box, u: float, v: float) -> Flat:
        """The places along the grain and along the axis of `side` of a point `u` along the mitre and `v` into the wood."""
        grain, beside, long = self.reach, body.size(self.side.axis), self.mitre(body)
        inward = (u * grain + v * beside) / long, (u * beside - v * grain) / long
        return body.at(self.end) - self.end.sign * inward[0], body.at(self.side) - self.side.sign * inward[1]

    def profile(self, body: Box) -> list[Flat]:
        """The corners, as (u, v), of what it takes from the wood of this part."""
        grain, beside, long = self.reach, body.size(self.side.axis), self.mitre(body)
        deep = _FAR if self.deep is None else self.deep
        rim: list[Flat] = [(self.start, 0.0), (self.stop, 0.0), (self.stop, deep), (self.start, deep)]
        rim = _kept(rim, (beside / long, -grain / long), 0.0)
        return _kept(rim, (-beside / long, grain / long), -beside)

    def region(self, body: Box) -> Box:
        """The box around what it takes."""
        points = [self.place(body, u, v) for u, v in self.profile(body)]
        found = body.with_span(self.axis, self.across)
        for axis, places in zip((self.end.axis, self.side.axis), zip(*points, strict=True), strict=True):
            found = found.with_span(axis, Span1(min(places), max(places)))
        return found

    def moved(self, motion: Motion) -> CornerSlot:
        """The same on a copy."""
        axis = self.axis
        x, y, z = ((self.across.low, self.across.high) if each is axis else (0.0, 0.0) for each in Axis)
        ends = [motion.point((x[i], y[i], z[i]))[motion.axis(axis).value] for i in (0, 1)]
        return replace(self, end=motion.face(self.end), side=motion.face(self.side), across=Span1(min(ends), max(ends)))


def _kept(rim: Sequence[Flat], way: Flat, least: float) -> list[Flat]:
    """A convex outline without what lies less than `least` far along a way (Sutherland and Hodgman's clipping)."""
    found: list[Flat] = []
    heights = [point[0] * way[0] + point[1] * way[1] - least for point in rim]
    for index, (point, height) in enumerate(zip(rim, heights, strict=True)):
        before, lower = rim[index - 1], heights[index - 1]
        if (height < 0.0) is not (lower < 0.0):
            share = lower / (lower - height)
            found.append((before[0] + share * (point[0] - before[0]), before[1] + share * (point[1] - before[1])))
        if height >= 0.0:
            found.append(point)
    return found
