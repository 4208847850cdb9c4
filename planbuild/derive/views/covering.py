"""Which facets lie in front of which: for every facet the outlines that cover it.

Most pairs are settled by their corners: if one facet is nearer at all corners of either of the two, it is nearer
wherever both are.  Where two planes cross, the common patch is cut along the line where they change places.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from typing import Any

import numpy as np
import shapely
from shapely import Geometry

from planbuild.derive.views.faces import Points

_TOUCH = 0.01
"""Facets whose depths differ by less than this (mm) touch."""
_FAR = 1e5
_LEAST = 1e-4


def covers_of(outlines: Any, planes: Points) -> Mapping[int, list[Geometry] | None]:
    """What covers each facet, by its index; None for a facet wholly behind a single other one.

    `outlines` is an array of polygons, `planes` gives of each the depth a + b u + c v (n x 3).
    """
    first, second = _pairs(outlines)
    leads = planes[first] - planes[second]
    low, high = _extremes(outlines, first, leads)
    low_2, high_2 = _extremes(outlines, second, leads)
    ahead = (low >= -_TOUCH) | (low_2 >= -_TOUCH)
    behind = ~ahead & ((high <= _TOUCH) | (high_2 <= _TOUCH))
    sure = ahead | behind
    near, far = np.where(ahead, first, second)[sure], np.where(ahead, second, first)[sure]
    hidden = np.unique(far[shapely.covers(outlines[near], outlines[far])])
    found: dict[int, list[Geometry] | None] = {int(i): None for i in hidden}
    open_to_view = ~np.isin(np.arange(len(outlines)), hidden)
    parts: dict[int, list[Geometry]] = defaultdict(list)
    for i in np.flatnonzero(open_to_view[near] & open_to_view[far]):
        parts[int(far[i])].append(outlines[near[i]])
    for i in np.flatnonzero(~sure & open_to_view[first] & open_to_view[second]):
        for index, patch in _crossing(int(first[i]), int(second[i]), outlines, leads[i]):
            parts[index].append(patch)
    return {**found, **parts}


def _pairs(outlines: Any) -> tuple[Any, Any]:
    """Indices of facets that share more than a rim."""
    first, second = shapely.STRtree(outlines).query(outlines, predicate="intersects")
    once = first < second
    first, second = first[once], second[once]
    apart = shapely.touches(outlines[first], outlines[second])
    return first[~apart], second[~apart]


def _extremes(outlines: Any, of: Any, leads: Points) -> tuple[Points, Points]:
    """Least and most of each lead over the corners of the outline with that index."""
    corners, owner = shapely.get_coordinates(outlines, return_index=True)
    counts = np.bincount(owner, minlength=len(outlines))
    starts = np.cumsum(counts) - counts
    sizes = counts[of]
    if not len(of):
        return np.empty(0), np.empty(0)
    begins = np.cumsum(sizes) - sizes
    pair = np.repeat(np.arange(len(of)), sizes)
    spots = corners[starts[of[pair]] + np.arange(len(pair)) - begins[pair]]
    lead = leads[pair]
    value = lead[:, 0] + lead[:, 1] * spots[:, 0] + lead[:, 2] * spots[:, 1]
    return np.minimum.reduceat(value, begins), np.maximum.reduceat(value, begins)


def _crossing(first: int, second: int, outlines: Any, lead: Points) -> list[tuple[int, Geometry]]:
    """(index of the facet behind, patch) for each patch of a pair that corners alone do not settle."""
    found = []
    for patch in shapely.get_parts(outlines[first].intersection(outlines[second])):
        if patch.area < _LEAST:
            continue
        spots = shapely.get_coordinates(patch)
        value = lead[0] + lead[1] * spots[:, 0] + lead[2] * spots[:, 1]
        if value.min() >= -_TOUCH:
            found.append((second, patch))
        elif value.max() <= _TOUCH:
            found.append((first, patch))
        else:
            found += [(second, _where_ahead(patch, lead)), (first, _where_ahead(patch, -lead))]
    return found


def _where_ahead(patch: Geometry, lead: Points) -> Geometry:
    """The side of a patch on which a + b u + c v > 0."""
    a, b, c = (float(x) for x in lead)
    size = float(np.hypot(b, c))
    start = np.array([-a * b, -a * c]) / size**2
    across, ahead = np.array([-c, b]) / size * _FAR, np.array([b, c]) / size * _FAR
    half = shapely.Polygon([start - across, start + across, start + across + ahead, start - across + ahead])
    parts = [p for p in shapely.get_parts(patch.intersection(half)) if p.geom_type == "Polygon"]
    return shapely.union_all(parts)
