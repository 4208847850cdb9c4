"""What is seen of each face: flat facets, each less the nearer ones in front of it.

Independent of the kernel's hidden-line removal, so that each can be checked against the other.
Where two facets cover the same spot, the patch goes to the nearer one, cut along the line where their planes cross.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from shapely import Geometry

from planbuild.derive.views.covering import covers_of
from planbuild.derive.views.faces import Facet, Points, facets
from planbuild.derive.views.view import Body, Camera, Flat, Region
from planbuild.records.solids import Key

GRID = 1e-4
"""Corners are put on a grid this fine (mm), so that neighbours share them."""
_THIN = 0.02
"""A patch narrower than this (mm) is rounding, not wood."""
_HAIR = 0.002
_DIGITS = 4
_NOTHING = shapely.Polygon()
_EDGE_ON = 1e-4
"""Below this cosine a face is seen edge on and shows nothing."""


@dataclass(frozen=True)
class Seen:
    """What the camera sees: the visible regions, and of each body the union of its own."""

    regions: tuple[Region, ...]
    visible: Mapping[Key, Geometry]


@dataclass(frozen=True)
class _Shown:
    """A facet that faces the viewer: its outline in the view and its depth as w = a + b u + c v."""

    key: Key
    facet: Facet
    outline: Geometry
    plane: Points


def look(bodies: Sequence[Body], camera: Camera) -> Seen:
    """The visible regions of all bodies, in the order of the bodies and their faces."""
    shown = [each for body in bodies for each in _facing(body, camera)]
    left = _clipped(shown)
    regions: list[Region] = []
    parts: dict[Key, list[Geometry]] = {body.key: [] for body in bodies}
    for each, geometry in zip(shown, left, strict=True):
        kept = polygons(geometry)
        parts[each.key] += kept
        regions += [Region(each.key, _vec(each.facet.normal), rings_of(p), each.facet.face) for p in kept]
    return Seen(tuple(regions), {key: closed(found) for key, found in parts.items()})


def polygons(geometry: Geometry) -> list[Any]:
    """The polygons of a geometry that are wider than rounding."""
    found = [p for p in shapely.get_parts(geometry) if p.geom_type == "Polygon"]
    return [p for p in found if p.area > _THIN * p.length / 2]


def rings_of(polygon: Any) -> tuple[tuple[Flat, ...], ...]:
    """Outer ring and holes, not closed."""
    return tuple(tuple((x, y) for x, y in ring.coords[:-1]) for ring in (polygon.exterior, *polygon.interiors))


def closed(found: Iterable[Geometry]) -> Geometry:
    """The union of patches, hairline gaps between them shut."""
    union = _ungridded(shapely.union_all(list(found), grid_size=GRID))
    return union.buffer(_THIN, join_style="mitre").buffer(-_THIN, join_style="mitre")


def _ungridded(geometry: Geometry) -> Geometry:
    """Off the grid: a narrow buffer of a geometry that remembers its grid can come out empty (GEOS 3.14)."""
    return shapely.set_precision(geometry, 0)


def _vec(a: Points) -> tuple[float, float, float]:
    x, y, z = (float(v) for v in a)
    return x, y, z


def _facing(body: Body, camera: Camera) -> list[_Shown]:
    frame = np.array([camera.right, camera.up, camera.toward])
    found = []
    for facet in facets(body.shape):
        across, along, near = frame @ facet.normal
        if near <= _EDGE_ON:
            continue
        outline = _outline([ring @ frame[:2].T for ring in facet.rings])
        if outline.is_empty:
            continue
        offset = float(facet.normal @ facet.rings[0][0])
        plane = np.array([offset, -across, -along]) / near
        found.append(_Shown(body.key, facet, outline, plane))
    return found


def _outline(rings: list[Points]) -> Geometry:
    outer, *holes = (np.round(ring, _DIGITS) for ring in rings)
    whole = shapely.Polygon(outer, holes)
    return whole if whole.is_valid else whole.buffer(0)


def _clipped(shown: list[_Shown]) -> list[Geometry]:
    """Each outline without what is covered by nearer ones."""
    outlines = np.array([each.outline for each in shown], dtype=object)
    shapely.prepare(outlines)
    covers = covers_of(outlines, np.array([each.plane for each in shown]).reshape(-1, 3))
    return [_without(each, covers.get(i, [])) for i, each in enumerate(outlines)]


def _without(outline: Geometry, covers: list[Geometry] | None) -> Geometry:
    """The outline less its covers, hairs shaved off that rounding left standing."""
    if covers is None:
        return _NOTHING
    if not covers:
        return outline
    left = outline.difference(shapely.union_all(covers))
    return left.buffer(-_HAIR, join_style="mitre").buffer(_HAIR, join_style="mitre", mitre_limit=20)
