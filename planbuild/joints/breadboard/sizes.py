"""A tongue with tenons on the end of a panel: where they stand, and how much room the others need beside the fixed one.

All places are those of the drawn copy of the panel.  Lengths in mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Box, Span1
from planbuild.joints.base import Site
from planbuild.joints.breadboard.fields import BreadboardSaid, PegsSaid
from planbuild.joints.faults import refuse, warn
from planbuild.joints.proportions import length_rule, movement_coefficient, nearest_chisel, rule, share_rule, stepped_share
from planbuild.joints.sides import Side
from planbuild.records.design import Said

MIDDLE = "middle"
MOST = 12
"""More tenons than these on one end are no breadboard (a choice of ours)."""


@dataclass(frozen=True)
class Tongue:
    """The tongue of one end: `thick` is its place in the thickness of the panel, `depth` how far it goes in, `room` how
    much deeper its groove is."""

    side: Side
    thick: Span1
    depth: float
    room: float

    @property
    def across(self) -> Axis:
        """The way the panel moves."""
        return self.side.board.width_axis

    def reach(self, length: float) -> Box:
        """The tongue out to a distance from the shoulder."""
        return self.side.strip(length).with_span(self.side.board.face.axis, self.thick)


@dataclass(frozen=True)
class Sizes:
    """One end with its tenons (as spans across the panel) `length` long; `fixed` is the number of the one that holds.

    `play` is the room on both sides of every other, `deeper` how much deeper a mortise is.  `peg` is the diameter of the
    pegs, 0 for none.
    """

    tongue: Tongue
    tenons: tuple[Span1, ...]
    length: float
    fixed: int
    play: float
    deeper: float
    peg: float

    @property
    def side(self) -> Side:
        return self.tongue.side

    def tenon(self, number: int) -> Box:
        return self.tongue.reach(self.length).with_span(self.tongue.across, self.tenons[number])

    def play_of(self, number: int) -> float:
        return 0.0 if number == self.fixed else self.play

    @property
    def peg_from_shoulder(self) -> float:
        """In the middle of what a tenon stands beyond the tongue."""
        return (self.tongue.depth + self.length) / 2

    def gaps(self) -> tuple[Span1, ...]:
        """What is sawn away beside and between the tenons."""
        body, found = self.side.board.body.along(self.tongue.across), []
        edges = [body.low, *(edge for tenon in self.tenons for edge in (tenon.low, tenon.high)), body.high]
        for low, high in zip(edges[::2], edges[1::2], strict=True):
            found += [Span1(low, high)] if high - low > TINY else []
        return tuple(found)


def size_up(side: Side, said: BreadboardSaid, site: Site) -> Sizes | None:
    """None after reporting."""
    if not _lies_across(side, said, site):
        return None
    tongue, length = _tongue(side, said, site), _length(side, said, site)
    tenons = _tenons(side, said, site)
    if tongue is None or length is None or tenons is None or not _goes_deeper(tongue, length, said, site):
        return None
    fixed, peg = _fixed(tongue, len(tenons), said, site), _peg(said, site)
    play = _play(side, tenons, fixed, said, site) if fixed is not None else None
    if fixed is None or peg is None or play is None:
        return None
    sizes = Sizes(tongue, tenons, length, fixed, play, site.practice.mortise_deeper, peg)
    return sizes if _walls_stand(sizes, said, site) and _pegs_fit(sizes, said, site) else None


def _lies_across(side: Side, said: BreadboardSaid, site: Site) -> bool:
    """False after reporting an end whose grain does not run across the panel's, or that does not cover its end."""
    own = side.board
    for copy in range(len(side.homes)):
        if side.mate_grain(copy) is not own.width_axis:
            message = f'The grain of "{side.mate.id}" does not run across the ends of "{own.id}": it would keep nothing flat.'
            refuse(site, "joint-breadboard-across", said.end.span, message, "a board across the grain of the panel")
            return False
        seen = side.seen(copy)
        for axis in (own.width_axis, own.face.axis):
            there, here = seen.along(axis), own.body.along(axis)
            if there.low > here.low + TINY or there.high < here.high - TINY:
                message = f'"{side.mate.id}" does not cover the whole end of "{own.id}" {axis.words}.'
                hint = "Make it as wide as the panel and at least as thick."
                refuse(site, "joint-breadboard-across", said.end.span, message, "an end as large as that of the panel", hint)
                return False
    return True


def _tongue(side: Side, said: BreadboardSaid, site: Site) -> Tongue | None:
    body, axis, figure = side.board.body, side.board.face.axis, site.ruler.plain
    whole = body.size(axis)
    thick = _thickness(said.tongue, whole, site)
    depth = site.words.length(said.depth) if said.depth else length_rule("breadboard_depth", site.ruler)
    if thick is None or depth is None:
        return None
    most = whole * share_rule("tongue_thickest", site.ruler)
    if thick > most + TINY:
        message = f'A tongue {figure(thick)} thick leaves thin lips: "{side.board.id}" is {figure(whole)} thick.'
        source = rule("tongue_thickest", site.ruler).source
        refuse(site, "joint-tongue-thick", (said.tongue or said.kind).span, message, f"at most {figure(most)}", source=source)
        return None
    middle = body.along(axis).middle
    span = Span1(middle - thick / 2, middle + thick / 2)
    return Tongue(side, span, depth, length_rule("tongue_room", site.ruler))


def _thickness(said: Said | None, whole: float, site: Site) -> float | None:
    """A third of the panel, to the printed step; a chisel's width if there is one near it."""
    if said is not None and said.text != "third":
        return site.words.length(said)
    third, chisel = stepped_share("tongue_thickness", whole, site.ruler), nearest_chisel(whole / 3, site.practice)
    return chisel if abs(chisel - whole / 3) < whole / 12 else third


def _length(side: Side, said: BreadboardSaid, site: Site) -> float | None:
    """As said or by the rule, as far as the end allows; None after reporting `joint-wall`."""
    most = side.depth - site.practice.wall - site.practice.mortise_deeper
    length = site.words.length(said.tenon_length) if said.tenon_length else min(length_rule("breadboard_tenon", site.ruler), most)
    if length is None or length <= most + TINY and most > TINY:
        return length
    figure, span = site.ruler.plain, (said.tenon_length or said.end).span
    message = f'Tenons {figure(max(length, 0.0))} long leave too little of "{side.mate.id}", {figure(side.depth)} wide.'
    refuse(site, "joint-wall", span, message, f"at most {figure(max(most, 0.0))}", "Say shorter tenons, or a wider end.")
    return None


def _goes_deeper(tongue: Tongue, length: float, said: BreadboardSaid, site: Site) -> bool:
    if length > tongue.depth + tongue.room + TINY:
        return True
    figure, span = site.ruler.plain, (said.depth or said.tenon_length or said.kind).span
    message = f"The tongue goes in {figure(tongue.depth)}, the tenons only {figure(length)}."
    refuse(site, "joint-breadboard-depth", span, message, f"a tongue less deep than {figure(length - tongue.room)}")
    return False


def _tenons(side: Side, said: BreadboardSaid, site: Site) -> tuple[Span1, ...] | None:
    """Evenly across the panel, the outer ones a little in from its edges; None after reporting."""
    count, whole = _count(said, site), side.board.body.along(side.board.width_axis)
    if count is None:
        return None
    usual = min(length_rule("breadboard_tenon_width", site.ruler), whole.size / (2 * count))
    width = site.words.length(said.tenon_width) if said.tenon_width else usual
    if width is None:
        return None
    inset = length_rule("breadboard_inset", site.ruler)
    room = whole.size - 2 * inset - width
    step = room / (count - 1) if count > 1 else 0.0
    if room < -TINY or (count > 1 and step < width + site.practice.wall - TINY):
        _no_room(side, count, width, (whole.size - 2 * inset) / count - site.practice.wall, said, site)
        return None
    first = whole.low + inset if count > 1 else whole.middle - width / 2
    return tuple(Span1(first + step * n, first + step * n + width) for n in range(count))


def _count(said: BreadboardSaid, site: Site) -> int | None:
    """None after reporting `joint-tenon-count`."""
    if said.tenon_count is None:
        return round(share_rule("breadboard_count", site.ruler))
    count = site.words.count(said.tenon_count)
    if count is None or 1 <= count <= MOST:
        return count
    refuse(site, "joint-tenon-count", said.tenon_count.span, f"{count} tenons at one end.", f"1 to {MOST}")
    return None


def _no_room(side: Side, count: int, width: float, most: float, said: BreadboardSaid, site: Site) -> None:
    figure, span = site.ruler.plain, (said.tenon_width or said.tenon_count or said.panel).span
    whole = figure(side.board.body.size(side.board.width_axis))
    message = f'{count} tenons {figure(width)} wide have no room on "{side.board.id}", {whole} wide.'
    refuse(site, "joint-tenon-size", span, message, f"at most {figure(max(most, 0.0))} wide", "Say fewer or narrower tenons.")


def _fixed(tongue: Tongue, count: int, said: BreadboardSaid, site: Site) -> int | None:
    """The number of the tenon that holds; None after reporting `joint-fixed-along`."""
    axis = tongue.across
    word = said.fixed.text if said.fixed else MIDDLE
    if word == MIDDLE and count % 2:
        return count // 2
    if word in (axis.low.value, axis.high.value):
        return 0 if word == axis.low.value else count - 1
    span = (said.fixed or said.tenon_count or said.kind).span
    message = f"No tenon lies in the middle of {count}." if word == MIDDLE else f'No tenon lies at the "{word}" of the panel.'
    expected = f"{MIDDLE} (of an odd number of tenons), {axis.low.value} or {axis.high.value}"
    refuse(site, "joint-fixed-along", span, message, expected)
    return None


def _play(side: Side, tenons: tuple[Span1, ...], fixed: int, said: BreadboardSaid, site: Site) -> float | None:
    """How far the farthest tenon goes either way, to the printed step above; all are given the same.

    Source of the formula: Wood Handbook (USDA Forest Products Laboratory), equation 13-2.
    """
    stock = side.board.stock
    coefficient = movement_coefficient(stock)
    if coefficient is None:
        message = f'There is no published movement of {stock.species}, so the room for "{side.board.id}" cannot be worked out.'
        refuse(site, "joint-movement", stock.origin, message, "a wood of the table of woods with its coefficients")
        return None
    if not coefficient:
        message = f'"{side.board.id}" is a sheet and does not move: it wants no breadboard end.'
        warn(site, "joint-breadboard-sheet", said.panel.span, message, "a panel of solid wood", "", "common practice")
        return 0.0
    dry, damp, workshop = site.moisture
    away = max(max(abs(each.low - tenons[fixed].middle), abs(each.high - tenons[fixed].middle)) for each in tenons)
    step = float(site.ruler.step * site.ruler.unit.mm)
    moves = away * coefficient * max(damp - workshop, workshop - dry) if len(tenons) > 1 else 0.0
    return step * math.ceil(moves / step - 1e-9)


def _peg(said: BreadboardSaid, site: Site) -> float | None:
    """The diameter of the pegs, 0 for none."""
    usual = length_rule("breadboard_peg", site.ruler)
    if isinstance(said.pegs, PegsSaid):
        return site.words.length(said.pegs.diameter) if said.pegs.diameter else usual
    wanted = site.words.yes(said.pegs) if said.pegs else False
    return None if wanted is None else usual if wanted else 0.0


def _walls_stand(sizes: Sizes, said: BreadboardSaid, site: Site) -> bool:
    """False after reporting mortises that run together, or nearly out at an end of the end board."""
    side, axis, figure, wall = sizes.side, sizes.tongue.across, site.ruler.plain, site.practice.wall
    open_to = [
        Span1(each.low - sizes.play_of(number), each.high + sizes.play_of(number)) for number, each in enumerate(sizes.tenons)
    ]
    ends = side.seen(0).along(axis)
    left = [open_to[0].low - ends.low, ends.high - open_to[-1].high]
    left += [later.low - earlier.high for earlier, later in zip(open_to, open_to[1:], strict=False)]
    if min(left) > wall - TINY:
        return True
    span = (said.tenon_width or said.tenon_count or said.panel).span
    message = f'With room for the movement, {figure(max(min(left), 0.0))} of wood is left beside a mortise of "{side.mate.id}".'
    refuse(site, "joint-wall", span, message, f"{figure(wall)} or more", "Say narrower tenons, or fewer.")
    return False


def _pegs_fit(sizes: Sizes, said: BreadboardSaid, site: Site) -> bool:
    """False after reporting a peg with too little of its tenon around it."""
    if not sizes.peg:
        return True
    figure, wall = site.ruler.plain, site.practice.wall / 2
    along = sizes.length - sizes.tongue.depth
    wide = min(each.size for each in sizes.tenons) - 2 * sizes.play
    least = min(along, wide) - 2 * wall
    if sizes.peg <= least + TINY:
        return True
    said_at = said.pegs.diameter if isinstance(said.pegs, PegsSaid) else said.pegs
    message = f"A peg of {figure(sizes.peg)} leaves too little of a tenon that stands {figure(along)} beyond the tongue."
    span = (said_at or said.kind).span
    refuse(site, "joint-peg", span, message, f"at most {figure(max(least, 0.0))}", "Say longer or wider tenons, or thinner pegs.")
    return False


