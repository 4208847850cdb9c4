"""What is seen of each face: flat facets, each less the nearer ones in front of it.

Independent of the kernel's hidden-line removal, so that each can be checked against the other.
Where two facets cover the same spot, the patch goes to the nearer one, cut along the line where their planes cross.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from shapely import Geometry

from planbuild.derive.views.faces import Facet, Points, facets
from planbuild.derive.views.view import Body, Camera, Flat, Region
from planbuild.records.solids import Key

GRID = 1e-4
"""Corners are put on a grid this fine (mm), so that neighbours share them."""
_THIN = 0.02
"""A patch narrower than this (mm) is rounding, not wood."""
_HAIR = 0.002
_TOUCH = 0.01
"""Facets whose depths differ by less than this (mm) touch."""
_FAR = 1e5
_MANY = 48
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
    shown = _in_sight([each for body in bodies for each in _facing(body, camera)])
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
    whole = shapely.Polygon(rings[0], rings[1:])
    valid = whole if whole.is_valid else whole.buffer(0)
    return shapely.set_precision(valid, GRID)


def _in_sight(shown: list[_Shown]) -> list[_Shown]:
    """The facets without those wholly behind one of the largest: a quick first sieve."""
    if len(shown) < _MANY:
        return shown
    outlines = np.array([each.outline for each in shown], dtype=object)
    planes = np.array([each.plane for each in shown])
    largest = np.argsort(-shapely.area(outlines), kind="stable")[:_MANY]
    big, behind = shapely.STRtree(outlines).query(outlines[largest], predicate="covers")
    hidden = set()
    for k, i in zip(largest[big], behind, strict=True):
        spots = shapely.get_coordinates(outlines[i])
        if k != i and (_nearer(planes[k] - planes[i], spots) >= _TOUCH).all():
            hidden.add(int(i))
    return [each for i, each in enumerate(shown) if i not in hidden]


def _clipped(shown: list[_Shown]) -> list[Geometry]:
    """Each outline without what is covered by nearer ones."""
    outlines = np.array([each.outline for each in shown], dtype=object)
    covers: dict[int, list[Geometry]] = defaultdict(list)
    for far, patch in _overlaps(shown, outlines):
        covers[far].append(patch)
    return [_without(each, covers[i]) if i in covers else each for i, each in enumerate(outlines)]


def _without(outline: Geometry, covers: list[Geometry]) -> Geometry:
    """The outline less its covers, hairs shaved off that rounding left standing."""
    left = _ungridded(shapely.difference(outline, shapely.union_all(covers, grid_size=GRID), grid_size=GRID))
    return left.buffer(-_HAIR, join_style="mitre").buffer(_HAIR, join_style="mitre", mitre_limit=20)


def _overlaps(shown: list[_Shown], outlines: Any) -> list[tuple[int, Geometry]]:
    """(index of the facet behind, patch where it is covered) for each pair that shares a patch."""
    if not shown:
        return []
    first, second = shapely.STRtree(outlines).query(outlines, predicate="intersects")
    once = first < second
    first, second = first[once], second[once]
    common, of = shapely.get_parts(shapely.intersection(outlines[first], outlines[second]), return_index=True)
    wide = shapely.area(common) > GRID
    common, first, second = common[wide], first[of[wide]], second[of[wide]]
    planes = np.array([each.plane for each in shown])
    found = []
    leads = planes[first] - planes[second]
    for patch, lead, (low, high), i, j in zip(common, leads, _leads(common, planes, first, second), first, second, strict=True):
        if low >= -_TOUCH:
            found.append((int(j), patch))
        elif high <= _TOUCH:
            found.append((int(i), patch))
        else:
            found += [(int(j), _where_ahead(patch, lead)), (int(i), _where_ahead(patch, -lead))]
    return found


def _leads(patches: Any, planes: Points, first: Any, second: Any) -> Points:
    """By how much the first facet of each pair is nearer over its patch: least and most, n x 2."""
    corners, of = shapely.get_coordinates(patches, return_index=True)
    nearer = _nearer((planes[first[of]] - planes[second[of]]).T, corners)
    starts = np.flatnonzero(np.diff(of, prepend=-1))
    if not len(of):
        return np.empty((0, 2))
    return np.column_stack([np.minimum.reduceat(nearer, starts), np.maximum.reduceat(nearer, starts)])


def _where_ahead(patch: Geometry, lead: Points) -> Geometry:
    """The side of a patch on which a + b u + c v > 0: two planes that cross change places there."""
    a, b, c = (float(x) for x in lead)
    size = float(np.hypot(b, c))
    u, v = -a * b / size**2, -a * c / size**2
    across, ahead = np.array([-c, b]) / size * _FAR, np.array([b, c]) / size * _FAR
    start = np.array([u, v])
    half = shapely.Polygon([start - across, start + across, start + across + ahead, start - across + ahead])
    return shapely.union_all(polygons(patch.intersection(half)))


def _nearer(lead: Points, spots: Points) -> Points:
    """a + b u + c v at each spot."""
    found: Points = lead[0] + lead[1] * spots[:, 0] + lead[2] * spots[:, 1]
    return found
