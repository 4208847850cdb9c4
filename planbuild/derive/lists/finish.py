"""Finish and care: how it is put on, how much, how long it takes, and what the owner should know."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core import tables
from planbuild.derive import phrases
from planbuild.derive.cautions import caution
from planbuild.derive.lists.supplies import area_text, coating_amount, coating_area, coverage_text
from planbuild.records.edition import Edition
from planbuild.records.facts import Caution, FinishFacts
from planbuild.records.piece import Coating, Piece, Surface

_UNKNOWN = {
    "apply": "Put it on as its label says.",
    "after": "",
    "care": "Wipe up spills at once; clean with a damp cloth.",
    "renew": "Renew it as its label says.",
}
_OILS = ("oil", "varnish", "wax")


def main_coating(piece: Piece) -> Coating | None:
    """The finish that covers the piece, None if it is left bare."""
    return next((each for each in piece.coatings if each.everywhere), None)


def finish_row(coating: Coating) -> tables.Row | dict[str, str]:
    """How a kind of finish is handled; an unknown one is treated as an oil if its name says so."""
    found = tables.row("finishes", "product", coating.product.lower())
    risky = "yes" if any(word in coating.product.lower() for word in _OILS) else "no"
    return found or {**_UNKNOWN, "rags": risky, "vapour": "yes"}


def finish_facts(piece: Piece, edition: Edition) -> FinishFacts:
    """Actions in order, figures with their units, care for the owner."""
    coating = main_coating(piece)
    if coating is None:
        return FinishFacts("No finish", ("Leave the wood bare.",), (), ("Wipe with a dry cloth.",), ())
    row = finish_row(coating)
    return FinishFacts(
        title=_title(coating),
        actions=_actions(piece, coating, row),
        figures=_figures(piece, edition, coating),
        care=_care(piece, coating, row),
        cautions=finish_cautions(coating),
    )


def _title(coating: Coating) -> str:
    return phrases.heading(coating.product, coating.sheen, phrases.counted(coating.coats, "coat"))


def finish_cautions(coating: Coating) -> tuple[Caution, ...]:
    row = finish_row(coating)
    return tuple(caution(key) for key in ("rags", "vapour") if row[key] == "yes")


def _actions(piece: Piece, coating: Coating, row: tables.Row | dict[str, str]) -> tuple[str, ...]:
    grits = {each["when"]: each["grit"] for each in tables.rows("abrasives")}
    coats = phrases.number_word(coating.coats)
    again = f"Repeat until there are {coats} coats, sanding lightly with grit {grits['between coats']} in between."
    others = [each for each in piece.coatings if each.on]
    return tuple(
        each
        for each in (
            f"Sand along the grain with grit {grits['levelling']}, then {grits['last before the finish']}; take off all dust.",
            "Try the finish on an offcut of the same wood first.",
            row["apply"],
            row["after"],
            again if coating.coats > 1 else "",
            "Give faces that are not seen as many coats as those that are, so that the wood takes up damp evenly.",
            f"Leave bare: {surfaces_text(piece, coating.bare)}." if coating.bare else "",
            *(f"Put {each.product} on {surfaces_text(piece, each.on)}, {_coats(each)}." for each in others),
        )
        if each
    )


def _coats(coating: Coating) -> str:
    return f"{phrases.counted(coating.coats, 'coat')} instead"


def surfaces_text(piece: Piece, surfaces: Sequence[Surface]) -> str:
    """`drawer sides A6, the inside face of drawer front A5`: whole parts first."""
    whole = [phrases.named(piece.part(part)) for part, face in surfaces if face is None]
    faces = [(piece.part(part), face) for part, face in surfaces if face]
    looking = [f"the {phrases.facing(part, face, piece)} of {phrases.named(part)}" for part, face in faces]
    return phrases.listed([*whole, *looking])


def _figures(piece: Piece, edition: Edition, coating: Coating) -> tuple[tuple[str, str], ...]:
    amount = coating_amount(piece, coating)
    pairs = (
        ("coats", str(coating.coats)),
        ("area", area_text(edition.ruler, coating_area(piece, coating))),
        ("coverage", coverage_text(edition.ruler, coating.covers) if coating.covers else ""),
        ("amount", phrases.volume_text(edition.ruler, amount) if amount else ""),
        ("dry to the touch", coating.dries),
        ("fully hard", coating.cures),
    )
    return tuple(pair for pair in pairs if pair[1])


def _care(piece: Piece, coating: Coating, row: tables.Row | dict[str, str]) -> tuple[str, ...]:
    low, high, _ = piece.moisture
    air = f"{low:g}\u00a0% and {high:g}\u00a0%"
    room = f"Keep it where the wood stays between about {air} moisture, away from radiators and damp walls."
    return tuple(
        each
        for each in (
            f"Use it gently for {coating.cures}, until the finish is hard." if coating.cures else "",
            row["care"],
            row["renew"],
            room if any(each.glue_up for each in piece.parts) else "",
            "Once a year see that joints are tight and screws are snug, not more.",
        )
        if each
    )
