"""Wood sawn through for a picture: solids kept inside a box, and the faces that the saw leaves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any

import numpy as np
import shapely
from shapely import Geometry

from planbuild.core.geometry import TINY, Axis, Box, Span1, Vec
from planbuild.derive.views.faces import Facet, Points, facets
from planbuild.derive.views.view import Body, Camera, View
from planbuild.records.solids import Key

_FAR = 1e4
_STILL = np.zeros(3)


def half(axis: Axis, at: float, sign: int) -> Box:
    """All that lies on one side of a plane: beyond `at` if `sign` is +1."""
    whole = Span1(-_FAR, _FAR)
    return Box(whole, whole, whole).with_span(axis, Span1(at, _FAR) if sign > 0 else Span1(-_FAR, at))


def kept_inside(bodies: Sequence[Body], boxes: Mapping[Key, Box], limit: Box) -> list[Body]:
    """Bodies less what lies outside the limit; `boxes` are theirs, so that most need no sawing."""
    found = []
    for body in bodies:
        box = boxes[body.key]
        if not box.meet(limit).is_solid:
            continue
        if all(_within(box.along(axis), limit.along(axis)) for axis in Axis):
            found.append(body)
        else:
            found += _sawn(body, _grown(box, limit))
    return found


def _within(span: Span1, limit: Span1) -> bool:
    return span.low >= limit.low - TINY and span.high <= limit.high + TINY


def _grown(box: Box, limit: Box) -> Box:
    """The limit, with air around the body where it does not cut, so that no face is sawn by chance."""
    spans = {}
    for axis in Axis:
        own, kept = box.along(axis), limit.along(axis)
        low = kept.low if kept.low > own.low + TINY else own.low - 1.0
        high = kept.high if kept.high < own.high - TINY else own.high + 1.0
        spans[axis] = Span1(low, high)
    return Box.of(spans)


def _sawn(body: Body, limit: Box) -> list[Body]:
    import cadquery as cq

    low = cq.Vector(limit.x.low, limit.y.low, limit.z.low)
    block = cq.Solid.makeBox(limit.x.size, limit.y.size, limit.z.size, low)
    shape: Any = body.shape
    left = shape.intersect(block)
    return [Body(body.key, left)] if left.Volume() > 1.0 else []


def sawn_faces(bodies: Sequence[Body], camera: Camera, at: Vec) -> dict[Key, Geometry]:
    """What the saw left in the plane through `at` that faces the viewer, as areas of the view."""
    depth = camera.depth(at)
    found: dict[Key, list[Geometry]] = {}
    for body in bodies:
        for facet in facets(body.shape):
            if _faces(facet, camera, depth):
                found.setdefault(body.key, []).append(_flat(facet, camera))
    return {key: shapely.union_all(areas) for key, areas in found.items()}


@dataclass(frozen=True)
class SawnFace:
    """An end where far wood was cut away: the body, the direction of the cut, and what shows of it in the view."""

    key: Key
    axis: Axis
    area: Geometry


def sawn_ends(
    bodies: Sequence[Body], boxes: Mapping[Key, Box], limit: Box, moved: Mapping[Key, Vec], view: View
) -> list[SawnFace]:
    """The visible sawn faces of bodies that were kept inside a limit (where they stood) and then moved."""
    found = []
    for body in bodies:
        shift = np.array(moved.get(body.key, (0.0, 0.0, 0.0)))
        for axis, sign in product(Axis, (-1, 1)):
            at = limit.along(axis).high if sign > 0 else limit.along(axis).low
            own = boxes[body.key].along(axis)
            if own.low + TINY < at < own.high - TINY and sign * view.camera.toward[axis.value] > _EDGE_ON:
                for facet in facets(body.shape):
                    if facet.normal[axis.value] * sign > 1 - 1e-6 and abs(facet.rings[0][0][axis.value] - at) < TINY:
                        area = _flat(facet, view.camera, shift).intersection(_facing(view, body.key, axis, sign))
                        found += [SawnFace(body.key, axis, area)] if area.area > 1.0 else []
    return found


_EDGE_ON = 0.05


def _facing(view: View, key: Key, axis: Axis, sign: int) -> Geometry:
    """What is seen of a body's faces that look in one direction."""
    rings = [r.rings for r in view.regions if r.key == key and r.normal[axis.value] * sign > 1 - 1e-6]
    return shapely.union_all([shapely.Polygon(each[0], each[1:]) for each in rings])


def _faces(facet: Facet, camera: Camera, depth: float) -> bool:
    square = float(facet.normal @ np.array(camera.toward)) > 1 - 1e-6
    return square and abs(float(facet.rings[0][0] @ np.array(camera.toward)) - depth) < TINY


def _flat(facet: Facet, camera: Camera, shift: Points = _STILL) -> Geometry:
    frame = np.array([camera.right, camera.up]).T
    outer, *holes = ((ring + shift) @ frame for ring in facet.rings)
    return shapely.Polygon(outer, holes).buffer(0)


