"""How far apart is enough: the clear distances at which every part shows and the picture is still large.

A heuristic over a few distances for each axis, judged by boxes instead of solids, which is quick.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence

import numpy as np
import shapely
from shapely import Geometry

from planbuild.core.geometry import TINY, Axis, Box, Vec
from planbuild.derive.pictures.explosion import Link, offsets
from planbuild.derive.views.view import Camera
from planbuild.records.solids import Key

_SHARES = {
    Axis.LEFT_RIGHT: (0.05, 0.07, 0.1),
    Axis.FRONT_BACK: (0.06, 0.08, 0.1),
    Axis.BOTTOM_TOP: (0.06, 0.14, 0.22, 0.3),
}
"""Clear distances tried, as shares of the longest side of the piece."""
_ENOUGH = 0.9
"""Of a part this share should show; more earns nothing."""


_SEEN = 2.5
"""What showing everything is worth against the logarithm of the scale."""


def spread(boxes: Mapping[Key, Box], links: Sequence[Link], camera: Camera, width: float, height: float) -> dict[Key, Vec]:
    """The shifts of the best spread for a picture of that size (paper mm)."""
    longest = max(_spans(boxes.values()))
    trials = [
        offsets(boxes, links, dict(zip(Axis, (share * longest for share in shares), strict=True)))
        for shares in itertools.product(*(_SHARES[axis] for axis in Axis))
    ]
    return max(trials, key=lambda moved: _worth(boxes, moved, camera, width, height))


def _spans(boxes: object) -> list[float]:
    found = list(boxes)  # type: ignore[call-overload]
    return [max(b.along(axis).high for b in found) - min(b.along(axis).low for b in found) for axis in Axis]


def _worth(boxes: Mapping[Key, Box], moved: Mapping[Key, Vec], camera: Camera, width: float, height: float) -> float:
    """Large and well seen: the scale counts, and what shows of each kind of part at its best copy and of all copies."""
    corners = {key: _corners(box) + np.array(moved[key]) for key, box in boxes.items()}
    screen = np.array([camera.right, camera.up]).T
    shadows = {key: shapely.MultiPoint(points @ screen).convex_hull for key, points in corners.items()}
    left, low, right, high = shapely.union_all(list(shadows.values())).bounds
    scale = min(width / (right - left), height / (high - low))
    shown = _shown(corners, shadows, camera)
    kinds: dict[str, float] = {}
    for (part, _), share in shown.items():
        kinds[part] = max(kinds.get(part, 0.0), share)
    return math.log(scale) + _SEEN * (sum(shown.values()) / len(shown) + sum(kinds.values()) / len(kinds))


def _corners(box: Box) -> np.ndarray:
    return np.array(list(itertools.product(*((box.along(axis).low, box.along(axis).high) for axis in Axis))))


def _shown(corners: Mapping[Key, np.ndarray], shadows: Mapping[Key, Geometry], camera: Camera) -> dict[Key, float]:
    """The share of each box that no nearer box covers, at most what is enough."""
    keys = list(corners)
    lows, highs = (np.array([f(corners[key], axis=0) for key in keys]) for f in (np.min, np.max))
    outlines = np.array([shadows[key] for key in keys], dtype=object)
    first, second = shapely.STRtree(outlines).query(outlines, predicate="intersects")
    covers: dict[int, list[Geometry]] = {}
    for i, j in zip(first, second, strict=True):
        if i != j and _before(lows[j], highs[j], lows[i], highs[i], camera):
            covers.setdefault(int(i), []).append(outlines[j])
    found = {}
    for i, key in enumerate(keys):
        hidden = outlines[i].intersection(shapely.union_all(covers.get(i, []))).area / outlines[i].area
        found[key] = min(1 - hidden, _ENOUGH)
    return found


def _before(low: np.ndarray, high: np.ndarray, other_low: np.ndarray, other_high: np.ndarray, camera: Camera) -> bool:
    """True if the first box can cover the second: they are parted along an axis and it lies on the viewer's side."""
    toward = np.array(camera.toward)
    ahead = ((low >= other_high - TINY) & (toward > 0)) | ((high <= other_low + TINY) & (toward < 0))
    behind = ((high <= other_low + TINY) & (toward > 0)) | ((low >= other_high - TINY) & (toward < 0))
    return bool(ahead.any() and not behind.any())
