"""What `planbuild wood` answers: what is known of a wood or a sheet, how it moves, what air makes of it.

Each answer is data for other programs and lines for a maker.  Nothing of a design is read, no solid is made.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction

from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.core.moisture import settled_moisture
from planbuild.core.seasons import LINEAR, SATURATED, change, wide_change
from planbuild.core.tables import Row, row, rows
from planbuild.core.woods import VALUES, Wood, bare, wood_named, woods

MPA_PER_PSI = 0.00689475729
N_PER_LB = 4.4482216152605
LB_PER_FT3 = 16.01846337
"""kg/m3 in a pound per cubic foot (exact pound and foot)."""

LENGTHS = {"in": 25.4, '"': 25.4, "inch": 25.4, "ft": 304.8, "mm": 1.0, "cm": 10.0, "m": 1000.0}
WIDEST = 10_000.0
"""mm; wider than any board (a choice of ours, to catch slips)."""


@dataclass(frozen=True)
class Answer:
    data: dict[str, object]
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Season:
    """A width (mm, and as it was typed) that goes from one moisture content to another (%)."""

    width: float
    typed: str
    before: float
    after: float


def of_wood(name: str, season: Season | None) -> Answer:
    """All that the tables know of a wood or a sheet.  Reports `wood-unknown`, `wood-still`."""
    wood = wood_named(name)
    if wood is not None:
        moves = movement(wood, season) if season else None
        lines = (*_told(wood), *(_moves_told(moves, season) if moves and season else ()), *_sold(wood))
        return Answer({**_data(wood), **({"movement": moves} if moves else {})}, lines)
    sheet = next((each for each in rows("sheets") if bare(name) in map(bare, (each["name"], *each["also"].split("|")))), None)
    if sheet is None:
        raise _refused("wood-unknown", f'No wood "{name}" in the table.', (*near(name), "`planbuild wood` alone lists them all."))
    if season:
        raise _refused("wood-still", f"{sheet['name']} is taken to stand still: its layers hold each other.", ())
    return _of_sheet(sheet)


def of_air(humidity: float, celsius: float) -> Answer:
    """The moisture that wood settles to."""
    settled = settled_moisture(humidity, celsius)
    air = f"air of {humidity:g} % at {celsius:.0f} °C ({celsius * 1.8 + 32:.0f} °F)"
    lines = (
        f"In {air} wood settles to {settled:.1f} % moisture.",
        "Wood Handbook (USDA Forest Products Laboratory), equation 4-5.",
    )
    return Answer({"moisture_pct": round(settled, 2)}, lines)


def listed() -> Answer:
    """The names of all woods and sheets."""
    lines = ["Woods:", *(f"  {each.name}{_also(each.also)}" for each in woods()), "Sheets:"]
    lines += [f"  {each['name']}" for each in rows("sheets")]
    lines.append("`planbuild wood NAME` tells what is known of one.")
    return Answer({"woods": [each.name for each in woods()], "sheets": [each["name"] for each in rows("sheets")]}, tuple(lines))


def near(name: str) -> tuple[str, ...]:
    """A hint with the names most like it: those that hold one of its words, then those spelt nearly so."""
    known = {each: wood.name for wood in woods() for each in map(bare, wood.names)}
    known |= {bare(each["name"]): each["name"] for each in rows("sheets")}
    words = set(bare(name).split())
    found = [known[each] for each in known if words & set(each.split())]
    found += [known[each] for each in get_close_matches(bare(name), sorted(known), n=3, cutoff=0.6)]
    single = {word: full for each, full in known.items() for word in each.split()}
    found += [single[each] for word in sorted(words) for each in get_close_matches(word, sorted(single), n=2, cutoff=0.7)]
    names = list(dict.fromkeys(found))[:5]
    return (f"Did you mean {_or(names)}?",) if names else ()


def movement(wood: Wood, season: Season) -> dict[str, object]:
    """How much a width changes, flat and quarter sawn, mm; None for a cut without published numbers."""
    asked = {"width_mm": season.width, "from_pct": season.before, "to_pct": season.after}
    cuts = {"flat": (wood.c_tangential, wood.shrink_tangential_pct), "quarter": (wood.c_radial, wood.shrink_radial_pct)}
    return asked | {f"{cut}_mm": _change(season, *numbers) for cut, numbers in cuts.items()}


def _change(season: Season, coefficient: float | None, shrinkage: float | None) -> float | None:
    low, high = LINEAR
    if low <= min(season.before, season.after) and max(season.before, season.after) <= high:
        return round(change(season.width, coefficient, season.before, season.after), 4) if coefficient else None
    return round(wide_change(season.width, shrinkage, season.before, season.after), 4) if shrinkage else None


# ---------------------------------------------------------------- what was typed


def season(width: str, before: str, after: str) -> Season | None:
    """What was asked of movement, or None if nothing was.  Reports `wood-season`, `wood-size`, `wood-percent`."""
    given = (width, before, after)
    if not any(given):
        return None
    if not all(given):
        raise _refused("wood-season", "A movement needs a width and two moisture contents.", (_EXAMPLE,))
    span = round(millimetres(width), 6)
    typed = f"{width.strip()} in" if width.strip()[-1:].isdigit() else width.strip()
    return Season(span, typed, percent(before, SATURATED), percent(after, SATURATED))


_EXAMPLE = "`--width 12 --from 6% --to 11%`, or `--width 300mm`"
_LENGTH = re.compile(r"(?:(\d{1,6})[- ])?(\d{1,6}/\d{1,6}|\d{1,6}(?:\.\d{1,6})?)\s*([a-z\"]*)")


def millimetres(text: str) -> float:
    """`12`, `11-1/4`, `11 1/4 in`, `300 mm`; a plain figure is in inches.  Reports `wood-size`."""
    match = _LENGTH.fullmatch(text.strip().lower())
    if match and (match[3] or "in") in LENGTHS and not match[2].endswith("/0") and (not match[1] or "/" in match[2]):
        size = float(Fraction(match[1] or 0) + Fraction(match[2])) * LENGTHS[match[3] or "in"]
        if 0 < size <= WIDEST:
            return size
    raise _refused("wood-size", f"`{text}` is no width of a board.", ("`12`, `11-1/4`, `300mm`",))


_PERCENT = re.compile(r"(\d{1,3}(?:\.\d{1,4})?)\s*%?")


def percent(text: str, most: float) -> float:
    """`6%`, `6 %`, `6`.  Reports `wood-percent`."""
    match = _PERCENT.fullmatch(text.strip())
    if match and 0 <= float(match[1]) <= most:
        return float(match[1])
    raise _refused("wood-percent", f"`{text}` is no such share.", (f"0 to {most:g} %",))


_WARMTH = re.compile(r"(-?\d{1,3}(?:\.\d{1,2})?)\s*°?\s*([CF])")
DAMPEST = 99.0
"""%, relative: at 100 the published formula has no answer."""
COLDEST, WARMEST = -1.2, 60.0
"""Celsius: beyond that the published formula is not said to hold (its table begins at 30 F)."""


def celsius(text: str) -> float:
    """`70F`, `21 C`.  Reports `wood-warmth`."""
    match = _WARMTH.fullmatch(text.strip().upper())
    if match:
        warmth = float(match[1]) if match[2] == "C" else (float(match[1]) - 32) / 1.8
        if COLDEST <= warmth <= WARMEST:
            return warmth
    raise _refused("wood-warmth", f"`{text}` is no warmth of a room.", ("`70F` or `21C`, 30 to 140 F",))


def _refused(code: str, message: str, hints: tuple[str, ...]) -> Refused:
    return Refused((Diagnostic(code, message, hints=hints),))


# ---------------------------------------------------------------- told


def _data(wood: Wood) -> dict[str, object]:
    keys = {"specific_gravity_12" if name == "specific_gravity" else name: name for name in VALUES}
    numbers: dict[str, object] = {key: wood.value(name) for key, name in keys.items()}
    sources = {key: wood.source_of(name) for key, name in keys.items() if wood.source_of(name)}
    return {"species": wood.name, **numbers, "sources": sources}


def _told(wood: Wood) -> tuple[str, ...]:
    figures = [(_words(name), _figure(name, value), wood.source_of(name)) for name in VALUES if (value := wood.value(name))]
    wide = [max(len(each[column]) for each in figures) for column in range(2)]
    lines = [f"  {words:<{wide[0]}}  {figure:<{wide[1]}}  {source}" for words, figure, source in figures]
    kind = f"{wood.name}, a {wood.group}{_also(wood.also)}"
    return (kind, *lines, "Averages of clear wood; stiffness and hardness of boards spread by about a fifth (from memory).")


def _words(name: str) -> str:
    found = row("wood_values", "name", name)
    assert found is not None, name
    return found["words"]


def _figure(name: str, value: float) -> str:
    if name == "specific_gravity":
        density = 1120 * value
        return f"{value:.2f} ({density:.0f} kg/m3, {density / LB_PER_FT3:.0f} lb/ft3)"
    if name in ("moe_mpa", "mor_mpa"):
        psi = value / MPA_PER_PSI
        return f"{value:g} MPa ({psi / 1e6:.2f} million psi)" if psi > 1e5 else f"{value:g} MPa ({round(psi, -2):.0f} psi)"
    if name == "hardness_n":
        return f"{value:g} N ({round(value / N_PER_LB, -1):.0f} lb)"
    return f"{value:.5f}" if name.startswith("c_") else f"{value:g} %"


def _moves_told(moves: dict[str, object], season: Season) -> tuple[str, ...]:
    does = "swells" if season.after > season.before else "shrinks"
    lines = [f"{season.typed} wide, from {season.before:g} % to {season.after:g} % moisture:"]
    for cut in ("flat", "quarter"):
        mm = moves[f"{cut}_mm"]
        told = f"{does} {abs(mm):.1f} mm ({abs(mm) / 25.4:.3f} in)" if isinstance(mm, float) else "no published number"
        lines.append(f"  {cut} sawn: {told}")
    low, high = LINEAR
    linear = low <= min(season.before, season.after) and max(season.before, season.after) <= high
    which = "equation 13-2" if linear else "equation 13-3, from the shrinkage (outside 6 to 14 %)"
    return (*lines, f"  Wood Handbook (USDA Forest Products Laboratory), {which}.")


def _sold(wood: Wood) -> tuple[str, ...]:
    if wood.group == "softwood":
        thick, wide = ([each for each in rows("dressed") if each["is"] == kind] for kind in ("thickness", "width"))
        told = [f"{kind} {_pairs(found)}" for kind, found in (("thickness", thick), ("width", wide))]
        return ("Sold dressed, nominal and dry (in):", *(f"  {each}" for each in told), f"  {thick[0]['source']}.")
    quarters = ", ".join(f"{each['quarters']} gives {each['finished_in']}" for each in rows("thickness"))
    metric = ", ".join(f"{each['rough_mm']} gives {each['finished_mm']}" for each in rows("thickness_mm"))
    return (
        "Sold rough, by the thickness it gives when planed on two sides:",
        f"  quarters of an inch (in): {quarters} (NHLA)",
        f"  millimetres: {metric} (EN 1313-2, from memory; what comes off: common practice)",
    )


def _pairs(found: list[Row]) -> str:
    return ", ".join(f"{each['nominal']} is {each['dry_in']}" for each in found)


def _of_sheet(sheet: Row) -> Answer:
    density, moe, name = float(sheet["density_kg_m3"]), float(sheet["moe_mpa"]), sheet["name"]
    sizes = [each for each in rows("sheet_sizes") if name in each["for"].split("|")]
    lines = [
        f"{name}, a sheet{_also(tuple(each for each in sheet['also'].split('|') if each))}",
        f"  weight  {density:g} kg/m3 ({density / LB_PER_FT3:.0f} lb/ft3)",
        f"  stiffness along the grain of its faces  {moe:g} MPa ({moe / MPA_PER_PSI / 1e6:.2f} million psi)",
        f"  sheets  {'; '.join(each['size'] + ' ' + each['unit'] for each in sizes)}",
    ]
    if sheet["undersized"] == "yes":
        true = ", ".join(f"{each['sold_as']} is {each['actual']}" for each in rows("sheet_thickness"))
        lines.append(f"  sold as, and what it measures (in)  {true}; measure yours")
    sources = {"density_kg_m3": sheet["source"], "moe_mpa": sheet["moe_source"]}
    data: dict[str, object] = {"sheet": name, "density_kg_m3": density, "moe_mpa": moe, "sources": sources}
    return Answer(data, (*lines, f"  Weight: {sheet['source']}.", f"  Stiffness: {sheet['moe_source']}."))


def _also(names: tuple[str, ...]) -> str:
    return f" (also {', '.join(names)})" if names else ""


def _or(names: list[str]) -> str:
    quoted = [f'"{each}"' for each in names]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} or {quoted[-1]}"
