"""What a step cuts, as patches of the view to be tinted, and the camera from which it is seen.

The part lies as it is worked: its grain from left to right.  Units: model mm.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from shapely import Geometry

from planbuild.core.geometry import Axis, Box, Face, Span1, Vec
from planbuild.derive.views.view import Camera, Region, View
from planbuild.records.piece import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    Feature,
    Groove,
    Hole,
    Mortise,
    Part,
    Rabbet,
    RoundOver,
    Taper,
    Tenon,
)
from planbuild.records.solids import Key

NEW_KEY = ("cut in this step", 0)
"""Stands in for the part's own key on the patches that a step cuts."""
_LEVEL = 0.999
"""A face whose normal has no component this large slopes or bends: it was shaped, not sawn square."""


def faces_of(feature: Feature, part: Part) -> tuple[Face, ...]:
    """The faces that a viewer should look at to see the feature."""
    if isinstance(feature, (Mortise, Groove, Hole)):
        return (feature.face,)
    if isinstance(feature, Tenon):
        return (feature.end, part.face)
    if isinstance(feature, Taper):
        return feature.faces
    if isinstance(feature, (Chamfer, RoundOver)):
        return tuple(face for edge in feature.edges for face in edge)
    if isinstance(feature, Rabbet):
        return feature.edge
    return (feature.face, part.face) if isinstance(feature, (Arch, Curve, Bevel)) else (part.face,)


def best(cameras: Sequence[Camera], features: Sequence[Feature], part: Part) -> Camera:
    """The first camera that sees nearly as much of the faces worked on as the best one (a heuristic)."""
    normals = [face.normal for feature in features for face in dict.fromkeys(faces_of(feature, part))]

    def seen(camera: Camera) -> float:
        return sum(max(0.0, sum(a * b for a, b in zip(normal, camera.toward, strict=True))) for normal in normals)

    most = max(seen(camera) for camera in cameras)
    return next(camera for camera in cameras if seen(camera) >= 0.85 * most)


def lying(cameras: Sequence[Camera], grain: Axis) -> list[Camera]:
    """The cameras as if the part were laid down with its grain from left to right: as it comes, then on its other sides."""
    lay = _laid(grain)
    found = []
    for quarter in range(4):
        turn = _about_x(quarter) @ lay
        for camera in cameras:
            right, up = (turn.T @ np.array(v) for v in (camera.right, camera.up))
            found.append(Camera(_vec(right), _vec(up)))
    return found


def _laid(grain: Axis) -> np.ndarray:
    """The rotation that takes the grain to left-right (a board that stands is laid with its top to the left)."""
    if grain is Axis.LEFT_RIGHT:
        return np.eye(3)
    if grain is Axis.FRONT_BACK:
        return np.array([[0.0, 1.0, 0.0], [-1.0, 0.0, 0.0], [0.0, 0.0, 1.0]])
    return np.array([[0.0, 0.0, -1.0], [0.0, 1.0, 0.0], [1.0, 0.0, 0.0]])


def _about_x(quarters: int) -> np.ndarray:
    c, s = ((1, 0), (0, 1), (-1, 0), (0, -1))[quarters]
    return np.array([[1.0, 0.0, 0.0], [0.0, c, -s], [0.0, s, c]])


def _vec(a: np.ndarray) -> Vec:
    x, y, z = (round(float(v), 12) for v in a)
    return x, y, z


# ---------------------------------------------------------------- patches


def with_patches(view: View, key: Key, part: Part, features: Sequence[Feature]) -> View:
    """The view with what the features cut under `NEW_KEY`."""
    mask = shapely.union_all([shape for feature in features for shape in _masks(feature, part, view.camera)])
    sloping = any(isinstance(f, (Taper, Arch, Chamfer, RoundOver)) for f in features)
    regions: list[Region] = []
    for region in view.regions:
        if region.key != key:
            regions.append(region)
        elif sloping and max(abs(c) for c in region.normal) < _LEVEL:
            regions.append(Region(NEW_KEY, region.normal, region.rings))
        else:
            regions += _split(region, mask)
    return View(view.camera, view.lines, tuple(regions), view.visible, view.box)


def _split(region: Region, mask: Geometry) -> list[Region]:
    whole = shapely.Polygon(region.rings[0], region.rings[1:])
    found = []
    for key, piece in ((NEW_KEY, whole.intersection(mask)), (region.key, whole.difference(mask))):
        for polygon in shapely.get_parts(piece):
            if polygon.geom_type == "Polygon" and polygon.area > 0.01:
                rings = tuple(tuple(ring.coords[:-1]) for ring in (polygon.exterior, *polygon.interiors))
                found.append(Region(key, region.normal, rings))
    return found


def _masks(feature: Feature, part: Part, camera: Camera) -> list[Geometry]:
    """Where the feature shows: the opening of a hollow, the whole of a tenon."""
    if isinstance(feature, (Mortise, Groove)):
        shown = [feature.face]
        if isinstance(feature, Mortise) and feature.through:
            shown.append(feature.face.opposite)
        return [_shadow(_mouth(feature.void, part, face), camera) for face in shown if _looks(face, camera)]
    if isinstance(feature, Tenon):
        block = _shadow(feature.block, camera)
        return [block if _looks(feature.end, camera) else block.difference(_shadow(part.body, camera))]
    if isinstance(feature, Rabbet):
        return [_shadow(feature.void, camera)]
    if isinstance(feature, Hole) and _looks(feature.face, camera):
        return [_shadow(_around(feature), camera)]
    return []


def _looks(face: Face, camera: Camera) -> bool:
    return sum(a * b for a, b in zip(face.normal, camera.toward, strict=True)) > 0.05


def _mouth(void: Box, part: Part, face: Face) -> Box:
    """The opening of a hollow in a face, without depth."""
    at = part.body.at(face)
    return void.with_span(face.axis, Span1(at, at))


def _around(hole: Hole) -> Box:
    spans = {axis: Span1(c - hole.diameter / 2, c + hole.diameter / 2) for axis, c in zip(Axis, hole.centre, strict=True)}
    at = hole.centre[hole.face.axis.value]
    return Box.of({**spans, hole.face.axis: Span1(at, at)})


def _shadow(box: Box, camera: Camera) -> Geometry:
    corners = [(x, y, z) for x in (box.x.low, box.x.high) for y in (box.y.low, box.y.high) for z in (box.z.low, box.z.high)]
    return shapely.MultiPoint([camera.flat(p) for p in corners]).convex_hull.buffer(0.02)
