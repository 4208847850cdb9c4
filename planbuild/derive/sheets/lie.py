"""How a part lies on the paper: its grain from left to right, the end a maker measures from at the left.

A standing part is laid down with its top end to the left; a lying one keeps its top upward.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Face, Vec
from planbuild.derive.dimensions.measure import Datum
from planbuild.derive.dimensions.measures import measures_of
from planbuild.derive.views.view import Camera
from planbuild.records.features import Feature, Groove
from planbuild.records.piece import Part

_PANEL = 5.0


@dataclass(frozen=True)
class Lie:
    """`faces` are the long faces that are drawn, the main one first; `start` is the end at the left of the paper."""

    faces: tuple[Face, ...]
    start: Face
    right: Vec
    datum: Datum
    flat: Face | None = None
    """The face that is uppermost in views of the ends of a panel, which lie flat; None: as in the main view."""

    @property
    def main(self) -> Face:
        return self.faces[0]

    def camera(self, face: Face) -> Camera:
        """Looking at a long face, the grain level; at an end with the same side up as in the main view, a panel's flat."""
        if face.axis is self.start.axis:
            up = self.flat.normal if self.flat else cross(self.main.normal, self.right)
            return Camera(cross(up, face.normal), up)
        return Camera(self.right, cross(face.normal, self.right))

    @property
    def up(self) -> Face:
        """The long face that is uppermost in the main view."""
        return facing(self.camera(self.main).up)


def lie_of(part: Part) -> Lie:
    """The lie of a part and the faces from which all its features are seen."""
    faces = _faces(part)
    right = _right(part, faces)
    start = facing(right).opposite
    datum = Datum({part.grain: start, part.thickness_axis: part.face, part.width_axis: part.edge})
    return Lie(faces, start, right, datum, part.face if is_panel(part) else None)


def is_panel(part: Part) -> bool:
    """True for a board so wide that its ends are drawn lying flat and its width is read on its face."""
    return part.body.size(part.width_axis) > _PANEL * part.body.size(part.thickness_axis)


def _right(part: Part, faces: tuple[Face, ...]) -> Vec:
    """Along the grain: downward for a standing part, else so that a view of an upright face stands upright."""
    if part.grain is Axis.BOTTOM_TOP:
        return Face.BOTTOM.normal
    upright = next((face for face in faces if face.axis is not Axis.BOTTOM_TOP), None)
    return cross(Face.TOP.normal, upright.normal) if upright else part.grain.high.normal


def cross(a: Vec, b: Vec) -> Vec:
    """The vector square to two others; with b and c square to each other and a = b x c, c = a x b."""
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def facing(direction: Vec) -> Face:
    """The face that looks in a direction of the piece."""
    return next(face for face in Face if sum(abs(p - q) for p, q in zip(face.normal, direction, strict=True)) < TINY)


# ---------------------------------------------------------------- which faces must be seen


def _faces(part: Part) -> tuple[Face, ...]:
    """The fewest long faces that show every number that needs one, the one that shows most first (greedy cover)."""
    needs = _needs(part)
    weak = [found for feature in part.features for found in [_liked(part, feature)] if found]
    order = _order(part)
    chosen: list[Face] = []
    while needs or not chosen:
        best = min(order, key=lambda face: (-_count(needs, face), -_count(weak, face), order.index(face)))
        chosen.append(best)
        needs = [each for each in needs if best not in each]
    return tuple(chosen)


def _count(needs: Iterable[tuple[Face, ...]], face: Face) -> int:
    return sum(face in each for each in needs)


def _order(part: Part) -> list[Face]:
    """Long faces, the face side first, then the face edge and those opposite."""
    first = (part.face, part.edge, part.face.opposite, part.edge.opposite)
    return [face for face in first if face.axis is not part.grain]


def _needs(part: Part) -> list[tuple[Face, ...]]:
    """For each feature and direction in which it is seen in true shape, the long faces any one of which shows it.

    None for what a view of an end, a section or a detail shows.  From which faces a number is seen does not
    depend on the end it is counted from, so any datum will do.
    """
    some = Datum({axis: axis.low for axis in Axis})
    shown = [each for each in measures_of(part, some) if not (each.inside or each.fine)]
    long = (each for each in shown if each.seen and not any(face.axis is part.grain for face in each.seen))
    return [seen for _, seen in dict.fromkeys((each.feature, each.seen) for each in long)]


def _liked(part: Part, feature: Feature) -> tuple[Face, ...]:
    """Faces that show a little more than need be."""
    return (feature.face,) if isinstance(feature, Groove) and feature.face.axis is not part.grain else ()
