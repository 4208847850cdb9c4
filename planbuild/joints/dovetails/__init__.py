"""Through and half-blind dovetails: two boards at a corner, tails on the one, pins on the other.

Both bodies are placed to the full outside.  Of a half-blind corner the pin board keeps its lap, and the tail board is
sawn shorter by it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import ClassVar

from planbuild.core.geometry import TINY, Box, Face, Span1
from planbuild.core.units import slope_text
from planbuild.joints.bars import Bar, that_overlap
from planbuild.joints.base import Board, Chosen, Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.copies import Struck, settled
from planbuild.joints.corners import Corner, corners, say_no_corner
from planbuild.joints.dovetails.sizes import (
    CornerSaid,
    Setting,
    band_of,
    hides,
    rows_of,
    setting_of,
    slope_rule,
)  # fmt: skip
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import length_rule, rule, used
from planbuild.joints.touching import crossed_width
from planbuild.records.design import JointSaid, Said
from planbuild.records.features import Mate
from planbuild.records.piece import Contact, Joint
from planbuild.records.tails import Comb, Sockets, Tails


class HalfBlindSaid(CornerSaid):
    """`lap` is what the pin board keeps in front of the tails."""

    lap: Said | None = None


@dataclass(frozen=True)
class _Dovetailed:
    """One corner with its comb, as it stands."""

    corner: Corner
    comb: Comb


class ThroughDovetail:
    """The kind: a box corner with the ends of the tails in sight."""

    name = "through dovetail"
    family = Family.SHARING
    said: ClassVar[type[JointSaid]] = CornerSaid

    def join(self, id: str, said: CornerSaid, site: Site) -> Joined | None:
        """Reports `joint-wrong-family`, `joint-corner`, `joint-dovetail-slope`, `joint-pin-thin`, `joint-tails-fit`,
        `joint-tail-wide` (warning), `joint-hide`, and what `settled` reports."""
        return _joined(id, said, self.name, 0.0, (), site)


class HalfBlindDovetail:
    """The kind: a drawer front, which hides the ends of the tails."""

    name = "half-blind dovetail"
    family = Family.SHARING
    said: ClassVar[type[JointSaid]] = HalfBlindSaid

    def join(self, id: str, said: HalfBlindSaid, site: Site) -> Joined | None:
        """Reports `joint-lap`, and what a through dovetail reports."""
        lap = site.words.length(said.lap) if said.lap else length_rule("dovetail_lap", site.ruler)
        if lap is None:
            return None
        defaults = () if said.lap else (used("Lap", "dovetail_lap", site.ruler),)
        return _joined(id, said, self.name, lap, defaults, site)


def _joined(id: str, said: CornerSaid, kind: str, lap: float, defaults: tuple[str, ...], site: Site) -> Joined | None:
    common, first = commons(said, kind, glued=True, site=site), _first(said, site)
    found = _dovetailed(said, kind, lap, site)
    if common is None or first is None or not found:
        return None
    why = said.why.text if said.why else ""
    features = settled(id, [cut for each in found for cut in _cuts(id, each, said, why)], site)
    joint = _told(id, said, kind, common, found, lap, defaults, site)
    numbers = (*joint.numbers, ("cut first", first)) if first == "pins" else joint.numbers
    return Joined(replace(joint, operations=_ORDER[first], numbers=numbers), features, grows=_shortened(found, lap))


_ORDER = {"tails": ("tails", "pins"), "pins": ("pins", "tails")}
"""The work in its order, by what is cut first."""


def _first(said: CornerSaid, site: Site) -> str | None:
    return site.words.choice(said.first, tuple(_ORDER)) if said.first else "tails"


def _shortened(found: Sequence[_Dovetailed], lap: float) -> dict[str, dict[Face, float]]:
    """The tail board is sawn shorter than it was placed by the lap, so that its length is that of the wood."""
    less: dict[str, dict[Face, float]] = {}
    if lap:
        for each in found:
            bar = each.corner.one
            end = bar.board.copies[bar.copy].motion.inverse.face(each.corner.end)
            less.setdefault(bar.board.id, {})[end] = -lap
    return less


# ---------------------------------------------------------------- where they meet


def _dovetailed(said: CornerSaid, kind: str, lap: float, site: Site) -> list[_Dovetailed] | None:
    """Every corner with its tails; None after reporting."""
    tail, pin = site.words.part(said.tail), site.words.part(said.pin)
    if tail is None or pin is None:
        return None
    setting = setting_of(said, tail.board, site)
    met = _corners(tail, pin, kind, site)
    if setting is None or not met or not hides(said, tail.board, site) or not _lap_fits(said, met[0], lap, site):
        return None
    return _combs(said, met, setting, lap, site)


def _corners(tail: Chosen, pin: Chosen, kind: str, site: Site) -> list[Corner] | None:
    bars = [[Bar(each.board, copy, each.span) for copy in each.copies] for each in (tail, pin)]
    pairs = that_overlap((one, other) for one, other in product(*bars) if one.key != other.key)
    if not pairs:
        say_no_corner(tail, pin, kind, site)
        return None
    found = corners(pairs, kind, site)
    return found and [each for each in found if _named(each.one, each.end, tail) and _named(each.other, each.far, pin)]


def _named(bar: Bar, end: Face, chosen: Chosen) -> bool:
    """True unless the joint names another end of the board."""
    return chosen.face in (None, bar.board.copies[bar.copy].motion.inverse.face(end))


def _lap_fits(said: CornerSaid, corner: Corner, lap: float, site: Site) -> bool:
    thick, figure = corner.shared.size(corner.end.axis), site.ruler.plain
    least = length_rule("dovetail_thinnest_lap", site.ruler)
    if lap and not least - TINY <= lap <= thick / 2 + TINY:
        span = said.lap.span if isinstance(said, HalfBlindSaid) and said.lap else said.kind.span
        message = f'A lap of {figure(lap)} does not suit "{corner.other.board.id}", which is {figure(thick)} thick.'
        source = rule("dovetail_thinnest_lap", site.ruler).source
        refuse(site, "joint-lap", span, message, f"{figure(least)} to {figure(thick / 2)}", source=source)
        return False
    return True


def _combs(said: CornerSaid, met: Sequence[Corner], setting: Setting, lap: float, site: Site) -> list[_Dovetailed] | None:
    row_of, found = rows_of(said, setting, site), []
    for corner in met:
        block = corner.shared.grown(corner.end, -lap)
        whole = block.along(corner.across)
        band = band_of(said, corner.one.board, corner.one.copy, corner.across, whole.low, site)
        row = row_of(whole.size, block.size(corner.end.axis), band)
        if row is None:
            return None
        tails = tuple(Span1(whole.low + tail.low, whole.low + tail.high) for tail in row)
        found.append(_Dovetailed(corner, Comb(block, corner.end, corner.across, tails, setting.slope)))
    return found


# ---------------------------------------------------------------- both sides


def _cuts(joint: str, each: _Dovetailed, said: CornerSaid, why: str) -> Iterator[Struck]:
    corner = each.corner
    one, other = corner.one, corner.other
    for bar, mate, kind, end in ((one, other, Tails, corner.end), (other, one, Sockets, corner.far)):
        cut = kind("", said.tail.span, joint, why, each.comb, Mate(mate.board.id, (mate.copy,)))
        own = bar.board.copies[bar.copy].motion.inverse.face(end)
        yield Struck(bar.board, bar.copy, cut, (mate.board.id, own.value), mate.key, bar.span)


def _contact(each: _Dovetailed, glue: bool) -> Contact:
    """The tail board goes on square to its face; glue holds on the flanks, long grain on long grain."""
    corner = each.corner
    base: Box = corner.base
    crossed = crossed_width(base, corner.end.axis, corner.one.grain, corner.other.grain)
    area = each.comb.flanks if glue else 0.0
    return Contact(corner.one.key, corner.other.key, corner.far.opposite.normal, base, crossed, area)


def _told(
    id: str, said: CornerSaid, kind: str, common: Commons, found: Sequence[_Dovetailed], lap: float,
    defaults: tuple[str, ...], site: Site,
) -> Joint:  # fmt: skip
    return Joint(
        id=id,
        kind=kind,
        name=common.name,
        origin=said.origin,
        contacts=tuple(_contact(each, common.glue) for each in found),
        glue=common.glue,
        fit=common.fit,
        numbers=_numbers(found[0].comb, lap),
        operations=(),
        tools=("marking gauge", "sliding bevel", "dovetail saw", "chisel"),
        defaults=(*_lines(said, found[0].corner.one.board, site), *defaults),
        note=common.note,
        why=common.why,
    )


def _numbers(comb: Comb, lap: float) -> tuple[tuple[str, float | int | str], ...]:
    """As cut; where tails differ the sheets tell them one by one."""
    whole = comb.block.along(comb.spread)
    found: list[tuple[str, float | int | str]] = [("tails", len(comb.tails)), ("slope", slope_text(comb.slope))]
    found.append(("tail length", round(comb.depth, 6)))
    if comb.even:
        found.append(("tail width at the tip", round(comb.tails[0].size, 6)))
        found += [("between tails at the tips", round(comb.between[0], 6))] if comb.between else []
        found.append(("half pin", round(comb.tails[0].low - whole.low, 6)))
    return (*found, ("lap", round(lap, 6))) if lap else tuple(found)


def _lines(said: CornerSaid, board: Board, site: Site) -> tuple[str, ...]:
    slope = () if said.slope else (used("Slope of the tails", slope_rule(board), site.ruler),)
    tails = () if said.tails else (used("Number of tails", "dovetail_pitch", site.ruler),)
    half = () if said.half_pin else (used("Half pins", "half_pin", site.ruler),)
    return (*slope, *tails, *half)
