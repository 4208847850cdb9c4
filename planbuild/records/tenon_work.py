"""What is cut into a tenon besides its mitre and its kerfs, and what is left standing beside it.

Positions are those of the drawn copy, in the frame of the piece.  Units: mm.
"""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.geometry import Axis, Box, Face, Span1, Vec


@dataclass(frozen=True)
class Haunch:
    """A short step left standing beside a tenon, at its `face`: `box` reaches from the shoulder to its end and from the
    tenon to the edge of the board.  Sloped, it is as long as that beside the tenon and runs to nothing at the edge."""

    face: Face
    box: Box
    sloped: bool


@dataclass(frozen=True)
class Keyway:
    """The mortise in a through tenon for the key (tusk) that draws it tight from outside.

    It goes through the tenon from `face`, where the key is driven in.  `plane` is where its middle lies along `across`,
    `width` its size that way.  Along the tenon its inner wall lies `start` from the shoulder, square all the way down; its
    outer wall lies `length` farther out at `face` and slopes inward by `slope` (rise over run) on the way through.
    """

    face: Face
    across: Axis
    plane: float
    width: float
    start: float
    length: float
    slope: float
    key: str
    """Id of the part that is the key."""

    @property
    def walls(self) -> Span1:
        """From wall to wall across the tenon."""
        return Span1(self.plane - self.width / 2, self.plane + self.width / 2)

    def length_at(self, depth: float) -> float:
        """From the inner to the outer wall, `depth` below the face where the key is driven in."""
        return self.length - self.slope * depth

    def mouth(self, block: Box, end: Face, face: Face) -> Box:
        """The opening as it shows on one face of the tenon, a box without thickness."""
        depth = 0.0 if face is self.face else block.size(face.axis)
        inner = block.at(end.opposite) + end.sign * self.start
        along = sorted((inner, inner + end.sign * self.length_at(depth)))
        spot = Span1(block.at(face), block.at(face))
        return Box.of({end.axis: Span1(along[0], along[1]), self.across: self.walls, face.axis: spot})


@dataclass(frozen=True)
class PegHole:
    """A round hole through a tenon, square to its cheeks, for a peg that is driven in from `face`.

    Its middle lies at `plane` along `across`, and `start` from the shoulder: `draw` nearer to it than the hole in the mate,
    so that the peg draws the shoulder tight.
    """

    face: Face
    across: Axis
    plane: float
    start: float
    diameter: float
    draw: float
    peg: str
    """Id of the part that is the peg."""

    def middle(self, block: Box, end: Face) -> float:
        """Where its middle lies along the tenon `block` at `end`."""
        return block.at(end.opposite) + end.sign * self.start

    def mouth(self, block: Box, end: Face, face: Face) -> Box:
        """The square around the hole as it shows on one face of the tenon, a box without thickness."""
        middles = {end.axis: self.middle(block, end), self.across: self.plane}
        half, spot = self.diameter / 2, Span1(block.at(face), block.at(face))
        spans = {axis: Span1(middle - half, middle + half) for axis, middle in middles.items()}
        return Box.of({**spans, face.axis: spot})


@dataclass(frozen=True)
class Bend:
    """How a straight part lies once it is driven home: what of it is `between` two places along its grain is moved aside."""

    between: Span1
    by: Vec
