"""Wood to buy: species known to the table of woods, rough thickness by the trade's quarters, what it finishes at."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from fractions import Fraction

from planbuild.core.diagnostics import Diagnostic, Related
from planbuild.core.geometry import TINY
from planbuild.core.spelling import did_you_mean
from planbuild.core.tables import row
from planbuild.core.thicknesses import Sawn, metric, quarters, sawn_named, series_of
from planbuild.core.woods import Wood, bare, wood_named, woods
from planbuild.records.design import Said, SheetSaid, StockSaid
from planbuild.records.stock import Price, Stock
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.facts import MOST_LAYERS, layers_of
from planbuild.resolve.ledger import StockOf
from planbuild.resolve.places import Places
from planbuild.resolve.sayings import figure, tried
from planbuild.resolve.scopes import holder
from planbuild.resolve.setting_out import SettingOut
from planbuild.resolve.sheets import pair, sheet_of
from planbuild.resolve.species import species as own_species

CUTS = ("flat", "rift", "quarter")


def stocks(setting_out: SettingOut) -> dict[str, Stock]:
    """The stock of the design, without what is faulty.  Reports `stock-species`, `stock-rough`, `stock-thin`.

    What a block describes itself is bought with what is like it: a block used twice brings one stock.
    """
    found: dict[str, Stock] = {}
    own = own_species(setting_out.design.species, setting_out.places)
    for id, said in setting_out.design.stock.items():
        stock = _stock(id, said, own, setting_out)
        if stock is not None:
            like = (each for each in found.values() if replace(stock, id=each.id, origin=each.origin) == each)
            found[id] = next(like, stock) if holder(id) else stock
    return found


def _stock(id: str, said: StockSaid | SheetSaid, own: tuple[Wood, ...], setting_out: SettingOut) -> Stock | None:
    places, thickness = setting_out.places, tried(setting_out.ledger.ask, StockOf(id))
    price = tried(_price, said.price, places) if said.price else None
    why, note = (each.text if each else "" for each in (said.why, said.note))
    if isinstance(said, SheetSaid):
        sheet = sheet_of(id, said, thickness, places) if thickness is not None else None
        if sheet is None or thickness is None:
            return None
        thick = float(thickness)
        return Stock(id, said.origin, said.sheet.text, "", thick, thick, "", why, sheet, price=price, note=note)
    solid = _solid(id, said, thickness, own, setting_out)
    return replace(solid, price=price, why=why, note=note) if solid else None


def _solid(
    id: str, said: StockSaid, thickness: Fraction | None, own: tuple[Wood, ...], setting_out: SettingOut
) -> Stock | None:  # fmt: skip
    places = setting_out.places
    species = tried(_species, said, own, setting_out)
    yields = tried(_yields, said, places)
    cut = tried(places.choice, said.cut, CUTS, "cut") if said.cut else "flat"
    resaw = tried(places.yes, said.resaw) if said.resaw else False
    lengths = [tried(places.size, each, "A length that is sold") for each in said.lengths]
    widths = tried(pair, said.widths, places) if said.widths else None
    if species is None or yields is None or thickness is None or cut is None or resaw is None:
        return None
    if not _thick_enough(id, said, yields, thickness, places):
        return None
    rough = float(yields.rough)
    leaves = _leaves(id, said, rough, float(thickness), places) if resaw else 1
    if not leaves:
        return None
    sold = tuple(sorted(float(each) for each in lengths if each is not None))
    wide = (float(min(widths)), float(max(widths))) if widths else None
    leaf = (rough - (leaves - 1) * _habit("resaw_kerf", places)) / leaves if leaves > 1 else 0.0
    stock = Stock(id, said.origin, species.name, yields.name, rough, float(thickness), cut)
    described = species if species in own else None
    return replace(stock, own=described, leaves=leaves, leaf=leaf, lengths=sold, widths=wide)


def _leaves(id: str, said: StockSaid, rough: float, thickness: float, places: Places) -> int:
    """How many leaves a rough board gives; 0 after reporting `stock-resaw`."""
    kerf, planed = _habit("resaw_kerf", places), _habit("leaf_planed", places)
    leaves = int((rough + kerf) / (thickness + planed + kerf) + 1e-9)
    if leaves >= 2:
        return leaves
    assert said.resaw is not None
    most = (rough - kerf) / 2 - planed
    message = f'Two leaves {figure(thickness, places.unit)} thick do not come out of {said.rough.text} rough for "{id}".'
    hint = "Leave `resaw` out, or take a thicker rough board."
    places.refuse("stock-resaw", said.resaw, message, f"at most {figure(most, places.unit)} each", (hint,))
    return 0


def _habit(name: str, places: Places) -> float:
    found = row("making", "name", name)
    assert found is not None, name
    return float(Fraction(found["mm" if places.unit == 1 else "inch"]) * places.unit)


_PRICE = re.compile(r"(\d{1,6}(?:\.\d{1,2})?) per (board foot|m3|sheet)")


def _price(said: Said, places: Places) -> Price:
    match = _PRICE.fullmatch(said.text)
    if match is None:
        message = f"`{said.text}` is no price."
        raise places.refuse("stock-price", said, message, "`9.50 per board foot`, `1800 per m3` or `80 per sheet`")
    return Price(float(match[1]), match[2])


def _species(said: StockSaid, own: tuple[Wood, ...], setting_out: SettingOut) -> Wood:
    """The wood of the table or of the design; a second name of the same wood is understood too."""
    found = wood_named(said.species.text) or wood_named(said.species.text, own)
    if found is not None:
        return found
    places, described = setting_out.places, [id.replace("_", " ") for id in setting_out.design.species]
    if bare(said.species.text) in map(bare, described):
        raise Poisoned  # what is wrong with it has been told
    message = f'No wood "{said.species.text}" in the table of woods{" or under `species`" if described else ""}.'
    known = [*(each.name for each in woods()), *described]
    hints = did_you_mean(said.species.text, [*(name for each in woods() for name in each.names), *described])
    hint = "A wood of your own is described under `species`."
    raise places.refuse("stock-species", said.species, message, f"one of: {', '.join(known)}", (*hints, hint))


def _yields(said: StockSaid, places: Places) -> Sawn:
    """Quarters of an inch, or a thickness in mm; a plain figure is one where the design is in mm."""
    text = said.rough.text
    found = sawn_named(text) or (sawn_named(f"{text} mm") if places.unit == 1 else None)
    if found is not None:
        return found
    series = (*quarters(), *(metric() if text.endswith("mm") or places.unit == 1 else ()))
    hints = (f"Write `{text}/4`.",) if sawn_named(f"{text}/4") else ()
    message = f'"{text}" is no rough thickness that is sold.'
    expected = f"quarters of an inch{' or mm' if len(series) > len(quarters()) else ''}, one of: "
    raise places.refuse("stock-rough", said.rough, message, expected + ", ".join(each.name for each in series), hints)


def _thick_enough(id: str, said: StockSaid, yields: Sawn, thickness: Fraction, places: Places) -> bool:
    most = yields.finished
    if thickness <= most:
        return True
    thicker = next((each.name for each in series_of(yields.name) if each.finished >= thickness), None)
    message = (
        f'"{id}" wants {figure(thickness, places.unit)} from {said.rough.text} rough; '
        f"{said.rough.text} finishes at {figure(most, places.unit)}."
    )
    hint = f"Use {thicker}." if thicker else "No rough thickness that is sold gives so much: glue it up from layers."
    places.report.add(Diagnostic("stock-thin", message, span=said.thickness.span, hints=(hint,), source=yields.source))
    return False


def check_thickness(id: str, stock: Stock, thickness: Fraction, setting_out: SettingOut) -> None:
    """A part can be planed thinner than its stock, not thicker; a sheet stays as it is.

    Reports `stock-thin`, `stock-sheet-planed`.
    """
    said, layers = setting_out.design.parts[id].thickness, layers_of(setting_out.design.parts[id], setting_out.places)
    most = layers * stock.thickness
    if said is None or (stock.sheet is None and float(thickness) <= most + TINY):
        return
    unit = setting_out.unit
    if float(thickness) < most - TINY:
        message = f'"{id}" is {figure(thickness, unit)} thick, its sheet {figure(most, unit)}; a sheet cannot be planed thinner.'
        hint = "Leave `thickness` out, or use a thinner sheet."
        related = (Related(stock.origin, f'"{stock.id}" is said here'),)
        setting_out.report.add(Diagnostic("stock-sheet-planed", message, span=said.span, hints=(hint,), related=related))
    elif float(thickness) > most + TINY:
        _too_thick(id, stock, thickness, most, said, setting_out)


def _too_thick(id: str, stock: Stock, thickness: Fraction, most: float, said: Said, setting_out: SettingOut) -> None:
    unit, layers = setting_out.unit, math.ceil(float(thickness) / stock.thickness)
    gives = "is" if most == stock.thickness else "gives in its layers"
    message = f'"{id}" wants {figure(thickness, unit)} from "{stock.id}", which {gives} {figure(most, unit)} thick.'
    related = (Related(stock.origin, f'"{stock.id}" is said here'),)
    more = f", or `glue_up: {{layers: {layers}}}`" if layers <= MOST_LAYERS else ""
    hint = f"Use a thicker stock{more}, or leave `thickness` out."
    setting_out.report.add(Diagnostic("stock-thin", message, span=said.span, hints=(hint,), related=related))
