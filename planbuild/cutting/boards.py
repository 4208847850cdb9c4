"""Solid boards: crosscut into sections, sections ripped into strips, strips cut to lengths, all clear of flaws.

A heuristic: boards are filled section by section, each time the one that uses its share of the board best (with some
chance), and boards are emptied and filled again as long as the work lasts. All layouts on the way feed a covering.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

from planbuild.cutting.columns import Filling
from planbuild.cutting.model import Effort, Flaw, Problem
from planbuild.cutting.prepared import Prepared
from planbuild.cutting.search import MANY, Found

WORK_A_TRY = 400_000
Spot = tuple[int, int, int, int]


@dataclass(frozen=True)
class Board:
    """A stock without its trim; flaws are measured from there."""

    stock: int
    length: int
    width: int
    flaws: tuple[Flaw, ...]


@dataclass
class Bench:
    """What is laid out: kinds (length, width), how many of each are left, the saw, chance."""

    kinds: list[tuple[int, int]]
    left: list[int]
    kerf: int
    dice: random.Random


def boards_of(problem: Problem) -> list[Board]:
    trim = problem.trim
    return [
        Board(
            k,
            stock.length - 2 * trim,
            stock.width - 2 * trim,
            tuple(Flaw(flaw.x - trim, flaw.y - trim, flaw.length, flaw.width) for flaw in stock.flaws),
        )
        for k, stock in enumerate(problem.stocks)
    ]


def clear_bands(board: Board, x: int, length: int) -> list[tuple[int, int]]:
    """Where across the board a whole section is clear of flaws."""
    bands, low = [], 0
    for flaw in sorted(board.flaws, key=lambda f: f.y):
        if flaw.x < x + length and flaw.x + flaw.length > x:
            if flaw.y > low:
                bands.append((low, flaw.y))
            low = max(low, flaw.y + flaw.width)
    return [*bands, (low, board.width)] if low < board.width else bands


def section(bench: Bench, board: Board, x: int, length: int) -> list[Spot]:
    """Strips side by side, those of full length first, each filled up end to end with pieces of its width."""
    left = list(bench.left)
    order = [k for k, n in enumerate(left) if n and bench.kinds[k][0] <= length]
    order.sort(key=lambda k: (-bench.kinds[k][0] * bench.kinds[k][1] * (0.7 + 0.6 * bench.dice.random()), k))
    order.sort(key=lambda k: bench.kinds[k][0] != length)
    spots: list[Spot] = []
    bands = clear_bands(board, x, length)
    end = -bench.kerf
    for low, high in bands:
        y = max(low, end + bench.kerf)
        for k in order:
            while left[k] and y + bench.kinds[k][1] <= high:
                spots += strip(bench, left, k, order, x, y, length)
                end = y + bench.kinds[k][1]
                y = end + bench.kerf
    return spots


def strip(bench: Bench, left: list[int], first: int, order: list[int], x: int, y: int, length: int) -> list[Spot]:
    spots, at, kind = [], x, first
    alike = sorted((k for k in order if bench.kinds[k][1] == bench.kinds[first][1]), key=lambda k: -bench.kinds[k][0])
    while True:
        spots.append((kind, at, y, 0))
        left[kind] -= 1
        at += bench.kinds[kind][0] + bench.kerf
        after = [k for k in alike if left[k] and at + bench.kinds[k][0] <= x + length]
        if not after:
            return spots
        kind = after[0]


def fill_board(bench: Bench, board: Board) -> Filling:
    """Section after section from the low end."""
    spots: list[Spot] = []
    x = 0
    while True:
        best: tuple[float, int, list[Spot]] | None = None
        starts = sorted({x} | {flaw.x + flaw.length for flaw in board.flaws if flaw.x + flaw.length > x})
        lengths = sorted({bench.kinds[k][0] for k, n in enumerate(bench.left) if n}, reverse=True)
        for start in starts:
            for length in lengths:
                if start + length > board.length:
                    continue
                found = section(bench, board, start, length)
                area = sum(bench.kinds[k][0] * bench.kinds[k][1] for k, *_ in found)
                used = (min(start + length + bench.kerf, board.length) - x) * board.width
                score = area / used * (0.85 + 0.3 * bench.dice.random())
                if found and (best is None or score > best[0]):
                    best = score, start + length + bench.kerf, found
        if best is None:
            return Filling(board.stock, tuple(spots))
        x = best[1]
        spots += best[2]
        for k, *_ in best[2]:
            bench.left[k] -= 1


def homeless_on_boards(problem: Problem) -> tuple[int, ...]:
    """Items for which no board has a clear place."""
    boards = boards_of(problem)

    def has_place(k: int) -> bool:
        length, width = problem.items[k].length, problem.items[k].width
        return any(
            problem.stocks[board.stock].copies != 0
            and start >= 0
            and start + length <= board.length
            and any(high - low >= width for low, high in clear_bands(board, start, length))
            for board in boards
            for start in {0, *(f.x + f.length for f in board.flaws), *(f.x - length for f in board.flaws)}
        )

    return tuple(k for k, item in enumerate(problem.items) if item.count and not has_place(k))


def refilled(problem: Problem, given: Prepared, kept: list[Filling], dice: random.Random) -> list[Filling] | None:
    """Fill boards until all pieces lie, besides those kept; None where the boards do not suffice."""
    left = list(map(int, given.demand))
    copies = [int(size[3]) for size in given.sizes]
    for filling in kept:
        copies[filling.stock] -= 1
        for k, *_ in filling.spots:
            left[k] -= 1
    bench = Bench([(item.length, item.width) for item in problem.items], left, problem.kerf, dice)
    boards, layout = boards_of(problem), list(kept)
    while any(bench.left):
        best: tuple[float, Filling, list[int]] | None = None
        before = list(bench.left)
        for board in boards:
            if copies[board.stock] <= 0:
                continue
            bench.left = list(before)
            filling = fill_board(bench, board)
            area = sum(bench.kinds[k][0] * bench.kinds[k][1] for k, *_ in filling.spots)
            price = float(given.sizes[board.stock, 2]) + 1e-3 * board.length * board.width / max(1, problem.stocks[0].length)
            score = area / max(price, 1e-9) * (0.9 + 0.2 * dice.random())
            if filling.spots and (best is None or score > best[0]):
                best = score, filling, bench.left
        if best is None:
            return None
        layout.append(best[1])
        bench.left = best[2]
        copies[best[1].stock] -= 1
    return layout


def boards_laid_out(problem: Problem, given: Prepared, bound: int, effort: Effort) -> Found:
    """Fill, empty one to three boards, fill again; keep what is no worse; cover with all fillings in the end."""
    from planbuild.cutting.cover import cheapest_cover

    dice = random.Random(1)
    found = Found(MANY, bound)
    current: list[Filling] = []
    seen: dict[Filling, None] = {}
    now = (MANY, 0)
    for _ in range(max(4, effort.work // WORK_A_TRY)):
        kept = list(current)
        for _ in range(min(len(kept), 1 + dice.randrange(3))):
            kept.pop(dice.randrange(len(kept)))
        layout = refilled(problem, given, kept, dice)
        if layout is None:
            continue
        seen.update(dict.fromkeys(layout))
        worth = rank(given, layout)
        if worth <= now:
            current, now = layout, worth
        found.offer(given, layout)
        if not found.open:
            return found
    if len(seen) > 1:
        found.offer(given, cheapest_cover(given, list(seen), found.cost, 60) or [])
    return found


def rank(given: Prepared, layout: list[Filling]) -> tuple[int, int]:
    """Cost, then area of the boards."""
    stocks = [filling.stock for filling in layout]
    return sum(int(given.sizes[k, 2]) for k in stocks), sum(int(given.sizes[k, 0] * given.sizes[k, 1]) for k in stocks)
