"""Slanted pockets for screws: bored with a stepped bit from a face of a part, out at its end or edge.

Measured on the drawn copy of a part in its own straight frame, like all features.  Units: mm, degrees.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import ClassVar

from planbuild.core.geometry import Axis, Box, Face, Motion, Span1, Vec
from planbuild.core.poses import along
from planbuild.records.features import Feature, Mate


@dataclass(frozen=True)
class Pocket(Feature):
    """Bored into `face` at `angle` degrees to it, toward `end`.

    Its centre line leaves the part at `exit`, a point of the end that lies `deep` below the face.  The wide part of the
    bit, of `width`, stops square to its own way and leaves `shoulder` of wood under the head, measured along the screw;
    the narrow part, of `diameter`, goes on through the end.
    """

    kind: ClassVar[str] = "pocket"
    face: Face
    end: Face
    exit: Vec
    deep: float
    angle: float
    width: float
    shoulder: float
    diameter: float
    mate: Mate
    gauge: str = ""

    @property
    def side(self) -> Axis:
        """The direction square to the plane in which the bit goes in."""
        (axis,) = (each for each in Axis if each not in (self.face.axis, self.end.axis))
        return axis

    @property
    def way(self) -> Vec:
        """Unit vector along the bit into the wood."""
        cos, sin = math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle))
        x, y, z = (e * cos - f * sin for e, f in zip(self.end.normal, self.face.normal, strict=True))
        return x, y, z

    @property
    def mouth(self) -> Vec:
        """Where the centre line goes in, on the face."""
        return along(self.exit, self.way, -self.deep / math.sin(math.radians(self.angle)))

    @property
    def floor(self) -> Vec:
        """The middle of the step under the head."""
        return along(self.exit, self.way, -self.shoulder)

    @property
    def from_end(self) -> float:
        """How far its middle on the face is from the end."""
        return self.deep / math.tan(math.radians(self.angle))

    @property
    def length(self) -> float:
        """How long its mouth is on the face, from rim to rim (plane geometry)."""
        return self.width / math.sin(math.radians(self.angle))

    @property
    def bore(self) -> float:
        """How long the wide part is along its middle, from the face."""
        return self.deep / math.sin(math.radians(self.angle)) - self.shoulder

    @property
    def room(self) -> Box:
        """The block around all that it takes: from the far rim of its mouth to the end."""
        far = self.exit[self.end.axis.value] - self.end.sign * (self.from_end + self.length / 2)
        half = self.width / 2 * math.cos(math.radians(self.angle))
        narrow = self.diameter / 2 / math.cos(math.radians(self.angle))
        deepest = self.deep + max(narrow, half - self.shoulder * math.sin(math.radians(self.angle)))
        surface = self.exit[self.face.axis.value] + self.face.sign * self.deep
        spans = {
            self.side: Span1(self.exit[self.side.value] - self.width / 2, self.exit[self.side.value] + self.width / 2),
            self.end.axis: Span1(*sorted((far, self.exit[self.end.axis.value]))),
            self.face.axis: Span1(*sorted((surface, surface - self.face.sign * deepest))),
        }
        return Box.of(spans)

    def moved(self, motion: Motion) -> Pocket:
        """The same on a copy."""
        return replace(self, face=motion.face(self.face), end=motion.face(self.end), exit=motion.point(self.exit))

    def numbers(self) -> Iterator[float]:
        """What tells two pockets with the same face and end apart."""
        yield from (*self.exit, self.deep, self.angle, self.width, self.shoulder, self.diameter)
