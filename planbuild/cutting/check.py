"""A layout looked over by itself: written from the rules of cutting alone, it shares nothing with the search."""

from __future__ import annotations

from collections import Counter

from planbuild.cutting.model import Layout, Problem, Sheet, Verdict, Way

Rect = tuple[int, int, int, int]
"""x, y, length, width."""


def complaints(problem: Problem, layout: Layout) -> list[str]:
    """All that is wrong with a layout; nothing for one that holds, and for answers without one."""
    if layout.verdict in (Verdict.NOT_FOUND, Verdict.IMPOSSIBLE):
        return ["an answer without a layout has sheets"] if layout.sheets else []
    faults = counted(problem, layout) + priced(problem, layout)
    for number, sheet in enumerate(layout.sheets, 1):
        faults += [f"sheet {number}: {fault}" for fault in on_a_sheet(problem, sheet)]
    return faults


def counted(problem: Problem, layout: Layout) -> list[str]:
    """Every piece just as often as asked, every stock no more often than there is."""
    cut = Counter(piece.item for sheet in layout.sheets for piece in sheet.pieces)
    faults = [f"item {k}: {cut[k]} of {item.count}" for k, item in enumerate(problem.items) if cut[k] != item.count]
    taken = Counter(sheet.stock for sheet in layout.sheets)
    for k, stock in enumerate(problem.stocks):
        if stock.copies is not None and taken[k] > stock.copies:
            faults.append(f"stock {k}: {taken[k]} used, {stock.copies} on hand")
    return faults


def priced(problem: Problem, layout: Layout) -> list[str]:
    total = sum(problem.stocks[sheet.stock].cost for sheet in layout.sheets)
    faults = [] if abs(total - layout.value) < 1e-6 else [f"value {layout.value} instead of {total}"]
    if layout.value < layout.bound - 1e-6:
        faults.append(f"value {layout.value} below the bound {layout.bound}")
    if (layout.verdict is Verdict.OPTIMAL) != (abs(layout.value - layout.bound) < 1e-6):
        faults.append(f"{layout.verdict.value} with value {layout.value} and bound {layout.bound}")
    return faults


def rects_of(problem: Problem, sheet: Sheet) -> list[Rect]:
    rects = []
    for piece in sheet.pieces:
        item = problem.items[piece.item]
        length, width = item.length, 1 if problem.way is Way.STICKS else item.width
        rects.append((piece.x, piece.y, width, length) if piece.turned else (piece.x, piece.y, length, width))
    return rects


def on_a_sheet(problem: Problem, sheet: Sheet) -> list[str]:
    stock, kerf = problem.stocks[sheet.stock], problem.kerf
    rects = rects_of(problem, sheet)
    edge_y, width = (0, 1) if problem.way is Way.STICKS else (problem.trim, stock.width)
    faults = []
    for piece, (x, y, length, across) in zip(sheet.pieces, rects, strict=True):
        if piece.turned and not problem.items[piece.item].turn:
            faults.append(f"item {piece.item} is turned")
        if min(x - problem.trim, y - edge_y, stock.length - problem.trim - x - length, width - edge_y - y - across) < 0:
            faults.append(f"item {piece.item} leaves the sheet")
        for flaw in stock.flaws if problem.way is Way.BOARDS else ():
            if x < flaw.x + flaw.length and flaw.x < x + length and y < flaw.y + flaw.width and flaw.y < y + across:
                faults.append(f"item {piece.item} lies on a flaw")
    for one in range(len(rects)):
        faults += [f"pieces {one} and {other} are too near" for other in range(one) if not apart(rects[one], rects[other], kerf)]
    if faults:
        return faults
    if not can_be_cut(rects, kerf):
        return ["no cuts from edge to edge part the pieces"]
    if problem.way is Way.BOARDS and not in_three_stages(rects, kerf):
        faults.append("not crosscut, ripped and cut to length")
    return faults + sawn_as_told(problem, sheet, rects)


def apart(a: Rect, b: Rect, kerf: int) -> bool:
    """Is there room for the saw between two pieces, one way or the other?"""
    return any(a[k] + a[k + 2] + kerf <= b[k] or b[k] + b[k + 2] + kerf <= a[k] for k in (0, 1))


def parted(rects: list[Rect], axis: int, kerf: int) -> tuple[list[Rect], list[Rect]] | None:
    """Two sides of some cut square to an axis."""
    for line in sorted({rect[axis] + rect[axis + 2] for rect in rects}):
        low = [rect for rect in rects if rect[axis] + rect[axis + 2] <= line]
        high = [rect for rect in rects if rect[axis] >= line + kerf]
        if high and len(low) + len(high) == len(rects):
            return low, high
    return None


def can_be_cut(rects: list[Rect], kerf: int) -> bool:
    """Whatever cut comes first, its two sides can be cut if the whole can: so the first that is found will do."""
    todo = [rects]
    while todo:
        some = todo.pop()
        if len(some) < 2:
            continue
        sides = parted(some, 0, kerf) or parted(some, 1, kerf)
        if sides is None:
            return False
        todo += sides
    return True


def all_parts(rects: list[Rect], axis: int, kerf: int) -> list[list[Rect]]:
    sides = parted(rects, axis, kerf)
    return [rects] if sides is None else all_parts(sides[0], axis, kerf) + all_parts(sides[1], axis, kerf)


def in_three_stages(rects: list[Rect], kerf: int) -> bool:
    """Sections by crosscuts, strips by rips, and in a strip one piece beside the other, all of its width."""
    for part in all_parts(rects, 0, kerf):
        for strip in all_parts(part, 1, kerf):
            ends = all_parts(strip, 0, kerf)
            if any(len(end) > 1 for end in ends) or len({rect[3] for rect in strip}) > 1:
                return False
    return True


def sawn_as_told(problem: Problem, sheet: Sheet, rects: list[Rect]) -> list[str]:
    """Make the cuts one by one: each must run from edge to edge of a part; in the end every piece is a part by itself."""
    stock = problem.stocks[sheet.stock]
    parts: list[Rect] = [(0, 0, stock.length, 1 if problem.way is Way.STICKS else stock.width)]
    if [cut.order for cut in sheet.cuts] != list(range(1, len(sheet.cuts) + 1)):
        return ["cuts are out of order"]
    for cut in sheet.cuts:
        axis = 0 if cut.across else 1
        whole = [
            part
            for part in parts
            if part[1 - axis] == cut.start
            and part[1 - axis] + part[3 - axis] == cut.end
            and part[axis] < cut.at + max(problem.kerf, 1)
            and cut.at < part[axis] + part[axis + 2]
        ]
        if len(whole) != 1:
            return [f"cut {cut.order} does not run from edge to edge"]
        part = whole[0]
        parts.remove(part)
        low, high = part[axis], part[axis] + part[axis + 2]
        for begin, end in ((low, cut.at), (cut.at + problem.kerf, high)):
            if end > begin:
                parts.append((begin, part[1], end - begin, part[3]) if axis == 0 else (part[0], begin, part[2], end - begin))
    missing = Counter(rects) - Counter(parts)
    offcuts = Counter((o.x, o.y, o.length, o.width) for o in sheet.offcuts) - Counter(parts)
    return ["after all cuts a piece is not by itself"] * bool(missing) + ["an offcut is not left by the cuts"] * bool(offcuts)
