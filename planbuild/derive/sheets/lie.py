"""How a part lies on the paper: its grain from left to right, the end a maker measures from at the left.

A standing part is laid down with its top end to the left; a lying one keeps its top upward.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Face, Vec
from planbuild.derive.dimensions.measure import Datum
from planbuild.derive.dimensions.where import third
from planbuild.derive.views.view import Camera
from planbuild.records.features import Arch, Bevel, Curve, Feature, Groove, Hole, Mortise, Rabbet, Taper
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
    right = _right(part, faces[0])
    start = facing(right).opposite
    datum = Datum({part.grain: start, part.thickness_axis: part.face, part.width_axis: part.edge})
    return Lie(faces, start, right, datum, part.face if is_panel(part) else None)


def is_panel(part: Part) -> bool:
    """True for a board so wide that its ends are drawn lying flat and its width is read on its face."""
    return part.body.size(part.width_axis) > _PANEL * part.body.size(part.thickness_axis)


def _right(part: Part, main: Face) -> Vec:
    """Along the grain: downward for a standing part, else so that the main view stands upright."""
    if part.grain is Axis.BOTTOM_TOP:
        return Face.BOTTOM.normal
    if main.axis is Axis.BOTTOM_TOP:
        return part.grain.high.normal
    return cross(Face.TOP.normal, main.normal)


def cross(a: Vec, b: Vec) -> Vec:
    """The vector square to two others; with b and c square to each other and a = b x c, c = a x b."""
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def facing(direction: Vec) -> Face:
    """The face that looks in a direction of the piece."""
    return next(face for face in Face if sum(abs(p - q) for p, q in zip(face.normal, direction, strict=True)) < TINY)


# ---------------------------------------------------------------- which faces must be seen


def _faces(part: Part) -> tuple[Face, ...]:
    """The fewest long faces that show every feature that needs one, the one that shows most first (greedy cover)."""
    needs = [each for feature in part.features for each in _shown_by(part, feature) if each]
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


def _shown_by(part: Part, feature: Feature) -> list[tuple[Face, ...]]:
    """The long faces any one of which shows a feature in true shape, a tuple for each direction in which it must be
    seen; none if an end view or a note says it all."""
    if isinstance(feature, Taper):
        return [_sides(third(part.grain, axis)) for axis in dict.fromkeys(face.axis for face in feature.faces)]
    return [_side_on(part, feature)]


def _side_on(part: Part, feature: Feature) -> tuple[Face, ...]:
    if isinstance(feature, (Mortise, Hole)) and feature.face.axis is not part.grain:
        through = feature.through if isinstance(feature, Mortise) else feature.depth is None
        return (feature.face, feature.face.opposite) if through and not _flared(feature) else (feature.face,)
    if isinstance(feature, Groove) and not _runs_through(part, feature):
        return (feature.face,)
    if isinstance(feature, (Arch, Curve)):
        return _sides(third(part.grain, feature.face.axis))
    if isinstance(feature, Bevel) and part.grain in (feature.face.axis, feature.keeps.axis):
        return _sides(third(feature.face.axis, feature.keeps.axis))
    if isinstance(feature, Rabbet) and part.grain in (feature.edge[0].axis, feature.edge[1].axis):
        return _sides(third(feature.edge[0].axis, feature.edge[1].axis))
    return ()


def _flared(feature: Mortise | Hole) -> bool:
    """A mortise that opens for wedges is drawn from the side where its size is that of the tenon."""
    return isinstance(feature, Mortise) and feature.flare > 0


def _runs_through(part: Part, groove: Groove) -> bool:
    return groove.face.axis is not part.grain and groove.void.size(part.grain) >= part.body.size(part.grain) - TINY


def _liked(part: Part, feature: Feature) -> tuple[Face, ...]:
    """Faces that show a little more than need be."""
    return (feature.face,) if isinstance(feature, Groove) and feature.face.axis is not part.grain else ()


def _sides(axis: Axis) -> tuple[Face, Face]:
    return axis.low, axis.high
