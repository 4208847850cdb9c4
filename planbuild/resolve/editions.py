"""For whom the plan is printed: an edition of the design, or the one its unit suggests."""

from __future__ import annotations

from fractions import Fraction

from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.core.units import Ruler, Unit
from planbuild.records.edition import A4, LETTER, Edition, Projection
from planbuild.records.piece import EditionWish, Piece

STEPS = {Unit.INCH: Fraction(1, 32), Unit.MM: Fraction(1, 2)}
"""Rounding where the design says none: what a good rule is divided into (common practice)."""

PAPERS = {paper.name.lower(): paper for paper in (LETTER, A4)}


def edition_of(piece: Piece, id: str) -> Edition:
    """The edition named `id`; "" takes the first named in the files, or what the unit suggests.

    Reports `edition-unknown`, `edition-not-built`.
    """
    wishes = {wish.id: wish for wish in piece.editions}
    if id and id not in wishes:
        raise Refused((_unknown(id, tuple(wishes)),))
    wish = wishes[id] if id else next(iter(wishes.values()), None)
    return _asked(piece, wish) if wish else _suggested(piece)


def _suggested(piece: Piece) -> Edition:
    inch = piece.ruler.unit is Unit.INCH
    paper, projection = (LETTER, Projection.THIRD) if inch else (A4, Projection.FIRST)
    return Edition("home", paper, piece.ruler, projection, piece.imprint.date)


def _asked(piece: Piece, wish: EditionWish) -> Edition:
    suggested = _suggested(piece)
    paper = PAPERS.get(wish.paper.lower()) if wish.paper else suggested.paper
    wanted = [("paper", wish.paper, "Letter or A4")] if paper is None else []
    wanted += [("document", wish.document, "plan set")] if wish.document != "plan set" else []
    wanted += [("print", wish.print, "home")] if wish.print != "home" or wish.bleed else []
    if paper is None or wanted:
        raise Refused(tuple(_not_built(wish, *each) for each in wanted))
    unit = Unit(wish.unit) if wish.unit else piece.ruler.unit
    ruler = piece.ruler if unit is piece.ruler.unit else Ruler(unit, STEPS[unit])
    projection = Projection(wish.projection) if wish.projection else suggested.projection
    return Edition(wish.id, paper, ruler, projection, piece.imprint.date)


def _not_built(wish: EditionWish, field: str, value: str, built: str) -> Diagnostic:
    message = f'Edition "{wish.id}" wants {field}: {value}, which is not built yet.'
    return Diagnostic("edition-not-built", message, span=wish.origin, expected=built)


def _unknown(id: str, known: tuple[str, ...]) -> Diagnostic:
    expected = f"one of: {', '.join(known)}" if known else "no name: this design has no editions"
    return Diagnostic("edition-unknown", f'There is no edition "{id}".', expected=expected)
