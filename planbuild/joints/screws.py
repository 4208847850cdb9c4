"""Wood screws: the holes that a gauge wants in hard and soft wood, their heads, and how deep a screw may go.

Apart from the joints because every kind that is screwed asks the same.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY
from planbuild.core.tables import Row, row, rows
from planbuild.core.units import Ruler, Unit
from planbuild.joints.base import Site
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import habit_length, habit_number, length_rule, wood_of
from planbuild.joints.sheet_goods import sheet_row
from planbuild.records.piece import Item, Stock

FLAT = "flat"
"""The head that is let in flush with the wood."""


@dataclass(frozen=True)
class Screw:
    """A wood screw and its drills.  Lengths in mm; `pilot` is for the wood that takes the thread.

    `gauge` is as in the table: `8`, or `3.5 mm`.  `head` is the diameter of its head, `shank` of its shank.
    """

    item: Item
    gauge: str
    length: float
    clearance: float
    pilot: float
    head: float
    shank: float

    @property
    def flat(self) -> bool:
        return dict(self.item.fields).get("head") == FLAT


@dataclass(frozen=True)
class ScrewHoles:
    """Drill for the thread (`pilot`) and for the shank (`clearance`), as sold in the unit of the ruler.  Units: mm."""

    pilot: float
    clearance: float


def gauge_of(item: Item) -> str:
    """How the table calls the thickness of a screw: `8` for a gauge, `3.5 mm` for a diameter, "" if none is said."""
    fields = dict(item.fields)
    gauge, diameter = fields.get("gauge"), fields.get("diameter")
    if isinstance(gauge, str | float):
        try:
            return f"{float(gauge):g}"
        except ValueError:
            return str(gauge)
    return f"{diameter:g} mm" if isinstance(diameter, float) else ""


def screw_words(gauge: str) -> str:
    """`No. 8`, `3.5 mm`: as a screw is called on the pages."""
    return gauge if gauge.endswith("mm") else f"No. {gauge}"


def screw_holes(gauge: str, wood: Stock, ruler: Ruler) -> ScrewHoles | None:
    """For a screw whose thread holds in that wood; None for a gauge that is not in the table.

    Source: the table `fasteners`; charts differ by one or two drill sizes, this one rule is followed everywhere.
    """
    found = row("fasteners", "gauge", gauge)
    if found is None:
        return None
    pilot = "pilot_hard" if is_dense(wood) else "pilot_soft"
    return ScrewHoles(_drill(found, pilot, ruler), _drill(found, "clearance", ruler))


def is_dense(stock: Stock) -> bool:
    """Whether a wood gets the pilot hole for hard woods, by its density (a heuristic, table `making`); so does an unknown one."""
    sheet, wood, dense = sheet_row(stock.species), wood_of(stock), habit_number("dense_wood")
    if sheet:
        return float(sheet["density_kg_m3"]) >= 1000 * dense
    return wood is None or wood.specific_gravity is None or wood.specific_gravity >= dense


def screw_into(item: Item, wood: Stock, span: Span, site: Site) -> Screw | None:
    """The screw with its drills for a wood; None after reporting `joint-screw` or `joint-screw-gauge`.

    Source of drills and heads: the table `fasteners`.
    """
    length, gauge = dict(item.fields).get("length"), gauge_of(item)
    if item.kind != "wood screw" or not isinstance(length, float) or not gauge:
        message = f'"{item.id}" is a {item.kind}; a wood screw with gauge (or diameter) and length is wanted.'
        refuse(site, "joint-screw", span, message, "`item: wood screw` with `gauge` or `diameter`, and `length`")
        return None
    drills, found = screw_holes(gauge, wood, site.ruler), row("fasteners", "gauge", gauge)
    if drills is None or found is None:
        message = f"There are no published drills for a screw of {_thickness(gauge)}."
        refuse(site, "joint-screw-gauge", span, message, f"one of: {', '.join(each['gauge'] for each in rows('fasteners'))}")
        return None
    head = float(found["head_flat_mm" if dict(item.fields).get("head") == FLAT else "head_pan_mm"])
    return Screw(item, gauge, length, drills.clearance, drills.pilot, head, float(found["shank_mm"]))


def _thickness(gauge: str) -> str:
    return gauge if gauge.endswith("mm") else f"gauge {gauge}"


def _drill(drills: Row, column: str, ruler: Ruler) -> float:
    """A drill that is sold in the unit of the design, mm."""
    return float(Fraction(drills[f"{column}_{'in' if ruler.unit is Unit.INCH else 'mm'}"]) * ruler.unit.mm)


def counterbore_for(screw: Screw, ruler: Ruler) -> float:
    """The bit that lets the head in with room around it, as bits and plug cutters are sold, mm."""
    step = length_rule("counterbore_step", ruler)
    return step * math.ceil((screw.head + length_rule("counterbore_over", ruler)) / step - 1e-9)


def drill_words(size: float, site: Site) -> str:
    """A drill for the list of tools: they go by sixty-fourths or tenths, finer than the ruler of the design."""
    in_unit = Fraction(size) / site.ruler.unit.mm
    return f"drill {in_unit.limit_denominator(64) if site.ruler.unit is Unit.INCH else f'{float(in_unit):g}'}"


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
        hint = "Let its head in: `counterbore` says how deep."
        refuse(site, "hardware-screw-short", span, message, f"more than {figure(through)}, at most {figure(most)}", hint)
        return None
    return depth
