"""Which faces of a solid a feature made: found by where they lie, since the kernel does not tell."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from planbuild.core.geometry import Axis, Box, Face, Span1
from planbuild.derive.scene import Stage
from planbuild.derive.views.faces import Facet, facets
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.edging import Edging
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    EdgeBevel,
    Feature,
    Groove,
    Hole,
    Mortise,
    Rabbet,
    RoundOver,
    Taper,
    Tenon,
)
from planbuild.records.piece import Part
from planbuild.records.pockets import Pocket
from planbuild.records.shaped import Dished, Moulding, Sawn, Turned
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.records.tails import Sockets, Tails

_NEAR = 0.05
_SLANT = 0.9999


def worked_faces(shape: object, stage: Stage, wanted: Iterable[str]) -> frozenset[int]:
    """Numbers of the faces that the features with these ids got at this stage; `shape` is the part after it."""
    ids = set(wanted)
    features = [feature for feature in stage.after.features if feature.id in ids]
    return frozenset(facet.face for facet in facets(shape) for feature in features if _made(feature, stage, facet))


def _made(feature: Feature, stage: Stage, facet: Facet) -> bool:
    points, part = facet.rings[0], stage.after
    if isinstance(feature, (Mortise, Groove, Rabbet)):
        return _inside(points, feature.void) and not _on_box(facet, part.body)
    if isinstance(feature, (Tails, Sockets)):
        return _inside(points, feature.comb.block) and not _on_box(facet, part.body)
    if isinstance(feature, Pocket):
        return _inside(points, feature.room) and not _on_box(facet, part.body)
    if isinstance(feature, CornerSlot):
        return _inside(points, feature.region(part.body)) and not _on_box(facet, part.body)
    if isinstance(feature, Sawn):
        return _of_sawn(feature, facet, part)
    if isinstance(feature, AngledMortise):
        return _in_turned(points, feature) and not _on_box(facet, part.body)
    if isinstance(feature, EndCut):
        return bool(facet.normal @ np.array(feature.normal) > _SLANT)
    if isinstance(feature, Edging):
        return _inside(points, feature.strip)
    if isinstance(feature, Tenon):
        return _on_tenon(feature, stage, facet)
    if isinstance(feature, Hole):
        return _round(feature, facet) or (_inside(points, _room(feature, part)) and not _on_box(facet, part.body))
    if isinstance(feature, (Arch, Curve)):
        return facet.curved and _toward(facet, feature.face)
    if isinstance(feature, (Taper, Bevel)):
        faces = feature.faces if isinstance(feature, Taper) else (feature.face,)
        return _slanted(facet) and any(_toward(facet, face) for face in faces) and not _at_an_edge(facet, part)
    if isinstance(feature, EdgeBevel):
        return _slanted(facet) and all(_leans(facet, face) for face in feature.edge)
    if isinstance(feature, Turned):
        return not _on_box(facet, part.body) and _inside(points, part.body.with_span(part.grain, feature.span))
    if isinstance(feature, Dished):
        return facet.curved and _toward(facet, feature.face)
    if isinstance(feature, (Chamfer, RoundOver, Moulding)):
        return _slanted(facet) and any(all(_leans(facet, face) for face in edge) for edge in feature.edges)
    return False


def _of_sawn(sawn: Sawn, facet: Facet, part: Part) -> bool:
    """The new sides, square to the face, and the floor of what does not go through."""
    if _on_box(facet, part.body):
        return False
    level = abs(float(facet.normal @ np.array(sawn.face.normal)))
    inside = _inside(facet.rings[0], sawn.region(part.body))
    return inside and (level < 1 - _SLANT or (sawn.depth is not None and level > _SLANT))


def _on_tenon(tenon: Tenon, stage: Stage, facet: Facet) -> bool:
    """Cheeks and shoulder of a new tenon; of one that was there before what is cut at its tip, all of it where
    that is kerfs: too narrow to be seen."""
    inside = _inside(facet.rings[0], tenon.block)
    if any(feature.id == tenon.id for feature in stage.before.features):
        return inside and (tenon.wedging is not None or not _on_box(facet, tenon.block))
    if inside:
        return not _on_box(facet, stage.before.body)
    square = float(facet.normal @ np.array(tenon.end.normal)) > _SLANT
    return square and _lies_at(facet, tenon.end, tenon.block.at(tenon.end.opposite))


def _inside(points: np.ndarray, box: Box) -> bool:
    low = np.array([box.along(axis).low for axis in Axis]) - _NEAR
    high = np.array([box.along(axis).high for axis in Axis]) + _NEAR
    return bool(((points >= low) & (points <= high)).all())


def _in_turned(points: np.ndarray, mortise: AngledMortise) -> bool:
    """True for a wall: within the block of the mortise, in its own straight frame, its open ends left out."""
    back, long = mortise.pose.inverse, mortise.void
    for face in (mortise.face, *((mortise.face.opposite,) if mortise.through else ())):
        long = long.grown(face, mortise.length)
    return _inside(np.array([back.point((p[0], p[1], p[2])) for p in points]), long)


def _on_box(facet: Facet, box: Box) -> bool:
    """True for a face that lies in one of the six faces of a box."""
    return any(float(facet.normal @ np.array(face.normal)) > _SLANT and _lies_at(facet, face, box.at(face)) for face in Face)


def _lies_at(facet: Facet, face: Face, at: float) -> bool:
    return abs(float(facet.rings[0][0][face.axis.value]) - at) < _NEAR


def _round(hole: Hole, facet: Facet) -> bool:
    """Facets of the wall: all corners at the radius from the centre line, or at that of the counterbore."""
    across = [axis.value for axis in hole.face.axis.others]
    away = np.linalg.norm(facet.rings[0][:, across] - np.array(hole.centre)[across], axis=1)
    sizes = [hole.diameter, *([hole.counterbore[0]] if hole.counterbore else [])]
    return facet.curved and any(bool((np.abs(away - size / 2) < 4 * _NEAR).all()) for size in sizes)


def _room(hole: Hole, part: Part) -> Box:
    """The block that a slot or a countersink is cut from; nothing of a plain hole, whose wall is told by its radius."""
    if not hole.slot and not hole.countersink:
        return hole.reach(0.0)
    widest = max(hole.diameter, *(wide for wide, _ in filter(None, (hole.counterbore, hole.countersink))), 0.0)
    axis, surface = hole.face.axis, part.body.at(hole.face)
    deep = part.body.size(axis) if hole.depth is None else hole.depth
    return hole.reach(widest).with_span(axis, Span1(*sorted((surface, surface - hole.face.sign * deep))))


def _toward(facet: Facet, face: Face) -> bool:
    return float(facet.normal @ np.array(face.normal)) > 0.5


def _leans(facet: Facet, face: Face) -> bool:
    return float(facet.normal @ np.array(face.normal)) > 0.05


def _slanted(facet: Facet) -> bool:
    """True for a face that is square to no axis."""
    return float(np.abs(facet.normal).max()) < _SLANT


def _at_an_edge(facet: Facet, part: Part) -> bool:
    """Chamfers are slanted too, but narrow: they do not reach over most of a face."""
    spans: Sequence[float] = np.ptp(facet.rings[0], axis=0)
    return float(np.sort(spans)[1]) < 0.25 * min(part.body.size(axis) for axis in Axis)
