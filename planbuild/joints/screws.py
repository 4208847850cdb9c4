"""Wood screws: the holes that a gauge wants in hard and soft wood, and how deep a screw may go.

Apart from the joints because every kind that is screwed asks the same.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY
from planbuild.core.tables import Row, row
from planbuild.core.units import Ruler, Unit
from planbuild.joints.base import Site
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import habit_length, habit_number
from planbuild.joints.sheet_goods import sheet_row
from planbuild.records.piece import Item, Stock


@dataclass(frozen=True)
class Screw:
    """A wood screw and its drills.  Lengths in mm; `pilot` is for the wood that takes the thread."""

    item: Item
    gauge: str
    length: float
    clearance: float
    pilot: float


@dataclass(frozen=True)
class ScrewHoles:
    """Drill for the thread (`pilot`) and for the shank (`clearance`), as sold in the unit of the ruler.  Units: mm."""

    pilot: float
    clearance: float


def screw_holes(gauge: str, species: str, ruler: Ruler) -> ScrewHoles | None:
    """For a screw whose thread holds in that wood; None for a gauge that is not in the table.

    Source: the table `fasteners`; charts differ by one or two drill sizes, this one rule is followed everywhere.
    """
    found = row("fasteners", "gauge", gauge)
    if found is None:
        return None
    pilot = "pilot_hard" if is_dense(species) else "pilot_soft"
    return ScrewHoles(_drill(found, pilot, ruler), _drill(found, "clearance", ruler))


def is_dense(species: str) -> bool:
    """Whether a wood gets the pilot hole for hard woods, by its density (a heuristic, table `making`); so does an unknown one."""
    sheet = sheet_row(species)
    if sheet:
        return float(sheet["density_kg_m3"]) >= 1000 * habit_number("dense_wood")
    found = row("species", "name", species)
    return found is None or float(found["specific_gravity"]) >= habit_number("dense_wood")


def screw_into(item: Item, wood: Stock, span: Span, site: Site) -> Screw | None:
    """The screw with its drills for a wood; None after reporting `joint-screw` or `joint-screw-gauge`.

    Source of the drills: the table `fasteners`.
    """
    fields = dict(item.fields)
    length, gauge = fields.get("length"), fields.get("gauge")
    if item.kind != "wood screw" or not isinstance(length, float) or not isinstance(gauge, str | float):
        message = f'"{item.id}" is a {item.kind}; a wood screw with gauge and length is wanted.'
        refuse(site, "joint-screw", span, message, "`item: wood screw` with `gauge` and `length`")
        return None
    name = f"{float(gauge):g}"
    drills = screw_holes(name, wood.species, site.ruler)
    if drills is None:
        refuse(
            site,
            "joint-screw-gauge",
            span,
            f"There are no published drills for a screw of gauge {name}.",
            "a gauge of the table of screws",
        )
        return None
    return Screw(item, name, length, drills.clearance, drills.pilot)


def _drill(drills: Row, column: str, ruler: Ruler) -> float:
    """A drill that is sold in the unit of the design, mm."""
    return float(Fraction(drills[f"{column}_{'in' if ruler.unit is Unit.INCH else 'mm'}"]) * ruler.unit.mm)


def depth_of(screw: Screw, through: float, into: float, part: str, span: Span, site: Site) -> float | None:
    """How deep the screw stands in the part that takes it, mm: its length less what it goes `through`.

    None after reporting `hardware-screw-long` if it would come out of a part `into` thick, or nearly, and
    `hardware-screw-short` if it does not reach.
    """
    figure, left = site.ruler.plain, habit_length("screw_left", site.ruler)
    depth, most = screw.length - through, through + into - left
    if depth > into - left + TINY:
        where = "it comes out" if depth >= into - TINY else f"only {figure(into - depth)} is left beyond its point"
        stands = f'leaves {figure(depth)} in "{part}" of {figure(into)}'
        message = f"Screw {figure(screw.length)} long through {figure(through)} {stands}: {where}."
        refuse(site, "hardware-screw-long", span, message, f"at most {figure(most)}", f"At most {figure(most)}.")
        return None
    if depth < TINY:
        message = f"Screw {figure(screw.length)} long does not come through {figure(through)} of wood."
        refuse(site, "hardware-screw-short", span, message, f"more than {figure(through)}, at most {figure(most)}")
        return None
    return depth
