"""Dovetails and fingers: a row of them is one feature on either part, cut to the same numbers.

What one part keeps the other loses, so both records hold the same `Comb`.  Boxes and positions as in
`records.features`.  Units: mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import ClassVar

from planbuild.core.geometry import TINY, Axis, Box, Face, Motion, Span1
from planbuild.records.features import Feature, Mate

Trapezium = tuple[tuple[float, float], tuple[float, float]]
"""A stretch at the base line and the stretch at the tips."""


@dataclass(frozen=True)
class Slim:
    """How a tail narrows along the way it goes in, so that it is tight only when it is home: from the end of its comb at
    `wide` to the other end, its flank toward `side` comes in by `by` (mm)."""

    wide: Face
    side: Face
    by: float

    def moved(self, motion: Motion) -> Slim:
        return Slim(motion.face(self.wide), motion.face(self.side), self.by)

    def is_like(self, other: Slim | None) -> bool:
        return other is not None and (self.wide, self.side) == (other.wide, other.side) and abs(self.by - other.by) < TINY


@dataclass(frozen=True)
class Comb:
    """Tails side by side.  `block` is all the wood that both parts share out, from the base line to the tips, which lie
    toward `tip`; `tails` are the tails at their tips, the low one first along `spread`.  From the tips to the base line
    each flank comes in by `slope` (rise over run); 0 gives fingers.  A single tail may be `slim`; all sizes are then those
    at its wide end."""

    block: Box
    tip: Face
    spread: Axis
    tails: tuple[Span1, ...]
    slope: float
    slim: Slim | None = None

    @property
    def run(self) -> Axis:
        """The way the tails go in, along which they are alike."""
        (axis,) = (each for each in Axis if each not in (self.tip.axis, self.spread))
        return axis

    @property
    def depth(self) -> float:
        return self.block.size(self.tip.axis)

    @property
    def lean(self) -> float:
        """How far a flank comes in over its whole length."""
        return self.depth * self.slope

    def neck(self, tail: Span1) -> Span1:
        """A tail where it is narrowest, at the base line."""
        return Span1(tail.low + self.lean, tail.high - self.lean)

    def narrow(self, wide: Span1) -> Span1:
        """What is left of a tail, or of its neck, at its narrow end."""
        if self.slim is None:
            return wide
        return Span1(wide.low + self.slim.by, wide.high) if self.slim.side.sign < 0 else Span1(wide.low, wide.high - self.slim.by)

    @property
    def gaps(self) -> tuple[Trapezium, ...]:
        """What lies beside the tails, (at the base line, at the tips) each: the pins."""
        whole, lean = self.block.along(self.spread), self.lean
        found: list[Trapezium] = []
        for before, after in pairwise((None, *self.tails, None)):
            low, low_lean = (before.high, lean) if before else (whole.low, 0.0)
            high, high_lean = (after.low, lean) if after else (whole.high, 0.0)
            found.append(((low - low_lean, high + high_lean), (low, high)))
        return tuple(each for each in found if max(high - low for low, high in each) > TINY)

    @property
    def sides(self) -> tuple[Trapezium, ...]:
        """The tails, (at the base line, at the tips) each."""
        return tuple(((neck.low, neck.high), (tail.low, tail.high)) for tail in self.tails for neck in (self.neck(tail),))

    @property
    def even(self) -> bool:
        """True if all tails are alike, the same way apart, and as far from one edge as from the other."""
        widths = [tail.size for tail in self.tails]
        whole = self.block.along(self.spread)
        ends = (self.tails[0].low - whole.low, whole.high - self.tails[-1].high)
        return all(max(each) - min(each) < TINY for each in (widths, self.between or (0.0,), ends))

    @property
    def between(self) -> tuple[float, ...]:
        """The room between the tips of each two neighbours."""
        return tuple(after.low - before.high for before, after in pairwise(self.tails))

    @property
    def flanks(self) -> float:
        """Area of all flanks that touch wood of the mate, mm2."""
        whole = self.block.along(self.spread)
        bare = sum(end < TINY for end in (self.tails[0].low - whole.low, whole.high - self.tails[-1].high))
        run = self.block.size(self.run)
        straight = (2 * len(self.tails) - bare) * self.depth * math.hypot(1.0, self.slope) * run
        if self.slim is None:
            return straight
        return straight / 2 + self.depth * math.hypot(run, self.slope * run, self.slim.by)

    def moved(self, motion: Motion) -> Comb:
        spread = motion.axis(self.spread)
        laid = [motion.box(self.block.with_span(self.spread, tail)).along(spread) for tail in self.tails]
        tails = tuple(sorted(laid, key=lambda tail: tail.low))
        slim = self.slim.moved(motion) if self.slim else None
        return Comb(motion.box(self.block), motion.face(self.tip), spread, tails, self.slope, slim)

    def is_like(self, other: Comb) -> bool:
        """True if the two are the same within the width of a hair."""
        if (self.tip, self.spread, len(self.tails)) != (other.tip, other.spread, len(other.tails)):
            return False
        if not (self.slim.is_like(other.slim) if self.slim else other.slim is None):
            return False
        pairs = [(self.block.along(axis), other.block.along(axis)) for axis in Axis]
        pairs += zip(self.tails, other.tails, strict=True)
        near = all(abs(a.low - b.low) < TINY and abs(a.high - b.high) < TINY for a, b in pairs)
        return near and abs(self.slope - other.slope) * self.depth < TINY


@dataclass(frozen=True)
class Tails(Feature):
    """What is left standing at the end of a board when the wood beside the tails is cut away.

    `what` is the trade's word: tails, tail (a single one), fingers.
    """

    kind: ClassVar[str] = "tails"
    comb: Comb
    mate: Mate
    what: str = "tails"

    @property
    def end(self) -> Face:
        return self.comb.tip

    def moved(self, motion: Motion) -> Tails:
        return replace(self, comb=self.comb.moved(motion))


@dataclass(frozen=True)
class Sockets(Feature):
    """What the tails of the mate take: their own shape, open at `face`.

    `what` is the trade's word: pins (for what they leave between them), housing (a single long one), socket, fingers.
    """

    kind: ClassVar[str] = "sockets"
    comb: Comb
    mate: Mate
    what: str = "pins"

    @property
    def face(self) -> Face:
        return self.comb.tip.opposite

    @property
    def mouth(self) -> Span1 | None:
        """Of a housing or a socket for one tail: where its walls lie in the face; None for a row."""
        return self.comb.neck(self.comb.tails[0]) if self.what in ("housing", "socket") else None

    def moved(self, motion: Motion) -> Sockets:
        return replace(self, comb=self.comb.moved(motion))
