"""Lapped dovetail: one tail at the end of a rail, let down into the top of a post, as thick as the rail."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import ClassVar

from planbuild.core.geometry import TINY, Axis, Face, Span1
from planbuild.core.units import slope_text
from planbuild.joints.base import Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.dovetails.single import Single, contacts_of, features_of
from planbuild.joints.dovetails.sizes import slope_of, slope_rule
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import length_rule, used, used_practice
from planbuild.joints.sides import Side, ends, find_sides, growth
from planbuild.records.design import JointSaid, Said
from planbuild.records.piece import Joint
from planbuild.records.tails import Comb


class LappedDovetailSaid(JointSaid):
    """`shoulders` are counted at the end of the tail, by the part's own faces."""

    tail: tuple[Said, ...]
    into: Said | None = None
    length: Said | None = None
    shoulders: Mapping[str, Said] = {}
    slope: Said | None = None


class LappedDovetail:
    """The kind: the top rail of a table, which keeps its posts from spreading."""

    name = "lapped dovetail"
    family = Family.ENTERING
    said: ClassVar[type[JointSaid]] = LappedDovetailSaid

    def join(self, id: str, said: LappedDovetailSaid, site: Site) -> Joined | None:
        """Reports `joint-wall`, `joint-dovetail-slope`, `joint-dovetail-top`, `joint-dovetail-edge`, `joint-tails-fit`,
        and what `find_sides` and `settled` report."""
        common = commons(said, self.name, glued=True, site=site)
        sides = find_sides(said.tail, said.into, ends, site)
        found = [_single(each, said, site) for each in sides or ()]
        if common is None or not found or any(each is None for each in found):
            return None
        sound = [each for each in found if each]
        features = features_of(id, sound, "socket", said.why.text if said.why else "", site)
        grows = growth((each.side, each.comb.depth) for each in sound)
        return Joined(_told(id, said, common, sound, site), features, grows=grows)


# ---------------------------------------------------------------- sizes


def _single(side: Side, said: LappedDovetailSaid, site: Site) -> Single | None:
    length, slope = _length(side, said, site), slope_of(said.slope, side.board, site)
    opening = _opening(side, site)
    if length is None or slope is None or opening is None:
        return None
    (spread,) = (axis for axis in Axis if axis not in (side.face.axis, opening.axis))
    tail = _tail(side, spread, length * slope, said, site)
    return Single(side, Comb(side.strip(length), side.face, spread, (tail,), slope), opening) if tail else None


def _length(side: Side, said: LappedDovetailSaid, site: Site) -> float | None:
    most, figure = side.depth - site.practice.wall, site.ruler.plain
    length = site.words.length(said.length) if said.length else min(length_rule("lapped_length", site.ruler), most)
    if length is not None and not TINY < length <= most + TINY:
        message = f'A tail {figure(length)} long leaves {figure(max(side.depth - length, 0.0))} of "{side.mate.id}".'
        expected = f"{figure(site.practice.wall)} of wood behind it: at most {figure(max(most, 0.0))}"
        refuse(site, "joint-wall", (said.length or said.kind).span, message, expected)
        return None
    return length


def _opening(side: Side, site: Site) -> Face | None:
    """The end of the post in which the rail lies flush."""
    axis, body = side.mate_grain(), side.board.body
    for face in (axis.high, axis.low):
        seen = [side.seen(copy) for copy in range(len(side.homes))]
        flush = all(abs(each.at(face) - body.at(face)) < TINY and each.size(axis) > body.size(axis) + TINY for each in seen)
        if flush and axis is not side.board.grain:
            return face
    mate = side.mate.id
    message = f'{side.spoken} does not lie flush with an end of "{mate}", so its tail cannot be let in there.'
    hint = f"Write `top: {mate}.top`, or take another joint."
    refuse(site, "joint-dovetail-top", side.span, message, f'a rail whose face lies in the end of "{mate}"', hint)
    return None


def _tail(side: Side, spread: Axis, lean: float, said: LappedDovetailSaid, site: Site) -> Span1 | None:
    """The tail at its tip, between its shoulders."""
    low, high = (_shoulder(face, side, said, site) for face in (spread.low, spread.high))
    named = [word for word in said.shoulders if word not in (spread.low.value, spread.high.value)]
    if named:
        message = f'The tail of "{side.board.id}" has its shoulders at {spread.low.value} and {spread.high.value}.'
        refuse(site, "joint-dovetail-edge", said.shoulders[named[0]].span, message)
        return None
    if low is None or high is None:
        return None
    body, figure = side.board.body.along(spread), site.ruler.plain
    tail, least = Span1(body.low + low, body.high - high), length_rule("dovetail_thinnest_neck", site.ruler)
    if tail.size - 2 * lean < least - TINY:
        message = f"Between its shoulders the tail is {figure(max(tail.size - 2 * lean, 0.0))} wide at its neck."
        hint = "Take smaller shoulders or a shorter tail."
        refuse(site, "joint-tails-fit", side.span, message, f"{figure(least)} or more", hint)
        return None
    return tail if _has_wood_beside(side, spread, tail, site) else None


def _shoulder(face: Face, side: Side, said: LappedDovetailSaid, site: Site) -> float | None:
    word = said.shoulders.get(face.value)
    return site.words.length(word) if word else site.practice.shoulder


def _has_wood_beside(side: Side, spread: Axis, tail: Span1, site: Site) -> bool:
    mates = [side.seen(copy).along(spread) for copy in range(len(side.homes))]
    left = min(min(tail.low - mate.low, mate.high - tail.high) for mate in mates)
    least = length_rule("dovetail_thinnest_pin", site.ruler)
    if left < least - TINY:
        figure = site.ruler.plain
        message = f'{side.spoken} leaves {figure(max(left, 0.0))} of "{side.mate.id}" beside its tail.'
        refuse(site, "joint-dovetail-edge", side.span, message, f"{figure(least)} or more", "Take larger shoulders.")
        return False
    return True


# ---------------------------------------------------------------- told


def _told(id: str, said: LappedDovetailSaid, common: Commons, found: Sequence[Single], site: Site) -> Joint:
    comb = found[0].comb
    (tail,) = comb.tails
    return Joint(
        id=id,
        kind=LappedDovetail.name,
        name=common.name,
        origin=said.origin,
        contacts=contacts_of(found, common.glue),
        glue=common.glue,
        fit=common.fit,
        numbers=(
            ("tail length", round(comb.depth, 6)),
            ("slope", slope_text(comb.slope)),
            ("tail at the tip", round(tail.size, 6)),
            ("socket depth", round(comb.block.size(comb.run), 6)),
        ),
        operations=("tail", "socket"),
        tools=("sliding bevel", "dovetail saw", "chisel"),
        defaults=_lines(said, found[0], site),
        note=common.note,
        why=common.why,
    )


def _lines(said: LappedDovetailSaid, first: Single, site: Site) -> tuple[str, ...]:
    length = () if said.length else (used("Length of the tail", "lapped_length", site.ruler),)
    slope = () if said.slope else (used("Slope of the tail", slope_rule(first.side.board), site.ruler),)
    shoulders = () if len(said.shoulders) == 2 else (used_practice("Shoulders", "shoulder"),)
    return (*length, *slope, *shoulders)
