"""Wood to buy: species known to the table of woods, rough thickness by the trade's quarters, what it finishes at."""

from __future__ import annotations

from fractions import Fraction

from planbuild.core.diagnostics import Diagnostic, Related
from planbuild.core.spelling import did_you_mean
from planbuild.core.tables import Row, row, rows
from planbuild.core.units import MM_PER_INCH
from planbuild.records.design import StockSaid
from planbuild.records.piece import Stock
from planbuild.resolve.ledger import StockOf
from planbuild.resolve.places import Places
from planbuild.resolve.sayings import figure, tried
from planbuild.resolve.setting_out import SettingOut

CUTS = ("flat", "rift", "quarter")
_SOURCE = "tables/thickness: NHLA table of surfaced hardwood thickness"


def stocks(setting_out: SettingOut) -> dict[str, Stock]:
    """The stock of the design, without what is faulty.  Reports `stock-species`, `stock-rough`, `stock-thin`."""
    found = ((id, _stock(id, said, setting_out)) for id, said in setting_out.design.stock.items())
    return {id: stock for id, stock in found if stock is not None}


def _stock(id: str, said: StockSaid, setting_out: SettingOut) -> Stock | None:
    places = setting_out.places
    species = tried(_species, said, places)
    yields = tried(_yields, said, places)
    thickness = tried(setting_out.ledger.ask, StockOf(id))
    cut_said = said.cut
    cut = tried(places.choice, cut_said, CUTS, "cut") if cut_said else "flat"
    if species is None or yields is None or thickness is None or cut is None:
        return None
    if not _thick_enough(id, said, yields, thickness, places):
        return None
    why = said.why.text if said.why else ""
    return Stock(id, said.origin, species, said.rough.text, float(inches(yields["rough_in"])), float(thickness), cut, why)


def _species(said: StockSaid, places: Places) -> str:
    """The name of the wood in the table; a second name of the same wood is understood too."""
    names = {}
    for each in rows("species"):
        names[each["name"].lower()] = each["name"]
        names.update({also.lower(): each["name"] for also in each["also"].split("|") if also})
    word = said.species.text.lower()
    if word in names:
        return names[word]
    message = f'No wood "{said.species.text}" in the table of woods.'
    known = ", ".join(each["name"] for each in rows("species"))
    raise places.refuse("stock-species", said.species, message, f"one of: {known}", did_you_mean(word, names))


def _yields(said: StockSaid, places: Places) -> Row:
    found = row("thickness", "quarters", said.rough.text)
    if found is None:
        known = ", ".join(each["quarters"] for each in rows("thickness"))
        message = f'"{said.rough.text}" is no rough thickness that is sold.'
        quarters = f"{said.rough.text}/4"
        hints = (f"Write `{quarters}`.",) if row("thickness", "quarters", quarters) else ()
        raise places.refuse("stock-rough", said.rough, message, f"quarters of an inch, one of: {known}", hints)
    return found


def inches(text: str) -> Fraction:
    """A table's `1-1/16` in mm."""
    whole, _, part = text.partition("-")
    return (Fraction(whole) + (Fraction(part) if part else 0)) * MM_PER_INCH


def _thick_enough(id: str, said: StockSaid, yields: Row, thickness: Fraction, places: Places) -> bool:
    most = inches(yields["finished_in"])
    if thickness <= most:
        return True
    thicker = next((each["quarters"] for each in rows("thickness") if inches(each["finished_in"]) >= thickness), None)
    message = (
        f'"{id}" wants {figure(thickness, places.unit)} from {said.rough.text} rough; '
        f"{said.rough.text} finishes at {figure(most, places.unit)}."
    )
    hint = f"Use {thicker}." if thicker else "No rough thickness that is sold gives so much: glue it up from layers."
    places.report.add(Diagnostic("stock-thin", message, span=said.thickness.span, hints=(hint,), source=_SOURCE))
    return False


def check_thickness(id: str, stock: Stock, thickness: Fraction, setting_out: SettingOut) -> None:
    """A part can be planed thinner than its stock, not thicker.  Reports `stock-thin`."""
    said = setting_out.design.parts[id].thickness
    if said is None or float(thickness) <= stock.thickness:
        return
    unit = setting_out.unit
    message = f'"{id}" wants {figure(thickness, unit)} from "{stock.id}", which is {figure(stock.thickness, unit)} thick.'
    related = (Related(stock.origin, f'"{stock.id}" is said here'),)
    hint = "Use a thicker stock, or leave `thickness` out."
    setting_out.report.add(Diagnostic("stock-thin", message, span=said.span, hints=(hint,), related=related))


