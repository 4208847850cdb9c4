"""Is a view to be trusted?  Lines and visible regions are found in different ways; here they are compared.

The kernel's hidden-line removal can show hidden lines, or none, without raising an error.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
import shapely
from shapely import Geometry

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.derive.views.merge import TOGETHER
from planbuild.derive.views.view import Flat, Line, LineKind, View
from planbuild.records.solids import Key

_OFF = 0.25
"""A visible line may lie so far (mm) from the border of a visible face of its body: facets stand in for curves."""
_SAMPLES = 400


def suspects(view: View, name: str) -> tuple[Diagnostic, ...]:
    """Diagnostics `view-suspect` for the view called `name`; empty if it can be trusted.

    An empty view, a doubled line, a visible line that does not border a visible face of its own body,
    and a border between a body and its surroundings without a line.
    """
    if not view.lines:
        return (_suspect(name, "it has no lines"),)
    told = [*_doubled(view), *_astray(view), *_missing(view)]
    return tuple(_suspect(name, each) for each in told)


def _suspect(name: str, what: str) -> Diagnostic:
    return Diagnostic(
        "view-suspect",
        f"the picture {name!r} cannot be trusted: {what}",
        Severity.ERROR,
        expected="a line along every border of what is seen, and no other line",
        hints=("two solids that overlap are drawn wrongly: look at the findings about overlaps first",),
    )


def _doubled(view: View) -> Iterator[str]:
    lines = np.array([shapely.LineString(each.points) for each in view.lines], dtype=object)
    middles = shapely.line_interpolate_point(lines, 0.5, normalized=True)
    tree = shapely.STRtree(lines)
    near = tree.query(middles, predicate="dwithin", distance=TOGETHER / 3)
    for i, j in near.T:
        if i < j and _along(lines[i], lines[j]):
            u, v = middle(view.lines[i])
            yield f"two lines lie on each other near ({u:.1f}, {v:.1f})"


def _along(a: Geometry, b: Geometry) -> bool:
    """True if they share a stretch and do not merely cross."""
    return bool(a.intersection(b.buffer(TOGETHER / 3)).length > 10 * TOGETHER)


def _astray(view: View) -> Iterator[str]:
    """Visible lines whose middle is not on the border of a visible face of their body."""
    rings: dict[Key, list[list[Flat]]] = {key: [] for key in view.visible}
    for region in view.regions:
        rings[region.key] += [[*ring, ring[0]] for ring in region.rings]
    borders = {key: shapely.MultiLineString(found) for key, found in rings.items()}
    drawn = [each for each in view.lines if each.kind is not LineKind.HIDDEN]
    for each in _sample(drawn):
        u, v = middle(each)
        if not shapely.dwithin(borders[each.key], shapely.Point(u, v), _OFF):
            yield f"a line of {each.key[0]} near ({u:.1f}, {v:.1f}) should be hidden"


def _missing(view: View) -> Iterator[str]:
    """Places on the border of a body's visible part where no line is drawn."""
    ink = shapely.STRtree([shapely.LineString(each.points) for each in view.lines if each.kind is not LineKind.HIDDEN])
    for key, seen in view.visible.items():
        spots = _middles_of(shapely.boundary(seen))
        if not spots:
            continue
        inked = set(ink.query(spots, predicate="dwithin", distance=_OFF)[0].tolist())
        for i in range(len(spots)):
            if i not in inked:
                yield f"the outline of {key[0]} has a gap near ({spots[i].x:.1f}, {spots[i].y:.1f})"
                break


def _middles_of(border: Geometry) -> list[Geometry]:
    """The middle of each straight stretch that is long enough to matter."""
    found = []
    for part in shapely.get_parts(border):
        points = np.array(part.coords)
        middles = (points[1:] + points[:-1]) / 2
        long = np.linalg.norm(np.diff(points, axis=0), axis=1) > 4 * _OFF
        found += [shapely.Point(p) for p in middles[long]]
    return found


def _sample(lines: Sequence[Line]) -> Sequence[Line]:
    """All lines, or evenly spread ones of very many."""
    return lines[:: 1 + len(lines) // _SAMPLES]


def middle(line: Line) -> Flat:
    """A point half way along, on the line itself."""
    point = shapely.LineString(line.points).interpolate(0.5, normalized=True)
    return float(point.x), float(point.y)
