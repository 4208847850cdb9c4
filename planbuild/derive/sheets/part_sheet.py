"""The drawing of one part that a maker works from: views, every size once, what goes where."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from planbuild.core.units import Ruler
from planbuild.derive.dimensions.figures import text_of
from planbuild.derive.dimensions.measure import Measure
from planbuild.derive.dimensions.measures import measures_of
from planbuild.derive.dimensions.tree import Chosen, choose
from planbuild.derive.lists.features import feature_facts
from planbuild.derive.pictures.hatching import ply_way
from planbuild.derive.sheets.block import merged
from planbuild.derive.sheets.compose import compose
from planbuild.derive.sheets.drawn import Work
from planbuild.derive.sheets.lie import Lie, lie_of
from planbuild.derive.sheets.picture import hands_of
from planbuild.derive.sheets.plan import Plan, plan_views
from planbuild.derive.sheets.scales import scale_text
from planbuild.derive.sheets.seen import look_at
from planbuild.records.drawing import Drawing
from planbuild.records.edition import Edition
from planbuild.records.facts import Dimension, FeatureFacts
from planbuild.records.findings import Findings
from planbuild.records.piece import Part, Piece
from planbuild.records.solids import Solids


@dataclass(frozen=True)
class Sheet:
    """`drawing` is as wide as the text of the page and leaves room for a table below it; `dimensions` all that it states."""

    drawing: Drawing
    dimensions: tuple[Dimension, ...]
    features: tuple[FeatureFacts, ...]


def part_sheet(part: Part, piece: Piece, solids: Solids, findings: Findings, edition: Edition) -> Sheet:
    """The sheet of a part for one edition, drawn from its solid and dimensioned from its features."""
    lie = lie_of(part)
    chosen = choose(_ordered(measures_of(part, lie.datum), lie))
    plan = plan_views(part, lie, chosen.all)
    texts = _texts(chosen, plan, edition.ruler)
    sheet = piece.stock_of(part).sheet
    ways = [ply_way(part.thickness_axis, each.camera) if sheet else None for each in plan.views]
    seen = [replace(look_at(part, solids, each), plies=way) for each, way in zip(plan.views, ways, strict=True)]
    composed = compose(Work(piece, part, lie, plan, texts), seen, hands_of(part, solids, findings), edition)
    scale = scale_text(composed.scale)
    drawing = merged(f"sheet.{part.id}", composed.blocks, edition.text_width, composed.height, _alt(piece, part, plan), scale)
    return Sheet(drawing, _dimensions(part, chosen, plan, texts), feature_facts(piece, part))


def _ordered(measures: Sequence[Measure], lie: Lie) -> list[Measure]:
    """What the main view shows first, so that a number two features share is printed there; the board itself last."""
    return sorted(measures, key=lambda each: (each.feature == "body", lie.main not in each.seen))


def _texts(chosen: Chosen, plan: Plan, ruler: Ruler) -> dict[str, str]:
    """Printed text by measure; of like features with their number: `12 × ⌀ 3/32`."""
    counts = {id: f"{count} × " for id, count in plan.counts.items()}
    return {each.id: counts.get(each.id, "") + text_of(each, ruler, chosen) for each in chosen.all}


def _dimensions(part: Part, chosen: Chosen, plan: Plan, texts: Mapping[str, str]) -> tuple[Dimension, ...]:
    """One record a number, in the order of the views; the far end's with the figure that is printed for both."""
    found = [_dimension(part, each, view.id, texts[each.id], chosen) for view in plan.views for each in view.measures]
    where = {each.id: view.id for view in plan.views for each in view.measures}
    found += [_dimension(part, other, where[drawn.id], texts[drawn.id], chosen) for other, drawn in plan.twins]
    return (*found, *(_dimension(part, each, "note", texts[each.id], chosen) for each in plan.notes))


def _dimension(part: Part, measure: Measure, view: str, text: str, chosen: Chosen) -> Dimension:
    axis = measure.axis.words if measure.axis is not None else ""
    ends = (min(measure.ends), max(measure.ends))
    bracketed = measure in chosen.bracketed
    id = f"{part.id}:{measure.id}"
    return Dimension(id, part.id, measure.feature, measure.states, measure.value, text, axis, ends, view, measure.unit, bracketed)


def _alt(piece: Piece, part: Part, plan: Plan) -> str:
    views = ", ".join(each.id for each in plan.views)
    return f"Part sheet of {part.mark} {part.name}: {views}, with all sizes."
