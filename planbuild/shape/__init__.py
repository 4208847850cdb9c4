"""Shape: one solid for each part, cut from its features in order of work, and every copy where it stands."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial

import cadquery as cq

from planbuild.core.diagnostics import Collector, Diagnostic
from planbuild.core.geometry import Box, Span1
from planbuild.records.features import Feature, Tenon
from planbuild.records.piece import Part, Piece
from planbuild.records.solids import Key, PartSolid, Solids
from planbuild.shape import kernel
from planbuild.shape.blanks import blank
from planbuild.shape.bought import bought
from planbuild.shape.cutting import OPENINGS, SHAPES, cut_feature, cut_free_openings
from planbuild.shape.kernel import Fault
from planbuild.shape.pegs import bent
from planbuild.shape.placing import placed
from planbuild.shape.tenons import add_tenon
from planbuild.shape.workpiece import Workpiece, finished


def shape(piece: Piece) -> Solids:
    """The solids of a piece, the drawn copy and every standing one.  Units: mm.

    Reports `shape-failed` for each feature that cannot be cut as its numbers say.  Raises Refused.
    """
    report = Collector()
    made = {part.id: _made(part, report) for part in piece.parts}
    report.refuse_if_any_stops()
    of = {id: solid for id, solid in made.items() if solid}
    whole = piece.straight
    straight = Solids(of, _standing(whole, of), _unfinished, bought(whole)) if whole else None
    return Solids(of, _standing(piece, of), _unfinished, bought(piece), straight)


def _standing(piece: Piece, of: Mapping[str, PartSolid]) -> dict[Key, cq.Shape]:
    return {
        (part.id, index): cq.Shape.cast(placed(of[part.id].fitted.wrapped, part.stands(index)))
        for part in piece.parts
        for index in range(len(part.copies))
    }


def _unfinished(part: Part) -> cq.Shape:
    """The solid of a part with the features that it has so far.  Raises Refused."""
    report = Collector()
    work = _worked(part, report)
    solid = _joined(work, _tenons(part), False, report) if work else None
    report.refuse_if_any_stops()
    assert solid is not None
    return solid


def _made(part: Part, report: Collector) -> PartSolid | None:
    """A part cut from its blank; None if it has no blank.  A feature that fails is reported and left out."""
    work = _worked(part, report)
    return _with_tenons(part, work, report) if work else None


def _worked(part: Part, report: Collector) -> Workpiece | None:
    """The blank with all shapes and openings cut, its tenons still to come."""
    try:
        work = blank(part)
    except Fault as fault:
        report.add(_told(part, None, fault))
        return None
    shapes = [feature for feature in part.features if type(feature) in SHAPES]
    openings = [feature for feature in part.features if type(feature) in OPENINGS]
    for feature in (*shapes, *cut_free_openings(openings, work)):
        _try(partial(cut_feature, feature, work), part, feature, report)
    return work


def _tenons(part: Part) -> list[Tenon]:
    return [feature for feature in part.features if isinstance(feature, Tenon)]


def _with_tenons(part: Part, work: Workpiece, report: Collector) -> PartSolid:
    """The part as it leaves the bench, and as it sits in the finished piece."""
    tenons = _tenons(part)
    spreads = any(tenon.wedging and tenon.wedging.flare for tenon in tenons)
    cut = _joined(work, tenons, False, report)
    fitted = _joined(work, tenons, True, report) if spreads else _driven_home(part, cut, report)
    volume, centre = kernel.volume_and_centre(cut.wrapped)
    return PartSolid(part.id, cut, fitted, volume, centre, _box(cut))


def _driven_home(part: Part, cut: cq.Shape, report: Collector) -> cq.Shape:
    """A peg in holes that are bored out of line lies bent; anything else stays as it is."""
    if part.bend is None:
        return cut
    try:
        return cq.Shape.cast(bent(part, cut.wrapped, part.bend))
    except Fault as fault:
        report.add(_told(part, None, fault))
        return cut


def _joined(work: Workpiece, tenons: list[Tenon], fitted: bool, report: Collector) -> cq.Shape:
    whole = replace(work)
    for tenon in tenons:
        _try(partial(add_tenon, tenon, whole, fitted), whole.part, tenon, report)
    try:
        return cq.Shape.cast(finished(whole))
    except Fault as fault:
        report.add(_told(work.part, None, fault))
        return cq.Shape.cast(whole.solid)


def _box(solid: cq.Shape) -> Box:
    """The box around a solid, without the kernel's padding of 1e-7 mm."""
    around = solid.BoundingBox()
    ends = ((around.xmin, around.xmax), (around.ymin, around.ymax), (around.zmin, around.zmax))
    x, y, z = (Span1(round(low, 4), round(high, 4)) for low, high in ends)
    return Box(x, y, z)


def _try(work: Callable[[], None], part: Part, feature: Feature, report: Collector) -> None:
    """One feature; a fault is reported at the place where the feature was asked for."""
    try:
        work()
    except Fault as fault:
        report.add(_told(part, feature, fault))


def _told(part: Part, feature: Feature | None, fault: Fault) -> Diagnostic:
    what = f'The {feature.kind} "{feature.id}" of {part.name}' if feature else f"The part {part.name}"
    hints = (fault.hint,) if fault.hint else ()
    span = feature.origin if feature else part.origin
    return Diagnostic("shape-failed", f"{what} cannot be cut.  {fault.message}", span=span, hints=hints)
