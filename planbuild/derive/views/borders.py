"""Lines taken from the visible regions: what the view falls back on where the kernel's lines cannot be trusted.

Exact for flat faces; rims of curved faces are as fine as their facets.  Hidden lines cannot be found this way.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
import shapely
from shapely import Geometry

from planbuild.derive.views.faces import Points
from planbuild.derive.views.lines import Run
from planbuild.derive.views.regions import GRID, Seen
from planbuild.derive.views.view import LineKind, Region
from planbuild.records.solids import Key

_CORNER = 0.6
"""A rim that turns by more than this (radians) has a corner there."""
_SMOOTH = 0.52
"""Faces that meet at less than this (radians) run into each other."""
_BESIDE = 0.15
_ROUGH = 0.12
"""Facets stray so far (mm) from the exact rim of the flat face beside them."""
_LEAST = 0.6


def border_lines(seen: Seen) -> list[Run]:
    """The rims of all visible faces; a rim that a flat and a curved face share comes from the flat one."""
    regions: dict[Key, list[Region]] = {}
    for region in seen.regions:
        regions.setdefault(region.key, []).append(region)
    return [run for key, own in regions.items() for run in _of_body(key, own)]


def _of_body(key: Key, regions: Sequence[Region]) -> Iterator[Run]:
    shapes = [shapely.Polygon(region.rings[0], region.rings[1:]) for region in regions]
    faces: dict[int, list[int]] = {}
    for i, region in enumerate(regions):
        faces.setdefault(region.face, []).append(i)
    flat = [_rim([shapes[i] for i in own]) for own in faces.values() if _is_flat([regions[i] for i in own])]
    curved = [_rim([shapes[i] for i in own]) for own in faces.values() if not _is_flat([regions[i] for i in own])]
    near = shapely.union_all(flat).buffer(_ROUGH)
    tree = shapely.STRtree(shapes)
    for rim in [*flat, *(each.difference(near) for each in curved)]:
        for chain in _chains(rim):
            yield Run(_kind(chain, regions, tree), key, chain)


def _is_flat(regions: Sequence[Region]) -> bool:
    first = np.array(regions[0].normal)
    return all(float(first @ np.array(region.normal)) > 1 - 1e-9 for region in regions)


def _rim(shapes: Sequence[Geometry]) -> Geometry:
    return shapely.boundary(shapely.set_precision(shapely.union_all(list(shapes), grid_size=GRID), 0))


def _chains(rim: Geometry) -> Iterator[Points]:
    """The rim cut at its corners: straight edges as two points, curves as polylines."""
    for part in shapely.get_parts(shapely.line_merge(rim)):
        if part.geom_type != "LineString" or part.length < _LEAST:
            continue
        points = np.array(part.simplify(0.001).coords)
        if part.is_ring:
            points = _from_a_corner(points)
        ways = np.diff(points, axis=0)
        angles = np.abs((np.diff(np.arctan2(ways[:, 1], ways[:, 0])) + np.pi) % (2 * np.pi) - np.pi)
        cuts = [0, *(int(i) + 1 for i in np.flatnonzero(angles > _CORNER)), len(points) - 1]
        yield from (points[a : b + 1] for a, b in zip(cuts, cuts[1:], strict=False) if b > a)


def _from_a_corner(points: Points) -> Points:
    """A closed rim begun at its sharpest corner."""
    ring = points[:-1]
    before, after = ring - np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0) - ring
    turns = (before * after).sum(axis=1) / np.maximum(np.linalg.norm(before, axis=1) * np.linalg.norm(after, axis=1), 1e-12)
    start = int(np.argmin(np.round(turns, 6)))
    turned = np.roll(ring, -start, axis=0)
    return np.concatenate([turned, turned[:1]])


def _kind(chain: Points, regions: Sequence[Region], tree: shapely.STRtree) -> LineKind:
    """Smooth if the faces on both sides of the longest stretch run into each other."""
    ways = np.diff(chain, axis=0)
    lengths = np.linalg.norm(ways, axis=1)
    k = int(np.argmax(np.round(lengths, 6)))
    middle, across = (chain[k] + chain[k + 1]) / 2, np.array([-ways[k][1], ways[k][0]]) / lengths[k] * _BESIDE
    beside = [tree.query(shapely.Point(middle + side * across), predicate="intersects") for side in (1, -1)]
    if not all(len(found) for found in beside):
        return LineKind.EDGE
    one, other = (regions[int(min(found))] for found in beside)
    cosine = float(np.array(one.normal) @ np.array(other.normal))
    return LineKind.SMOOTH if one.face != other.face and cosine > np.cos(_SMOOTH) else LineKind.EDGE
