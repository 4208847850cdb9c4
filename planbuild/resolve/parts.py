"""Boards with their joints cut become parts: allowances, strips of a glue-up, what is printed of them."""

from __future__ import annotations

import math
from fractions import Fraction

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.joints.base import Board
from planbuild.records.design import GlueUpSaid, PartSaid, Said
from planbuild.records.features import Feature
from planbuild.records.piece import GlueUp, Part, Practice
from planbuild.resolve.sayings import Sayings, figure, tried

WIDEST_BOARD = 150.0
"""A solid part wider than this (mm; 6 in) is glued up or said to be one board: wide boards are rare and cup (common practice)."""


MOST_STRIPS = 60
"""Strips of one panel: a top 4 ft deep in strips an inch wide has 48 (a choice of ours)."""


def part_of(
    board: Board, cut: tuple[Feature, ...], said: PartSaid, practice: Practice, sayings: Sayings
) -> Part:
    """The part of a board.  `cut` is what its joints cut; joinery comes before shaping, marked from square faces."""
    rough = said.rough
    length = tried(sayings.size, rough.length, "The allowance") if rough and rough.length else None
    width = tried(sayings.size, rough.width, "The allowance") if rough and rough.width else None
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
        features=(*cut, *board.shapes),
        copies=board.copies,
        rough_length=practice.rough_length if length is None else float(length),
        rough_width=practice.rough_width if width is None else float(width),
        glue_up=_glue_up(board, said, sayings),
        note=said.note.text if said.note else "",
        why=_reasons(said),
        photo=said.photo.text if said.photo else "",
    )


def _reasons(said: PartSaid) -> str:
    """Why the part is as it is: its own `why`, and those of its sizes and places."""
    own = [said.why.text] if said.why else []
    for name in type(said).model_fields:
        value = getattr(said, name)
        if isinstance(value, Said) and value.why:
            own.append(f"{name} {value.text}: {value.why}")
    return "; ".join(own)


# ---------------------------------------------------------------- glue-ups


def _glue_up(board: Board, said: PartSaid, sayings: Sayings) -> GlueUp | None:
    """Reports `glue-up-missing` (warning), `glue-up-strips`, `word-unknown`."""
    wish = said.glue_up
    width = board.body.size(board.width_axis)
    if isinstance(wish, GlueUpSaid):
        return tried(_strips, wish, width, board, sayings)
    if isinstance(wish, Said):
        tried(sayings.choice, wish, ("no",), "glue-up")
    elif width > WIDEST_BOARD:
        message = f'"{board.id}" is {figure(width, sayings.unit)} wide: one board, or a glue-up?'
        hint = "Say `glue_up: {widest_strip: ...}`, or `glue_up: no` for one board."
        sayings.report.add(Diagnostic("glue-up-missing", message, Severity.WARNING, board.origin, hints=(hint,)))
    return None


def _strips(wish: GlueUpSaid, width: float, board: Board, sayings: Sayings) -> GlueUp:
    widest = sayings.size(wish.widest_strip, "The widest strip") if wish.widest_strip else None
    strips = sayings.count(wish.strips, least=2) if wish.strips else None
    if strips is None and widest is None:
        raise sayings.refuse(
            "glue-up-strips", Said("glue_up", wish.origin), f'Of how many strips is "{board.id}"?', "`widest_strip` or `strips`"
        )
    if strips is None and widest is not None:
        strips = max(1, math.ceil(Fraction(width).limit_denominator(10**6) / widest))
    assert strips is not None
    if strips > MOST_STRIPS:
        at = wish.widest_strip or wish.strips or Said("glue_up", wish.origin)
        message = f'"{board.id}" would be glued up of {strips} strips.'
        raise sayings.refuse("glue-up-strips", at, message, f"at most {MOST_STRIPS}", ("Make the strips wider.",))
    if wish.strips and widest is not None and width / strips > float(widest):
        message = f"{strips} strips of {figure(width, sayings.unit)} are {figure(width / strips, sayings.unit)} wide each."
        raise sayings.refuse("glue-up-strips", wish.strips, message, f"at most {figure(widest, sayings.unit)}, the widest strip")
    rings = sayings.choice(wish.rings, ("alternate", "same"), "way to turn the rings") if wish.rings else "alternate"
    return GlueUp(strips, width / strips, rings)


