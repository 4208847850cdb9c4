"""What one view shows, before its scale is chosen: lines, outline and cut wood.  Units: model mm, u right, v up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import shapely
from shapely import Geometry

from planbuild.core.geometry import TINY, Axis
from planbuild.derive.dimensions.where import at
from planbuild.derive.pictures.cutting import kept_inside, sawn_faces
from planbuild.derive.sheets.lie import facing
from planbuild.derive.sheets.plan import Kind, ViewPlan
from planbuild.derive.views import project
from planbuild.derive.views.view import Body, Line, View
from planbuild.records.drawing import Point
from planbuild.records.piece import Part
from planbuild.records.solids import Solids


@dataclass(frozen=True)
class Seen:
    """`outline` is the shape that is seen, `cut` the part of it that is cut wood, None if nothing is cut.

    `torn` are the places (u) where the view ends in the middle of the wood.
    """

    plan: ViewPlan
    view: View
    outline: Geometry
    cut: Geometry | None = None
    torn: tuple[float, ...] = ()
    plies: Point | None = None
    """How the plies run on the paper where a sheet is cut through them."""


def look_at(part: Part, solids: Solids, plan: ViewPlan) -> Seen:
    """The solid of a part as one view of its sheet shows it; hidden lines only on whole long faces."""
    bodies = [Body((part.id, 0), solids.of[part.id].cut)]
    if plan.clip is not None:
        bodies = kept_inside(bodies, {(part.id, 0): solids.of[part.id].box}, plan.clip)
    view = project(bodies, plan.camera, hidden=plan.kind is Kind.LONG)
    torn = _torn(part, plan)
    kept = tuple(line for line in view.lines if not any(_lies_on(line, u) for u in torn))
    outline = shapely.union_all(list(view.visible.values()))
    cut = _cut_wood(bodies, plan) if plan.kind is Kind.SECTION else None
    return Seen(plan, replace(view, lines=kept), outline, cut, torn)


def _torn(part: Part, plan: ViewPlan) -> tuple[float, ...]:
    """Where a clipping box cuts through the board along the paper."""
    if plan.clip is None:
        return ()
    end = facing(plan.camera.right)
    whole, span = part.extent.along(end.axis), plan.clip.along(end.axis)
    places = [span.low] * (span.low > whole.low + TINY) + [span.high] * (span.high < whole.high - TINY)
    return tuple(sorted(end.sign * place for place in places))


def _lies_on(line: Line, u: float) -> bool:
    return all(abs(p[0] - u) < 2 * TINY for p in line.points)


def _cut_wood(bodies: Sequence[Body], plan: ViewPlan) -> Geometry:
    """What the saw left on the plane of the section."""
    on_plane = at({axis: plan.station if axis is plan.face.axis else 0.0 for axis in Axis})
    return shapely.union_all(list(sawn_faces(bodies, plan.camera, on_plane).values()))
