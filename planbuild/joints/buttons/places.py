"""Where the buttons go: which face of which rail gets the groove, and how far apart they sit."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Axis, Box, Face
from planbuild.joints.base import Board, Chosen, Site
from planbuild.joints.buttons.fields import ButtonsSaid
from planbuild.joints.faults import apart, refuse
from planbuild.joints.spacing import Spacing
from planbuild.joints.touching import Touch, gap, touches
from planbuild.records.design import Said


@dataclass(frozen=True)
class Rail:
    """One standing rail under the top: `inside` is its face with the groove, as it stands; `under` where the top lies."""

    board: Board
    copy: int
    inside: Face
    under: Touch
    span: Span

    @property
    def body(self) -> Box:
        return self.board.standing(self.copy)

    @property
    def along(self) -> Axis:
        return self.board.copies[self.copy].motion.axis(self.board.grain)


def find_rails(on: Sequence[Said], top: Chosen, site: Site) -> list[Rail] | None:
    """Every standing rail under the top; None after reporting."""
    chosen = [site.words.part(each) for each in on]
    if any(each is None for each in chosen):
        return None
    found = [_rail(each, copy, top, site) for each in chosen if each for copy in each.copies]
    return None if any(rail is None for rail in found) else [rail for rail in found if rail]


def _rail(on: Chosen, copy: int, top: Chosen, site: Site) -> Rail | None:
    board, motion = on.board, on.board.copies[copy].motion
    body = board.standing(copy)
    met = [touch for touch in touches(body, Face.TOP, [top.board], (board.id, copy)) if touch.copy in top.copies]
    if len(met) != 1:
        _not_under(on, copy, top, site)
        return None
    along = motion.axis(board.grain)
    if along is Axis.BOTTOM_TOP:
        message = f'"{board.id}" stands upright; buttons sit in a groove along a rail.'
        refuse(site, "joint-not-a-rail", on.span, message, "parts whose grain runs level")
        return None
    inside = motion.face(on.face) if on.face else _inside(body, along, met[0].body)
    if inside is None or inside.axis in (along, Axis.BOTTOM_TOP):
        message = f'"{board.id}" lies in the middle of "{top.board.id}": which of its faces gets the groove?'
        across = next(axis for axis in Axis if axis not in (along, Axis.BOTTOM_TOP))
        refuse(site, "joint-no-inside", on.span, message, f"{board.id}.{across.low.value} or {board.id}.{across.high.value}")
        return None
    return Rail(board, copy, inside, met[0], on.span)


def _not_under(on: Chosen, copy: int, top: Chosen, site: Site) -> None:
    away = min(gap(on.board.standing(copy), top.board.standing(each)) for each in top.copies)
    how = f"is {apart(away, site)} away from it" if away > TINY else "does not lie flat under it"
    message = f'"{top.board.id}" does not rest on "{on.board.id}": the rail {how}.'
    refuse(
        site,
        "joint-no-mate",
        on.span,
        message,
        "a rail whose top lies against the underside",
        f"Say `top: {top.board.id}.bottom`.",
    )


def _inside(rail: Box, along: Axis, top: Box) -> Face | None:
    """The face that looks to the middle of the top."""
    across = next(axis for axis in Axis if axis not in (along, Axis.BOTTOM_TOP))
    off = rail.along(across).middle - top.along(across).middle
    if abs(off) < TINY:
        return None
    return across.low if off > 0 else across.high


MOST = 200
"""Buttons of one joint: a table top 4 m long takes forty (a choice of ours)."""


def refuse_crowded(said: ButtonsSaid, rails: Iterable[Rail], spacing: Spacing, width: float, site: Site) -> bool:
    """True after reporting that buttons of this width would lie one over the other, or would be more than anyone makes."""
    rhythms = [spacing.rhythm(rail.body.along(rail.along)) for rail in rails]
    step = min((step for intervals, step in rhythms if intervals), default=width)
    many = sum(intervals + 1 for intervals, _ in rhythms)
    if step > width - TINY and many <= MOST:
        return False
    figure, told = site.ruler.plain, said.spacing or said.count
    message, expected = f"That makes {many} buttons.", f"at most {MOST}"
    if step <= width - TINY:
        message = f"Buttons are {figure(width)} wide; the middles of these would be {apart(step, site)} apart."
        expected = f"{figure(width)} or more from middle to middle"
    refuse(site, "joint-spacing", told.span if told else said.origin, message, expected, "Use fewer.")
    return True
