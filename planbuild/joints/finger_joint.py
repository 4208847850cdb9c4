"""Finger joint: equal straight fingers on both boards of a corner, an odd number, so that one board has both outer ones."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, product
from typing import ClassVar

from planbuild.core.geometry import TINY, Span1
from planbuild.joints.bars import Bar, Pair, that_overlap
from planbuild.joints.base import Chosen, Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.copies import Struck, settled
from planbuild.joints.corners import Corner, corners, say_no_corner
from planbuild.joints.faults import refuse, warn
from planbuild.joints.proportions import length_rule, rule, used
from planbuild.joints.touching import crossed_width
from planbuild.records.design import JointSaid, Said
from planbuild.records.features import Mate
from planbuild.records.piece import Contact, Joint
from planbuild.records.tails import Comb, Tails


class FingerJointSaid(JointSaid):
    """`ends_with` has the outer fingers; the first named if it is not said, or not one of the two at a corner."""

    parts: tuple[Said, ...]
    finger: Said | None = None
    ends_with: Said | None = None


@dataclass(frozen=True)
class _Fingered:
    """One corner: the fingers of `corner.one`, outer ones among them, and those of the other board."""

    corner: Corner
    outer: Comb
    inner: Comb


class FingerJoint:
    """The kind: every corner at which two of the named boards share wood."""

    name = "finger joint"
    family = Family.SHARING
    said: ClassVar[type[JointSaid]] = FingerJointSaid

    def join(self, id: str, said: FingerJointSaid, site: Site) -> Joined | None:
        """Reports `joint-wrong-family`, `joint-corner`, `joint-finger`, `joint-finger-size`
        (warning), and what `settled` reports."""
        common = commons(said, self.name, glued=True, site=site)
        found = _fingered(said, site)
        if common is None or not found:
            return None
        why = said.why.text if said.why else ""
        features = settled(id, [cut for each in found for cut in _cuts(id, each, why)], site)
        return Joined(_told(id, said, common, found, site), features)


# ---------------------------------------------------------------- where they meet


def _fingered(said: FingerJointSaid, site: Site) -> list[_Fingered] | None:
    chosen = [site.words.part(each) for each in said.parts]
    ends = site.words.part(said.ends_with) if said.ends_with else None
    finger = site.words.length(said.finger) if said.finger else None
    if any(each is None for each in chosen) or (said.ends_with and ends is None) or (said.finger and finger is None):
        return None
    met = _corners([each for each in chosen if each], ends, site)
    if not met:
        return None
    found = [_at(corner, finger, said, site) for corner in met]
    return None if any(each is None for each in found) else [each for each in found if each]


def _corners(chosen: Sequence[Chosen], ends: Chosen | None, site: Site) -> list[Corner] | None:
    if len(chosen) < 2:
        refuse(site, "joint-finger", chosen[0].span, "A finger joint has two boards.", "two or more parts")
        return None
    bars = [[Bar(each.board, copy, each.span) for copy in each.copies] for each in chosen]
    pairs: list[Pair] = that_overlap(pair for some, others in combinations(bars, 2) for pair in product(some, others))
    if not pairs:
        say_no_corner(chosen[0], chosen[1], FingerJoint.name, site)
        return None
    outer = ends.board.id if ends else ""
    pairs = [(other, one) if other.board.id == outer else (one, other) for one, other in pairs]
    return corners(pairs, FingerJoint.name, site)


def _at(corner: Corner, finger: float | None, said: FingerJointSaid, site: Site) -> _Fingered | None:
    block, across = corner.shared, corner.across
    whole = block.along(across)
    wanted = block.size(corner.far.axis) if finger is None else finger
    count = _odd(whole.size / wanted)
    size, least = whole.size / count, length_rule("dovetail_thinnest_pin", site.ruler)
    if count < 3 or size < least - TINY:
        figure = site.ruler.plain
        message = f"Fingers of {figure(wanted)} do not suit a corner that is {figure(whole.size)} wide."
        span = (said.finger or said.kind).span
        source = rule("dovetail_thinnest_pin", site.ruler).source
        refuse(site, "joint-finger", span, message, f"{figure(least)} to {figure(whole.size / 3)}", source=source)
        return None
    _tell_odd_size(corner, size, count, said, site)
    places = [Span1(whole.low + n * size, whole.low + (n + 1) * size) for n in range(count)]
    outer = Comb(block, corner.end, across, tuple(places[::2]), 0.0)
    return _Fingered(corner, outer, Comb(block, corner.far, across, tuple(places[1::2]), 0.0))


def _tell_odd_size(corner: Corner, size: float, count: int, said: FingerJointSaid, site: Site) -> None:
    """Fingers are cut at one setting: a size that no rule shows adds up wrongly over the width."""
    step, figure = float(site.ruler.step * site.ruler.unit.mm), site.ruler.plain
    nearest = max(1, round(size / step)) * step
    if abs(size - nearest) > TINY:
        wide = corner.shared.size(corner.across)
        message = f"{count} fingers that fill {figure(wide)} are no size on the rule."
        hint = f"Make the boards {figure(count * nearest)} wide, for fingers of {figure(nearest)}, or say another `finger`."
        warn(site, "joint-finger-size", (said.finger or said.kind).span, message, "fingers of one size, as the saw is set", hint)


def _odd(wanted: float) -> int:
    """The odd number nearest to a count; the larger of two equally near."""
    return 2 * int(wanted / 2 + 1e-9) + 1


# ---------------------------------------------------------------- both sides


def _cuts(joint: str, each: _Fingered, why: str) -> Iterator[Struck]:
    one, other = each.corner.one, each.corner.other
    for bar, mate, comb in ((one, other, each.outer), (other, one, each.inner)):
        cut = Tails("", bar.span, joint, why, comb, Mate(mate.board.id, (mate.copy,)), "fingers")
        own = bar.board.copies[bar.copy].motion.inverse.face(comb.tip)
        yield Struck(bar.board, bar.copy, cut, (mate.board.id, own.value), mate.key, bar.span)


def _contact(each: _Fingered, glue: bool) -> Contact:
    corner = each.corner
    crossed = crossed_width(corner.base, corner.end.axis, corner.one.grain, corner.other.grain)
    insert = corner.far.opposite.normal
    return Contact(corner.one.key, corner.other.key, insert, corner.base, crossed, each.outer.flanks if glue else 0.0)


def _told(id: str, said: FingerJointSaid, common: Commons, found: Sequence[_Fingered], site: Site) -> Joint:
    first = found[0]
    return Joint(
        id=id,
        kind=FingerJoint.name,
        name=common.name,
        origin=said.origin,
        contacts=tuple(_contact(each, common.glue) for each in found),
        glue=common.glue,
        fit=common.fit,
        numbers=(
            ("fingers and spaces", len(first.outer.tails) + len(first.inner.tails)),
            ("finger width", round(first.outer.tails[0].size, 6)),
            ("finger length", round(first.outer.depth, 6)),
        ),
        operations=("fingers",),
        tools=("table saw", "spaced stop", "chisel"),
        defaults=() if said.finger else (used("Width of the fingers", "finger_width", site.ruler),),
        note=common.note,
        why=common.why,
    )
