"""One dovetail at the end of a part: what sliding and lapped dovetails have in common once they know where it lies."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from planbuild.core.geometry import Box, Face
from planbuild.joints.base import Site
from planbuild.joints.copies import Struck, settled
from planbuild.joints.sides import Side
from planbuild.joints.touching import crossed_width, plane_of
from planbuild.records.features import Feature, Mate
from planbuild.records.piece import Contact
from planbuild.records.tails import Comb, Sockets, Tails


@dataclass(frozen=True)
class Single:
    """The tail of one side, on the drawn copy: `opening` is the face of the mate at which it goes in."""

    side: Side
    comb: Comb
    opening: Face

    @property
    def room(self) -> Comb:
        """The same tail as the mate sees it: only the wood that it takes."""
        (tail,) = self.comb.tails
        return replace(self.comb, block=self.comb.block.with_span(self.comb.spread, tail))


def features_of(joint: str, found: Sequence[Single], what: str, why: str, site: Site) -> dict[str, tuple[Feature, ...]]:
    """Both halves.  `what` is the word for what the mate gets.  Reports what `settled` reports."""
    features = dict(settled(joint, [cut for each in found for cut in _sockets(joint, each, what, why)], site))
    for each in found:
        part = each.side.board.id
        features[part] = (*features.get(part, ()), _tail(joint, each, why))
    return features


def _sockets(joint: str, each: Single, what: str, why: str) -> Iterator[Struck]:
    side = each.side
    for copy, home in enumerate(side.homes):
        motion = side.board.copies[copy].motion
        cut = Sockets("", side.span, joint, why, each.room.moved(motion), Mate(side.board.id, (copy,)), what)
        words = (side.board.id, side.board.copies[copy].hand, motion.face(side.face).value)
        yield Struck(home.board, home.copy, cut, words, (side.board.id, copy), side.span)


def _tail(joint: str, each: Single, why: str) -> Tails:
    side = each.side
    mates = Mate(side.mate.id, tuple(dict.fromkeys(home.copy for home in side.homes)))
    return Tails(f"{joint}.{side.face.value}", side.span, joint, why, each.comb, mates, "tail")


def contacts_of(found: Sequence[Single], glue: bool) -> tuple[Contact, ...]:
    """One for each standing end: it goes in from the opening, its shoulders close on the face of the mate."""
    made = []
    for each in found:
        side = each.side
        base: Box = plane_of(each.comb.block, side.face.opposite)
        for copy, home in enumerate(side.homes):
            motion = side.board.copies[copy].motion
            plane, axis = motion.box(base), motion.axis(side.face.axis)
            crossed = crossed_width(plane, axis, motion.axis(side.board.grain), home.grain)
            insert = motion.face(each.opening).opposite.normal
            area = each.comb.flanks if glue else 0.0
            made.append(Contact((side.board.id, copy), (home.board.id, home.copy), insert, plane, crossed, area))
    return tuple(made)
