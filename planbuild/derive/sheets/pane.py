"""A view at its scale on the paper: outlines, hidden lines, cut wood, breaks.  Units: paper mm, y down."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

import shapely
from shapely import Geometry

from planbuild.core.geometry import Vec
from planbuild.derive.dimension_lines import Ink
from planbuild.derive.paint import Frame, Pens, path_of, strokes
from planbuild.derive.pictures.hatching import end_grain, long_grain, plies
from planbuild.derive.sheets.breaks import Squeeze
from planbuild.derive.sheets.seen import Seen
from planbuild.derive.views.view import Line, LineKind
from planbuild.records.drawing import Fill, Path, Pen, Point, Step, Stroke, Tint, line
from planbuild.records.legibility import PaperBox

_PENS: Pens = {
    LineKind.OUTLINE: Pen.VISIBLE,
    LineKind.EDGE: Pen.VISIBLE,
    LineKind.SMOOTH: Pen.SMOOTH,
    LineKind.HIDDEN: Pen.HIDDEN,
}
_OVER = 1.2
"""A break line passes the outline by so much."""
_INSIDE = 0.05
_APART = 0.7


@dataclass(frozen=True)
class Pane:
    """A view drawn at `scale` (paper mm a model mm) with its upper left corner at the origin."""

    seen: Seen
    scale: float
    squeeze: Squeeze

    @property
    def box(self) -> PaperBox:
        low, high = self._bounds[1], self._bounds[3]
        return 0.0, 0.0, self.scale * self.squeeze.length, self.scale * (high - low)

    @cached_property
    def _bounds(self) -> tuple[float, float, float, float]:
        left, low, right, high = shapely.bounds(self.seen.outline)
        return float(left), float(low), float(right), float(high)

    def spot(self, p: Vec) -> Point:
        """A point of the piece on the paper."""
        u, v = self.seen.plan.camera.flat(p)
        return self._x(u), self._y(v)

    def _x(self, u: float) -> float:
        return self.scale * (self.squeeze(u) - self.squeeze.kept[0][0])

    def _y(self, v: float) -> float:
        return self.scale * (self._bounds[3] - v)

    @cached_property
    def outline(self) -> Geometry:
        """The outline of each stretch that is drawn, on the paper."""
        return shapely.union_all([self._placed(self.seen.outline, stretch) for stretch in self.squeeze.kept])

    def _placed(self, geometry: Geometry, stretch: tuple[float, float]) -> Geometry:
        """What of a geometry lies in a stretch, where that stretch is drawn."""
        left, low, right, high = self._bounds
        part = shapely.intersection(geometry, shapely.box(stretch[0], low - 1, stretch[1], high + 1))
        shift = self._x(stretch[0]) - self.scale * stretch[0]
        return shapely.transform(part, lambda p: p * (self.scale, -self.scale) + (shift, self.scale * high))

    def reach(self, place: float, across: bool) -> tuple[float, float]:
        """From where to where the outline lies on a line square to the paper direction (`across`: at x = place)."""
        left, top, right, bottom = self.box
        middle = (left + right) / 2 if across else (top + bottom) / 2
        inner = place + (_INSIDE if place < middle else -_INSIDE)
        ray = shapely.LineString([(inner, top - 1), (inner, bottom + 1)] if across else [(left - 1, inner), (right + 1, inner)])
        hit = shapely.intersection(self.outline, ray)
        if shapely.is_empty(hit):
            return (top, bottom) if across else (left, right)
        bounds = shapely.bounds(hit)
        return (float(bounds[1]), float(bounds[3])) if across else (float(bounds[0]), float(bounds[2]))

    # ------------------------------------------------------------ ink

    def ink(self) -> Ink:
        """All lines of the view."""
        return Ink((*self._lines(), *self._cut_lines(), *self._break_lines()))

    def fills(self) -> tuple[Fill, ...]:
        if self.seen.cut is None:
            return ()
        return (Fill(Tint.CUT, path_of(self._placed(self.seen.cut, self.squeeze.kept[0]))),)

    def _lines(self) -> tuple[Stroke, ...]:
        cut = tuple(each for line in self._legible() for each in self._squeezed(line))
        frame = Frame(self.scale, -self.scale * self.squeeze.kept[0][0], self.scale * self._bounds[3])
        return strokes(replace(self.seen.view, lines=cut), frame, lambda key: _PENS)

    def _legible(self) -> list[Line]:
        """The lines less those hidden ones that would run into a visible one (least spacing: ISO 128-2)."""
        seen = [each for each in self.seen.view.lines if each.kind is not LineKind.HIDDEN]
        zone = shapely.union_all([shapely.LineString(each.points) for each in seen]).buffer(_APART / self.scale, quad_segs=2)
        hidden = [each for each in self.seen.view.lines if each.kind is LineKind.HIDDEN]
        return [*seen, *(each for each in hidden if not shapely.covers(zone, shapely.LineString(each.points)))]

    def _squeezed(self, line: Line) -> Iterator[Line]:
        """The pieces of a line that lie in stretches that are drawn, moved to where these are."""
        _, low, _, high = self._bounds
        for start, stop in self.squeeze.kept:
            part = shapely.intersection(shapely.LineString(line.points), shapely.box(start, low - 1, stop, high + 1))
            shift = self.squeeze(start) - start
            for piece in shapely.get_parts(part):
                if piece.geom_type == "LineString" and piece.length > 1e-6:
                    yield replace(line, points=tuple((x + shift, y) for x, y in piece.coords))

    def _cut_lines(self) -> Iterator[Stroke]:
        """Outline of cut wood and its hatching."""
        if self.seen.cut is None:
            return
        area = self._placed(self.seen.cut, self.squeeze.kept[0])
        if self.seen.plies:
            yield from plies(area, self.seen.plies)
        elif self.seen.plan.letter:
            yield from end_grain(area, 0)
        else:
            yield from long_grain(area, (1.0, 0.0), 0)
        torn = shapely.union_all([_upright(self._x(u), self.box) for u in self.seen.torn])
        rim = shapely.difference(shapely.boundary(area), torn.buffer(0.02) if self.seen.torn else torn)
        for piece in shapely.get_parts(shapely.line_merge(rim)):
            yield Stroke(Pen.SECTION, line(*piece.coords))

    def _break_lines(self) -> Iterator[Stroke]:
        """Freehand lines on both sides of each gap, and where a view ends in the wood."""
        for low, high in self.squeeze.breaks:
            yield from (self._torn_at(self._x(low), -_INSIDE), self._torn_at(self._x(high), _INSIDE))
        for u in self.seen.torn:
            yield self._torn_at(self._x(u), 0.0)

    def _torn_at(self, x: float, nudge: float) -> Stroke:
        ray = _upright(x + nudge, self.box)
        hit = shapely.bounds(shapely.intersection(self.outline.buffer(0.06), ray))
        return Stroke(Pen.BREAK, _freehand(x, float(hit[1]) - _OVER, float(hit[3]) + _OVER))


def _upright(x: float, box: PaperBox) -> Geometry:
    return shapely.LineString([(x, box[1] - 1), (x, box[3] + 1)])


def _freehand(x: float, top: float, bottom: float) -> Path:
    """A line down the paper that swings to either side, as long wood is shown broken."""
    swing, middle = min(1.4, (bottom - top) / 10), (top + bottom) / 2
    upper, lower = (middle - top) / 3, (bottom - middle) / 3
    return (
        Step("M", ((x, top),)),
        Step("C", ((x + swing, top + upper), (x + swing, middle - upper), (x, middle))),
        Step("C", ((x - swing, middle + lower), (x - swing, bottom - lower), (x, bottom))),
    )
