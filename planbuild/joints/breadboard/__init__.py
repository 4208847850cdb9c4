"""Breadboard end: a board across the end of a panel keeps it flat, and lets it move.

The panel has a long tongue, sawn away but for a few tenons; the one that is fixed holds, the mortises of the others
are wider, and so are the holes of their pegs.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from planbuild.core.geometry import TINY
from planbuild.joints.base import Family, Joined, Site
from planbuild.joints.breadboard.cutting import both_sides, contacts
from planbuild.joints.breadboard.fields import BreadboardSaid
from planbuild.joints.breadboard.sizes import Sizes, size_up
from planbuild.joints.commons import Commons, commons, free_id
from planbuild.joints.faults import refuse, words_of
from planbuild.joints.proportions import used, used_practice
from planbuild.joints.sides import ends, find_sides, growth
from planbuild.records.design import JointSaid
from planbuild.records.piece import Item, Joint

NAME = "breadboard end"


class BreadboardEnd:
    """The kind: ends of a table top."""

    name = NAME
    family = Family.ENTERING
    said: ClassVar[type[JointSaid]] = BreadboardSaid

    def join(self, id: str, said: BreadboardSaid, site: Site) -> Joined | None:
        """Reports `joint-breadboard-across`, `joint-breadboard-depth`, `joint-tongue-thick`, `joint-wall`,
        `joint-tenon-count`, `joint-tenon-size`, `joint-fixed-along`, `joint-movement`, `joint-peg`,
        `joint-breadboard-sheet` (warning), and what `find_sides` and `settled` report."""
        common = commons(said, NAME, glued=True, site=site)
        sides = find_sides((said.panel,), said.end, ends, site)
        found = [size_up(side, said, site) for side in sides or ()]
        made = [each for each in found if each]
        if common is None or not made or len(made) < len(found) or not _alike(made, said, site):
            return None
        peg = _peg(id, made, said, site) if made[0].peg else None
        features = both_sides(id, made, words_of(said.why), site)
        joint = _told(id, said, common, made, peg, site)
        return Joined(joint, features, buys=(peg,) if peg else (), grows=growth((each.side, each.length) for each in made))


def _alike(made: Sequence[Sizes], said: BreadboardSaid, site: Site) -> bool:
    """Both ends of a panel get the same tenons: the widths of their boards must agree."""
    if all(abs(each.length - made[0].length) < TINY and abs(each.play - made[0].play) < TINY for each in made):
        return True
    message, hint = "The ends of this joint want tenons of different lengths.", "Say `tenon_length`, or write two joints."
    refuse(site, "joint-wedges-differ", said.panel.span, message, "one size of tenon in a joint", hint)
    return False


def _peg(id: str, made: Sequence[Sizes], said: BreadboardSaid, site: Site) -> Item:
    home = made[0].side.homes[0]
    through = home.body.size(made[0].side.board.copies[0].motion.axis(made[0].side.board.face.axis))
    fields = (("diameter", made[0].peg), ("length", through), ("wood", home.board.stock.species))
    why = "driven through end and tenon, cut off flush; glued at its top only, in the end board"
    return Item(free_id("peg", id, site), said.origin, "other", "wooden peg", fields, why)


def _told(id: str, said: BreadboardSaid, common: Commons, made: Sequence[Sizes], peg: Item | None, site: Site) -> Joint:
    places = sum(len(each.side.homes) for each in made)
    return Joint(
        id=id,
        kind=NAME,
        name=common.name,
        origin=said.origin,
        contacts=contacts(made, common.glue),
        glue=common.glue,
        fit=common.fit,
        numbers=_numbers(made[0]),
        operations=("groove", "mortise", "rabbet", "notch", *(("bore",) if peg else ())),
        tools=("mortise gauge", "plough plane", "rabbet plane", "tenon saw"),
        hardware=((peg.id, len(made[0].tenons) * places),) if peg else (),
        defaults=_lines(said, site),
        note=common.note,
        why=common.why,
    )


def _numbers(sizes: Sizes) -> tuple[tuple[str, float | int | str], ...]:
    tongue, first = sizes.tongue, sizes.tenons[0]
    found: list[tuple[str, float | int | str]] = [
        ("tongue thickness", tongue.thick.size),
        ("tongue depth", tongue.depth),
        ("groove depth", tongue.depth + tongue.room),
        ("tenons at each end", len(sizes.tenons)),
        ("tenon width", first.size),
        ("tenon length", sizes.length),
        ("first tenon from the edge", first.low - sizes.side.board.body.along(tongue.across).low),
        *([("between tenons", sizes.tenons[1].low - first.high)] if len(sizes.tenons) > 1 else []),
        ("mortise depth", sizes.length + sizes.deeper),
    ]
    if len(sizes.tenons) > 1:
        found.append((f"fixed tenon, counted from the {tongue.across.low.value}", sizes.fixed + 1))
        found.append(("play beside every other tenon", sizes.play))
    if sizes.peg:
        found += [("peg", sizes.peg), ("peg from the shoulder", sizes.peg_from_shoulder)]
        found += [("slot for a peg in every other tenon", sizes.peg + 2 * sizes.play)] if sizes.play else []
    return tuple((name, round(value, 6) if isinstance(value, float) else value) for name, value in found)


def _lines(said: BreadboardSaid, site: Site) -> tuple[str, ...]:
    rules = (
        ("Thickness of the tongue", "tongue_thickness", said.tongue),
        ("Depth of the tongue", "breadboard_depth", said.depth),
        ("Number of tenons", "breadboard_count", said.tenon_count),
        ("Length of the tenons, as far as the end allows", "breadboard_tenon", said.tenon_length),
        ("Width of the tenons, at most half of what there is for each", "breadboard_tenon_width", said.tenon_width),
        ("Outer tenons from the edges", "breadboard_inset", None),
        ("Groove deeper than the tongue", "tongue_room", None),
    )
    deeper = used_practice("Mortise deeper than the tenon is long", "mortise_deeper")
    holds = "The fixed tenon alone is glued; the others have room to slide: wood moves across its grain"
    return (*(used(what, name, site.ruler) for what, name, given in rules if given is None), deeper, holds)
