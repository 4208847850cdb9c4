"""Values of good habit at the bench (tolerances, rests, spreads), read from the tables in the reader's unit.

Apart from the rooms that use them so that each is said once, with its source, in `core/tables/making.csv`.
"""

from __future__ import annotations

from fractions import Fraction

from planbuild.core import tables
from planbuild.core.units import Ruler, Unit


def habit_length(name: str, ruler: Ruler) -> float:
    """A length, round in the unit of the edition.  Units: mm.  Raises LookupError for a name that is not in the table."""
    inches = ruler.unit is Unit.INCH
    return float(Fraction(_row(name)["inch" if inches else "mm"]) * ruler.unit.mm)


def habit_number(name: str) -> float:
    """A plain number; its unit is in its name or in the reason of its row."""
    return float(_row(name)["mm"])


def _row(name: str) -> tables.Row:
    found = tables.row("making", "name", name)
    if found is None:
        raise LookupError(f"no row {name!r} in the table of habits")
    return found
