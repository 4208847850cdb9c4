"""Mortise and tenon: the story of one joint, from what was said to both sets of features.

The ends find what they meet; each end is sized; tenons that meet in a post make way; through tenons get their
wedges; then both sides are cut.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from planbuild.joints.base import Family, Joined, Site
from planbuild.joints.commons import Commons, commons, free_id
from planbuild.joints.mortise_and_tenon.askew import refuse_more
from planbuild.joints.mortise_and_tenon.checks import check_between, check_exit, check_proportions, check_walls, glue_fits
from planbuild.joints.mortise_and_tenon.cutting import Cut, both_sides, by_end, contacts
from planbuild.joints.mortise_and_tenon.ends import find_ends
from planbuild.joints.mortise_and_tenon.fields import MortiseAndTenonSaid
from planbuild.joints.mortise_and_tenon.haunch import haunches
from planbuild.joints.mortise_and_tenon.meeting import give_way, make_way, meeting_line, said_of_end, way_said
from planbuild.joints.mortise_and_tenon.pegging import Pegged, pegged
from planbuild.joints.mortise_and_tenon.pegs import peg_contacts, peg_part, pegs_cross
from planbuild.joints.mortise_and_tenon.sizes import Sizes, size_up
from planbuild.joints.mortise_and_tenon.told import numbers, operations, tools
from planbuild.joints.mortise_and_tenon.tusk import Keyed, key_contacts, key_part, keyed
from planbuild.joints.mortise_and_tenon.wedging import Spread, spread, wedge_contacts, wedge_part
from planbuild.records.design import JointSaid
from planbuild.records.piece import Joint, Part

NAME = "mortise and tenon"


@dataclass(frozen=True)
class _Decided:
    """The tenons of a joint with all that was decided, and the printable lines of the rules that helped."""

    cuts: list[Cut]
    wedge: str
    key: str
    peg: str
    defaults: tuple[str, ...]
    gives_way: str = ""

    @property
    def spreads(self) -> list[Spread]:
        return [cut.spread for cut in self.cuts if cut.spread]

    @property
    def keys(self) -> list[Keyed]:
        return [cut.keyed for cut in self.cuts if cut.keyed]

    @property
    def pegs(self) -> list[Pegged]:
        return [cut.pegged for cut in self.cuts if cut.pegged]

    @property
    def makes(self) -> tuple[str, ...]:
        made = ((self.wedge, self.spreads), (self.key, self.keys), (self.peg, self.pegs))
        return tuple(id for id, there in made if there)


class MortiseAndTenon:
    """The kind: a tenon on an end enters a mortise in a face that lies along the grain."""

    name = NAME
    family = Family.ENTERING
    said: ClassVar[type[JointSaid]] = MortiseAndTenonSaid

    def join(self, id: str, said: MortiseAndTenonSaid, site: Site) -> Joined | None:
        common = commons(said, NAME, glued=not (said.tusk or said.play), site=site)
        decided = _decide(id, said, site)
        if common is None or decided is None or not glue_fits(said, common.glue, site):
            return None
        features = both_sides(id, decided.cuts, site)
        made = _made(id, decided, site)
        return Joined(_told(id, said, common, decided, site), features, made, gives_way=decided.gives_way)


def _decide(id: str, said: MortiseAndTenonSaid, site: Site) -> _Decided | None:
    """Sizes, meeting and wedges of every end; None after reporting."""
    ends, way = find_ends(said, site), way_said(said, site)
    if ends is None or way is None or refuse_more(ends, said, site):
        return None
    found = [size_up(end, said_of_end(said, end.board.id, way), site) for end in ends]
    sizes = [each for tenons in found for each in tenons or ()]
    made = make_way(sizes, way, site) if all(found) else None
    if made and way.other:
        made = give_way([each.sizes for each in made], way, site)
    if made is None:
        return None
    wedge, key_id, peg = (free_id(word, id, site) for word in ("wedge", "key", "peg"))
    spreads = [spread(each.sizes, said.wedges, wedge, site) if said.wedges else None for each in made]
    keys = [keyed(each.sizes, said.tusk, key_id, site) if said.tusk else None for each in made]
    steps = haunches([each.sizes for each in made], said.haunch, site) if said.haunch else [None] * len(made)
    pegs = pegged(made, said, peg, site) if said.peg else [None] * len(made)
    if steps is None or pegs is None or (said.wedges and not all(spreads)) or (said.tusk and not all(keys)):
        return None
    why = said.why.text if said.why else ""
    together = zip(made, spreads, keys, steps, pegs, strict=True)
    cuts = [Cut(each, opened, why, key, step, rods) for each, opened, key, step, rods in together]
    _check(cuts, said, site)
    if said.peg and pegs_cross([each for each in pegs if each], said.peg, site):
        return None
    return _Decided(cuts, wedge, key_id, peg, _lines(cuts, sizes, meeting_line(made, way, site)), way.other)


def _check(cuts: list[Cut], said: MortiseAndTenonSaid, site: Site) -> None:
    for tenons in by_end(cuts):
        check_proportions([each.sizes for each in tenons], said, site)
        check_between([each.sizes for each in tenons], site)
    for cut in cuts:
        check_walls(cut.sizes, cut.sizes.play + (cut.spread.wedging.flare if cut.spread else 0.0), site)
        check_exit(cut.sizes, site)


def _lines(cuts: list[Cut], sizes: list[Sizes], meeting: tuple[str, ...]) -> tuple[str, ...]:
    """Each rule once, in the order of use."""
    lines = [line for each in sizes for line in each.defaults]
    lines += [*meeting, *(line for cut in cuts if cut.spread for line in cut.spread.defaults)]
    lines += [line for cut in cuts for more in (cut.keyed, cut.haunched, cut.pegged) if more for line in more.defaults]
    return tuple(dict.fromkeys(lines))


def _made(id: str, decided: _Decided, site: Site) -> tuple[Part, ...]:
    """The wedges, keys and pegs that the joint calls for."""
    wedge = wedge_part(decided.wedge, id, decided.spreads, site) if decided.spreads else None
    key = key_part(decided.key, id, decided.keys, site) if decided.keys else None
    peg = peg_part(decided.peg, id, decided.pegs, site) if decided.pegs else None
    return tuple(part for part in (wedge, key, peg) if part)


def _told(id: str, said: MortiseAndTenonSaid, common: Commons, decided: _Decided, site: Site) -> Joint:
    driven = wedge_contacts(decided.wedge, decided.spreads, common.glue) if decided.spreads else ()
    driven += key_contacts(decided.key, decided.keys) if decided.keys else ()
    driven += peg_contacts(decided.peg, decided.pegs) if decided.pegs else ()
    return Joint(
        id=id,
        kind=NAME,
        name=common.name,
        origin=said.origin,
        contacts=contacts(decided.cuts, common.glue) + driven,
        glue=common.glue,
        fit=common.fit,
        numbers=numbers(decided.cuts),
        operations=operations(decided.cuts),
        tools=tools(decided.cuts, site),
        makes=decided.makes,
        defaults=decided.defaults,
        note=common.note,
        why=common.why,
    )
