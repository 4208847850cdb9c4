"""What is asked of the layout and what it answers: stocks, pieces, problems, layouts; whole numbers, no furniture."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum


@dataclass(frozen=True)
class Flaw:
    """A rectangle of a board that no piece may touch: its low corner, its length along the board, its width."""

    x: int
    y: int
    length: int
    width: int


@dataclass(frozen=True)
class Stock:
    """Sheets, sticks or boards of one size: `length` along x, `width` along y (sticks: 1), cost of one, how many (None: any).

    `flaws` are seen by boards only; a board with a flaw is a stock of its own with one copy.
    """

    length: int
    width: int = 1
    cost: float = 1.0
    copies: int | None = None
    flaws: tuple[Flaw, ...] = ()


@dataclass(frozen=True)
class Item:
    """Pieces of one size: `length` along the grain (x of the stock), `width` across; may they be turned by 90 degrees?"""

    length: int
    width: int = 1
    count: int = 1
    turn: bool = False


class Way(Enum):
    """How the stock is cut."""

    SHEETS = "sheets"
    """Edge-to-edge cuts in any order."""
    STICKS = "sticks"
    """Lengths only; widths are not looked at."""
    BOARDS = "boards"
    """First crosscuts over the whole width, then rips over the whole section, then each strip to lengths."""


@dataclass(frozen=True)
class Problem:
    """Stocks, pieces, the saw's `kerf` between two pieces, and `trim`: what is cut from every edge first (kerf included).

    Sizes are whole numbers of one unit, which the caller chooses (say hundredths of a millimetre), pieces rounded up
    and stocks down. A sticks' trim is taken at both ends. Cheapest is best; with equal costs that is fewest.
    """

    stocks: tuple[Stock, ...]
    items: tuple[Item, ...]
    kerf: int = 0
    trim: int = 0
    way: Way = Way.SHEETS


@dataclass(frozen=True)
class Placed:
    """A piece where it is cut: index of its item, its low corner on the stock, turned or not."""

    item: int
    x: int
    y: int
    turned: bool = False


@dataclass(frozen=True)
class Cut:
    """One edge-to-edge cut of a rectangle: `across` x (a crosscut) or along x (a rip), its low side, and from where to where.

    `order` counts from 1 within a sheet; a cut is made before those of the parts that it leaves.
    """

    order: int
    across: bool
    at: int
    start: int
    end: int


@dataclass(frozen=True)
class Offcut:
    """A rectangle that is left over."""

    x: int
    y: int
    length: int
    width: int


@dataclass(frozen=True)
class Sheet:
    """One sheet, stick or board that is used: index of its stock, its pieces, its cuts in order, what is left of it."""

    stock: int
    pieces: tuple[Placed, ...]
    cuts: tuple[Cut, ...] = ()
    offcuts: tuple[Offcut, ...] = ()


class Verdict(Enum):
    """What became of a problem."""

    OPTIMAL = "optimal"
    FOUND = "found"
    NOT_FOUND = "not found"
    """The search ended without a layout; there may be one."""
    IMPOSSIBLE = "impossible"
    """There is none: `Layout.reason` says why."""


@dataclass(frozen=True)
class Layout:
    """The answer: `value` is the sum of costs, `bound` what no layout can be cheaper than, `gap` value / bound - 1."""

    verdict: Verdict
    value: float
    bound: float
    sheets: tuple[Sheet, ...] = ()
    reason: str = ""
    left_out: tuple[int, ...] = ()
    """Items that fit no stock, when impossible for that reason."""

    @property
    def gap(self) -> float:
        return self.value / self.bound - 1.0 if self.bound > 0 else 0.0


@dataclass(frozen=True)
class Effort:
    """How long to search, in steps of work, never in time: about 70 million a second on a slow machine's two cores.

    The same effort gives the same layout on every machine.
    """

    work: int = 100_000_000
    chains: int = field(default=2)
    """Searches side by side that share what they find."""

    @classmethod
    def of_seconds(cls, seconds: float) -> Effort:
        return cls(int(seconds * WORK_A_SECOND))


WORK_A_SECOND = 70_000_000
QUICK = Effort(4_000_000)
USUAL = Effort()
