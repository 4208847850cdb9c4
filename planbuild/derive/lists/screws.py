"""Holes for wood screws: one rule, from one table, chosen by gauge and by how dense the wood is.

Charts differ by one or two drill sizes; the plan names the rule it follows (row `fasteners` of the tables).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from planbuild.core import tables
from planbuild.core.units import Ruler, Unit
from planbuild.derive.habits import habit_number
from planbuild.derive.lists.weights import species_row


@dataclass(frozen=True)
class ScrewHoles:
    """Drill for the thread (`pilot`) and for the shank (`clearance`), round in the reader's unit.  Units: mm."""

    pilot: float
    clearance: float


def is_dense(species: str) -> bool:
    """Whether a wood gets the pilot hole for hard woods (a heuristic on specific gravity, see `core/tables/making.csv`)."""
    return float(species_row(species)["specific_gravity"]) >= habit_number("dense_wood")


def screw_holes(gauge: str, species: str, ruler: Ruler) -> ScrewHoles | None:
    """For a wood screw whose thread holds in `species`; None for a gauge that is not in the table."""
    row = tables.row("fasteners", "gauge", gauge)
    if row is None:
        return None
    unit = "in" if ruler.unit is Unit.INCH else "mm"
    pilot = row[f"pilot_{'hard' if is_dense(species) else 'soft'}_{unit}"]
    return ScrewHoles(_mm(pilot, ruler), _mm(row[f"clearance_{unit}"], ruler))


def _mm(text: str, ruler: Ruler) -> float:
    return float(Fraction(text) * ruler.unit.mm)


def drill_text(size: float, ruler: Ruler) -> str:
    """A drill as it is sold: by sixty-fourths of an inch or half millimetres, whatever the plan rounds to.  Units: mm in."""
    step = Fraction(1, 64) if ruler.unit is Unit.INCH else Fraction(1, 2)
    return Ruler(ruler.unit, step).printed(size)
