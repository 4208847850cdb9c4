"""The views of a sheet on the width of the page: scales, breaks, rows.  Units: paper mm, y down.

The largest scale of the standard series that fits is taken; a slender part is broken to be drawn larger.
A heuristic throughout: whatever comes out is judged by `legibility`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.core.geometry import Axis
from planbuild.core.poses import around
from planbuild.core.units import Unit
from planbuild.derive.dimension_lines import FIRST, NEXT
from planbuild.derive.dimensions.layout import Side
from planbuild.derive.dimensions.measure import Style
from planbuild.derive.sheets.below import words_room
from planbuild.derive.sheets.block import Block
from planbuild.derive.sheets.breaks import BREAK_GAP, Squeeze, all_busy, squeezed, whole
from planbuild.derive.sheets.drawn import Work, draw_view
from planbuild.derive.sheets.lie import is_panel
from planbuild.derive.sheets.pane import Pane
from planbuild.derive.sheets.picture import Hand
from planbuild.derive.sheets.plan import Kind
from planbuild.derive.sheets.rows import Rows, in_rows
from planbuild.derive.sheets.scales import series
from planbuild.derive.sheets.seen import Seen
from planbuild.records.edition import Edition, Projection
from planbuild.records.features import Arch, Curve, Feature, Taper
from planbuild.records.slanted import AngledMortise
from planbuild.records.tails import Sockets, Tails

_STACK_GAP = 4.0
_SLENDER = 20.0
"""A long view lower than this is broken and drawn larger, if it can be."""
_TINY_SECTION, _SLIM_SECTION = 8.0, 20.0
"""Only a part thinner than the first (model mm) is enlarged, and of one thinner than the second its ends and sections."""
_MOST_BROKEN, _MOST_BROKEN_PLAIN = 0.48, 0.72
"""Share of a part's length that may be left out; more if nothing happens along it."""
_ENDS = 6.5
"""Room at both ends of a long view, at least."""
_WIDEST = 80.0
"""A view of an end wider than this is broken."""
_MARGIN = 7.0
_TRIES = 3
_PICTURE = 1.0
"""What the small picture is worth, in steps of scale."""


@dataclass(frozen=True)
class Composed:
    blocks: tuple[Block, ...]
    height: float
    scale: Fraction


def compose(work: Work, seen: Sequence[Seen], hands: tuple[Hand, ...], edition: Edition) -> Composed:
    """The sheet at the largest scales at which all fits; at the smallest it may be too high.

    Raises Refused with `sheet-crowded` if no scale brings every view onto the width of the page.
    """
    rows: tuple[Fraction, Rows] | None = None
    for main in _main_scales(work, seen, edition):
        stack = _stack(work, [each for each in seen if each.plan.kind is Kind.LONG], edition, main)
        found = _with_others(_Others(work, seen, edition, main), stack, hands, edition) if stack is not None else None
        if found is not None:
            rows = main, found
            if found.height <= highest(work, edition):
                break
    if rows is None:
        message = f'No standard scale brings "{work.part.id}" with all its numbers onto the width of a page.'
        hints = ("Choose a larger paper in `editions`, or make the part of two pieces with fewer joints in each.",)
        raise Refused((Diagnostic("sheet-crowded", message, span=work.part.origin, hints=hints),))
    return Composed(rows[1].placed(hands, float(rows[0])), rows[1].height, rows[0])


def highest(work: Work, edition: Edition) -> float:
    """A sheet's drawing is at most so high: its words come on the same page."""
    return edition.text_height - words_room(work.piece, work.part)


class _Others:
    """Ends, sections and details, each kind at its own scale."""

    _ORDER = (Kind.DETAIL, Kind.SECTION, Kind.END)

    def __init__(self, work: Work, seen: Sequence[Seen], edition: Edition, main: Fraction) -> None:
        self.work, self._width = work, edition.text_width
        self._seen = [each for each in seen if each.plan.kind is not Kind.LONG]
        self._kinds = [kind for kind in self._ORDER if any(each.plan.kind is kind for each in self._seen)]
        self._scales = _other_scales(work, main, edition.ruler.unit)[::-1]
        self._drawn: dict[tuple[int, int], Block | None] = {}

    def blocks(self, steps: Steps) -> list[Block] | None:
        """All of them, each kind so many steps up from the scale of the long views; None if one is too wide."""
        up = dict(zip(self._kinds, steps, strict=True))
        found = [self._block(i, up[each.plan.kind]) for i, each in enumerate(self._seen)]
        return [each for each in found if each is not None] if all(found) else None

    def _block(self, index: int, step: int) -> Block | None:
        if (index, step) not in self._drawn:
            self._drawn[index, step] = _single(self.work, self._seen[index], self._scales[step], self._width, step > 0)
        return self._drawn[index, step]

    @property
    def start(self) -> Steps:
        return (0,) * len(self._kinds)

    def larger(self) -> list[Steps]:
        """Every other choice of scales, those of the largest views first; of equals that which treats the kinds alike,
        then that which favours details."""
        choices = product(range(len(self._scales)), repeat=len(self._kinds))
        wanted = [each for each in choices if any(each)]
        return sorted(wanted, key=lambda each: (sum(each), min(each), each), reverse=True)


Steps = tuple[int, ...]
"""For each kind of view how many scales of the series it is larger than the long views."""


def _with_others(others: _Others, stack: Block, hands: tuple[Hand, ...], edition: Edition) -> Rows | None:
    """The long views with all others as large as the page allows; None if one of them is too wide at any scale.

    Nothing grows so much that both hands could no longer be shown; a picture of a part without hands is worth one step.
    """
    first, most = _laid(others, others.start, stack, edition), highest(others.work, edition)
    if first is None or first.height > most:
        return first
    needed = len(hands) > 1 and first.shows(hands)
    best, worth = first, _PICTURE * first.shows(hands)
    for steps in others.larger():
        rows = _laid(others, steps, stack, edition) if sum(steps) + _PICTURE > worth else None
        if rows is not None and rows.height <= most and rows.shows(hands) >= needed:
            here = sum(steps) + _PICTURE * rows.shows(hands)
            best, worth = (rows, here) if here > worth else (best, worth)
    return best


def _laid(others: _Others, steps: Steps, stack: Block, edition: Edition) -> Rows | None:
    blocks = others.blocks(steps)
    return in_rows([stack, *blocks], edition.text_width) if blocks is not None else None


def _main_scales(work: Work, seen: Sequence[Seen], edition: Edition) -> Iterator[Fraction]:
    """From the scale wished for downward."""
    scales = [each for each in series(edition.ruler.unit) if each <= 1 or _is_tiny(work)]
    longs = [each for each in seen if each.plan.kind is Kind.LONG]
    length = work.part.extent.size(work.part.grain)
    heights = [each.view.box[3] - each.view.box[1] for each in longs]
    lowest = max(heights) if is_panel(work.part) else min(heights)  # a wide board is not broken for the sake of its edge
    fits = next((i for i, scale in enumerate(scales) if length * scale <= edition.text_width - _ENDS), len(scales) - 1)
    while fits > 0 and lowest * scales[fits] < _SLENDER and _left_out(length, scales[fits - 1], edition) <= _most_broken(work):
        fits -= 1
    yield from scales[fits:]


def _is_tiny(work: Work) -> bool:
    return _thickness(work) < _TINY_SECTION


def _thickness(work: Work) -> float:
    return min(work.part.body.size(axis) for axis in Axis)


def _left_out(length: float, scale: Fraction, edition: Edition) -> float:
    return 1.0 - (edition.text_width - 22) / float(length * scale)


def _most_broken(work: Work) -> float:
    shaped = any(isinstance(each, (Taper, Arch, Curve)) for each in work.part.features)
    return _MOST_BROKEN if shaped else _MOST_BROKEN_PLAIN


def _other_scales(work: Work, main: Fraction, unit: Unit) -> list[Fraction]:
    largest = Fraction(2) if _thickness(work) < _SLIM_SECTION else Fraction(1)
    return [each for each in series(unit) if main <= each <= largest]


# ---------------------------------------------------------------- long views


def _stack(work: Work, longs: Sequence[Seen], edition: Edition, scale: Fraction) -> Block | None:
    """The long views above each other in projection, whole if they fit, else broken; None if neither will do."""
    low, high = longs[0].view.box[0], longs[0].view.box[2]
    ordered = _in_projection(work, longs, edition)
    if scale * (high - low) <= edition.text_width - _ENDS:
        block = _stacked(work, ordered, scale, whole(low, high), edition.text_width)
        if block.width <= edition.text_width:
            return block
    return _broken(work, ordered, edition.text_width, scale)


def _broken(work: Work, longs: Sequence[Seen], width: float, scale: Fraction) -> Block | None:
    """With dull stretches left out; a few tries settle how wide the views may be beside what stands next to them."""
    low, high = longs[0].view.box[0], longs[0].view.box[2]
    room = width - _side_room(work, longs)
    for _ in range(_TRIES):
        margin, gap = _MARGIN / float(scale), BREAK_GAP / float(scale)
        squeeze = squeezed(low, high, _busy(work, longs), margin, room / float(scale), gap)
        if squeeze is None:
            return None
        block = _stacked(work, longs, scale, squeeze, width)
        if block.width <= width:
            return block
        room -= block.width - width + 0.5
    return None


def _side_room(work: Work, longs: Sequence[Seen]) -> float:
    """For dimensions that stand left and right of the long views, as a first guess."""
    down = [m for each in longs for m in each.plan.measures if m.style is Style.LINE and m.axis is not work.part.grain]
    return 6.0 + (FIRST + NEXT * (len(down) - 1) + 3.0 if down else 4.0)


def _busy(work: Work, longs: Sequence[Seen]) -> list[float]:
    """Places along the paper where something is to be seen or told."""
    right, grain = work.lie.right, work.part.grain
    sign = right[grain.value]
    spots = [sign * end for seen in longs for m in seen.plan.measures if m.axis is grain for end in m.ends]
    spots += [sign * point[grain.value] for seen in longs for m in seen.plan.measures for _, point in m.points]
    spots += [sign * place for feature in work.part.features for place in _all_of(feature, grain)]
    return spots + [sign * view.station for view in work.plan.views if view.letter]


def _all_of(feature: Feature, grain: Axis) -> list[float]:
    """The whole mouth of a mortise that stands askew: its drawing tells what its figures, counted from its middle, do not."""
    if not isinstance(feature, AngledMortise) or feature.face.axis is grain:
        return []
    span = around(feature.rim).along(grain)
    return all_busy((span.low, span.high))


def _in_projection(work: Work, longs: Sequence[Seen], edition: Edition) -> list[Seen]:
    """From top to bottom: third angle puts the view of the upper side above, first angle below; the opposite face last."""
    upper = work.lie.up if edition.projection is Projection.THIRD else work.lie.up.opposite
    order = {upper: 0, work.lie.main: 1, upper.opposite: 2, work.lie.main.opposite: 3}
    return sorted(longs, key=lambda each: order[each.plan.face])


def _stacked(work: Work, longs: Sequence[Seen], scale: Fraction, squeeze: Squeeze, width: float) -> Block:
    """Lengths stand on the outer side of the pair, so that the views stay close; a view between others has them below."""
    block: Block | None = None
    for index, seen in enumerate(longs):
        outer = Side.ABOVE if index == 0 and len(longs) > 1 else Side.BELOW
        pane = Pane(seen, float(scale), squeeze)
        own = draw_view(work, pane, scale, outer, own_scale=index == 0, width=width)
        if block is None:
            block = own
        else:
            block = block.plus(own.moved(block.view[0] - own.view[0], block.box[3] + _STACK_GAP - own.box[1]))
    assert block is not None
    return block


# ---------------------------------------------------------------- the other views


def _told_across(seen: Seen) -> list[float]:
    """Places along the paper that a view of an end tells something of."""
    right = seen.plan.camera.right
    found = []
    for each in seen.plan.measures:
        if each.axis is not None and right[each.axis.value]:
            found += [right[each.axis.value] * end for end in each.ends]
        found += [seen.plan.camera.flat(point)[0] for _, point in each.points]
    return found


def _shows_a_row(work: Work, seen: Seen) -> bool:
    """True for a view of an end in which tails or their sockets are seen in outline."""
    combs = [each.comb for each in work.part.features if isinstance(each, Tails | Sockets)]
    return any(len(comb.tails) > 1 and comb.run is seen.plan.face.axis for comb in combs)


def _single(work: Work, seen: Seen, scale: Fraction, width: float, enlarged: bool) -> Block | None:
    """An end, a section or a detail; a wide one is broken like a long view.  None if it is too wide even so.

    A row of tails is not broken: it is rather drawn no larger than the long views.
    """
    low, high = seen.view.box[0], seen.view.box[2]
    squeeze, in_a_row = whole(low, high), _shows_a_row(work, seen)
    unbroken = draw_view(work, Pane(seen, float(scale), squeeze), scale) if in_a_row else None
    if unbroken and (enlarged or unbroken.width <= width):
        return unbroken if unbroken.width <= width else None
    if (high - low) * scale > _WIDEST:
        margin, room, gap = (each / float(scale) for each in (_MARGIN, _WIDEST, BREAK_GAP))
        squeeze = squeezed(low, high, _told_across(seen), margin, room, gap) or squeeze
    block = draw_view(work, Pane(seen, float(scale), squeeze), scale)
    return block if block.width <= width else None
