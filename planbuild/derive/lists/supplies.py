"""Glue, finish and abrasive by area, each with the sum that led to it."""

from __future__ import annotations

from math import ceil

from planbuild.core import tables
from planbuild.core.units import Ruler, Unit
from planbuild.derive import phrases
from planbuild.derive.lists.areas import finished_area, glued_area, surface_area
from planbuild.joints.proportions import habit_number
from planbuild.records.edition import Edition
from planbuild.records.facts import Supply
from planbuild.records.piece import Coating, Piece

_SQUARE_FEET = 10.7639
"""In a square metre (1 ft = 0.3048 m)."""
_PER_GALLON = 40.7458
"""Square feet per US gallon in one square metre per litre (1 gal = 3.785412 l)."""


def supplies(piece: Piece, edition: Edition) -> tuple[Supply, ...]:
    """In the order of use: glue, abrasive, finishes."""
    ruler = edition.ruler
    return (*_glue(piece, ruler), *_abrasives(piece, ruler), *(_finish(piece, each, ruler) for each in _used(piece)))


def _glue(piece: Piece, ruler: Ruler) -> tuple[Supply, ...]:
    area = glued_area(piece)
    if area <= 0:
        return ()
    spread, waste = habit_number("glue_g_per_m2"), habit_number("glue_waste")
    ml = area * spread / habit_number("glue_density") * (1 + waste)
    faces = f"{area_text(ruler, area)} of glued faces at {spread:.0f} g/m²"
    basis = f"{faces}, and {waste * 100:.0f} % more for brush and squeeze-out"
    return (Supply(piece.glue.kind, phrases.volume_text(ruler, ml), basis),)


def _abrasives(piece: Piece, ruler: Ruler) -> tuple[Supply, ...]:
    coatings = _used(piece)
    area = finished_area(piece, next((each.bare for each in coatings if each.everywhere), ()))
    used = [(each, _rounds(each, coatings)) for each in tables.rows("abrasives")]
    return tuple(_sheets(each, area * rounds, ruler) for each, rounds in used if rounds)


def _rounds(row: tables.Row, coatings: tuple[Coating, ...]) -> int:
    """How often the whole surface is sanded with it: once before the finish, and between coats."""
    if row["when"] == "between coats":
        return max((each.coats for each in coatings), default=1) - 1
    return 1


def _sheets(row: tables.Row, area: float, ruler: Ruler) -> Supply:
    each = float(row["m2_per_sheet"])
    basis = f"{row['when']}: {area_text(ruler, area)}, {area_text(ruler, each)} a sheet (rule of thumb)"
    return Supply(f"abrasive paper, grit {row['grit']}", _plain(ceil(area / each), "sheet"), basis)


def coating_amount(piece: Piece, coating: Coating) -> float | None:
    """Finish needed for all coats, waste included; None if its coverage is not known.  Units: ml."""
    if not coating.covers:
        return None
    return coating_area(piece, coating) * coating.coats / coating.covers * 1000 * (1 + habit_number("finish_waste"))


def coating_area(piece: Piece, coating: Coating) -> float:
    if not coating.everywhere:
        return surface_area(piece, coating.on)
    return finished_area(piece, (*coating.bare, *(each for other in piece.coatings for each in other.on)))


def _finish(piece: Piece, coating: Coating, ruler: Ruler) -> Supply:
    amount = coating_amount(piece, coating)
    name = ", ".join(each for each in (coating.product, coating.sheen) if each)
    faces = "" if coating.on or coating.bare else "all faces, "
    wood = f"{area_text(ruler, coating_area(piece, coating))} of wood ({faces}joints not taken off)"
    area = f"{wood} × {_plain(coating.coats, 'coat')}"
    if amount is None or coating.covers is None:
        return Supply(name, "as its label says", f"{area}; coverage not stated")
    more = f"and {habit_number('finish_waste') * 100:.0f} % more for the cloth"
    return Supply(name, phrases.volume_text(ruler, amount), f"{area} at {coverage_text(ruler, coating.covers)}, {more}")


def _plain(count: int, noun: str) -> str:
    """Amounts in tables are figures, however small."""
    return f"{count} {noun if count == 1 else phrases.plural(noun)}"


def area_text(ruler: Ruler, area: float) -> str:
    """Units: m2 in; square feet printed in inch editions."""
    if ruler.unit is Unit.INCH:
        return f"{area * _SQUARE_FEET:.1f} ft²" if area < 10 else f"{area * _SQUARE_FEET:.0f} ft²"
    return f"{area:.2f} m²"


def coverage_text(ruler: Ruler, covers: float) -> str:
    """`24 m2/l`, with the same in square feet per gallon for inch editions."""
    metric = f"{covers:g} m²/l"
    return metric if ruler.unit is Unit.MM else f"{round(covers * _PER_GALLON, -1):.0f} ft²/gal ({metric})"


def _used(piece: Piece) -> tuple[Coating, ...]:
    return tuple(each for each in piece.coatings if each.everywhere or each.on)
