"""Gaps by the day: what to leave at panels, doors and drawers when the air of the shop is dry or damp.

The gap drawn is that at workshop moisture.  Wood that has settled in damper air is swollen already and wants less, in
drier air more.  Source: Wood Handbook (USDA Forest Products Laboratory), equations 4-5 and 13-2.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial

from planbuild.core.geometry import Box
from planbuild.core.moisture import settled_moisture
from planbuild.core.units import Ruler
from planbuild.joints.rooms import Floating, Gap, Key, floating, gaps, grows
from planbuild.records.edition import Edition
from planbuild.records.facts import SeasonGap, SeasonRow
from planbuild.records.piece import Piece

WARMTH = 21.0
"""Celsius (70 F): the usual warmth of a shop; ten degrees more or less change the moisture by less than half a point."""

AIR = tuple(range(20, 85, 5))
"""Relative humidities that a hygrometer is read at, %."""

NEAR = 0.25
"""Points of moisture by which a humidity may lie outside the climate of the design and still be printed."""

MOST = 8
"""Columns of the table."""


def seasons(piece: Piece, edition: Edition) -> tuple[SeasonRow, ...]:
    """One row a panel, and one each way for what opens; none for sheets, which stand still."""
    days = _days(piece)
    return (*_panels(piece, edition, days), *_openings(piece, edition, days)) if days else ()


def _days(piece: Piece) -> tuple[tuple[int, float], ...]:
    """Humidity and moisture (%), within the climate of the design; every second one where there are too many."""
    dry, damp, _ = piece.moisture
    found = [(air, settled_moisture(air, WARMTH)) for air in AIR]
    within = [each for each in found if dry - NEAR <= each[1] <= damp + NEAR]
    return tuple(within if len(within) <= MOST else within[::2])


def _panels(piece: Piece, edition: Edition, days: tuple[tuple[int, float], ...]) -> Iterator[SeasonRow]:
    first: dict[str, Floating] = {}
    for panel in floating(piece):
        first.setdefault(panel.part.id, panel)
    for panel in first.values():
        row = _gaps_of(edition, days, partial(_beside_panel, piece, panel))
        yield SeasonRow(panel.part.id, panel.part.name, "behind each edge across the grain, in its groove", row)


def _openings(piece: Piece, edition: Edition, days: tuple[tuple[int, float], ...]) -> Iterator[SeasonRow]:
    boxes = {(part.id, copy): part.box(copy, part.extent) for part in piece.parts for copy in range(len(part.copies))}
    first: dict[tuple[str, str], Gap] = {}
    for gap in gaps(piece, boxes):
        first.setdefault((gap.mover.kind, gap.axis.words), gap)
    for gap in first.values():
        row = _gaps_of(edition, days, partial(_beside_opening, piece, boxes, gap))
        yield SeasonRow("", gap.mover.kind, _where(piece, gap), row)


def _beside_panel(piece: Piece, panel: Floating, moisture: float) -> float:
    """Half of its room at each edge."""
    return (panel.room - grows(piece, panel.part, panel.width, moisture)) / 2


def _beside_opening(piece: Piece, boxes: Mapping[Key, Box], gap: Gap, moisture: float) -> float:
    return gap.room - gap.swells(piece, boxes, moisture)


def _where(piece: Piece, gap: Gap) -> str:
    if gap.both:
        return f"both gaps together, {gap.axis.words}"
    return f"{'its half of the gap' if gap.half else 'gap'} to the {piece.part(gap.beside[0]).name}"


def _gaps_of(edition: Edition, days: tuple[tuple[int, float], ...], gap: Callable[[float], float]) -> tuple[SeasonGap, ...]:
    found = [(air, moisture, max(gap(moisture), 0.0)) for air, moisture in days]
    fine = Ruler(edition.ruler.unit, edition.ruler.step / 2)  # a gap is felt with a slip of card
    return tuple(SeasonGap(air, round(moisture, 1), size, fine.printed(size)) for air, moisture, size in found)
