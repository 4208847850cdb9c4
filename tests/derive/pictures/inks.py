"""What tests read from a drawing: marks, leaders, the paper that is used."""

from __future__ import annotations

from itertools import combinations

import shapely

from planbuild.records.drawing import Drawing, Pen, TextRole
from planbuild.records.legibility import segments


def marks(drawing: Drawing) -> list[str]:
    """Ids of the parts that are marked."""
    return [text.refers for text in drawing.texts if text.role is TextRole.MARK]


def circles(drawing: Drawing) -> list[shapely.Geometry]:
    """The outlines of marks as areas, in the order of their letters."""
    rims = [stroke for stroke in drawing.cover_strokes if stroke.pen is Pen.LEADER]
    return [shapely.Polygon([a for a, _ in segments(stroke.path)]) for stroke in rims]


def leaders(drawing: Drawing) -> list[shapely.Geometry]:
    return [shapely.LineString(list(segments(s.path))[0]) for s in drawing.strokes if s.pen is Pen.LEADER]


def overlapping(areas: list[shapely.Geometry]) -> list[tuple[int, int]]:
    return [(i, j) for (i, a), (j, b) in combinations(enumerate(areas), 2) if a.intersects(b)]


def used_paper(drawing: Drawing) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of all ink."""
    paths = [s.path for s in (*drawing.strokes, *drawing.cover_strokes)] + [f.path for f in (*drawing.fills, *drawing.covers)]
    points = [point for path in paths for a, b in segments(path) for point in (a, b)]
    return tuple(shapely.MultiPoint(points).bounds)
