"""Tongue and groove: boards edge to edge, a tongue left on the first one standing in a groove of the others.

The first board grows by the tongue, and a rabbet on each of its faces leaves it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.base import Board, Chosen, Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.copies import Struck, settled
from planbuild.joints.faults import refuse, warn
from planbuild.joints.proportions import length_rule, movement_coefficient, rule, share_rule, stepped_share, used
from planbuild.joints.sides import Side, all_round, find_sides
from planbuild.joints.touching import crossed_width, plane_of, touches
from planbuild.records.design import JointSaid, Said
from planbuild.records.features import Feature, Groove, Mate, Rabbet
from planbuild.records.piece import Contact, Joint


class TongueAndGrooveSaid(JointSaid):
    """The first of `parts` has the tongue on each edge that meets one of the others; its shoulders stay back by `gap`, so
    that the boards can swell."""

    parts: tuple[Said, ...]
    thickness: Said | None = None
    depth: Said | None = None
    gap: Said | None = None


@dataclass(frozen=True)
class _Tongue:
    """The tongue on one side: `across` is its place in the thickness of its board, on the drawn copy."""

    side: Side
    across: Span1
    depth: float
    room: float
    gap: float = 0.0
    """How far the shoulders stay back from the mate."""

    @property
    def axis(self) -> Axis:
        return self.side.board.face.axis

    @property
    def run(self) -> Axis:
        (axis,) = (each for each in Axis if each not in (self.axis, self.side.face.axis))
        return axis

    def void(self) -> Box:
        """The groove: deeper than the tongue is long, so that the edges close first."""
        return self.side.strip(self.depth + self.room).with_span(self.axis, self.across)

    def beside(self, face: Face) -> Box:
        """What is cut away between the tongue and a face of its board."""
        ends = (self.side.board.body.at(face), self.across.low if face.sign < 0 else self.across.high)
        cut = self.side.strip(self.depth).grown(self.side.face.opposite, self.gap)
        return cut.with_span(self.axis, Span1(*sorted(ends)))


class TongueAndGroove:
    """The kind: boards of a back, a floor or a panel that may move against each other."""

    name = "tongue and groove"
    family = Family.ENTERING
    said: ClassVar[type[JointSaid]] = TongueAndGrooveSaid

    def join(self, id: str, said: TongueAndGrooveSaid, site: Site) -> Joined | None:
        """Reports `joint-tongue-thick`, `joint-tongue-long`, `joint-tongue-beside`, `joint-tongue-gap`,
        `joint-gap-small` (warning), and what `find_sides` reports."""
        common = commons(said, self.name, glued=False, site=site)
        sides = _sides(said, site)
        tongues = [_tongue(each, said, site) for each in sides or ()]
        if common is None or not tongues or any(each is None for each in tongues):
            return None
        found = [each for each in tongues if each]
        features = _features(id, found, said.why.text if said.why else "", site)
        grows = {found[0].side.board.id: {each.side.face: each.depth for each in found}}
        return Joined(_told(id, said, common, found, site), features, grows=grows)


# ---------------------------------------------------------------- sizes


def _sides(said: TongueAndGrooveSaid, site: Site) -> list[Side] | None:
    """Every edge of the first part that meets one of the others; None after reporting."""
    chosen = [site.words.part(each) for each in said.parts]
    if any(each is None for each in chosen):
        return None
    first, *others = [each for each in chosen if each]
    if not others:
        message = f'"{first.board.id}" is named alone.'
        refuse(site, "joint-no-mate", first.span, message, "the board with the tongue, then those with the groove")
        return None
    found: list[Side] = []
    for other, mate in zip(others, said.parts[1:], strict=True):
        edges = [face for face in all_round(first.board) if _meets(first, face, other) and first.face in (None, face)]
        name = said.parts[0].text.removesuffix(f".{first.face.value}") if first.face else said.parts[0].text
        named = [replace(said.parts[0], text=f"{name}.{face.value}") for face in edges]
        sides = find_sides(named or said.parts[:1], mate, all_round, site)
        if sides is None:
            return None
        found += sides
    return found


def _meets(one: Chosen, face: Face, other: Chosen) -> bool:
    motion, body = one.board.copies[0].motion, one.board.standing(0)
    return bool(touches(body, motion.face(face), [other.board], (one.board.id, 0)))


def _tongue(side: Side, said: TongueAndGrooveSaid, site: Site) -> _Tongue | None:
    body, axis = side.board.body, side.board.face.axis
    whole = body.size(axis)
    thick = site.words.length(said.thickness) if said.thickness else stepped_share("tongue_thickness", whole, site.ruler)
    depth = (site.words.length(said.depth) if said.depth else thick) if thick is not None else None
    if thick is None or depth is None or not _sound(side, thick, depth, said, site):
        return None
    middle = body.along(axis).middle
    gap = site.words.length(said.gap) if said.gap else 0.0
    if gap is None or not _room_to_move(side, gap, depth, said, site):
        return None
    room = length_rule("tongue_room", site.ruler) + gap  # when the gap has closed the tip is still free
    tongue = _Tongue(side, Span1(middle - thick / 2, middle + thick / 2), depth, room, gap)
    return tongue if _held(tongue, site) else None


def _room_to_move(side: Side, gap: float, depth: float, said: TongueAndGrooveSaid, site: Site) -> bool:
    """False after reporting a gap out of which the tongue would come; a warning where the boards swell more than it.

    Source of the formula: Wood Handbook (USDA Forest Products Laboratory), equation 13-2.
    """
    if said.gap is None:
        return True
    figure, board, (_, damp, now) = site.ruler.plain, side.board, site.moisture
    if gap > depth / 2 + TINY:
        message = f"A gap of {figure(gap)} leaves a tongue {figure(depth)} long too little hold."
        refuse(site, "joint-tongue-gap", said.gap.span, message, f"at most {figure(depth / 2)}", source="common practice")
        return False
    across = 0.0 if side.face.axis is board.grain else board.body.size(side.face.axis)
    swells = across * (movement_coefficient(board.stock) or 0.0) * (damp - now)
    if swells > gap + TINY:
        message = f'"{board.id}" swells {figure(swells)}; the gap is {figure(gap)}.'
        warn(site, "joint-gap-small", said.gap.span, message, f"{figure(swells)} or more", "Say a wider gap, or narrower boards.")
    return True


def _sound(side: Side, thick: float, depth: float, said: TongueAndGrooveSaid, site: Site) -> bool:
    figure, whole = site.ruler.plain, side.board.body.size(side.board.face.axis)
    most, deepest = whole * share_rule("tongue_thickest", site.ruler), side.depth / 2
    if thick > most + TINY:
        message = f'A tongue {figure(thick)} thick leaves thin lips: "{side.board.id}" is {figure(whole)} thick.'
        source = rule("tongue_thickest", site.ruler).source
        span = (said.thickness or said.kind).span
        refuse(site, "joint-tongue-thick", span, message, f"at most {figure(most)}", source=source)
        return False
    if depth > deepest - TINY:
        message = f'A tongue {figure(depth)} long takes half of "{side.mate.id}" or more, {figure(side.depth)} wide there.'
        refuse(site, "joint-tongue-long", (said.depth or said.kind).span, message, f"less than {figure(deepest)}")
        return False
    return True


def _held(tongue: _Tongue, site: Site) -> bool:
    """The groove has wood on both sides, and the mate is as long as the tongue."""
    side = tongue.side
    for copy in range(len(side.homes)):
        body = side.seen(copy)
        run, thick = body.along(tongue.run), body.along(tongue.axis)
        own = side.board.body.along(tongue.run)
        if thick.low > tongue.across.low - TINY or thick.high < tongue.across.high + TINY:
            message = f'The tongue of "{side.board.id}" is not inside the thickness of "{side.mate.id}".'
            refuse(site, "joint-tongue-beside", side.span, message, "boards whose faces lie in one plane")
            return False
        if run.low > own.low + TINY or run.high < own.high - TINY:
            message = f'"{side.mate.id}" is shorter than the tongue of "{side.board.id}".'
            refuse(site, "joint-tongue-beside", side.span, message, "boards of one length, or the longer one named last")
            return False
    return True


# ---------------------------------------------------------------- both sides


def _features(joint: str, tongues: Sequence[_Tongue], why: str, site: Site) -> dict[str, tuple[Feature, ...]]:
    struck = [_groove(joint, each, copy, why) for each in tongues for copy in range(len(each.side.homes))]
    features = dict(settled(joint, struck, site))
    board = tongues[0].side.board
    rabbets = tuple(rabbet for each in tongues for rabbet in _rabbets(joint, each, board, why))
    features[board.id] = (*features.get(board.id, ()), *rabbets)
    return features


def _groove(joint: str, tongue: _Tongue, copy: int, why: str) -> Struck:
    side, home = tongue.side, tongue.side.homes[copy]
    motion = side.board.copies[copy].motion
    cut = Groove("", side.span, joint, why, home.face, motion.box(tongue.void()), Mate(side.board.id, (copy,)))
    words = (side.board.id, side.board.copies[copy].hand, motion.face(side.face).value)
    return Struck(home.board, home.copy, cut, words, (side.board.id, copy), side.span)


def _rabbets(joint: str, tongue: _Tongue, board: Board, why: str) -> Iterator[Rabbet]:
    side = tongue.side
    for face in (board.face, board.face.opposite):
        yield Rabbet(f"{joint}.{side.face.value}.{face.value}", side.span, joint, why, (side.face, face), tongue.beside(face))


def _contact(tongue: _Tongue, copy: int, glue: bool) -> Contact:
    """It closes edge on edge; if it is glued, the two cheeks of the tongue hold."""
    side, home = tongue.side, tongue.side.homes[copy]
    motion = side.board.copies[copy].motion
    face = motion.face(side.face)
    plane = plane_of(motion.box(side.board.body), face).meet(home.patch)
    if tongue.gap:  # nothing closes: the tongue alone holds
        plane = motion.box(side.strip(tongue.depth).with_span(tongue.axis, tongue.across))
    crossed = crossed_width(plane, face.axis, motion.axis(side.board.grain), home.grain)
    area = 2 * tongue.depth * side.board.body.size(tongue.run) if glue else 0.0
    return Contact((side.board.id, copy), (home.board.id, home.copy), face.normal, plane, crossed, area)


def _told(id: str, said: TongueAndGrooveSaid, common: Commons, tongues: Sequence[_Tongue], site: Site) -> Joint:
    first = tongues[0]
    lines = (
        ("Thickness of the tongue", "tongue_thickness", said.thickness),
        ("Length of the tongue", "tongue_length", said.depth),
        ("Room at the tip", "tongue_room", None),
    )
    return Joint(
        id=id,
        kind=TongueAndGroove.name,
        name=common.name,
        origin=said.origin,
        contacts=tuple(_contact(each, copy, common.glue) for each in tongues for copy in range(len(each.side.homes))),
        glue=common.glue,
        fit=common.fit,
        numbers=(
            ("tongue thickness", round(first.across.size, 6)),
            ("tongue length", round(first.depth + first.gap, 6)),
            ("groove depth", round(first.depth + first.room, 6)),
            *((("gap between the boards", round(first.gap, 6)),) if first.gap else ()),
        ),
        operations=("groove", "rabbet"),
        tools=("marking gauge", "plough plane", "rabbet plane"),
        defaults=tuple(used(what, name, site.ruler) for what, name, given in lines if given is None),
        note=common.note,
        why=common.why,
    )
