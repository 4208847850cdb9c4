"""Dado: the end of a part, as thick as it is, stands in a housing across its mate; an edge too, where it is named.

The part is a plain board, longer by the depth of the housing; a stopped housing leaves a corner of it to be cut off.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from planbuild.core.geometry import TINY, Box, Face, Span1
from planbuild.joints.base import Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.copies import Struck, settled
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import rule, share_rule, stepped_share, used
from planbuild.joints.sides import Side, all_round, ends, find_sides, growth
from planbuild.joints.stopped import across, corner_of, is_usual, stopped_at, stops_of
from planbuild.joints.touching import crossed_width
from planbuild.records.design import JointSaid, Said
from planbuild.records.features import Feature, Groove, Mate, Rabbet
from planbuild.records.piece import Contact, Joint

THIRD = "third"
"""The word for the usual share of the thickness."""


class DadoSaid(JointSaid):
    """`part` goes into `into`; `stopped` gives, by the part's own face, how far inside it the housing begins; `tongue` is
    how thick the part is there (a third, or a size), if it does not go in whole."""

    part: tuple[Said, ...]
    into: Said | None = None
    depth: Said | None = None
    stopped: Mapping[str, Said] | Said | None = None
    tongue: Said | None = None


@dataclass(frozen=True)
class _Housed:
    """An end with its housing `depth` deep, stopped by so much at the faces of the part."""

    side: Side
    depth: float
    stops: Mapping[Face, float]
    tongue: float | None = None
    """Thickness of a barefaced tongue, flush with the face side; None: the part goes in as thick as it is."""

    @property
    def thickness(self) -> float:
        return self.side.board.body.size(self.side.board.face.axis) if self.tongue is None else self.tongue

    @property
    def shoulder(self) -> Box | None:
        """What is cut away beside the tongue."""
        face, whole = self.side.board.face, self.whole
        return None if self.tongue is None else whole.grown(face, -self.tongue)

    @property
    def whole(self) -> Box:
        """What the end adds to the body, from the shoulder plane in."""
        return self.side.strip(self.depth)

    @property
    def void(self) -> Box:
        """The housing on the drawn copy of the part."""
        face, whole = self.side.board.face, stopped_at(self.whole, self.stops)
        return whole if self.tongue is None else whole.grown(face.opposite, self.tongue - whole.size(face.axis))


class Dado:
    """The kind: a shelf in its side, a divider in its shelf."""

    name = "dado"
    family = Family.ENTERING
    said: ClassVar[type[JointSaid]] = DadoSaid

    def join(self, id: str, said: DadoSaid, site: Site) -> Joined | None:
        """Reports `joint-dado-depth`, `joint-dado-tongue`, `joint-dado-stop`, `joint-dado-beside`, `joint-wall`, and what
        `find_sides` and `settled` report."""
        common = commons(said, self.name, glued=True, site=site)
        sides = find_sides(said.part, said.into, ends, site, named=all_round)
        housed = [_housed(each, said, site) for each in sides or ()]
        if common is None or not housed or any(each is None for each in housed):
            return None
        found = [each for each in housed if each]
        features = _features(id, found, said.why.text if said.why else "", site)
        return Joined(_told(id, said, common, found, site), features, grows=growth((each.side, each.depth) for each in found))


# ---------------------------------------------------------------- sizes


def _housed(side: Side, said: DadoSaid, site: Site) -> _Housed | None:
    depth, stops = _depth(side, said, site), stops_of(said.stopped, side, site)
    tongue = _tongue(side, said.tongue, site) if said.tongue else None
    if depth is None or stops is None or (said.tongue and tongue is None):
        return None
    housed = _Housed(side, depth, stops, tongue)
    return housed if all(_inside(housed, copy, site) for copy in range(len(side.homes))) else None


def _inside(housed: _Housed, copy: int, site: Site) -> bool:
    """False after reporting that the housing does not lie in the wood of its mate."""
    side = housed.side
    spans = [(side.seen(copy).along(axis), housed.void.along(axis)) for axis in (side.board.face.axis, across(side))]
    over = max(max(wood.low - void.low, void.high - wood.high) for wood, void in spans)
    if over <= TINY:
        return True
    figure = site.ruler.plain
    message = f'{side.spoken} stands {figure(over)} beyond the edge of "{side.mate.id}", so its housing has no wood there.'
    refuse(site, "joint-dado-beside", side.span, message, "an end that lies on its mate whole", "Move the part in.")
    return False


def _cheeks(housed: _Housed, copy: int) -> int:
    """How many walls the housing has: at an edge of its mate it is open, and only one holds."""
    wood, void = (box.along(housed.side.board.face.axis) for box in (housed.side.seen(copy), housed.void))
    return (void.low > wood.low + TINY) + (void.high < wood.high - TINY)


def _tongue(side: Side, said: Said, site: Site) -> float | None:
    """A third of the part, or what was said."""
    whole = side.board.body.size(side.board.face.axis)
    if said.text == THIRD:
        return stepped_share("tongue_thickness", whole, site.ruler)
    tongue, most = site.words.length(said), whole * share_rule("tenon_thickest_bare", site.ruler)
    if tongue is None or tongue <= most + TINY:
        return tongue
    figure = site.ruler.plain
    message = f'A tongue {figure(tongue)} thick leaves no shoulder worth cutting: "{side.board.id}" is {figure(whole)} thick.'
    source = rule("tenon_thickest_bare", site.ruler).source
    refuse(site, "joint-dado-tongue", said.span, message, f"at most {figure(most)}, or `{THIRD}`", source=source)
    return None


def _depth(side: Side, said: DadoSaid, site: Site) -> float | None:
    """A quarter of the mate to the printed step, or what was said."""
    thick = side.depth
    if said.depth is None:
        return stepped_share("dado_depth", thick, site.ruler)
    depth = site.words.length(said.depth)
    deepest = share_rule("dado_deepest", site.ruler) * thick
    if depth is not None and depth > deepest + TINY:
        figure = site.ruler.plain
        message = f'A housing {figure(depth)} deep is more than a third of "{side.mate.id}", which is {figure(thick)} thick.'
        source = rule("dado_deepest", site.ruler).source
        refuse(site, "joint-dado-depth", said.depth.span, message, f"at most {figure(deepest)}", source=source)
        return None
    return depth


# ---------------------------------------------------------------- both sides


def _features(joint: str, housed: Sequence[_Housed], why: str, site: Site) -> dict[str, tuple[Feature, ...]]:
    struck = [_housing(joint, each, copy, why) for each in housed for copy in range(len(each.side.homes))]
    features = dict(settled(joint, struck, site))
    for each in housed:
        part = each.side.board.id
        corners = tuple(corner_of(joint, each.side, each.whole, face, stop, why) for face, stop in each.stops.items())
        features[part] = (*features.get(part, ()), *corners, *_beside(joint, each, why))
    return {part: cuts for part, cuts in features.items() if cuts}


def _beside(joint: str, housed: _Housed, why: str) -> Iterator[Rabbet]:
    """The step that leaves a barefaced tongue: one shoulder, away from the face side."""
    if housed.shoulder:
        side, away = housed.side, housed.side.board.face.opposite
        id = f"{joint}.{side.face.value}.{away.value}"
        yield Rabbet(id, side.span, joint, why, (side.face, away), housed.shoulder)


def _housing(joint: str, housed: _Housed, copy: int, why: str) -> Struck:
    side, home = housed.side, housed.side.homes[copy]
    motion = side.board.copies[copy].motion
    cut = Groove(
        id="", origin=side.span, joint=joint, why=why, face=home.face, void=motion.box(housed.void),
        mate=Mate(side.board.id, (copy,)), what="housing",
    )  # fmt: skip
    words = (side.board.id, side.board.copies[copy].hand, motion.face(side.face).value)
    return Struck(home.board, home.copy, cut, words, (side.board.id, copy), side.span)


def _contacts(housed: Sequence[_Housed], glue: bool) -> tuple[Contact, ...]:
    """One for each standing end; it closes on the floor of its housing.  Only the cheeks hold: long grain."""
    found = []
    for each in housed:
        side = each.side
        for copy, home in enumerate(side.homes):
            motion = side.board.copies[copy].motion
            face, void = motion.face(side.face), motion.box(each.void)
            floor = void.with_span(face.axis, Span1(void.at(face), void.at(face)))
            crossed = crossed_width(floor, face.axis, motion.axis(side.board.grain), home.grain)
            area = _cheeks(each, copy) * each.depth * each.void.size(across(side)) if glue else 0.0
            found.append(Contact((side.board.id, copy), (home.board.id, home.copy), face.normal, floor, crossed, area))
    return tuple(found)


def _told(id: str, said: DadoSaid, common: Commons, housed: Sequence[_Housed], site: Site) -> Joint:
    first = housed[0]
    stops = tuple((f"stopped from the {face.value}", stop) for face, stop in first.stops.items())
    return Joint(
        id=id,
        kind=Dado.name,
        name=common.name,
        origin=said.origin,
        contacts=_contacts(housed, common.glue),
        glue=common.glue,
        fit=common.fit,
        numbers=(("housing width", round(first.thickness, 6)), ("housing depth", round(first.depth, 6)), *stops),
        operations=("house", "rabbet") if said.tongue else ("house",),
        tools=("marking knife", "router", "straightedge"),
        defaults=_lines(said, site),
        note=common.note,
        why=common.why,
    )


def _lines(said: DadoSaid, site: Site) -> tuple[str, ...]:
    depth = () if said.depth else (used("Depth of the housing", "dado_depth", site.ruler),)
    if said.tongue and said.tongue.text == THIRD:
        depth = (*depth, used("Thickness of the tongue", "tongue_thickness", site.ruler))
    return (*depth, used("Where the housing stops", "dado_stop", site.ruler)) if is_usual(said.stopped) else depth
