"""Notch: a bar let down over another that it crosses, so that neither can slide along; with a cog, a block left standing
in the middle of the lower bar, neither is cut right across.

Both bodies are placed as they stand and overlap by as much as they are let into each other; unlike those of a half lap
their faces need not lie in one plane.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import ClassVar

from planbuild.core.geometry import TINY, Box, Face, Span1
from planbuild.joints.bars import Bar, square_to_both, that_overlap
from planbuild.joints.base import Chosen, Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.copies import Struck, settled
from planbuild.joints.faults import refuse, warn
from planbuild.joints.proportions import rule, share_rule, used
from planbuild.joints.touching import crossed_width
from planbuild.records.design import JointSaid, Said
from planbuild.records.features import Groove
from planbuild.records.piece import Contact, Joint

THIRD = "third"


class NotchSaid(JointSaid):
    """`part` is let down `over` another: `depth` is what is cut from it (all that they share), the rest from the other.

    `cog` is how wide the block is that stays in the other one, in the middle of its width (`third`, or a size); beside
    it the other is cut as deep as they share.
    """

    part: Said
    over: Said
    depth: Said | None = None
    cog: Said | None = None


@dataclass(frozen=True)
class _Crossing:
    """`upper` comes down on `lower` along `way` (a face of the upper one, as it stands)."""

    upper: Bar
    lower: Bar
    way: Face
    shared: Box
    depth: float
    cog: float | None

    @property
    def level(self) -> float:
        """Where the floor of the upper bar's notch lies: on the wood that stays in the lower one."""
        return self.shared.at(self.way) - self.way.sign * (self.shared.size(self.way.axis) if self.cog else self.depth)

    def _between(self, one: float, other: float, box: Box) -> Box:
        low, high = sorted((one, other))
        return box.with_span(self.way.axis, Span1(low, high))

    @property
    def block(self) -> Box:
        """The cog, or all that they share."""
        if not self.cog:
            return self.shared
        middle = self.shared.along(self.upper.grain).middle
        return self.shared.with_span(self.upper.grain, Span1(middle - self.cog / 2, middle + self.cog / 2))

    @property
    def from_upper(self) -> Box:
        return self._between(self.shared.at(self.way), self.level, self.block)

    @property
    def from_lower(self) -> tuple[Box, ...]:
        """What the lower bar loses: beside a cog on both sides, else above the level."""
        if not self.cog:
            left = self._between(self.level, self.shared.at(self.way.opposite), self.shared)
            return (left,) if left.is_solid else ()
        whole, cog = self.shared.along(self.upper.grain), self.block.along(self.upper.grain)
        spans = (Span1(whole.low, cog.low), Span1(cog.high, whole.high))
        return tuple(self.shared.with_span(self.upper.grain, span) for span in spans)

    @property
    def seat(self) -> Box:
        """Where the floor of the notch rests, a box without thickness."""
        return self.block.with_span(self.way.axis, Span1(self.level, self.level))


class Notch:
    """The kind: joists on a beam, bars of a rack, runners of a stand."""

    name = "notch"
    family = Family.SHARING
    said: ClassVar[type[JointSaid]] = NotchSaid

    def join(self, id: str, said: NotchSaid, site: Site) -> Joined | None:
        """Reports `joint-wrong-family`, `joint-lap-along`, `joint-notch-through`, `joint-notch-depth`, `joint-notch-cog`,
        `joint-proportion` (warning), and what `settled` reports."""
        common = commons(said, self.name, glued=True, site=site)
        part, over = site.words.part(said.part), site.words.part(said.over)
        if common is None or part is None or over is None:
            return None
        pairs = that_overlap((one, other) for one in _bars(part) for other in _bars(over))
        if not pairs:
            message = f'"{part.board.id}" and "{over.board.id}" do not overlap. A notch shares wood.'
            hint = "Place them as deep in each other as they are let in."
            refuse(site, "joint-wrong-family", part.span, message, "bodies that overlap", hint)
            return None
        crossings = [_crossing(one, other, said, site) for one, other in pairs]
        found = [each for each in crossings if each]
        if len(found) < len(crossings):
            return None
        why = said.why.text if said.why else ""
        features = settled(id, [cut for each in found for cut in _cuts(id, each, why)], site)
        return Joined(_told(id, said, common, found, site), features)


def _bars(chosen: Chosen) -> list[Bar]:
    return [Bar(chosen.board, copy, chosen.span) for copy in chosen.copies]


# ---------------------------------------------------------------- sizes


def _crossing(upper: Bar, lower: Bar, said: NotchSaid, site: Site) -> _Crossing | None:
    if upper.grain is lower.grain:
        message = f'"{upper.board.id}" and "{lower.board.id}" overlap along their grain, where no notch holds.'
        refuse(site, "joint-lap-along", upper.span, message, "two parts that cross")
        return None
    axis, shared = square_to_both(upper, lower), upper.body.meet(lower.body)
    way = axis.low if upper.body.along(axis).middle > lower.body.along(axis).middle else axis.high
    if not _comes_down(upper, lower, way, shared, site):
        return None
    deep = shared.size(axis)
    depth = site.words.length(said.depth) if said.depth else deep
    cog = _cog(lower, shared.size(upper.grain), said.cog, site) if said.cog else None
    if depth is None or (said.cog and cog is None) or not _deep_enough(upper, upper.body.size(axis), depth, deep, said, site):
        return None
    return _Crossing(upper, lower, way, shared, depth, cog)


def _comes_down(upper: Bar, lower: Bar, way: Face, shared: Box, site: Site) -> bool:
    """The upper one enters the lower from outside, and lies across the whole of it."""
    flush = abs(upper.body.at(way) - shared.at(way)) < TINY and abs(lower.body.at(way.opposite) - shared.at(way.opposite)) < TINY
    across = (lower.body.along(upper.grain), shared.along(upper.grain))
    if flush and abs(across[0].size - across[1].size) < TINY:
        return True
    message = f'"{upper.board.id}" does not cross the whole of "{lower.board.id}" from one side.'
    hint = "Let it reach past both sides of the other, and lie partly above it."
    refuse(site, "joint-notch-through", upper.span, message, "a bar let down over another", hint)
    return False


def _cog(lower: Bar, wide: float, said: Said, site: Site) -> float | None:
    cog = wide * share_rule("notch_cog", site.ruler) if said.text == THIRD else site.words.length(said)
    most = wide - 2 * site.practice.wall
    if cog is None or TINY < cog <= most + TINY:
        return cog
    figure = site.ruler.plain
    message = f'A cog {figure(cog)} wide leaves no room beside it: "{lower.board.id}" is {figure(wide)} wide.'
    refuse(site, "joint-notch-cog", said.span, message, f"at most {figure(most)}, or `{THIRD}`")
    return None


def _deep_enough(upper: Bar, thick: float, depth: float, deep: float, said: NotchSaid, site: Site) -> bool:
    figure, span = site.ruler.plain, (said.depth or said.kind).span
    if said.cog and said.depth and abs(depth - deep) > TINY:
        message = "Over a cog the bar is cut as deep as the two share."
        refuse(site, "joint-notch-depth", span, message, f"{figure(deep)}, or no `depth`")
        return False
    if depth > deep + TINY:
        message = f"A notch {figure(depth)} deep leaves a gap: the two share {figure(deep)}."
        refuse(site, "joint-notch-depth", span, message, f"at most {figure(deep)}")
        return False
    most = thick * share_rule("notch_deepest", site.ruler)
    if depth > most + TINY:
        message = f'A notch {figure(depth)} deep weakens "{upper.board.id}", which is {figure(thick)} there.'
        source = rule("notch_deepest", site.ruler).source
        warn(site, "joint-proportion", span, message, f"at most {figure(most)}", "Let it down less far.", source)
    return True


# ---------------------------------------------------------------- both sides


def _cuts(joint: str, each: _Crossing, why: str) -> Iterator[Struck]:
    upper, lower = each.upper, each.lower
    cuts = [(upper, lower, each.way, each.from_upper, "")]
    cuts += [(lower, upper, each.way.opposite, box, str(number)) for number, box in enumerate(each.from_lower, start=1)]
    for bar, mate, face, void, number in cuts:
        cut = Groove("", bar.span, joint, why, face, void, what="notch")
        yield Struck(bar.board, bar.copy, cut, (mate.board.id, mate.hand, number), mate.key, bar.span)


def _contact(each: _Crossing, glue: bool) -> Contact:
    """The upper bar comes down; where only it is cut, the lower one is what goes into it."""
    grains, axis = (each.upper.grain, each.lower.grain), each.way.axis
    crossed = crossed_width(each.seat, axis, *grains)
    area = each.seat.size(axis.others[0]) * each.seat.size(axis.others[1]) if glue else 0.0
    both = bool(each.from_lower)
    keys = (each.upper.key, each.lower.key) if both else (each.lower.key, each.upper.key)
    insert = (each.way if both else each.way.opposite).normal
    return Contact(*keys, insert, each.seat, crossed, area, face_glued=True)


def _told(id: str, said: NotchSaid, common: Commons, found: Sequence[_Crossing], site: Site) -> Joint:
    first, deep = found[0], found[0].shared.size(found[0].way.axis)
    upper, lower = first.upper.board.name, first.lower.board.name
    cut = deep if first.cog else first.depth
    numbers: list[tuple[str, float | int | str]] = [(f"cut from {upper}", round(cut, 6))]
    left = deep if first.cog else deep - first.depth
    numbers += [(f"cut from {lower}", round(left, 6))] if left > TINY else []
    numbers += [("width of the cog", round(first.cog, 6))] if first.cog else []
    lines = [used("Width of the cog", "notch_cog", site.ruler)] if said.cog and said.cog.text == THIRD else []
    return Joint(
        id=id,
        kind=Notch.name,
        name=common.name,
        origin=said.origin,
        contacts=tuple(_contact(each, common.glue) for each in found),
        glue=common.glue,
        fit=common.fit,
        numbers=tuple(numbers),
        operations=("lap",),
        tools=("marking gauge", "tenon saw", "chisel"),
        defaults=tuple(lines),
        note=common.note,
        why=common.why,
    )
