"""Where the tails of a corner stand: pure numbers across the width of the boards, from 0 at the low edge.

Tails are alike and evenly apart; the one that must span a groove is made wider, and its neighbours share what is left.
Widths are those at the tips, where a tail is widest and a pin thinnest.  Units: mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from planbuild.core.geometry import TINY, Span1

Row = tuple[Span1, ...]


class Unfit(Exception):
    """The tails do not fit: `what` is `pin`, `tail` or `hide`; `size` is what came out, `least` what is wanted."""

    def __init__(self, what: str, size: float = 0.0, least: float = 0.0) -> None:
        super().__init__(what)
        self.what, self.size, self.least = what, size, least


@dataclass(frozen=True)
class Limits:
    """What can be cut: the thinnest pin, the narrowest neck of a tail, the wood beside a groove in a tail."""

    pin: float
    neck: float
    beside: float


@dataclass(frozen=True)
class Wish:
    """`lean` is how far a flank comes in from tip to base line.  `tails` is how many, or the width of each, None: by
    `pitch`.  `half_pin` is kept exactly if `firm`.  `band` is the groove that a tail must span.  `step` is the printed one."""

    width: float
    lean: float
    half_pin: float
    firm: bool
    pin: float
    pitch: float
    step: float
    limits: Limits
    tails: int | tuple[float, ...] | None = None
    band: Span1 | None = None

    @property
    def count(self) -> int:
        """How many tails: as said, or those whose pitch is nearest to the wanted one."""
        if isinstance(self.tails, tuple):
            return len(self.tails)
        if self.tails is not None:
            return self.tails
        return max(1, round((self.width - 2 * self.half_pin + self.pin) / self.pitch))


def laid_out(wish: Wish) -> Row:
    """The tails, the low one first.  Raises Unfit."""
    row = _of_widths(wish, wish.tails) if isinstance(wish.tails, tuple) else _even(wish)
    _sound(row, wish)
    return row if wish.band is None or _spans(row, wish, wish.band) else _hiding(row, wish, wish.band)


# ---------------------------------------------------------------- rows


def _even(wish: Wish) -> Row:
    """Tails of a printed size.  What is left over goes to the half pins, or to the pins where those are said."""
    count, half, pin = wish.count, wish.half_pin, wish.pin
    tail = (wish.width - 2 * half - (count - 1) * pin) / count
    if count > 1:
        tail = math.floor(tail / wish.step + 1e-6) * wish.step
        rest = wish.width - count * tail
        half, pin = (half, (rest - 2 * half) / (count - 1)) if wish.firm else ((rest - (count - 1) * pin) / 2, pin)
    return _in_turn(half, pin, (tail,) * count)


def _of_widths(wish: Wish, widths: tuple[float, ...]) -> Row:
    """Tails as wide as said; the pins between them take what is left."""
    rest, count = wish.width - sum(widths), len(widths)
    if count == 1:
        return _in_turn(rest / 2, 0.0, widths)
    return _in_turn(wish.half_pin, (rest - 2 * wish.half_pin) / (count - 1), widths)


def _in_turn(start: float, pin: float, widths: tuple[float, ...]) -> Row:
    found = []
    for width in widths:
        found.append(Span1(start, start + width))
        start += width + pin
    return tuple(found)


def _sound(row: Row, wish: Wish) -> None:
    """Raises Unfit for a pin or a neck that is thinner than can be cut."""
    pins = [row[0].low, *(after.low - before.high for before, after in pairwise(row)), wish.width - row[-1].high]
    necks = [tail.size - 2 * wish.lean for tail in row]
    if min(pins) < wish.limits.pin - TINY:
        raise Unfit("pin", min(pins), wish.limits.pin)
    if min(necks) < wish.limits.neck - TINY:
        raise Unfit("tail", min(necks), wish.limits.neck)


# ---------------------------------------------------------------- a groove hidden


def _wanted(wish: Wish, band: Span1) -> Span1:
    """How wide at its tip a tail is that spans the groove also at its neck."""
    more = wish.lean + wish.limits.beside
    return Span1(band.low - more, band.high + more)


def _spans(row: Row, wish: Wish, band: Span1) -> bool:
    wanted = _wanted(wish, band)
    return any(tail.low < wanted.low + TINY and tail.high > wanted.high - TINY for tail in row)


def _hiding(row: Row, wish: Wish, band: Span1) -> Row:
    """The row in which the tail that has to grow least spans the groove.  Raises Unfit."""
    if isinstance(wish.tails, tuple):
        raise Unfit("hide")
    wanted = _wanted(wish, band)
    order = sorted(range(len(row)), key=lambda n: row[n].join(wanted).size - row[n].size)
    for number in order:
        try:
            found = _around(row, number, row[number].join(wanted), wish)
            _sound(found, wish)
        except Unfit:
            continue
        return found
    raise Unfit("hide")


def _around(row: Row, number: int, grown: Span1, wish: Wish) -> Row:
    """The row with one tail grown; those on either side of it share what is left to them."""
    pin = row[1].low - row[0].high if len(row) > 1 else wish.pin
    low = _shared(Span1(row[0].low, grown.low - pin), number, pin)
    high = _shared(Span1(grown.high + pin, row[-1].high), len(row) - number - 1, pin)
    return (*low, grown, *high)


def _shared(room: Span1, count: int, pin: float) -> Row:
    return _in_turn(room.low, pin, ((room.size - (count - 1) * pin) / count,) * count) if count else ()
