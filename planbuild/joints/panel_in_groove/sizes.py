"""Sizes of a panel in its grooves: edges, depth and play, and whether it holds dry and has room damp."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.base import Board, Site
from planbuild.joints.faults import refuse, warn
from planbuild.joints.panel_in_groove.fields import EdgeSaid, PanelInGrooveSaid
from planbuild.joints.proportions import length_rule, movement_coefficient, rule, share_rule
from planbuild.joints.sides import Side, all_round, find_sides
from planbuild.records.design import Said


@dataclass(frozen=True)
class Edge:
    """What the edges of the panel become: `across` is the place of the tongue in its thickness, `cut` the face from
    which the rest is taken (None: the panel goes in as thick as it is), `margin` how far in (None: as far as needed)."""

    across: Span1
    cut: Face | None
    bevelled: bool = False
    margin: float | None = None


@dataclass(frozen=True)
class Held:
    """One side in its groove: `depth` of the groove, `play` left at its bottom (mm)."""

    side: Side
    depth: float
    play: float

    @property
    def enters(self) -> float:
        return self.depth - self.play


@dataclass(frozen=True)
class Panel:
    """The panel with all its sides that are held."""

    board: Board
    edge: Edge
    held: tuple[Held, ...]
    stopped: bool

    @property
    def thick(self) -> Axis:
        return self.board.face.axis

    @property
    def sawn(self) -> Box:
        """The panel as it is sawn, with what stands in the grooves."""
        body = self.board.body
        for each in self.held:
            body = body.grown(each.side.face, each.enters)
        return body

    @property
    def room(self) -> Box:
        """As far as the bottoms of its grooves."""
        body = self.board.body
        for each in self.held:
            body = body.grown(each.side.face, each.depth)
        return body

    def bevel(self, held: Held) -> float:
        """What a bevel takes at the very edge: on the line through the mouth of the groove, where the edge is as thick as
        the groove is wide."""
        margin = self.edge.margin
        assert margin is not None, "a bevel has a margin"
        cut = self.board.body.size(self.thick) - self.edge.across.size
        return cut * margin / (margin - held.enters)

    def run(self, held: Held) -> Axis:
        (axis,) = (each for each in Axis if each not in (self.thick, held.side.face.axis))
        return axis


def panel_of(said: PanelInGrooveSaid, site: Site) -> Panel | None:
    """The panel with its edges and play; None after reporting.

    Reports `joint-panel-edge`, `joint-panel-beside`, `joint-panel-draws`, `joint-panel-play` (warning),
    `joint-groove-deep`, `joint-movement`, and what `find_sides` reports.
    """
    words = site.words
    stopped = words.yes(said.stopped) if said.stopped else False
    named = _named(said, site)
    sides = find_sides(named, None, all_round, site) if named else None
    edge = _edge(sides[0].board, said.edge, site) if sides else None
    if not sides or edge is None or stopped is None:
        return None
    held = [_held(each, sides, said, site) for each in sides]
    if any(each is None for each in held):
        return None
    panel = Panel(sides[0].board, edge, tuple(each for each in held if each), stopped)
    sound = [_walled(panel, each, site) and _bevels(panel, each, said, site) for each in panel.held]
    return panel if all(sound) else None


def _named(said: PanelInGrooveSaid, site: Site) -> tuple[Said, ...]:
    """The panel with all its edges, or each edge that is named."""
    edges = said.edges if isinstance(said.edges, tuple) else (said.edges,) if said.edges else ()
    known = [site.words.choice(each, ("all", *(face.value for face in Face))) for each in edges]
    if None in known:
        return ()
    if not known or "all" in known:
        return (said.panel,)
    return tuple(replace(each, text=f"{said.panel.text}.{each.text}") for each in edges)


def _edge(board: Board, said: EdgeSaid | None, site: Site) -> Edge | None:
    whole = board.body.along(board.face.axis)
    if said is None:
        return Edge(whole, None)
    thick = site.words.length(said.thickness)
    on = site.words.choice(said.on, (board.face.value, board.face.opposite.value)) if said.on else board.face.opposite.value
    by = site.words.choice(said.by, ("rabbet", "bevel")) if said.by else "rabbet"
    margin = site.words.length(said.margin) if said.margin else None
    if thick is None or on is None or by is None or (said.margin and margin is None):
        return None
    if thick > whole.size - TINY:
        figure = site.ruler.plain
        message = f'The edge of "{board.id}" cannot be {figure(thick)} thick: the panel is {figure(whole.size)}.'
        refuse(site, "joint-panel-edge", said.thickness.span, message, f"less than {figure(whole.size)}")
        return None
    cut = Face(on)
    across = Span1(whole.low, whole.low + thick) if cut.sign > 0 else Span1(whole.high - thick, whole.high)
    if by == "bevel" and margin is None:
        margin = length_rule("panel_bevel", site.ruler)
    return Edge(across, cut, by == "bevel", margin)


def _held(side: Side, sides: Sequence[Side], said: PanelInGrooveSaid, site: Site) -> Held | None:
    depth = site.words.length(said.depth) if said.depth else length_rule("panel_depth", site.ruler)
    moves = _moves(side, sides, site)
    wanted = site.words.length(said.play) if said.play else None
    if depth is None or moves is None or (said.play and wanted is None):
        return None
    held = Held(side, depth, _play(moves[0], side, site) if wanted is None else wanted)
    return held if _sound(held, moves, said, site) else None


def _moves(side: Side, sides: Sequence[Side], site: Site) -> tuple[float, float] | None:
    """How much the panel swells and shrinks at one of its sides over the year: half of all it moves; none along the grain.

    A panel whose other side is free moves there: it is held at this one.

    Source of the formula: Wood Handbook (USDA Forest Products Laboratory), equation 13-2.
    """
    board = side.board
    free = all(other.face is not side.face.opposite for other in sides)
    if side.face.axis is board.grain or free:
        return 0.0, 0.0
    coefficient = movement_coefficient(board.stock)
    if coefficient is None:
        message = f'There is no published movement of {board.stock.species}, so the room for "{board.id}" cannot be worked out.'
        refuse(site, "joint-movement", board.stock.origin, message, "a wood of the table of woods with its coefficients")
        return None
    dry, damp, workshop = site.moisture
    half = board.body.size(board.width_axis) * coefficient / 2
    return half * (damp - workshop), half * (workshop - dry)


def _play(swells: float, side: Side, site: Site) -> float:
    """What it swells and a little more, to the next printed step; none for a sheet."""
    if side.board.stock.sheet:
        return 0.0
    step = float(site.ruler.step * site.ruler.unit.mm)
    along = side.face.axis is side.board.grain
    wanted = length_rule("panel_play_along" if along else "panel_play", site.ruler) + swells
    return math.ceil(wanted / step - TINY) * step


def _sound(held: Held, moves: tuple[float, float], said: PanelInGrooveSaid, site: Site) -> bool:
    """It holds when it is dry, has room when it is damp, and leaves the frame strong."""
    swells, shrinks = moves
    side, figure = held.side, site.ruler.plain
    span = (said.depth or said.play or said.kind).span
    deepest = side.depth * share_rule("groove_deepest", site.ruler)
    if held.depth > deepest + TINY:
        message = f'A groove {figure(held.depth)} deep is more than half of "{side.mate.id}", {figure(side.depth)} thick there.'
        source = rule("groove_deepest", site.ruler).source
        refuse(site, "joint-groove-deep", span, message, f"at most {figure(deepest)}", source=source)
        return False
    if held.enters <= shrinks + TINY:
        message = (
            f'{side.spoken} stands {figure(max(held.enters, 0.0))} in its groove and shrinks {figure(shrinks)} there: '
            "it would come out."
        )
        hint = "A deeper groove, a narrower panel, or quartersawn stock."
        refuse(site, "joint-panel-draws", span, message, f"more than {figure(shrinks)} in the groove", hint)
        return False
    if held.play < swells - TINY:
        message = f'{side.spoken} swells {figure(swells)} there, with room for {figure(held.play)}: it presses on the frame.'
        warn(site, "joint-panel-play", span, message, f"at least {figure(swells)}")
    return True


def _walled(panel: Panel, held: Held, site: Site) -> bool:
    """The groove has wood on both sides in every mate."""
    side = held.side
    for copy in range(len(side.homes)):
        thick = side.seen(copy).along(panel.thick)
        if thick.low > panel.edge.across.low - TINY or thick.high < panel.edge.across.high + TINY:
            message = f'The groove for "{panel.board.id}" does not lie inside "{side.mate.id}": one of its walls is missing.'
            hint = "Set the panel in from the face of its frame, or write `edge: {thickness: ..., on: ...}`."
            refuse(site, "joint-panel-beside", side.span, message, "wood on both sides of the groove", hint)
            return False
    return True


def _bevels(panel: Panel, held: Held, said: PanelInGrooveSaid, site: Site) -> bool:
    """What is cut goes in beyond the groove, not past the middle of the panel, and a bevel leaves something at the edge."""
    edge, margin = panel.edge, panel.edge.margin
    if edge.cut is None or margin is None or said.edge is None:
        return True
    span, figure = (said.edge.margin or said.edge.thickness).span, site.ruler.plain
    most = panel.sawn.size(held.side.face.axis) / 2
    if not held.enters + TINY < margin < most:
        message = f'A margin of {figure(margin)} on a panel that stands {figure(held.enters)} in its grooves.'
        refuse(site, "joint-panel-edge", span, message, f"more than {figure(held.enters)}, less than {figure(most)}")
        return False
    if edge.bevelled and panel.bevel(held) > panel.board.body.size(panel.thick) - TINY:
        message = f'The bevel comes to nothing before the edge of "{panel.board.id}".'
        refuse(site, "joint-panel-edge", span, message, "a flatter bevel", "A wider margin, or a thicker edge.")
        return False
    return True
