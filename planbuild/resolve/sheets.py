"""Sheet goods: what kind, how thick it really is, how large a whole sheet is and which way its grain runs."""

from __future__ import annotations

from fractions import Fraction

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.spelling import did_you_mean
from planbuild.core.tables import row, rows
from planbuild.joints.sheet_goods import CORES, sheet_row
from planbuild.records.design import Said, SheetSaid
from planbuild.records.stock import Sheet
from planbuild.resolve.sayings import Sayings, figure, tried

THICKEST = Fraction(508, 10)
"""mm (2 in); no sheet is pressed thicker for furniture (a choice of ours, to catch slips)."""

LARGEST_SHEET = 6000
"""mm; longer than any sheet that is sold (a choice of ours, to catch slips)."""


def sheet_thickness(id: str, said: SheetSaid, sayings: Sayings) -> Fraction:
    """As measured, else what a sheet sold by that thickness usually has, mm.  Raises Poisoned."""
    if said.thickness:
        return sayings.size(said.thickness, f'The thickness of "{id}"')
    sold = sayings.size(said.sold_as, f'The thickness of "{id}"')
    known, usual = sheet_row(said.sheet.text), row("sheet_thickness", "sold_as", said.sold_as.text)
    if usual and known and known["undersized"] == "yes" and sayings.unit != 1:
        return Fraction(usual["actual"]) * sayings.unit
    return sold


def sheet_of(id: str, said: SheetSaid, thickness: Fraction, sayings: Sayings) -> Sheet | None:
    """Reports `stock-sheet`, `stock-sheet-size`, `stock-sheet-grain`, `stock-sheet-thick`, `stock-measure` (warning)."""
    kind = tried(_kind, said, sayings)
    size = tried(pair, said.sheet_size, sayings)
    core = tried(sayings.choice, said.core, CORES, "core") if said.core else ""
    faces = tried(sayings.count, said.faces, 0, 2) if said.faces else 2
    sold = tried(sayings.size, said.sold_as, "The thickness")
    if kind is None or size is None or core is None or faces is None or sold is None:
        return None
    lies = tried(_grain, said, size, kind == "yes", sayings)
    if lies is None or not _is_likely(id, said, thickness, sayings):
        return None
    if said.thickness is None:
        _ask_to_measure(id, said, thickness, sayings)
    along, across = lies or size
    sheet_size = (float(along), float(across))
    return Sheet(_sold_as(said, sayings), sheet_size, lies != (), core, faces, said.thickness is not None)


def _kind(said: SheetSaid, sayings: Sayings) -> str:
    """Whether its faces have a grain."""
    found = sheet_row(said.sheet.text)
    if found is None:
        names = [each["name"] for each in rows("sheets")]
        message = f'No sheet "{said.sheet.text}" in the table of sheets.'
        known = f"one of: {', '.join(names)}; or plywood by the wood of its faces, as `ash plywood`"
        raise sayings.refuse("stock-sheet", said.sheet, message, known, did_you_mean(said.sheet.text, names))
    return found["grain"]


def pair(said: Said, sayings: Sayings) -> tuple[Fraction, Fraction]:
    """`48 x 96`, `1220 x 2440 mm`.  Reports `size-form`, `stock-sheet-size`; raises Poisoned."""
    first, second = sayings.sizes(said, 2)
    if max(first, second) > LARGEST_SHEET:
        message = f"`{said.text}` is larger than any sheet or board that is sold."
        raise sayings.refuse("stock-sheet-size", said, message, f"at most {LARGEST_SHEET / 1000:g} m")
    return first, second


def _grain(said: SheetSaid, size: tuple[Fraction, Fraction], has: bool, sayings: Sayings) -> tuple[Fraction, ...]:
    """The size along the grain of the faces and the one across it; () if they have none.

    Where nothing is said it runs along the longer side (common practice).
    """
    if said.grain is None:
        return (max(size), min(size)) if has else ()
    if said.grain.text == "none":
        return ()
    side = said.grain.text.removeprefix("along ")
    length = tried(sayings.size, Said(side, said.grain.span), "The size") if side != said.grain.text else None
    if length not in size:
        sides = " or ".join(f"`along {each.strip()}`" for each in said.sheet_size.text.split(" x "))
        message = f"`{said.grain.text}` is neither side of the sheet, {said.sheet_size.text}."
        raise sayings.refuse("stock-sheet-grain", said.grain, message, f"{sides}, or `none`")
    return (size[0], size[1]) if size[0] == length else (size[1], size[0])


def _is_likely(id: str, said: SheetSaid, thickness: Fraction, sayings: Sayings) -> bool:
    """False after reporting a thickness that no sheet has, or that is nothing like what it is sold as."""
    at, sold = said.thickness or said.sold_as, sayings.size(said.sold_as, "The thickness")
    if thickness > THICKEST:
        message = f'"{id}" is {figure(thickness, sayings.unit)} thick; no sheet is.'
        sayings.refuse("stock-sheet-thick", at, message, f"at most {figure(THICKEST, sayings.unit)}")
    elif not sold * Fraction(3, 4) <= thickness <= sold * Fraction(5, 4):
        message = f'"{id}" is sold as {figure(sold, sayings.unit)} and said to measure {figure(thickness, sayings.unit)}.'
        sayings.refuse("stock-sheet-thick", at, message, "a thickness within a quarter of what it is sold as")
    else:
        return True
    return False


def _ask_to_measure(id: str, said: SheetSaid, thickness: Fraction, sayings: Sayings) -> None:
    taken = figure(thickness, sayings.unit)
    message = f'"{id}" is sold as {said.sold_as.text}, and its real thickness is not said; {taken} is taken.'
    hint = "Measure your sheet and add `thickness`: grooves and housings are as wide as it is thick."
    sayings.report.add(Diagnostic("stock-measure", message, Severity.WARNING, said.sold_as.span, hints=(hint,)))


def _sold_as(said: SheetSaid, sayings: Sayings) -> str:
    """`3/4 in`, `18 mm`: the trade's name, the same in every edition."""
    text = said.sold_as.text
    bare = set(text) <= set("0123456789/-. ")
    return f"{text} {'mm' if sayings.unit == 1 else 'in'}" if bare else text
