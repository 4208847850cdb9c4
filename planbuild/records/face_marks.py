"""The marks of face side and face edge as they are pencilled at the bench, for the sheets and for their explanation.

Face side: a loop with its tails on the wood; face edge: a chevron whose point stands on the wood (old habit of
the trade).  Units: paper mm, y down.
"""

from __future__ import annotations

from planbuild.records.drawing import Path, Point, Step

_Shape = tuple[tuple[str, tuple[tuple[float, float], ...]], ...]
"""Steps of a mark with its foot at the origin: (sideways, outward)."""
_CHEVRON: _Shape = (("M", ((-1.3, 2.6),)), ("L", ((0.0, 0.0),)), ("L", ((1.3, 2.6),)))
_LOOP: _Shape = (
    ("M", ((-1.1, 0.0),)),
    ("C", ((1.5, 1.2), (1.6, 3.0), (0.2, 3.0))),
    ("C", ((-1.2, 3.0), (-1.0, 1.2), (1.3, 0.0))),
)


def face_side_mark(foot: Point, way: Point) -> Path:
    """The loop, standing on the wood at `foot` and pointing `way` (a unit vector) off it."""
    return _placed(_LOOP, foot, way)


def face_edge_mark(foot: Point, way: Point) -> Path:
    """The chevron, standing on the wood at `foot` and opening `way` (a unit vector) off it."""
    return _placed(_CHEVRON, foot, way)


def _placed(shape: _Shape, foot: Point, way: Point) -> Path:
    def there(p: tuple[float, float]) -> Point:
        side, out = p
        return foot[0] + side * -way[1] + out * way[0], foot[1] + side * way[0] + out * way[1]

    return tuple(Step(verb, tuple(there(p) for p in points)) for verb, points in shape)
