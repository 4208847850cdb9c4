"""How much is seen of each part, judged by boxes (quick) or from a view, and the camera that shows what matters."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence

import numpy as np
import shapely
from shapely import Geometry

from planbuild.core.geometry import TINY, Axis, Box, Vec
from planbuild.derive.pictures.studio import NOWHERE, OTHERS, USUAL, turned_over
from planbuild.derive.views.faces import Points
from planbuild.derive.views.regions import look
from planbuild.derive.views.view import Body, Camera, View
from planbuild.records.solids import Key

_PART = 0.25
"""So much of one copy of every new part must show, else the picture is taken from elsewhere."""
_SQUARE = 0.15
"""Cosine from which on a worked face counts as seen."""


def best_camera(
    boxes: Mapping[Key, Box], moved: Mapping[Key, Vec], new: Sequence[Key], worked: Sequence[Vec], over: bool = False
) -> Camera:
    """The usual camera if it shows one copy of each new part and most worked faces (`worked` are the ways they look);
    `over` looks at everything upside down."""
    usual, *others = [turned_over(each) for each in (USUAL, *OTHERS)] if over else (USUAL, *OTHERS)

    def worth(camera: Camera) -> float:
        return min(_parts_worth(boxes, moved, new, camera), _faces_worth(worked, camera))

    return usual if worth(usual) >= 1.0 else max((usual, *others), key=lambda camera: round(worth(camera), 6))


def _faces_worth(worked: Sequence[Vec], camera: Camera) -> float:
    """1 or more if at least half of the faces look toward the viewer."""
    seen = [sum(a * b for a, b in zip(way, camera.toward, strict=True)) > _SQUARE for way in worked]
    return 2.0 * sum(seen) / len(seen) if seen else 1.0


def _parts_worth(boxes: Mapping[Key, Box], moved: Mapping[Key, Vec], new: Sequence[Key], camera: Camera) -> float:
    """1 or more if of every new part one copy shows enough."""
    shares = box_shares(boxes, moved, camera)[1]
    best: dict[str, float] = {}
    for key in new:
        best[key[0]] = max(best.get(key[0], 0.0), shares[key])
    return min(best.values(), default=_PART) / _PART


def box_shares(
    boxes: Mapping[Key, Box], moved: Mapping[Key, Vec], camera: Camera
) -> tuple[dict[Key, Geometry], dict[Key, float]]:
    """The shadow of every box in the view, and the share of it that no nearer box covers."""
    corners = {key: _corners(box) + np.array(moved.get(key, NOWHERE)) for key, box in boxes.items()}
    screen = np.array([camera.right, camera.up]).T
    shadows = {key: shapely.MultiPoint(points @ screen).convex_hull for key, points in corners.items()}
    return shadows, _shown(corners, shadows, camera)


def _corners(box: Box) -> Points:
    return np.array(list(itertools.product(*((box.along(axis).low, box.along(axis).high) for axis in Axis))))


def _shown(corners: Mapping[Key, Points], shadows: Mapping[Key, Geometry], camera: Camera) -> dict[Key, float]:
    """The share of each box that no nearer box covers, at most the whole."""
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
        found[key] = 1 - hidden
    return found


def _before(low: Points, high: Points, other_low: Points, other_high: Points, camera: Camera) -> bool:
    """True if the first box can cover the second: they are parted along an axis and it lies on the viewer's side."""
    toward = np.array(camera.toward)
    ahead = ((low >= other_high - TINY) & (toward > 0)) | ((high <= other_low + TINY) & (toward < 0))
    behind = ((high <= other_low + TINY) & (toward > 0)) | ((low >= other_high - TINY) & (toward < 0))
    return bool(ahead.any() and not behind.any())


def most_seen(view: View, bodies: Sequence[Body], parts: Sequence[str]) -> dict[str, float]:
    """Of each part the share that is seen of the copy of which most is seen; measured against the copy by itself."""
    found = {}
    for part in parts:
        copies = [body for body in bodies if body.key[0] == part]
        best = max(copies, key=lambda body: _area(view.visible[body.key]))
        found[part] = _area(view.visible[best.key]) / _area(look([best], view.camera).visible[best.key])
    return found


def _area(shape: object) -> float:
    """Of a geometry of a view."""
    return float(shapely.area(shape))
