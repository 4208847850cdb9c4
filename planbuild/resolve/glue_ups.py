"""Parts glued up of several boards: strips edge to edge, layers face to face."""

from __future__ import annotations

import math
from fractions import Fraction

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.joints.base import Board
from planbuild.records.design import GlueUpSaid, PartSaid, Said
from planbuild.records.stock import GlueUp
from planbuild.resolve.facts import MOST_LAYERS
from planbuild.resolve.sayings import Sayings, figure, tried

WIDEST_BOARD = 150.0
"""A solid part wider than this (mm; 6 in) is glued up or said to be one board: wide boards are rare and cup (common practice)."""

MOST_STRIPS = 60
"""Strips of one panel: a top 4 ft deep in strips an inch wide has 48 (a choice of ours)."""


def glue_up_of(board: Board, said: PartSaid, sayings: Sayings) -> GlueUp | None:
    """Reports `glue-up-missing` (warning), `glue-up-strips`, `glue-up-sheet`, `glue-up-match`, `glue-up-spline`."""
    wish = said.glue_up
    width = board.body.size(board.width_axis)
    if isinstance(wish, GlueUpSaid):
        return tried(_glued_up, wish, width, board, sayings)
    if isinstance(wish, Said):
        tried(sayings.choice, wish, ("no",), "glue-up")
    elif width > WIDEST_BOARD and board.stock.sheet is None:
        message = f'"{board.id}" is {figure(width, sayings.unit)} wide: one board, or a glue-up?'
        hint = "Say `glue_up: {widest_strip: ...}`, or `glue_up: no` for one board."
        sayings.report.add(Diagnostic("glue-up-missing", message, Severity.WARNING, board.origin, hints=(hint,)))
    return None


def _glued_up(wish: GlueUpSaid, width: float, board: Board, sayings: Sayings) -> GlueUp:
    layers = sayings.count(wish.layers, 2, MOST_LAYERS) if wish.layers else 1
    edgewise = wish.widest_strip or wish.strips or wish.rings or wish.match or wish.splines
    if board.stock.sheet is not None and edgewise is not None:
        message = f'"{board.id}" is of a sheet, which is not glued up from strips.'
        raise sayings.refuse("glue-up-sheet", edgewise, message, "`layers`, or no `glue_up`")
    strips = _strips(wish, width, board, sayings) if edgewise or not wish.layers else 1
    rings = sayings.choice(wish.rings, ("alternate", "same"), "way to turn the rings") if wish.rings else "alternate"
    match = sayings.choice(wish.match, ("bookmatched", "slip"), "match") if wish.match else ""
    splines = _splines(wish.splines, board, layers, sayings) if wish.splines else 0.0
    if match and strips < 2:
        assert wish.match is not None
        raise sayings.refuse("glue-up-match", wish.match, f'"{board.id}" is one strip wide; there is nothing to match.')
    return GlueUp(strips, width / strips, rings, match, layers, splines)


def _strips(wish: GlueUpSaid, width: float, board: Board, sayings: Sayings) -> int:
    widest = sayings.size(wish.widest_strip, "The widest strip") if wish.widest_strip else None
    strips = sayings.count(wish.strips, least=2) if wish.strips else None
    if strips is None and widest is None:
        at = Said("glue_up", wish.origin)
        raise sayings.refuse("glue-up-strips", at, f'Of how many strips is "{board.id}"?', "`widest_strip` or `strips`")
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
    return strips


def _splines(said: Said, board: Board, layers: int, sayings: Sayings) -> float:
    """Their thickness, mm; both walls of its groove must stay as thick as it is."""
    thick = sayings.size(said, "The spline")
    board_thick = board.body.size(board.face.axis) / layers
    if float(thick) > board_thick / 3 + 0.01:
        splines, strips = figure(thick, sayings.unit), figure(board_thick, sayings.unit)
        message = f"A spline {splines} thick leaves thin walls in strips of {strips}."
        raise sayings.refuse("glue-up-spline", said, message, f"at most a third, {figure(board_thick / 3, sayings.unit)}")
    return float(thick)
