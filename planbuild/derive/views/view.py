"""What a view is: a camera, and the lines and regions seen through it.  Units: model mm, u right, v UP."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from planbuild.core.geometry import Face, Vec
from planbuild.records.solids import Key

Flat = tuple[float, float]


@dataclass(frozen=True)
class Camera:
    """A parallel projection: `right` and `up` are unit vectors square to each other; the viewer
    stands far out along `toward`."""

    right: Vec
    up: Vec

    @property
    def toward(self) -> Vec:
        (a, b, c), (d, e, f) = self.right, self.up
        return b * f - c * e, c * d - a * f, a * e - b * d

    def flat(self, p: Vec) -> Flat:
        return _dot(p, self.right), _dot(p, self.up)

    def depth(self, p: Vec) -> float:
        """Larger is nearer to the viewer."""
        return _dot(p, self.toward)


def _dot(a: Vec, b: Vec) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


STRAIGHT = {
    Face.FRONT: Camera((1, 0, 0), (0, 0, 1)),
    Face.BACK: Camera((-1, 0, 0), (0, 0, 1)),
    Face.LEFT: Camera((0, -1, 0), (0, 0, 1)),
    Face.RIGHT: Camera((0, 1, 0), (0, 0, 1)),
    Face.TOP: Camera((1, 0, 0), (0, 1, 0)),
    Face.BOTTOM: Camera((1, 0, 0), (0, -1, 0)),
}
"""Looking square at the face of that name, the piece standing upright (top and bottom: front edge below / above)."""


def pictorial(turn: float, tilt: float) -> Camera:
    """A camera turned `turn` degrees to the right of the front (negative: to the left) and raised by `tilt` degrees."""
    t, s = math.radians(turn), math.radians(tilt)
    right = (math.cos(t), math.sin(t), 0.0)
    up = (-math.sin(s) * math.sin(t), math.sin(s) * math.cos(t), math.cos(s))
    return Camera(right, up)


class LineKind(Enum):
    OUTLINE = "outline"
    """The body against another body or against nothing."""
    EDGE = "edge"
    SMOOTH = "smooth"
    HIDDEN = "hidden"


@dataclass(frozen=True)
class Line:
    """A polyline (curves within 0.02 mm); `key` names the body it belongs to."""

    kind: LineKind
    key: Key
    points: tuple[Flat, ...]


@dataclass(frozen=True)
class Region:
    """Part of a face that is seen: outer ring and holes; `normal` is the face's direction in space
    (of a curved face: at the middle of this facet)."""

    key: Key
    normal: Vec
    rings: tuple[tuple[Flat, ...], ...]
    face: int = -1
    """Number of the face in its solid."""


@dataclass(frozen=True)
class Body:
    """A solid to be seen, where it stands for this picture (already moved)."""

    key: Key
    shape: object
    """A `cadquery.Shape`."""


@dataclass(frozen=True)
class View:
    camera: Camera
    lines: tuple[Line, ...]
    regions: tuple[Region, ...]
    visible: Mapping[Key, object]
    """What is seen of each body, as one `shapely` geometry (may be empty)."""
    box: tuple[float, float, float, float]
    """Low u, low v, high u, high v of all lines."""
