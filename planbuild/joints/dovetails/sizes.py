"""Slope, lap and row of the tails of a corner, from what was said and what the trade takes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Span1
from planbuild.core.units import slope_text
from planbuild.joints.base import Board, Site
from planbuild.joints.dovetails.layout import Limits, Row, Unfit, Wish, laid_out
from planbuild.joints.faults import refuse, warn
from planbuild.joints.proportions import length_rule, rule, share_rule, wood_of
from planbuild.records.design import JointSaid, Said
from planbuild.records.features import Groove


class CornerSaid(JointSaid):
    """`tail` is the board with the tails, `pin` the one with the pins.  `tails` is how many, or a list of their widths;
    `hide` is the joint whose groove a tail must span; `first` are those that are cut first, from which the others are
    marked."""

    tail: Said
    pin: Said
    tails: tuple[Said, ...] = ()
    slope: Said | None = None
    half_pin: Said | None = None
    hide: Said | None = None
    first: Said | None = None


def slope_rule(board: Board) -> str:
    """The row of the table that holds for the wood of the tails.  What no table knows is taken as hardwood."""
    wood = wood_of(board.stock)
    return "dovetail_slope_soft" if wood and wood.group == "softwood" else "dovetail_slope_hard"


def slope_of(said: Said | None, board: Board, site: Site) -> float | None:
    """Reports `joint-dovetail-slope`."""
    if said is None:
        return share_rule(slope_rule(board), site.ruler)
    slope, steepest = site.words.slope(said), share_rule("dovetail_steepest", site.ruler)
    if slope is not None and slope > steepest + 1e-9:
        message = f"A tail with flanks at {slope_text(slope)} has corners that break off along the grain."
        source = rule("dovetail_steepest", site.ruler).source
        refuse(site, "joint-dovetail-slope", said.span, message, f"at most {slope_text(steepest)}", source=source)
        return None
    flattest = share_rule("dovetail_flattest", site.ruler)
    if slope is not None and slope < flattest - 1e-9:
        source, message = rule("dovetail_flattest", site.ruler).source, "Flanks as flat as these hold nothing."
        refuse(site, "joint-dovetail-slope", said.span, message, f"at least {slope_text(flattest)}", source=source)
        return None
    return slope


@dataclass(frozen=True)
class Setting:
    """What all corners of a joint have in common.  Lengths in mm."""

    slope: float
    half_pin: float
    tails: int | tuple[float, ...] | None


def setting_of(said: CornerSaid, board: Board, site: Site) -> Setting | None:
    """None after reporting."""
    words = site.words
    slope = slope_of(said.slope, board, site)
    half = words.length(said.half_pin) if said.half_pin else length_rule("half_pin", site.ruler)
    tails: int | tuple[float, ...] | None = None
    if len(said.tails) == 1:
        tails = words.count(said.tails[0])
        if tails is None:
            return None
        if tails < 1:
            refuse(site, "joint-tails-fit", said.tails[0].span, "A dovetail needs a tail.", "1 or more")
            return None
    elif said.tails:
        widths = [words.length(each) for each in said.tails]
        if any(each is None for each in widths):
            return None
        tails = tuple(each for each in widths if each)
    return None if slope is None or half is None else Setting(slope, half, tails)


Rows = Callable[[float, float, Span1 | None], Row | None]
"""The tails of a corner of that width and depth, with a groove there to be hidden (from the low edge)."""


def rows_of(said: CornerSaid, setting: Setting, site: Site) -> Rows:
    """Lays out each kind of corner once, so that a fault of four like corners is told once."""
    known: dict[tuple[float, ...], Row | None] = {}

    def of(width: float, depth: float, band: Span1 | None) -> Row | None:
        key = tuple(round(each, 3) for each in (width, depth, *((band.low, band.high) if band else ())))
        if key not in known:
            known[key] = _row(said, setting, width, depth, band, site)
        return known[key]

    return of


def _row(said: CornerSaid, setting: Setting, width: float, depth: float, band: Span1 | None, site: Site) -> Row | None:
    ruler = site.ruler
    pin = length_rule("half_pin", ruler)
    wish = Wish(
        width, depth * setting.slope, setting.half_pin, said.half_pin is not None, pin, length_rule("dovetail_pitch", ruler),
        float(ruler.step * ruler.unit.mm), _limits(site), setting.tails, band,
    )  # fmt: skip
    try:
        found = laid_out(wish)
    except Unfit as unfit:
        _refused(said, wish, unfit, site)
        return None
    _wide(said, found, site)
    return found


def _limits(site: Site) -> Limits:
    names = ("dovetail_thinnest_pin", "dovetail_thinnest_neck", "dovetail_beside_groove")
    pin, neck, beside = (length_rule(name, site.ruler) for name in names)
    return Limits(pin, neck, beside)


def _refused(said: CornerSaid, wish: Wish, unfit: Unfit, site: Site) -> None:
    figure, count = site.ruler.plain, wish.count
    tails, word = f"{count} {'tail' if count == 1 else 'tails'}", said.tails[0] if said.tails else None
    span = (word or said.half_pin or said.kind).span
    if unfit.what == "hide":
        assert said.hide is not None and wish.band is not None
        groove = f"{figure(wish.band.size)} wide and {figure(wish.band.low)} from the edge"
        message = f'No tail of {count} can span the groove of "{said.hide.text}", {groove}.'
        hint = "Change the number of tails, or move the groove away from the edge."
        refuse(site, "joint-hide", said.hide.span, message, "a tail with wood on both sides of the groove", hint)
    elif unfit.what == "pin":
        left = f"leave pins of {figure(unfit.size)}" if unfit.size > TINY else "leave no wood for pins"
        source = rule("dovetail_thinnest_pin", site.ruler).source
        message = f"{tails} in {figure(wish.width)} {left} where they are thinnest."
        hint = "Take fewer or narrower tails, or a smaller half pin."
        refuse(site, "joint-pin-thin", span, message, f"pins of {figure(unfit.least)} or more", hint, source)
    else:
        left = f"at the base line {figure(max(unfit.size, 0.0))} would be left of one"
        message = f"{tails} in {figure(wish.width)} do not fit: {left}."
        hint = "Take fewer tails, a smaller half pin, or a flatter slope."
        refuse(site, "joint-tails-fit", span, message, f"{figure(unfit.least)} or more at the base line", hint)


def _wide(said: CornerSaid, found: Row, site: Site) -> None:
    widest, most = max(tail.size for tail in found), length_rule("dovetail_widest", site.ruler)
    if widest > most + TINY:
        figure, found_rule = site.ruler.plain, rule("dovetail_widest", site.ruler)
        message = f"A tail of {figure(widest)} is wide: {found_rule.reason}."
        span = (said.tails[0] if said.tails else said.kind).span
        warn(site, "joint-tail-wide", span, message, f"at most {figure(most)}", "Take more tails.", found_rule.source)


# ---------------------------------------------------------------- the groove to be hidden

_MOST_NAMED = 20
"""Joints named in a message; a large piece has many."""


def band_of(said: CornerSaid, board: Board, copy: int, across: Axis, low: float, site: Site) -> Span1 | None:
    """The grooves of the joint to be hidden in one standing copy of the tail board, from the low edge of the corner."""
    other = site.joined.get(said.hide.full) if said.hide else None
    if other is None:
        return None
    motion = board.copies[copy].motion
    voids = [motion.box(each.void) for each in other.features.get(board.id, ()) if isinstance(each, Groove)]
    if not voids:
        return None
    spans = [void.along(across) for void in voids]
    return Span1(min(span.low for span in spans) - low, max(span.high for span in spans) - low)


def hides(said: CornerSaid, board: Board, site: Site) -> bool:
    """False after reporting that the joint to be hidden is not there, or cuts no groove in the tail board."""
    if said.hide is None:
        return True
    name = said.hide.text
    if said.hide.full not in site.joined:
        known = list(site.joined)[:_MOST_NAMED]
        expected = f"one of {', '.join(known)}" if known else "the joint of the panel"
        refuse(site, "joint-hide", said.hide.span, f'There is no joint "{name}" whose groove could be hidden.', expected)
        return False
    other = site.joined[said.hide.full]
    grooved = other and any(isinstance(each, Groove) for each in other.features.get(board.id, ()))
    if other and not grooved:
        message = f'The joint "{name}" cuts no groove in "{board.id}".'
        refuse(site, "joint-hide", said.hide.span, message, "the joint of a panel that stands in this board")
        return False
    return other is not None
