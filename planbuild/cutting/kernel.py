"""The compiled heart of the search: cut trees of sheets that are ruined in part and filled again.

A sheet is a tree of rectangles. A rectangle is free, or holds one piece, or is cut in one direction into two or
more parts, of which at most one is free (parts of one cut may change places, so free ones are pushed together).
Sizes are whole numbers that include the saw's kerf. Nothing here reads a clock, and every chance comes from the
state `dice`, so the same call gives the same trees. All functions share this one file because compiled code is
kept on disk by file: a change elsewhere would not be noticed.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numba import njit

UNUSED, FREE, PIECE, SIDE_BY_SIDE, ABOVE_EACH_OTHER = 0, 1, 2, 3, 4
KIND, WIDE, HIGH, UP, FIRST, NEXT, ITEM, TURNED = range(8)
"""Columns of a tree: what a node is, its size, its parent, first child, next sibling, its piece and how that lies."""
NODES, SPARE, SHEETS, COST, LEFT = range(5)
"""Places in `sums`: nodes ever used, head of the list of spare ones, sheets in use, their cost, pieces left out."""

CELLS, AMONG = 2600, 40
STRIPS, OVERHEAD = 4, 80

class State(NamedTuple):
    """Sheets on their way: the trees, `sums`, the node of each piece, pieces left out, and each sheet's root and stock."""

    tree: np.ndarray
    sums: np.ndarray
    where: np.ndarray
    left: np.ndarray
    roots: np.ndarray
    stock_of: np.ndarray
    used: np.ndarray
    gaps: np.ndarray
    lots: np.ndarray
    sack: np.ndarray
    taken: np.ndarray


class Given(NamedTuple):
    """The problem: stocks (wide, high, cost, copies), pieces (wide, high, may turn), their rankings, the least side."""

    sizes: np.ndarray
    items: np.ndarray
    ranks: np.ndarray
    marks: np.ndarray
    least: int
    fair: float
    rate: float
    """Least cost of a unit of area in any stock."""


class Pool(NamedTuple):
    """Fillings of sheets seen so far, each kind once: `table` of their marks, their stocks, and where their pieces lie."""

    table: np.ndarray
    stocks: np.ndarray
    starts: np.ndarray
    spots: np.ndarray
    counts: np.ndarray
    """Fillings, spots."""
    corners: np.ndarray
    """Scratch: low corner of each node of the tree that is walked."""


compiled = njit(cache=True, nogil=True, error_model="numpy", no_cpython_wrapper=True, no_cfunc_wrapper=True)
"""For what is called by compiled code only, which compiles faster."""
entry = njit(cache=True, nogil=True, error_model="numpy")


@compiled
def roll(dice, sides):
    """A whole number from 0 to sides - 1."""
    dice[0] = (dice[0] * 25214903917 + 11) & 281474976710655
    return ((dice[0] >> 17) & 2147483647) % sides


@compiled
def new_node(s, kind, wide, high, up):
    node = s.sums[SPARE]
    if node >= 0:
        s.sums[SPARE] = s.tree[node, NEXT]
    else:
        node = s.sums[NODES]
        s.sums[NODES] += 1
    s.tree[node, KIND] = kind
    s.tree[node, WIDE] = wide
    s.tree[node, HIGH] = high
    s.tree[node, UP] = up
    s.tree[node, FIRST] = -1
    s.tree[node, NEXT] = -1
    s.tree[node, ITEM] = -1
    return node


@compiled
def drop_node(s, node):
    s.tree[node, KIND] = UNUSED
    s.tree[node, NEXT] = s.sums[SPARE]
    s.sums[SPARE] = node


@compiled
def adopt(s, parent, child):
    s.tree[child, NEXT] = s.tree[parent, FIRST]
    s.tree[parent, FIRST] = child


@compiled
def disown(s, parent, child):
    at = s.tree[parent, FIRST]
    if at == child:
        s.tree[parent, FIRST] = s.tree[child, NEXT]
        return
    while s.tree[at, NEXT] != child:
        at = s.tree[at, NEXT]
    s.tree[at, NEXT] = s.tree[child, NEXT]


@compiled
def cut_off(s, node, size, way, count):
    """Cut a free node so that a part of `size` comes off; the part, and how many gaps are listed then."""
    axis = WIDE if way == SIDE_BY_SIDE else HIGH
    if s.tree[node, axis] == size:
        return node, count
    up = s.tree[node, UP]
    if up >= 0 and s.tree[up, KIND] == way:
        part = new_node(s, FREE, s.tree[node, WIDE], s.tree[node, HIGH], up)
        s.tree[part, axis] = size
        s.tree[node, axis] -= size
        adopt(s, up, part)
        return part, count
    part = new_node(s, FREE, s.tree[node, WIDE], s.tree[node, HIGH], node)
    rest = new_node(s, FREE, s.tree[node, WIDE], s.tree[node, HIGH], node)
    s.tree[part, axis] = size
    s.tree[rest, axis] -= size
    s.tree[node, KIND] = way
    s.tree[node, FIRST] = -1
    adopt(s, node, rest)
    adopt(s, node, part)
    s.gaps[count] = rest
    return part, count + 1


@compiled
def empty(s, node):
    """Free a node: all pieces below it are left out, all nodes below it are spare."""
    if s.tree[node, KIND] == PIECE:
        item = s.tree[node, ITEM]
        s.where[item] = -1
        s.left[s.sums[LEFT]] = item
        s.sums[LEFT] += 1
    else:
        child = s.tree[node, FIRST]
        while child >= 0:
            following = s.tree[child, NEXT]
            # Down first, then along: a stack is not needed because a child is emptied before it is dropped.
            at = child
            while True:
                if s.tree[at, KIND] == PIECE:
                    item = s.tree[at, ITEM]
                    s.where[item] = -1
                    s.left[s.sums[LEFT]] = item
                    s.sums[LEFT] += 1
                if s.tree[at, FIRST] >= 0:
                    down = s.tree[at, FIRST]
                    s.tree[at, FIRST] = s.tree[down, NEXT]
                    s.tree[down, UP] = at
                    at = down
                    continue
                above = s.tree[at, UP]
                drop_node(s, at)
                if at == child:
                    break
                at = above
            child = following
    s.tree[node, KIND] = FREE
    s.tree[node, FIRST] = -1
    s.tree[node, ITEM] = -1


@compiled
def take_out(s, node):
    """Free a node and push it together with free neighbours, upward as long as a whole cut is undone by it."""
    empty(s, node)
    while s.tree[node, UP] >= 0:
        up = s.tree[node, UP]
        child = s.tree[up, FIRST]
        while child >= 0 and (child == node or s.tree[child, KIND] != FREE):
            child = s.tree[child, NEXT]
        if child < 0:
            return
        axis = WIDE if s.tree[up, KIND] == SIDE_BY_SIDE else HIGH
        s.tree[node, axis] += s.tree[child, axis]
        disown(s, up, child)
        drop_node(s, child)
        if s.tree[up, FIRST] != node or s.tree[node, NEXT] >= 0:
            return
        drop_node(s, node)
        s.tree[up, KIND] = FREE
        s.tree[up, FIRST] = -1
        node = up


@compiled
def open_sheet(s, g, stock):
    node = new_node(s, FREE, g.sizes[stock, 0], g.sizes[stock, 1], -1)
    s.roots[s.sums[SHEETS]] = node
    s.stock_of[s.sums[SHEETS]] = stock
    s.used[stock] += 1
    s.sums[SHEETS] += 1
    s.sums[COST] += g.sizes[stock, 2]
    return node


@compiled
def close_sheet(s, g, place):
    empty(s, s.roots[place])
    drop_node(s, s.roots[place])
    s.used[s.stock_of[place]] -= 1
    s.sums[COST] -= g.sizes[s.stock_of[place], 2]
    s.sums[SHEETS] -= 1
    s.roots[place] = s.roots[s.sums[SHEETS]]
    s.stock_of[place] = s.stock_of[s.sums[SHEETS]]


@compiled
def worth(wide, high, least):
    """What a free rectangle is worth: more than its area when large, nothing when no piece fits in it."""
    if wide < least or high < least:
        return 0.0
    area = float(wide) * float(high)
    return area * np.sqrt(area)


@compiled
def best_gap(s, g, start, count, wide, high, may_turn, dice, blink):
    """Where a piece does least harm: place in `gaps`, turned or not, which cut first (1: side by side); -1 for nowhere."""
    best, turned, first, found = np.inf, 0, 0, -1
    for place in range(start, count):
        node = s.gaps[place]
        if s.tree[node, KIND] != FREE:
            continue
        big_w, big_h = s.tree[node, WIDE], s.tree[node, HIGH]
        for turn in range(1 + may_turn):
            w, h = (high, wide) if turn else (wide, high)
            if w > big_w or h > big_h:
                continue
            if blink and roll(dice, blink) == 0:
                continue
            whole = worth(big_w, big_h, 0)
            upright = whole - worth(big_w - w, big_h, g.least) - worth(w, big_h - h, g.least)
            level = whole - worth(big_w, big_h - h, g.least) - worth(big_w - w, h, g.least)
            if upright < best:
                best, turned, first, found = upright, turn, 1, place
            if level < best:
                best, turned, first, found = level, turn, 0, place
    return found, turned, first


@compiled
def put(s, item, wide, high, turned, first, node, count):
    """Cut a piece out of a free node."""
    w, h = (high, wide) if turned else (wide, high)
    if first:
        part, count = cut_off(s, node, w, SIDE_BY_SIDE, count)
        part, count = cut_off(s, part, h, ABOVE_EACH_OTHER, count)
    else:
        part, count = cut_off(s, node, h, ABOVE_EACH_OTHER, count)
        part, count = cut_off(s, part, w, SIDE_BY_SIDE, count)
    s.tree[part, KIND] = PIECE
    s.tree[part, ITEM] = item
    s.tree[part, TURNED] = turned
    s.where[item] = part
    return count


@compiled
def put_next(s, item, along, across, turned, rest, way, count):
    """Cut a piece off the end of a strip; what is left of the strip (-1: nothing), and how many gaps are listed then."""
    other = ABOVE_EACH_OTHER if way == SIDE_BY_SIDE else SIDE_BY_SIDE
    part, after = cut_off(s, rest, along, way, count)
    left_over = -1 if part == rest else (s.gaps[after - 1] if after > count else rest)
    part, after = cut_off(s, part, across, other, after)
    s.tree[part, KIND] = PIECE
    s.tree[part, ITEM] = item
    s.tree[part, TURNED] = turned
    s.where[item] = part
    return left_over, after


@compiled
def lies_in_strip(g, item, length, height, way):
    """How a piece lies in a strip that it fits: along, across, turned; the higher way first; nothing is (0, 0, 0)."""
    one, other = (g.items[item, 0], g.items[item, 1]) if way == SIDE_BY_SIDE else (g.items[item, 1], g.items[item, 0])
    fits = one <= length and other <= height
    if g.items[item, 2] and other <= length and one <= height and (not fits or one > other):
        return other, one, 1
    if fits:
        return one, other, 0
    return 0, 0, 0


@compiled
def fill_strip(s, g, line, begin, length, height, way, rest, dice, count):
    """Fill the rest of a strip with the pieces whose areas sum highest (knapsack over its length); work done, gaps listed."""
    cell = max(1, length // (CELLS - 1))
    cells = length // cell
    among = 0
    for k in range(begin, len(line)):
        if among == AMONG:
            break
        item = line[k]
        if s.where[item] >= 0:
            continue
        along, across, turned = lies_in_strip(g, item, length, height, way)
        if along == 0:
            continue
        s.lots[among, 0], s.lots[among, 1], s.lots[among, 2], s.lots[among, 3] = item, along, across, turned
        among += 1
    if among == 0:
        return 0, count
    s.sack[: cells + 1] = 0.0
    for k in range(among):
        size = (s.lots[k, 1] + cell - 1) // cell
        value = float(s.lots[k, 1]) * float(s.lots[k, 2]) * (1.0 + 0.01 * roll(dice, 16))
        for at in range(cells, size - 1, -1):
            better = s.sack[at - size] + value
            s.taken[k, at] = better > s.sack[at]
            if better > s.sack[at]:
                s.sack[at] = better
        s.taken[k, :size] = False
    at = cells
    for k in range(among - 1, -1, -1):
        if s.taken[k, at]:
            at -= (s.lots[k, 1] + cell - 1) // cell
            rest, count = put_next(s, s.lots[k, 0], s.lots[k, 1], s.lots[k, 2], s.lots[k, 3], rest, way, count)
    return among * cells // 16, count


@compiled
def choose_stock(s, g, wide, high, may_turn, room, dice):
    """A stock that a piece fits and the budget allows: one of chance, the cheaper by area the likelier."""
    total = 0.0
    for stock in range(len(g.sizes)):
        if fits_stock(s, g, stock, wide, high, may_turn, room):
            total += likelihood(g, stock)
    if total == 0.0:
        return -1
    mark = total * roll(dice, 1048576) / 1048576.0
    last = -1
    for stock in range(len(g.sizes)):
        if fits_stock(s, g, stock, wide, high, may_turn, room):
            last = stock
            mark -= likelihood(g, stock)
            if mark < 0.0:
                return stock
    return last


@compiled
def fits_stock(s, g, stock, wide, high, may_turn, room):
    if s.used[stock] >= g.sizes[stock, 3] or g.sizes[stock, 2] > room:
        return False
    w, h = g.sizes[stock, 0], g.sizes[stock, 1]
    return (wide <= w and high <= h) or (may_turn and high <= w and wide <= h)


@compiled
def likelihood(g, stock):
    rate = float(g.sizes[stock, 0]) * float(g.sizes[stock, 1]) / max(1.0, float(g.sizes[stock, 2]))
    return rate * rate


@compiled
def fill(s, g, order, budget, dice, blink, strips):
    """Put what is left out into gaps and new sheets, in the order of one of the rankings; what fits nowhere stays left."""
    count = 0
    for node in range(s.sums[NODES]):
        if s.tree[node, KIND] == FREE:
            s.gaps[count] = node
            count += 1
    waiting = s.left[: s.sums[LEFT]].copy()
    keys = np.empty(len(waiting), np.int64)
    for k in range(len(waiting)):
        keys[k] = g.ranks[order, waiting[k]] * 4 + roll(dice, 5)
    line = waiting[np.argsort(keys, kind="mergesort")]
    s.sums[LEFT] = 0
    work = 0
    for k in range(len(line)):
        item = line[k]
        if s.where[item] >= 0:
            continue
        wide, high, may_turn = g.items[item, 0], g.items[item, 1], g.items[item, 2]
        work += count
        place, turned, first = best_gap(s, g, 0, count, wide, high, may_turn, dice, blink)
        if place >= 0:
            node = s.gaps[place]
        else:
            stock = choose_stock(s, g, wide, high, may_turn, budget - s.sums[COST], dice)
            if stock < 0:
                s.left[s.sums[LEFT]] = item
                s.sums[LEFT] += 1
                continue
            node = open_sheet(s, g, stock)
            s.gaps[count] = node
            count += 1
            place, turned, first = best_gap(s, g, count - 1, count, wide, high, may_turn, dice, 0)
        if strips and len(line) - k > 1:
            w, h = (high, wide) if turned else (wide, high)
            if first:
                way, along, across, length = ABOVE_EACH_OTHER, h, w, s.tree[node, HIGH]
                part, count = cut_off(s, node, w, SIDE_BY_SIDE, count)
            else:
                way, along, across, length = SIDE_BY_SIDE, w, h, s.tree[node, WIDE]
                part, count = cut_off(s, node, h, ABOVE_EACH_OTHER, count)
            rest, count = put_next(s, item, along, across, turned, part, way, count)
            if rest >= 0:
                more, count = fill_strip(s, g, line, k + 1, length - along, across, way, rest, dice, count)
                work += more
        else:
            count = put(s, item, wide, high, turned, first, node, count)
        # Gaps that are gone are taken off the end of the list where that is free.
        while count > 0 and s.tree[s.gaps[count - 1], KIND] != FREE:
            count -= 1
    return work


@compiled
def after(s, at, root):
    """The next node in a walk through all that is below a root; -1 after the last."""
    if s.tree[at, FIRST] >= 0:
        return s.tree[at, FIRST]
    while at != root and s.tree[at, NEXT] < 0:
        at = s.tree[at, UP]
    return -1 if at == root else s.tree[at, NEXT]


@compiled
def free_area(s, root):
    total = 0.0
    at = root
    while True:
        if s.tree[at, KIND] == FREE:
            total += float(s.tree[at, WIDE]) * float(s.tree[at, HIGH])
        at = after(s, at, root)
        if at < 0:
            return total


@compiled
def sheet_to_ruin(s, dice):
    """A sheet of chance, out of two the one with more waste in three of four cases."""
    one, other = roll(dice, s.sums[SHEETS]), roll(dice, s.sums[SHEETS])
    if one != other and roll(dice, 4) and free_area(s, s.roots[one]) < free_area(s, s.roots[other]):
        return other
    return one


@compiled
def ruin(s, g, dice, most):
    """Free whole sheets, or parts of one to three sheets."""
    way = roll(dice, 8)
    if way == 0 or s.sums[SHEETS] == 1 and way < 3:
        for _ in range(1 + roll(dice, 2)):
            if s.sums[SHEETS] > 0:
                close_sheet(s, g, sheet_to_ruin(s, dice))
        return
    aim = s.sums[LEFT] + 1 + roll(dice, most)
    for _ in range(1 + roll(dice, 3)):
        if s.sums[SHEETS] == 0:
            return
        place = sheet_to_ruin(s, dice)
        root = s.roots[place]
        for _ in range(2 + roll(dice, 3)):
            if s.sums[LEFT] >= aim or s.tree[root, KIND] == FREE:
                break
            node = root
            while s.tree[node, FIRST] >= 0 and (node == root or roll(dice, 5) < 3):
                node = random_child(s, node, dice)
            if s.tree[node, KIND] != FREE:
                take_out(s, node)
        if s.tree[root, KIND] == FREE:
            close_sheet(s, g, place)


@compiled
def random_child(s, node, dice):
    chosen, seen = -1, 0
    child = s.tree[node, FIRST]
    while child >= 0:
        seen += 1
        if roll(dice, seen) == 0:
            chosen = child
        child = s.tree[child, NEXT]
    return chosen


@compiled
def copy(source, target):
    high = source.sums[NODES]
    target.tree[:high] = source.tree[:high]
    target.sums[:] = source.sums
    target.where[:] = source.where
    target.left[: source.sums[LEFT]] = source.left[: source.sums[LEFT]]
    count = source.sums[SHEETS]
    target.roots[:count] = source.roots[:count]
    target.stock_of[:count] = source.stock_of[:count]
    target.used[:] = source.used


@compiled
def burden(s, g):
    """How far from done: the area left out, in sheets of fair size; less, the more the waste lies together."""
    out = 0.0
    for k in range(s.sums[LEFT]):
        item = s.left[k]
        out += float(g.items[item, 0]) * float(g.items[item, 1])
    together = 0.0
    for node in range(s.sums[NODES]):
        if s.tree[node, KIND] == FREE:
            share = float(s.tree[node, WIDE]) * float(s.tree[node, HIGH]) / g.fair
            together += share * np.sqrt(share)
    return out / g.fair - 0.02 * together


@compiled
def shrink(s, g, budget, dice):
    """Close sheets until the budget is kept."""
    while s.sums[COST] > budget and s.sums[SHEETS] > 0:
        close_sheet(s, g, sheet_to_ruin(s, dice))


@compiled
def mark_of(s, g, place):
    """A number for what a sheet holds, whatever the order; its free area."""
    root = s.roots[place]
    mark = (s.stock_of[place] + 1) * 6364136223846793005
    free = 0.0
    at = root
    while True:
        if s.tree[at, KIND] == FREE:
            free += float(s.tree[at, WIDE]) * float(s.tree[at, HIGH])
        elif s.tree[at, KIND] == PIECE:
            mark += g.marks[s.tree[at, ITEM]]
        at = after(s, at, root)
        if at < 0:
            return mark, free


@entry
def write_down(s, pool, root, at_spot):
    """Where the pieces of a sheet lie, into `pool.spots`; the next free spot."""
    at = root
    pool.corners[root, 0], pool.corners[root, 1] = 0, 0
    while True:
        if s.tree[at, KIND] == PIECE:
            pool.spots[at_spot, 0], pool.spots[at_spot, 1] = s.tree[at, ITEM], pool.corners[at, 0]
            pool.spots[at_spot, 2], pool.spots[at_spot, 3] = pool.corners[at, 1], s.tree[at, TURNED]
            at_spot += 1
        down = s.tree[at, FIRST]
        if down >= 0:
            pool.corners[down, 0], pool.corners[down, 1] = pool.corners[at, 0], pool.corners[at, 1]
            at = down
            continue
        while at != root and s.tree[at, NEXT] < 0:
            at = s.tree[at, UP]
        if at == root:
            return at_spot
        beside = s.tree[at, NEXT]
        across = s.tree[s.tree[at, UP], KIND] == SIDE_BY_SIDE
        pool.corners[beside, 0] = pool.corners[at, 0] + (s.tree[at, WIDE] if across else 0)
        pool.corners[beside, 1] = pool.corners[at, 1] + (0 if across else s.tree[at, HIGH])
        at = beside


@compiled
def remember(s, g, pool, slack):
    """Keep the fillings that a layout within the budget can hold: those that waste no more than it may waste in all."""
    for place in range(s.sums[SHEETS]):
        if pool.counts[0] >= len(pool.stocks) or pool.counts[1] + len(s.where) > len(pool.spots):
            return
        stock = s.stock_of[place]
        mark, free = mark_of(s, g, place)
        area = float(g.sizes[stock, 0]) * float(g.sizes[stock, 1])
        if float(g.sizes[stock, 2]) - g.rate * (area - free) > slack:
            continue
        slot = (mark ^ (mark >> 31)) % len(pool.table)
        while pool.table[slot] != 0 and pool.table[slot] != mark:
            slot = (slot + 1) % len(pool.table)
        if pool.table[slot] == mark:
            continue
        pool.table[slot] = mark
        k = pool.counts[0]
        pool.stocks[k] = stock
        pool.counts[1] = write_down(s, pool, s.roots[place], pool.counts[1])
        pool.counts[0] = k + 1
        pool.starts[k + 1] = pool.counts[1]


@entry
def search(now, trial, best, g, pool, dice, numbers, most, blink, heat, span, needed):
    """Ruin and fill until the work is done or nothing cheaper can be; `numbers`: budget, bound, step, work left, steps."""
    budget, bound, step, work = numbers[0], numbers[1], numbers[2], numbers[3]
    shrink(now, g, budget, dice)
    current = burden(now, g)
    turn = numbers[4]
    swapped = False
    while work > 0 and budget >= bound:
        copy(now, trial)
        ruin(trial, g, dice, most)
        work -= fill(trial, g, roll(dice, len(g.ranks)), budget, dice, blink, roll(dice, 8) < STRIPS)
        work -= trial.sums[NODES] // 4 + OVERHEAD
        value = burden(trial, g)
        cool = 1.0 - float(turn % span) / span
        done = trial.sums[LEFT] == 0
        if done or value <= current + heat * cool * cool * roll(dice, 1024) / 1024.0:
            now, trial = trial, now
            swapped = not swapped
            current = value
            remember(now, g, pool, float(min(budget, now.sums[COST])) - g.rate * needed + 1e-6 * g.rate * g.fair)
        if done:
            copy(now, best)
            budget = now.sums[COST] - step
            numbers[5] += 1
            shrink(now, g, budget, dice)
            current = burden(now, g)
            turn = 0
        turn += 1
    if swapped:
        copy(now, trial)
    numbers[0], numbers[3], numbers[4] = budget, work, turn
