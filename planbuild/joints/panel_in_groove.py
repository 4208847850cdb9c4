"""Panel in groove: a panel held on its edges in grooves of a frame, free to move across its grain.

The panel is a plain board, larger by what stands in the grooves; one thicker than they are wide gets rabbeted edges.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.base import Board, Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.copies import Struck, settled
from planbuild.joints.faults import refuse, warn
from planbuild.joints.proportions import length_rule, movement_coefficient, rule, share_rule, used
from planbuild.joints.sides import Side, all_round, find_sides
from planbuild.joints.touching import crossed_width, plane_of
from planbuild.records.design import JointSaid, Model, Said
from planbuild.records.features import Feature, Groove, Mate, Rabbet
from planbuild.records.piece import Contact, Joint


class EdgeSaid(Model):
    """The edge of a panel thicker than its grooves: what is left of it, and from which face the rest is cut."""

    thickness: Said
    by: Said | None = None
    on: Said | None = None


class PanelInGrooveSaid(JointSaid):
    """`panel` stands in what its edges meet; `stopped` grooves are only as long as it needs."""

    panel: Said
    edges: Said | None = None
    depth: Said | None = None
    edge: EdgeSaid | None = None
    play: Said | None = None
    stopped: Said | None = None


@dataclass(frozen=True)
class _Edge:
    """What the edges of the panel become: `across` is the place of the tongue in its thickness, `cut` the face from
    which the rest is taken (None: the panel goes in as thick as it is)."""

    across: Span1
    cut: Face | None


@dataclass(frozen=True)
class _Held:
    """One side in its groove: `depth` of the groove, `play` left at its bottom (mm)."""

    side: Side
    depth: float
    play: float

    @property
    def enters(self) -> float:
        return self.depth - self.play


@dataclass(frozen=True)
class _Panel:
    """The panel with all its sides that are held."""

    board: Board
    edge: _Edge
    held: tuple[_Held, ...]
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

    def run(self, held: _Held) -> Axis:
        (axis,) = (each for each in Axis if each not in (self.thick, held.side.face.axis))
        return axis


class PanelInGroove:
    """The kind: a panel in its frame, a drawer bottom in its sides."""

    name = "panel in groove"
    family = Family.ENTERING
    said: ClassVar[type[JointSaid]] = PanelInGrooveSaid

    def join(self, id: str, said: PanelInGrooveSaid, site: Site) -> Joined | None:
        """Reports `joint-panel-glued`, `joint-panel-edge`, `joint-panel-beside`, `joint-panel-draws`, `joint-panel-play`
        (warning), `joint-groove-deep`, `joint-movement`, and what `find_sides` and `settled` report."""
        common = commons(said, self.name, glued=False, site=site)
        panel = _panel(said, site)
        if common is None or panel is None or _is_glued(common, said, site):
            return None
        features = _features(id, panel, said.why.text if said.why else "", site)
        grows = {panel.board.id: {each.side.face: each.enters for each in panel.held}}
        return Joined(_told(id, said, common, panel, site), features, grows=grows)


def _is_glued(common: Commons, said: PanelInGrooveSaid, site: Site) -> bool:
    if common.glue:
        message = "A solid panel glued into its grooves cannot move; it splits, or drives the frame apart."
        span = (said.glue or said.kind).span
        refuse(site, "joint-panel-glued", span, message, "`glue: no`", source="common practice")
    return common.glue


# ---------------------------------------------------------------- sizes


def _panel(said: PanelInGrooveSaid, site: Site) -> _Panel | None:
    words = site.words
    stopped = words.yes(said.stopped) if said.stopped else False
    if stopped is None or (said.edges and words.choice(said.edges, ("all",)) is None):
        return None
    sides = find_sides((said.panel,), None, all_round, site)
    edge = _edge(sides[0].board, said.edge, site) if sides else None
    if not sides or edge is None:
        return None
    held = [_held(each, said, site) for each in sides]
    if any(each is None for each in held):
        return None
    panel = _Panel(sides[0].board, edge, tuple(each for each in held if each), stopped)
    walled = [_walled(panel, each, site) for each in panel.held]
    return panel if all(walled) else None


def _edge(board: Board, said: EdgeSaid | None, site: Site) -> _Edge | None:
    whole = board.body.along(board.face.axis)
    if said is None:
        return _Edge(whole, None)
    thick = site.words.length(said.thickness)
    on = site.words.choice(said.on, (board.face.value, board.face.opposite.value)) if said.on else board.face.opposite.value
    if thick is None or on is None or (said.by and site.words.choice(said.by, ("rabbet",)) is None):
        return None
    if thick > whole.size - TINY:
        figure = site.ruler.plain
        message = f'The edge of "{board.id}" cannot be {figure(thick)} thick: the panel is {figure(whole.size)}.'
        refuse(site, "joint-panel-edge", said.thickness.span, message, f"less than {figure(whole.size)}")
        return None
    cut = Face(on)
    return _Edge(Span1(whole.low, whole.low + thick) if cut.sign > 0 else Span1(whole.high - thick, whole.high), cut)


def _held(side: Side, said: PanelInGrooveSaid, site: Site) -> _Held | None:
    depth = site.words.length(said.depth) if said.depth else length_rule("panel_depth", site.ruler)
    moves = _moves(side, site)
    wanted = site.words.length(said.play) if said.play else None
    if depth is None or moves is None or (said.play and wanted is None):
        return None
    held = _Held(side, depth, _play(moves[0], side, site) if wanted is None else wanted)
    return held if _sound(held, moves, said, site) else None


def _moves(side: Side, site: Site) -> tuple[float, float] | None:
    """How much the panel swells and shrinks at one of its sides over the year: half of all it moves; none along the grain.

    Source of the formula: Wood Handbook (USDA Forest Products Laboratory), equation 13-2.
    """
    board = side.board
    if side.face.axis is board.grain:
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
    """What it swells and a little more, to the next printed step."""
    step = float(site.ruler.step * site.ruler.unit.mm)
    along = side.face.axis is side.board.grain
    wanted = length_rule("panel_play_along" if along else "panel_play", site.ruler) + swells
    return math.ceil(wanted / step - TINY) * step


def _sound(held: _Held, moves: tuple[float, float], said: PanelInGrooveSaid, site: Site) -> bool:
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


def _walled(panel: _Panel, held: _Held, site: Site) -> bool:
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


# ---------------------------------------------------------------- both sides


def _features(joint: str, panel: _Panel, why: str, site: Site) -> dict[str, tuple[Feature, ...]]:
    struck = [_groove(joint, panel, each, copy, why) for each in panel.held for copy in range(len(each.side.homes))]
    features = dict(settled(joint, struck, site))
    rabbets = tuple(_rabbets(joint, panel, why))
    if rabbets:
        features[panel.board.id] = (*features.get(panel.board.id, ()), *rabbets)
    return features


def _void(panel: _Panel, held: _Held, copy: int) -> Box:
    """The groove as it stands: as long as its board, or as the panel with its play."""
    side, home = held.side, held.side.homes[copy]
    motion, run = side.board.copies[copy].motion, panel.run(held)
    drawn = side.strip(held.depth).with_span(panel.thick, panel.edge.across).with_span(run, panel.room.along(run))
    void, along = motion.box(drawn), motion.axis(run)
    return void.meet(home.body) if panel.stopped else void.with_span(along, home.body.along(along))


def _groove(joint: str, panel: _Panel, held: _Held, copy: int, why: str) -> Struck:
    side, home = held.side, held.side.homes[copy]
    cut = Groove("", side.span, joint, why, home.face, _void(panel, held, copy), Mate(side.board.id, (copy,)))
    motion = side.board.copies[copy].motion
    words = (side.board.id, side.board.copies[copy].hand, motion.face(side.face).value)
    return Struck(home.board, home.copy, cut, words, (side.board.id, copy), side.span)


def _rabbets(joint: str, panel: _Panel, why: str) -> Iterator[Rabbet]:
    """What is cut from a thick panel all along its edges: so far in that its shoulder keeps clear of the frame by the play."""
    cut, whole = panel.edge.cut, panel.board.body.along(panel.thick)
    if cut is None:
        return
    beside = Span1(panel.edge.across.high, whole.high) if cut.sign > 0 else Span1(whole.low, panel.edge.across.low)
    for each in panel.held:
        face = each.side.face
        ends = sorted((panel.sawn.at(face), panel.board.body.at(face) - face.sign * each.play))
        void = panel.sawn.with_span(face.axis, Span1(*ends)).with_span(panel.thick, beside)
        yield Rabbet(f"{joint}.{face.value}", each.side.span, joint, why, (face, cut), void)


def _contact(panel: _Panel, held: _Held, copy: int) -> Contact:
    """Only its cheeks touch: it lies on the wall of its groove, and nothing holds it at the bottom."""
    side, home = held.side, held.side.homes[copy]
    motion = side.board.copies[copy].motion
    inside = motion.box(side.strip(held.enters).with_span(panel.run(held), panel.sawn.along(panel.run(held))))
    cheek = motion.face(panel.edge.cut.opposite if panel.edge.cut else panel.board.face)
    plane = plane_of(inside.meet(home.body), cheek)
    way = motion.face(side.face)
    crossed = crossed_width(plane, cheek.axis, motion.axis(side.board.grain), home.grain)
    return Contact((side.board.id, copy), (home.board.id, home.copy), way.normal, plane, crossed, 0.0)


def _told(id: str, said: PanelInGrooveSaid, common: Commons, panel: _Panel, site: Site) -> Joint:
    plays = {_grainwise(panel, each): round(each.play, 6) for each in panel.held}
    edge = (("edge thickness", round(panel.edge.across.size, 6)),) if panel.edge.cut else ()
    return Joint(
        id=id,
        kind=PanelInGroove.name,
        name=common.name,
        origin=said.origin,
        contacts=tuple(_contact(panel, each, copy) for each in panel.held for copy in range(len(each.side.homes))),
        glue=False,
        fit=common.fit,
        numbers=(
            ("groove width", round(panel.edge.across.size, 6)),
            ("groove depth", round(panel.held[0].depth, 6)),
            *((f"play at each edge, {word} the grain", play) for word, play in plays.items()),
            *edge,
        ),
        operations=("groove", "rabbet") if panel.edge.cut else ("groove",),
        tools=("marking gauge", "plough plane", "rabbet plane") if panel.edge.cut else ("marking gauge", "plough plane"),
        defaults=_lines(said, panel, site),
        note=common.note,
        why=common.why,
    )


def _grainwise(panel: _Panel, held: _Held) -> str:
    return "along" if held.side.face.axis is panel.board.grain else "across"


def _lines(said: PanelInGrooveSaid, panel: _Panel, site: Site) -> tuple[str, ...]:
    depth = () if said.depth else (used("Depth of the groove", "panel_depth", site.ruler),)
    names = {"across": "panel_play", "along": "panel_play_along"}
    ways = [] if said.play else list(dict.fromkeys(_grainwise(panel, each) for each in panel.held))
    return (*depth, *(used(f"Play {way} the grain", names[way], site.ruler) for way in ways))
