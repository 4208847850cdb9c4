"""Trade proportions: what a joint takes where nothing was said, each with its reason and source.

Apart from the joints so that a rule stands in one place, the table `core/tables/joints.csv`.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from planbuild.core.tables import Row, row
from planbuild.core.units import Ruler, Unit
from planbuild.core.woods import Wood, wood_named
from planbuild.records.piece import Practice, Stock


@dataclass(frozen=True)
class Rule:
    """One row of a table.  `value` is a plain number as written, in the unit of the ruler if it is a length."""

    name: str
    value: Fraction
    reason: str
    source: str


def rule(name: str, ruler: Ruler) -> Rule:
    """The row of that name.  Raises LookupError (our slip) if there is none."""
    found = row("joints", "name", name)
    if found is None:
        raise LookupError(f"no row {name!r} in the table of joints")
    written = found["inch" if ruler.unit is Unit.INCH else "mm"]
    return Rule(name, sum((Fraction(piece) for piece in written.split("-")), Fraction(0)), found["reason"], found["source"])


def length_rule(name: str, ruler: Ruler) -> float:
    """The length in a row.  Units: mm."""
    return float(rule(name, ruler).value * ruler.unit.mm)


def share_rule(name: str, ruler: Ruler) -> float:
    """The plain number in a row: a share or a multiple."""
    return float(rule(name, ruler).value)


def stepped_share(name: str, whole: float, ruler: Ruler) -> float:
    """The share in a row of a size (mm), to the printed step, and at least one such step."""
    step = float(ruler.step * ruler.unit.mm)
    return max(step, round(whole * share_rule(name, ruler) / step) * step)


def used(what: str, name: str, ruler: Ruler) -> str:
    """The printable line for a default of `joints.csv`: what it decided and why."""
    return f"{what}: {rule(name, ruler).reason}"


def used_practice(what: str, name: str) -> str:
    """The printable line for a default that the design's practice gives."""
    found = row("practice", "name", name)
    if found is None:
        raise LookupError(f"no row {name!r} in the table of practice")
    return f"{what}: {found['reason']}"


def nearest_chisel(wanted: float, practice: Practice) -> float:
    """The chisel whose width is nearest to `wanted` (mm); the narrower of two equally near."""
    return min(sorted(practice.chisels), key=lambda width: abs(width - wanted))


def habit_length(name: str, ruler: Ruler) -> float:
    """A length of the table `making`, mm.  Raises LookupError (our slip) if it has no such row."""
    return float(Fraction(_habit(name)["inch" if ruler.unit is Unit.INCH else "mm"]) * ruler.unit.mm)


def habit_number(name: str) -> float:
    """A plain number of the table `making`."""
    return float(_habit(name)["mm"])


def _habit(name: str) -> Row:
    found = row("making", "name", name)
    if found is None:
        raise LookupError(f"no row {name!r} in the table of habits")
    return found


def wood_of(stock: Stock) -> Wood | None:
    """What is known of the wood of a stock; None for a sheet, and for a wood that nobody described."""
    return None if stock.sheet else stock.own or wood_named(stock.species)


def movement_coefficient(stock: Stock) -> float | None:
    """Change of width per mm and per point of moisture, by how the board is cut; None if none is published.

    A rift board lies between the two: the mean is taken (heuristic).  A sheet is taken to stand still: its layers hold
    each other (common practice).
    Source: Wood Handbook (USDA Forest Products Laboratory), Table 13-5.
    """
    if stock.sheet:
        return 0.0
    wood = wood_of(stock)
    if wood is None or wood.c_tangential is None:
        return None
    tangential, radial = wood.c_tangential, wood.c_radial or wood.c_tangential
    return {"flat": tangential, "quarter": radial}.get(stock.cut, (tangential + radial) / 2)
