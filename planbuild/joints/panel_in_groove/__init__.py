"""Panel in groove: a panel held on its edges in grooves of a frame, free to move across its grain.

The panel is a plain board, larger by what stands in the grooves; one thicker than they are wide gets
rabbeted or bevelled edges.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar

from planbuild.core.geometry import Box, Span1
from planbuild.joints.base import Family, Joined, Site
from planbuild.joints.commons import Commons, commons, glue_word
from planbuild.joints.copies import Struck, settled
from planbuild.joints.faults import refuse
from planbuild.joints.panel_in_groove.fields import PanelInGrooveSaid
from planbuild.joints.panel_in_groove.sizes import Held, Panel, panel_of
from planbuild.joints.proportions import used
from planbuild.joints.touching import crossed_width, plane_of
from planbuild.records.design import JointSaid
from planbuild.records.features import EdgeBevel, Feature, Groove, Mate, Rabbet
from planbuild.records.piece import Contact, Joint


class PanelInGroove:
    """The kind: a panel in its frame, a drawer bottom in its sides."""

    name = "panel in groove"
    family = Family.ENTERING
    said: ClassVar[type[JointSaid]] = PanelInGrooveSaid

    def join(self, id: str, said: PanelInGrooveSaid, site: Site) -> Joined | None:
        """Reports `joint-panel-glued`, and what `panel_of` and `settled` report."""
        common = commons(said, self.name, glued=False, site=site)
        panel = panel_of(said, site)
        if common is None or panel is None or _is_glued(common, panel, said, site):
            return None
        features = _features(id, panel, said.why.text if said.why else "", site)
        grows = {panel.board.id: {each.side.face: each.enters for each in panel.held}}
        return Joined(_told(id, said, common, panel, site), features, grows=grows)


def _is_glued(common: Commons, panel: Panel, said: PanelInGrooveSaid, site: Site) -> bool:
    """True after refusing to glue in what moves; a sheet does not."""
    if common.glue and panel.board.stock.sheet is None:
        message = "A solid panel glued into its grooves cannot move; it splits, or drives the frame apart."
        span = (glue_word(said) if said.glue else said.kind).span
        refuse(site, "joint-panel-glued", span, message, "`glue: no`", source="common practice")
        return True
    return False


def _features(joint: str, panel: Panel, why: str, site: Site) -> dict[str, tuple[Feature, ...]]:
    struck = [_groove(joint, panel, each, copy, why) for each in panel.held for copy in range(len(each.side.homes))]
    features = dict(settled(joint, struck, site))
    edges: tuple[Feature, ...] = tuple(_edge_bevels(joint, panel, why) if panel.edge.bevelled else _rabbets(joint, panel, why))
    if edges:
        features[panel.board.id] = (*features.get(panel.board.id, ()), *edges)
    return features


def _void(panel: Panel, held: Held, copy: int) -> Box:
    """The groove as it stands: as long as its board, or as the panel with its play."""
    side, home = held.side, held.side.homes[copy]
    motion, run = side.board.copies[copy].motion, panel.run(held)
    drawn = side.strip(held.depth).with_span(panel.thick, panel.edge.across).with_span(run, panel.room.along(run))
    void, along = motion.box(drawn), motion.axis(run)
    return void.meet(home.body) if panel.stopped else void.with_span(along, home.body.along(along))


def _groove(joint: str, panel: Panel, held: Held, copy: int, why: str) -> Struck:
    side, home = held.side, held.side.homes[copy]
    cut = Groove("", side.span, joint, why, home.face, _void(panel, held, copy), Mate(side.board.id, (copy,)))
    motion = side.board.copies[copy].motion
    words = (side.board.id, side.board.copies[copy].hand, motion.face(side.face).value)
    return Struck(home.board, home.copy, cut, words, (side.board.id, copy), side.span)


def _rabbets(joint: str, panel: Panel, why: str) -> Iterator[Rabbet]:
    """What is cut from a thick panel all along its edges: to its margin, or so far in that its shoulder keeps clear of the
    frame by the play."""
    cut, whole = panel.edge.cut, panel.board.body.along(panel.thick)
    if cut is None:
        return
    beside = Span1(panel.edge.across.high, whole.high) if cut.sign > 0 else Span1(whole.low, panel.edge.across.low)
    for each in panel.held:
        face = each.side.face
        inner = panel.edge.margin or each.enters + each.play
        ends = sorted((panel.sawn.at(face), panel.sawn.at(face) - face.sign * inner))
        void = panel.sawn.with_span(face.axis, Span1(*ends)).with_span(panel.thick, beside)
        yield Rabbet(f"{joint}.{face.value}", each.side.span, joint, why, (face, cut), void)


def _edge_bevels(joint: str, panel: Panel, why: str) -> Iterator[EdgeBevel]:
    cut, margin = panel.edge.cut, panel.edge.margin
    assert cut is not None and margin is not None, "a bevelled edge is cut from a face, to a margin"
    for each in panel.held:
        face = each.side.face
        yield EdgeBevel(f"{joint}.{face.value}", each.side.span, joint, why, (face, cut), margin, panel.bevel(each))


def _contact(panel: Panel, held: Held, copy: int, glue: bool) -> Contact:
    """Only its cheeks touch: it lies on the wall of its groove, and nothing holds it at the bottom."""
    side, home = held.side, held.side.homes[copy]
    motion = side.board.copies[copy].motion
    inside = motion.box(side.strip(held.enters).with_span(panel.run(held), panel.sawn.along(panel.run(held))))
    cheek = motion.face(panel.edge.cut.opposite if panel.edge.cut else panel.board.face)
    plane = plane_of(inside.meet(home.body), cheek)
    way = motion.face(side.face)
    crossed = crossed_width(plane, cheek.axis, motion.axis(side.board.grain), home.grain)
    area = 2 * plane.size(way.axis) * plane.size(motion.axis(panel.run(held))) if glue else 0.0
    return Contact((side.board.id, copy), (home.board.id, home.copy), way.normal, plane, crossed, area)


def _told(id: str, said: PanelInGrooveSaid, common: Commons, panel: Panel, site: Site) -> Joint:
    plays = {_grainwise(panel, each): round(each.play, 6) for each in panel.held}
    edge = (("edge thickness", round(panel.edge.across.size, 6)),) if panel.edge.cut else ()
    margin = (("margin", round(panel.edge.margin, 6)),) if panel.edge.margin else ()
    shaped = "" if not panel.edge.cut else "bevel" if panel.edge.bevelled else "rabbet"
    return Joint(
        id=id,
        kind=PanelInGroove.name,
        name=common.name,
        origin=said.origin,
        contacts=tuple(_contact(panel, each, copy, common.glue) for each in panel.held for copy in range(len(each.side.homes))),
        glue=common.glue,
        fit=common.fit,
        numbers=(
            ("groove width", round(panel.edge.across.size, 6)),
            ("groove depth", round(panel.held[0].depth, 6)),
            *((f"play at each edge, {word} the grain", play) for word, play in plays.items() if play),
            *edge,
            *margin,
        ),
        operations=("groove", *((shaped,) if shaped else ())),
        tools=("marking gauge", "plough plane", *_TOOLS[shaped]),
        defaults=_lines(said, panel, site),
        note=common.note,
        why=common.why,
    )


_TOOLS = {"": (), "rabbet": ("rabbet plane",), "bevel": ("jack plane",)}


def _grainwise(panel: Panel, held: Held) -> str:
    return "along" if held.side.face.axis is panel.board.grain else "across"


def _lines(said: PanelInGrooveSaid, panel: Panel, site: Site) -> tuple[str, ...]:
    depth = () if said.depth else (used("Depth of the groove", "panel_depth", site.ruler),)
    names = {"across": "panel_play", "along": "panel_play_along"}
    ways = [] if said.play or panel.board.stock.sheet else list(dict.fromkeys(_grainwise(panel, each) for each in panel.held))
    bevel = panel.edge.bevelled and said.edge and not said.edge.margin
    margin = (used("Margin of the bevel", "panel_bevel", site.ruler),) if bevel else ()
    return (*depth, *margin, *(used(f"Play {way} the grain", names[way], site.ruler) for way in ways))
