"""Boards with their joints cut become parts: allowances, strips of a glue-up, what is printed of them."""

from __future__ import annotations

from planbuild.core.diagnostics import Diagnostic, Related
from planbuild.joints.base import Board
from planbuild.records.design import PartSaid, Said
from planbuild.records.edging import core_of, edgings_of
from planbuild.records.features import Feature
from planbuild.records.photos import photo_of
from planbuild.records.piece import Part, Practice
from planbuild.records.said import SIGNALS, cautioned
from planbuild.resolve.glue_ups import glue_up_of
from planbuild.resolve.moving import moves_of
from planbuild.resolve.sayings import Sayings, figure, tried

STAYS_ON = ("wall",)
"""What a part may stay on when the piece is lifted off."""


def part_of(
    board: Board, cut: tuple[Feature, ...], said: PartSaid, practice: Practice, sayings: Sayings
) -> Part:
    """The part of a board.  `cut` is what its joints cut: after its edging, and before shaping, marked from square faces.

    A sheet needs no allowance: it is flat, and true from the mill.  Reports what `glue_up_of` does, `stock-sheet-small`.
    """
    rough, spare, strips = said.rough, 0.0 if board.stock.sheet else 1.0, edgings_of(board.shapes)
    _check_sheet(board, sayings)
    length = tried(sayings.allowance, rough.length) if rough and rough.length else None
    width = tried(sayings.allowance, rough.width) if rough and rough.width else None
    return Part(
        id=board.id,
        mark="",
        name=board.name,
        origin=board.origin,
        stock=board.stock.id,
        grain=board.grain,
        face=board.face,
        edge=board.edge,
        body=board.body,
        features=(*strips, *cut, *(each for each in board.shapes if each not in strips)),
        copies=board.copies,
        rough_length=spare * practice.rough_length if length is None else float(length),
        rough_width=spare * practice.rough_width if width is None else float(width),
        glue_up=glue_up_of(board, said, sayings),
        note=_note(said, sayings),
        why=_reasons(said),
        photo=photo_of(said.photo, f"the {board.name}"),
        pose=board.pose,
        fit_to_work=bool(said.fit_to_work and tried(sayings.yes, said.fit_to_work)),
        stays_on=(said.stays_on and tried(sayings.choice, said.stays_on, STAYS_ON)) or "",
        moves=tried(moves_of, board.id, said.moves, sayings) if said.moves else None,
    )


def _note(said: PartSaid, sayings: Sayings) -> str:
    """What the designer says of it, a caution first."""
    told = said.caution
    signal = tried(sayings.choice, told.signal, SIGNALS, "signal word") if told else None
    return cautioned(told, signal, said.note.text if said.note else "")


def _reasons(said: PartSaid) -> str:
    """Why the part is as it is: its own `why`, and those of its sizes and places."""
    own = [said.why.text] if said.why else []
    for name in type(said).model_fields:
        value = getattr(said, name)
        if isinstance(value, Said) and value.why:
            own.append(f"{name} {value.text}: {value.why}")
    return "; ".join(own)


def _check_sheet(board: Board, sayings: Sayings) -> None:
    """A part comes out of a whole sheet, with what goes into its mates.  Reports `stock-sheet-small`."""
    sheet, core = board.stock.sheet, core_of(board.body, edgings_of(board.shapes))
    length, width = core.size(board.grain), core.size(board.width_axis)
    if sheet is None or sheet.yields(length, width):
        return
    size = " x ".join(figure(each, sayings.unit) for each in sheet.size)
    part = " x ".join(figure(each, sayings.unit) for each in (length, width))
    along = ", along its grain first" if sheet.grain else ""
    message = f'"{board.id}" is {part}{along}; a whole sheet of "{board.stock.id}" is {size}.'
    turned = sheet.grain and sheet.yields(width, length)
    hint = f"{'Turn the grain of the part, t' if turned else 'T'}ake a larger sheet, or make it of two parts."
    related = (Related(board.stock.origin, f'"{board.stock.id}" is said here'),)
    sayings.report.add(Diagnostic("stock-sheet-small", message, span=board.origin, hints=(hint,), related=related))
