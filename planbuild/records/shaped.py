"""Shapes beyond tapers, arches and eased edges: flat outlines sawn square to a face.

All positions are those of the drawn copy of a part, in the frame of the piece.  Units: mm, degrees.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from planbuild.core.geometry import TINY, Box, Face, Span1
from planbuild.core.outlines import Corner
from planbuild.records.features import Feature, Mate


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
