"""Dimension lines around a view: short ones next to it, long ones outside, each figure free.

Rows by interval colouring: a dimension takes the first row where nothing lies in its way.  The search is a
heuristic (one dimension after the other, the best place each); the test of the result is not (`legibility`).
Measures of the rows: `dimension_lines` (ISO 129-1 habit).  Units: paper mm, y down.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import copy
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise, product

from planbuild.core.lettering import text_width
from planbuild.derive.dimension_lines import (
    ARROW,
    FIRST,
    LETTERING,
    NEXT,
    Along,
    Ink,
    draw_dimension,
    fits_text,
)
from planbuild.derive.dimensions.paper import Paper, grown
from planbuild.derive.dimensions.running import draw_running, fits_running, fits_standing
from planbuild.records.drawing import Point
from planbuild.records.legibility import PaperBox, text_box

_ROWS = 9
_ROW_COST, _SIDE_COST, _SPILL_COST, _CHAIN_GAIN, _CORRIDOR = 3.0, 6.5, 0.5, 2.0, 120.0
_OVER_VIEW = 0.4
"""For each mm."""
_MANY = 5
"""So many places measured from one plane are printed as running dimensions."""
_SAME = 0.05


class Side(Enum):
    """Of a view.  The value is the index in a box of the edge it lies at."""

    LEFT = 0
    ABOVE = 1
    RIGHT = 2
    BELOW = 3

    @property
    def along(self) -> Along:
        return Along.ACROSS if self in (Side.ABOVE, Side.BELOW) else Along.DOWN

    @property
    def outward(self) -> int:
        return -1 if self in (Side.LEFT, Side.ABOVE) else 1


@dataclass(frozen=True)
class Wanted:
    """A dimension to be placed.

    `ends` are the places of its two planes along the dimension, low first; `reach` gives for each of them
    the stretch, square to the dimension, that its feature takes up: an extension line starts at its near end.
    `sides` are those allowed, the best first.  `datum` is the end (0 or 1) a place is measured from, None
    for a size.
    """

    id: str
    text: str
    ends: tuple[float, float]
    reach: tuple[tuple[float, float], tuple[float, float]]
    sides: tuple[Side, ...]
    datum: int | None = None

    @property
    def length(self) -> float:
        return self.ends[1] - self.ends[0]

    def origin(self, end: int, side: Side) -> Point:
        """Where the extension line of one end starts."""
        across = self.reach[end][0 if side.outward < 0 else 1]
        return (self.ends[end], across) if side.along is Along.ACROSS else (across, self.ends[end])


@dataclass(frozen=True)
class _Spot:
    side: Side
    row: int
    spill_high: bool


def arrange(wanted: Sequence[Wanted], box: PaperBox, paper: Paper) -> Ink:
    """All the dimensions of a view whose outline (with what stands round it) is `box`; the ink is added to `paper`.

    If a figure is not free, those that stand in the way of longer sizes are put farther out than these.
    """
    found = _arranged(wanted, box, copy(paper), {})
    if found.clashes and found.crowded:
        found = min(found, _arranged(wanted, box, copy(paper), found.crowded), key=lambda each: each.clashes)
    paper.add(found.ink)
    return found.ink


@dataclass(frozen=True)
class _Arranged:
    """`crowded` are sizes whose figures stand where extension lines of others pass, with the length of the longest of these."""

    ink: Ink
    clashes: int
    crowded: Mapping[str, float]


def _arranged(wanted: Sequence[Wanted], box: PaperBox, paper: Paper, after: Mapping[str, float]) -> _Arranged:
    """One dimension after the other, each of `after` behind those of that length."""
    runs, single = _running(wanted)
    placed: list[tuple[Wanted, _Spot]] = []
    ink, clashes, crowded, waiting = Ink(), 0, dict[str, float](), list(wanted)
    for lines in sorted([*([[each]] for each in single), *runs], key=lambda lines: _order(lines, after)):
        for line in lines:
            if lines in runs:
                drawn, at = _best_run(line, box, paper, placed, beyond=line is not lines[0])
            else:
                others = waiting if line[0].id in after else wanted
                at = _best(line[0], box, paper, placed, others)
                drawn = _draw(line[0], at, box)
                longest = max((each.length for each in _in_the_way(line[0], at, drawn, others)), default=0.0)
                crowded |= {line[0].id: longest} if longest else {}
            placed.append((line[-1], at))
            waiting = [each for each in waiting if each not in line]
            clashes += paper.clashes(drawn)
            paper.add(drawn)
            ink = ink.plus(drawn)
    return _Arranged(ink, clashes, crowded)


Line = list[Wanted]
"""What is drawn on one line: a size, or places from one plane, the nearest first."""


def _order(lines: Sequence[Line], after: Mapping[str, float]) -> tuple[float, bool, int, tuple[float, float]]:
    """Short ones first, so that they come to lie inside."""
    each = max((line[-1] for line in lines), key=lambda each: each.length)
    return round(after.get(each.id, each.length), 2), each.id in after, each.sides[0].value, each.ends


def _best(wanted: Wanted, box: PaperBox, paper: Paper, placed: list[tuple[Wanted, _Spot]], all: Sequence[Wanted]) -> _Spot:
    """The cheapest place.  Spots are tried from the most habitual on, until no later one can be cheaper."""
    rows = range(max(_ROWS, len(all), len(placed) + 1))
    spots = [_Spot(side, row, high) for side, row, high in product(wanted.sides, rows, (True, False))]
    found: tuple[_Spot, float] | None = None
    for habit, _, spot in sorted((_habit(wanted, spot, placed), order, spot) for order, spot in enumerate(spots)):
        if found is not None and habit >= found[1]:
            break
        ink = _draw(wanted, spot, box)
        crowding = _CORRIDOR * len(_in_the_way(wanted, spot, ink, all))
        cost = habit + paper.cost(ink) + crowding + _OVER_VIEW * _over(wanted, spot, box)
        if found is None or cost < found[1]:
            found = spot, cost
    assert found is not None
    return found[0]


def _in_the_way(wanted: Wanted, spot: _Spot, ink: Ink, all: Sequence[Wanted]) -> list[Wanted]:
    """Others, placed or to come, an extension line of which would run through the figure."""
    (text,) = ink.texts
    index = 0 if spot.side.along is Along.ACROSS else 1
    box = grown(text_box(text), 0.3)
    others = [each for each in all if each is not wanted and each.sides[0] is spot.side]
    return [each for each in others for end in each.ends if box[index] < end < box[index + 2]]


def _over(wanted: Wanted, spot: _Spot, box: PaperBox) -> float:
    """How far its extension lines run over the view itself."""
    index = 1 if spot.side.along is Along.ACROSS else 0
    edge = box[spot.side.value]
    return sum(max(0.0, spot.side.outward * (edge - wanted.origin(end, spot.side)[index])) for end in (0, 1))


def _habit(wanted: Wanted, spot: _Spot, placed: list[tuple[Wanted, _Spot]]) -> float:
    """Near rows, the preferred side, and the row of a neighbour with which it makes a chain."""
    cost = _ROW_COST * spot.row + spot.row**2 + _SIDE_COST * wanted.sides.index(spot.side)
    cost += 0.0 if spot.spill_high else _SPILL_COST
    chained = any(_neighbours(wanted, other) for other, at in placed if (at.side, at.row) == (spot.side, spot.row))
    here = _taken(wanted, spot)
    row = [_taken(other, at) for other, at in placed if (at.side, at.row) == (spot.side, spot.row)]
    lain_over = any(here[0] < other[1] - _SAME and other[0] < here[1] - _SAME for other in row)
    return cost - (_CHAIN_GAIN if chained else 0.0) + (1000.0 if lain_over else 0.0)


def _neighbours(one: Wanted, other: Wanted) -> bool:
    return abs(one.ends[0] - other.ends[1]) < _SAME or abs(one.ends[1] - other.ends[0]) < _SAME


def _taken(wanted: Wanted, spot: _Spot) -> tuple[float, float]:
    """What a dimension takes up of its row, a figure that stands outside included."""
    low, high = wanted.ends
    if fits_text(wanted.length, wanted.text):
        return low, high
    shelf = ARROW + text_width(wanted.text, LETTERING)
    return (low, high + shelf) if spot.spill_high else (low - shelf, high)


def _level(side: Side, row: int, box: PaperBox) -> float:
    return box[side.value] + side.outward * (FIRST + NEXT * row)


def _draw(wanted: Wanted, spot: _Spot, box: PaperBox) -> Ink:
    a, b = wanted.origin(0, spot.side), wanted.origin(1, spot.side)
    level = _level(spot.side, spot.row, box)
    return draw_dimension(a, b, spot.side.along, level, wanted.text, wanted.id, spill_high=spot.spill_high)


# ---------------------------------------------------------------- running dimensions


def _running(wanted: Sequence[Wanted]) -> tuple[list[list[Line]], list[Wanted]]:
    """Groups of many places measured from one plane, all but at most one of them on a few lines, and all the rest."""
    groups: dict[tuple[Side, int, float], list[Wanted]] = {}
    for each in wanted:
        if each.datum is not None:
            groups.setdefault((each.sides[0], each.datum, round(each.ends[each.datum], 1)), []).append(each)
    runs = [lines for group in groups.values() if len(group) >= _MANY and (lines := _lines(group))]
    taken = [each for lines in runs for line in lines for each in line]
    return runs, [each for each in wanted if not any(each is other for other in taken)]


def _lines(group: Sequence[Wanted]) -> list[Line]:
    """A group of places on lines, the inmost first, each figure with room before its place; none if that saves nothing.

    Room, too, from the places of lines farther out, whose extension lines pass here.  Where places lie too close for
    that, all are on one line whose figures stand on their extension lines.
    """
    found: list[Line] = []
    left = 0
    for each in sorted(group, key=lambda each: each.length):
        free = len(found)
        while free and fits_running(each.length - found[free - 1][-1].length, each.text):
            free -= 1
        if free < len(found):
            found[free].append(each)
        elif fits_running(each.length, each.text):
            found.append([each])
        else:
            left += 1
    if left <= 1 and 2 * len(found) <= len(group):
        return found
    line = sorted(group, key=lambda each: each.length)
    return [line] if fits_standing(_steps(line)) else []


def _steps(line: Line) -> list[float]:
    """From each place on a line to the next, the first from the plane of origin."""
    lengths = [0.0, *(each.length for each in line)]
    return [after - before for before, after in pairwise(lengths)]


def _best_run(
    line: Line, box: PaperBox, paper: Paper, placed: list[tuple[Wanted, _Spot]], beyond: bool
) -> tuple[Ink, _Spot]:
    """On a row of its own: beside the sizes of a chain its figures would be taken for distances.

    `beyond` keeps it outside of what was placed last.
    """
    side = line[0].sides[0]
    taken = {at.row for _, at in placed if at.side is side}
    least = placed[-1][1].row + 1 if beyond else 0
    rows = [row for row in range(least, least + _ROWS + 1) if row not in taken]
    inks = [_run_at(line, side, _level(side, row, box)) for row in rows]
    costs = [paper.cost(ink) + _ROW_COST * row for row, ink in zip(rows, inks, strict=True)]
    best = costs.index(min(costs))
    return inks[best], _Spot(side, rows[best], True)


def _run_at(run: Line, side: Side, level: float) -> Ink:
    datum = run[0].datum or 0
    start = run[0].origin(datum, side)
    stations = [(each.origin(1 - datum, side), each.text, each.id) for each in run]
    before = all(fits_running(step, each.text) for step, each in zip(_steps(run), run, strict=True))
    return draw_running(start, stations, side.along, level, outward=0 if before else side.outward)
