"""Rabbet: a part stands in a step cut along the edge of its mate, with one face flush with that edge.

The part is a plain board, larger by the depth of the rabbet: a top between the ends of two sides, a back all round.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from planbuild.core.geometry import TINY, Box, Face
from planbuild.joints.base import Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.copies import Struck, settled
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import rule, share_rule, stepped_share, used
from planbuild.joints.screw_fields import ScrewFields
from planbuild.joints.screwed import screwed_on, with_screws
from planbuild.joints.sides import Side, Sides, all_round, by_board, ends, find_sides, growth
from planbuild.joints.touching import crossed_width, plane_of
from planbuild.records.design import JointSaid, Said
from planbuild.records.features import Mate, Rabbet
from planbuild.records.piece import Contact, Joint


class RabbetedSaid(JointSaid):
    """Each `part` stands in `into`; `edges: all` takes its edges as well as its ends."""

    part: tuple[Said, ...]
    into: Said | None = None
    depth: Said | None = None
    edges: Said | None = None
    screws: ScrewFields | None = None


@dataclass(frozen=True)
class _Step:
    """A side that stands `depth` deep in a rabbet; `body` is the part with all that its sides gain."""

    side: Side
    depth: float
    open: Face
    body: Box
    from_behind: bool

    @property
    def inner(self) -> Box:
        """What stands in the rabbet, on the drawn copy: with the corners that two grown sides share."""
        return self.body.with_span(self.side.face.axis, self.side.strip(self.depth).along(self.side.face.axis))

    @property
    def closes(self) -> Face:
        """The way home: along the part; all round it can only come from the open side."""
        return self.open.opposite if self.from_behind else self.side.face


class Rabbeted:
    """The kind: a top in its sides, a back in its case."""

    name = "rabbet"
    family = Family.ENTERING
    said: ClassVar[type[JointSaid]] = RabbetedSaid

    def join(self, id: str, said: RabbetedSaid, site: Site) -> Joined | None:
        """Reports `joint-rabbet-inside`, `joint-rabbet-depth`, and what `find_sides` and `settled` report."""
        common = commons(said, self.name, glued=said.edges is None, site=site)
        sides = _sides(said, site)
        groups = [_steps(each, said, site) for each in by_board(sides or ())]
        if common is None or not groups or any(each is None for each in groups):
            return None
        steps = [step for group in groups for step in group or ()]
        why = said.why.text if said.why else ""
        struck = [_cut(id, each, copy, why) for each in steps for copy in range(len(each.side.homes))]
        features = settled(id, struck, site)
        grows = growth((each.side, each.depth) for each in steps)
        joined = Joined(_told(id, said, common, steps, site), features, grows=grows)
        return _screwed(id, said.screws, joined, steps, site) if said.screws else joined


def _screwed(id: str, said: ScrewFields, joined: Joined, steps: Sequence[_Step], site: Site) -> Joined | None:
    """Screws through the parts as they are sawn, into the floor that they close on; None after reporting."""
    sawn = {each.side.board.id: replace(each.side.board, body=each.body) for each in steps}
    fixing = screwed_on(id, joined.joint.contacts, said, joined.joint.glue, site, {**site.boards, **sawn})
    return with_screws(joined, fixing, site) if fixing else None


# ---------------------------------------------------------------- sizes


def _sides(said: RabbetedSaid, site: Site) -> list[Side] | None:
    if said.edges and site.words.choice(said.edges, ("all",)) is None:
        return None
    chosen = [site.words.part(each) for each in said.part]
    takes: Sides = all_round if said.edges or any(each and each.face for each in chosen) else ends
    return find_sides(said.part, said.into, takes, site)


def _steps(sides: Sequence[Side], said: RabbetedSaid, site: Site) -> list[_Step] | None:
    open_face = _open(sides, site)
    depths = [_depth(each, said, site) for each in sides]
    if open_face is None or any(each is None for each in depths):
        return None
    sized = [(side, depth) for side, depth in zip(sides, depths, strict=True) if depth is not None]
    body = sides[0].board.body
    for side, depth in sized:
        body = body.grown(side.face, depth)
    behind = len({side.face.axis for side in sides}) > 1
    return [_Step(side, depth, open_face, body, behind) for side, depth in sized]


def _open(sides: Sequence[Side], site: Site) -> Face | None:
    """The face of the part that lies flush with the edge of every mate: there the rabbets are open."""
    axis = sides[0].board.face.axis
    for face in (axis.high, axis.low):
        if all(_flush(side, face) and not _flush(side, face.opposite) for side in sides):
            return face
    side = next((each for each in sides if not any(_flush(each, face) for face in (axis.low, axis.high))), sides[0])
    message = f'No face of "{side.board.id}" is flush with an edge of "{side.mate.id}" alone, so a rabbet would not hold it.'
    hint = "Move it out to the edge, or write `kind: dado` for a part that stands away from it."
    expected = "one face flush with the edges of all its mates, the other face inside them"
    refuse(site, "joint-rabbet-inside", side.span, message, expected, hint)
    return None


def _flush(side: Side, face: Face) -> bool:
    return abs(side.board.body.at(face) - side.seen(0).at(face)) < TINY


def _depth(side: Side, said: RabbetedSaid, site: Site) -> float | None:
    """Half of the mate to the printed step, or what was said."""
    if said.depth is None:
        return stepped_share("rabbet_depth", side.depth, site.ruler)
    depth = site.words.length(said.depth)
    deepest = share_rule("rabbet_deepest", site.ruler) * side.depth
    if depth is not None and depth > deepest + TINY:
        figure = site.ruler.plain
        message = f'A rabbet {figure(depth)} deep is more than two thirds of "{side.mate.id}", {figure(side.depth)} thick there.'
        source = rule("rabbet_deepest", site.ruler).source
        refuse(site, "joint-rabbet-depth", said.depth.span, message, f"at most {figure(deepest)}", source=source)
        return None
    return depth


# ---------------------------------------------------------------- both sides


def _cut(joint: str, step: _Step, copy: int, why: str) -> Struck:
    side, home = step.side, step.side.homes[copy]
    motion = side.board.copies[copy].motion
    void = motion.box(step.inner).meet(home.body)
    edge = (home.face, motion.face(step.open))
    cut = Rabbet("", side.span, joint, why, edge, void, Mate(side.board.id, (copy,)))
    words = (side.board.id, side.board.copies[copy].hand, motion.face(side.face).value)
    return Struck(home.board, home.copy, cut, words, (side.board.id, copy), side.span)


def _contacts(steps: Sequence[_Step], glue: bool) -> tuple[Contact, ...]:
    return tuple(_contact(each, copy, glue) for each in steps for copy in range(len(each.side.homes)))


def _contact(step: _Step, copy: int, glue: bool) -> Contact:
    """It closes on the floor of the rabbet, or on its wall if it comes from the open side; the other of the two is glued."""
    side, home = step.side, step.side.homes[copy]
    motion = side.board.copies[copy].motion
    void, way = motion.box(step.inner).meet(home.body), motion.face(step.closes)
    glued = motion.face(step.side.face if step.from_behind else step.open.opposite)
    area = _area(plane_of(void, glued), glued) if glue else 0.0
    plane = plane_of(void, way)
    crossed = crossed_width(plane, way.axis, motion.axis(side.board.grain), home.grain)
    return Contact((side.board.id, copy), (home.board.id, home.copy), way.normal, plane, crossed, area)


def _area(plane: Box, face: Face) -> float:
    first, second = face.axis.others
    return plane.size(first) * plane.size(second)


def _told(id: str, said: RabbetedSaid, common: Commons, steps: Sequence[_Step], site: Site) -> Joint:
    board = steps[0].side.board
    return Joint(
        id=id,
        kind=Rabbeted.name,
        name=common.name,
        origin=said.origin,
        contacts=_contacts(steps, common.glue),
        glue=common.glue,
        fit=common.fit,
        numbers=(
            ("rabbet width", round(board.body.size(board.face.axis), 6)),
            ("rabbet depth", round(steps[0].depth, 6)),
        ),
        operations=("rabbet",),
        tools=("marking gauge", "rabbet plane", "shoulder plane"),
        defaults=() if said.depth else (used("Depth of the rabbet", "rabbet_depth", site.ruler),),
        note=common.note,
        why=common.why,
    )
