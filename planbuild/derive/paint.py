"""A view put on paper: its regions as one fill a tint, its lines as one stroke a pen.

Tones: lightest where a face looks up, a step darker toward the front, two toward the side.
Units: model mm in (u right, v up), paper mm out (y down).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

import numpy as np
import shapely
from shapely import Geometry

from planbuild.core.geometry import Vec
from planbuild.derive.views.view import Flat, Line, LineKind, View
from planbuild.records.drawing import Fill, Path, Pen, Point, Step, Stroke, Tint
from planbuild.records.legibility import PaperBox
from planbuild.records.solids import Key


@dataclass(frozen=True)
class Frame:
    """How a view lies on the paper: `scale` is paper mm a model mm, (`x`, `y`) where u = v = 0 falls."""

    scale: float
    x: float
    y: float

    def point(self, p: Flat) -> Point:
        return self.x + self.scale * p[0], self.y - self.scale * p[1]

    def shape(self, geometry: Geometry) -> Geometry:
        """A geometry of the view on paper; one that touches itself there is made sound, so that it can be cut."""
        moved = shapely.transform(geometry, lambda p: p * (self.scale, -self.scale) + (self.x, self.y))
        return moved if moved.is_valid else shapely.make_valid(moved)


ViewBox = tuple[float, float, float, float]
"""Low u, low v, high u, high v in model mm."""


def scale_to_fit(box: ViewBox, width: float, height: float) -> float:
    """The largest scale at which the box fits."""
    across, along = box[2] - box[0], box[3] - box[1]
    return min(width / max(across, 1e-6), height / max(along, 1e-6))


def centred(box: ViewBox, room: PaperBox, scale: float) -> Frame:
    """The box at that scale in the middle of a room on the paper."""
    u, v = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    return Frame(scale, (room[0] + room[2]) / 2 - scale * u, (room[1] + room[3]) / 2 + scale * v)


# ---------------------------------------------------------------- tones


Tone = tuple[Tint, Tint, Tint]
"""The tints of faces that look up, to the front and to a side."""

WOOD: Tone = (Tint.UP, Tint.FRONT, Tint.SIDE)
NEW: Tone = (Tint.NEW_UP, Tint.NEW_FRONT, Tint.NEW_SIDE)
BOUGHT: Tone = (Tint.BOUGHT_UP, Tint.BOUGHT_FRONT, Tint.BOUGHT_SIDE)
PALE: Tone = (Tint.PALE_UP, Tint.PALE_FRONT, Tint.PALE_SIDE)

_UP = 0.6


def tint_of(normal: Vec, tone: Tone = WOOD) -> Tint:
    """The tint of a face that looks along `normal`; faces that look down are as dark as sides."""
    x, y, z = normal
    if z > _UP:
        return tone[0]
    return tone[1] if z > -_UP and abs(y) >= abs(x) else tone[2]


def _lit(normal: Vec, view: View) -> Vec:
    """Where a face looks on the paper's own up: what lies upside down is lit from above too."""
    x, y, z = normal
    return (x, -y, -z) if view.camera.up[2] < 0 else normal


def fills(
    view: View, frame: Frame, tone: Callable[[Key, Vec], Tone], worked: Mapping[Key, frozenset[int]] = MappingProxyType({})
) -> tuple[Fill, ...]:
    """One fill a tint; patches of a tint that touch are one, so that no seam shows between them.

    Faces whose numbers are among the `worked` ones of their body take the tone of what is new.
    """
    by_tint: dict[Tint, list[Any]] = {}
    for region in view.regions:
        new = region.face in worked.get(region.key, ())
        tint = tint_of(_lit(region.normal, view), NEW if new else tone(region.key, region.normal))
        by_tint.setdefault(tint, []).append(shapely.Polygon(region.rings[0], region.rings[1:]))
    found = []
    for tint in sorted(by_tint, key=list(Tint).index):
        area = frame.shape(shapely.union_all(by_tint[tint], grid_size=1e-4))
        found.append(Fill(tint, path_of(area)))
    return tuple(found)


def path_of(geometry: Geometry) -> Path:
    """Polygons on paper as one even-odd path."""
    steps: list[Step] = []
    for part in shapely.get_parts(geometry):
        if part.geom_type == "Polygon":
            for ring in (part.exterior, *part.interiors):
                first, *rest = ring.coords[:-1]
                steps += [Step("M", (first,)), *(Step("L", (p,)) for p in rest), Step("Z")]
    return tuple(steps)


# ---------------------------------------------------------------- lines

Pens = Mapping[LineKind, Pen]
BOLD: Pens = {
    LineKind.OUTLINE: Pen.OUTLINE,
    LineKind.EDGE: Pen.VISIBLE,
    LineKind.SMOOTH: Pen.SMOOTH,
    LineKind.HIDDEN: Pen.HIDDEN,
}
LIGHT: Pens = {**BOLD, LineKind.OUTLINE: Pen.VISIBLE, LineKind.EDGE: Pen.SMOOTH}
"""For what stands in the background."""

_APART = 0.45
"""Paper mm: a light line nearer than this to a heavier one along its length would only thicken it."""


_CROWDED = 1.1
"""Paper mm: outlines nearer to each other than this, inside the picture, are drawn light."""


def strokes(view: View, frame: Frame, pens: Callable[[Key], Pens]) -> tuple[Stroke, ...]:
    """One stroke a pen.  Lines that would run into a heavier neighbour are left out, crowded outlines are light."""
    by_pen: dict[Pen, list[Line]] = {}
    for each in thinned(view, frame.scale):
        by_pen.setdefault(pens(each.key)[each.kind], []).append(each)
    return tuple(Stroke(pen, _path(by_pen[pen], frame)) for pen in sorted(by_pen, key=list(Pen).index))


def _path(lines: Iterable[Line], frame: Frame) -> Path:
    steps: list[Step] = []
    for each in lines:
        first, *rest = (frame.point(p) for p in each.points)
        steps += [Step("M", (first,)), *(Step("L", (p,)) for p in rest)]
    return tuple(steps)


def thinned(view: View, scale: float) -> list[Line]:
    """The lines that print clean at this scale, heavy ones first."""
    rim = shapely.boundary(shapely.union_all(list(view.visible.values())))
    outlines = [each for each in view.lines if each.kind is LineKind.OUTLINE]
    light = [each for each in view.lines if each.kind is not LineKind.OUTLINE]
    return _apart(_demoted(outlines, rim, scale) + light, _APART / scale)


def _demoted(outlines: Sequence[Line], rim: Geometry, scale: float) -> list[Line]:
    """Outlines, those inside the picture that run close beside another one drawn as inner edges."""
    shapes = _shapes(outlines)
    crowd = [0.0] * len(shapes)
    for i, _, share in _beside(shapes, _CROWDED / scale):
        crowd[i] += share
    hem = rim.buffer(_APART / scale / 4, quad_segs=2)
    return [
        Line(LineKind.EDGE, each.key, each.points) if crowd[i] > 0.5 and _inside(shapes[i], hem) else each
        for i, each in enumerate(outlines)
    ]


def _inside(shape: Geometry, hem: Geometry) -> bool:
    """True if the line is not part of the rim of the whole picture."""
    return bool(shape.intersection(hem).length < shape.length / 2)


def _apart(lines: Sequence[Line], apart: float) -> list[Line]:
    """The lines less the light ones that lie beside heavier or longer ones for nearly all their length."""
    order = sorted(lines, key=lambda each: (_WEIGHT[each.kind], -shapely.LineString(each.points).length))
    beside: list[list[tuple[int, float]]] = [[] for _ in order]
    for i, j, share in _beside(_shapes(order), apart):
        beside[i].append((j, share))
    kept: set[int] = set()
    for i, each in enumerate(order):
        covered = sum(share for j, share in beside[i] if j in kept)
        if each.kind not in (LineKind.EDGE, LineKind.SMOOTH) or covered <= 0.85:
            kept.add(i)
    return [order[i] for i in sorted(kept)]


_WEIGHT = {LineKind.OUTLINE: 0, LineKind.EDGE: 1, LineKind.SMOOTH: 2, LineKind.HIDDEN: 3}


def _shapes(lines: Sequence[Line]) -> Any:
    return np.array([shapely.LineString(each.points) for each in lines], dtype=object)


def _beside(shapes: Any, apart: float) -> list[tuple[int, int, float]]:
    """(line, other, share of the line that has the other beside it) for each pair of neighbours, in order."""
    if not len(shapes):
        return []
    first, second = shapely.STRtree(shapes).query(shapes, predicate="dwithin", distance=apart)
    first, second = first[first != second], second[first != second]
    zones = shapely.buffer(shapes, apart, cap_style="flat", quad_segs=2)
    shares = shapely.length(shapely.intersection(shapes[first], zones[second])) / shapely.length(shapes)[first]
    return sorted((int(i), int(j), float(share)) for i, j, share in zip(first, second, shares, strict=True) if share > 0.02)
