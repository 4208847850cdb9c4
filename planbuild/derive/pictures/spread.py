"""How far apart is enough: the clear distances at which every part shows and the picture is still large.

A heuristic over a few distances for each axis, judged by boxes instead of solids, which is quick.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence

import shapely

from planbuild.core.geometry import Axis, Box, Vec
from planbuild.derive.pictures.explosion import Link, offsets
from planbuild.derive.pictures.shares import box_shares
from planbuild.derive.views.view import Camera
from planbuild.records.solids import Key

_SHARES = {
    Axis.LEFT_RIGHT: (0.05, 0.07, 0.1),
    Axis.FRONT_BACK: (0.06, 0.1, 0.18),
    Axis.BOTTOM_TOP: (0.06, 0.14, 0.22, 0.3),
}
"""Clear distances tried, as shares of the longest side of the piece."""
_ENOUGH = 0.9
"""Of a part this share should show; more earns nothing."""


_LEAST, _LOST = 0.35, 0.3
"""A kind of part of which no copy shows that share is hard to mark; what it costs if nothing of it shows."""
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
    shadows, shown = box_shares(boxes, moved, camera)
    left, low, right, high = shapely.union_all(list(shadows.values())).bounds
    scale = min(width / (right - left), height / (high - low))
    shown = {key: min(share, _ENOUGH) for key, share in shown.items()}
    kinds: dict[str, float] = {}
    for (part, _), share in shown.items():
        kinds[part] = max(kinds.get(part, 0.0), share)
    lost = sum(max(_LEAST - share, 0.0) for share in kinds.values()) / _LEAST
    return math.log(scale) + _SEEN * (sum(shown.values()) / len(shown) + sum(kinds.values()) / len(kinds)) - _LOST * lost
