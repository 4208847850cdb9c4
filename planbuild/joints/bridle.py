"""Bridle: a tongue on one part stands in a slot that is open at the end of the other, at a corner or between its ends.

Both bodies are placed to the full outside; the joint divides what they share into three.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import ClassVar

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.bars import Bar, square_to_both, that_overlap
from planbuild.joints.base import Board, Chosen, Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.copies import Struck, settled
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import rule, share_rule, stepped_share, used
from planbuild.joints.touching import crossed_width, plane_of
from planbuild.records.design import JointSaid, Said
from planbuild.records.features import Groove, Mate
from planbuild.records.piece import Contact, Joint


class BridleSaid(JointSaid):
    """`tenon` is the part with the tongue, `into` the one with the slot."""

    tenon: Said
    into: Said | None = None
    thickness: Said | None = None


@dataclass(frozen=True)
class _Fork:
    """One place: the slot of `forked` is open at `end`; `across` is where the tongue lies in the thickness."""

    tongued: Bar
    forked: Bar
    shared: Box
    end: Face
    across: Span1
    axis: Axis

    @property
    def tongue(self) -> Box:
        return self.shared.with_span(self.axis, self.across)

    def cheek(self, face: Face) -> Box:
        """What the tongued part loses on one side, up to its own face."""
        inner = self.across.low if face.sign < 0 else self.across.high
        return self.shared.with_span(self.axis, Span1(*sorted((self.tongued.body.at(face), inner))))


class Bridle:
    """The kind: a frame corner, or a rail that passes through the forked end of a post."""

    name = "bridle"
    family = Family.SHARING
    said: ClassVar[type[JointSaid]] = BridleSaid

    def join(self, id: str, said: BridleSaid, site: Site) -> Joined | None:
        """Reports `joint-wrong-family`, `joint-bridle-end`, `joint-bridle-faces`, `joint-bridle-thick`, and what `settled`
        reports."""
        common = commons(said, self.name, glued=True, site=site)
        forks = _forks(said, site)
        if common is None or forks is None:
            return None
        why = said.why.text if said.why else ""
        features = settled(id, [cut for fork in forks for cut in _cuts(id, fork, said, why)], site)
        return Joined(_told(id, said, common, forks, site), features)


# ---------------------------------------------------------------- where they cross


def _forks(said: BridleSaid, site: Site) -> list[_Fork] | None:
    """Every place where the tongued part shares wood with the other; None after reporting."""
    chosen, into = site.words.part(said.tenon), site.words.part(said.into) if said.into else None
    if chosen is None or (said.into and into is None):
        return None
    tongued = [Bar(chosen.board, copy, chosen.span) for copy in chosen.copies]
    others = [Bar(board, copy, chosen.span) for board, copies in _others(chosen, into, site) for copy in copies]
    pairs = that_overlap(product(tongued, others))
    if not pairs:
        mate = f'"{into.board.id}"' if into else "any other part"
        message = f'"{chosen.board.id}" does not overlap {mate}. A bridle shares wood.'
        hint = "Place both to the full outside of the corner."
        refuse(site, "joint-wrong-family", chosen.span, message, "bodies that overlap", hint)
        return None
    forks = [_fork(one, other, said, site) for one, other in pairs]
    return None if any(each is None for each in forks) else [each for each in forks if each]


def _others(chosen: Chosen, into: Chosen | None, site: Site) -> Iterator[tuple[Board, tuple[int, ...]]]:
    if into:
        yield into.board, into.copies
        return
    for board in site.boards.values():
        if board.id != chosen.board.id:
            yield board, tuple(range(len(board.copies)))


def _fork(one: Bar, other: Bar, said: BridleSaid, site: Site) -> _Fork | None:
    shared = one.body.meet(other.body)
    end = _open_end(one, other, shared, site, said)
    if end is None:
        return None
    axis = square_to_both(one, other)
    whole = other.body.along(axis)
    if shared.along(axis).size < whole.size - TINY:
        message = f'The faces of "{one.board.id}" lie inside those of "{other.board.id}": the slot would have no cheek to hold.'
        refuse(site, "joint-bridle-faces", said.tenon.span, message, f'"{one.board.id}" at least as thick as "{other.board.id}"')
        return None
    thick = site.words.length(said.thickness) if said.thickness else stepped_share("bridle_tongue", whole.size, site.ruler)
    most = whole.size * share_rule("bridle_thickest", site.ruler)
    if thick is not None and thick > most + TINY:
        figure = site.ruler.plain
        message = f'A tongue {figure(thick)} thick leaves thin cheeks: "{other.board.id}" is {figure(whole.size)} thick.'
        source = rule("bridle_thickest", site.ruler).source
        refuse(site, "joint-bridle-thick", (said.thickness or said.kind).span, message, f"at most {figure(most)}", source=source)
        return None
    if thick is None:
        return None
    return _Fork(one, other, shared, end, Span1(whole.middle - thick / 2, whole.middle + thick / 2), axis)


def _open_end(one: Bar, other: Bar, shared: Box, site: Site, said: BridleSaid) -> Face | None:
    """The end of the forked part at which the slot is open."""
    if one.grain is not other.grain:
        for face in (other.grain.low, other.grain.high):
            reaches = [abs(shared.at(side) - other.body.at(side)) < TINY for side in (face, face.opposite)]
            if reaches == [True, False]:
                return face
    message = f'"{one.board.id}" does not cross an end of "{other.board.id}", where its slot could be open.'
    hint = f'Let "{other.board.id}" end flush with "{one.board.id}", or write `kind: half lap`.'
    refuse(site, "joint-bridle-end", said.tenon.span, message, "a part that crosses at the end of the other", hint)
    return None


# ---------------------------------------------------------------- both sides


def _cuts(joint: str, fork: _Fork, said: BridleSaid, why: str) -> Iterator[Struck]:
    """The slot in the one, a cheek off either side of the other."""
    one, other = fork.tongued, fork.forked
    for bar, mate, face, void, what in (
        (other, one, fork.end, fork.tongue, "slot"),
        (one, other, fork.axis.low, fork.cheek(fork.axis.low), "lap"),
        (one, other, fork.axis.high, fork.cheek(fork.axis.high), "lap"),
    ):
        cut = Groove("", said.tenon.span, joint, why, face, void, Mate(mate.board.id, (mate.copy,)), what)
        words = (mate.board.id, mate.hand, face.value)
        yield Struck(bar.board, bar.copy, cut, words, mate.key, said.tenon.span)


def _contact(fork: _Fork, glue: bool) -> Contact:
    """The tongued part goes in from the open end; both sides of its tongue are glued, long grain on long grain."""
    way = fork.end.opposite
    floor = plane_of(fork.tongue, way)
    first, second = fork.axis.others
    area = 2 * fork.shared.size(first) * fork.shared.size(second) if glue else 0.0
    cheek = plane_of(fork.tongue, fork.axis.low)
    crossed = crossed_width(cheek, fork.axis, fork.tongued.grain, fork.forked.grain)
    return Contact(fork.tongued.key, fork.forked.key, way.normal, floor, crossed, area)


def _told(id: str, said: BridleSaid, common: Commons, forks: Sequence[_Fork], site: Site) -> Joint:
    first = forks[0]
    return Joint(
        id=id,
        kind=Bridle.name,
        name=common.name,
        origin=said.origin,
        contacts=tuple(_contact(each, common.glue) for each in forks),
        glue=common.glue,
        fit=common.fit,
        numbers=(
            ("tongue thickness", round(first.across.size, 6)),
            ("slot depth", round(first.shared.size(first.end.axis), 6)),
        ),
        operations=("lap",),
        tools=("marking gauge", "tenon saw", "chisel"),
        defaults=() if said.thickness else (used("Thickness of the tongue", "bridle_tongue", site.ruler),),
        note=common.note,
        why=common.why,
    )
