"""The cuts of a sheet in the order in which they are made, and its offcuts, from where its pieces lie."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from planbuild.cutting.model import Cut, Offcut, Placed, Problem, Sheet, Stock, Way

Box = tuple[int, int, int, int]
"""Low x, low y, high x, high y."""


@dataclass
class Sawing:
    """What has been sawn so far."""

    kerf: int
    crosscuts_first: bool
    cuts: list[Cut] = field(default_factory=list)
    offcuts: list[Offcut] = field(default_factory=list)

    def saw(self, box: Box, axis: int, at: int) -> None:
        """A cut square to `axis` (0: x) through a box; none where it lies at its edge."""
        if box[axis] < at + self.kerf and at < box[axis + 2]:
            self.cuts.append(Cut(len(self.cuts) + 1, axis == 0, at, box[1 - axis], box[3 - axis]))

    def leave(self, box: Box) -> None:
        if box[2] > box[0] and box[3] > box[1]:
            self.offcuts.append(Offcut(box[0], box[1], box[2] - box[0], box[3] - box[1]))


def size_of(problem: Problem, piece: Placed) -> tuple[int, int]:
    item = problem.items[piece.item]
    if problem.way is Way.STICKS:
        return item.length, 1
    return (item.width, item.length) if piece.turned else (item.length, item.width)


def sawn(problem: Problem, stock: Stock, index: int, pieces: tuple[Placed, ...]) -> Sheet:
    """The sheet with its cuts; the edges are trimmed first."""
    sawing = Sawing(problem.kerf, problem.way is not Way.SHEETS)
    wide = 1 if problem.way is Way.STICKS else stock.width
    trim_y = 0 if problem.way is Way.STICKS else problem.trim
    whole: Box = (0, 0, stock.length, wide)
    inner: Box = (problem.trim, trim_y, stock.length - problem.trim, wide - trim_y)
    for axis in (1, 0):
        if inner[axis] > 0:
            sawing.saw(whole, axis, inner[axis] - problem.kerf)
            whole = with_side(whole, axis, inner[axis])
            sawing.saw(whole, axis, inner[axis + 2])
            whole = with_side(whole, axis + 2, inner[axis + 2])
    boxes = [(piece.x, piece.y, piece.x + size_of(problem, piece)[0], piece.y + size_of(problem, piece)[1]) for piece in pieces]
    divide(sawing, inner, boxes)
    return Sheet(index, pieces, tuple(sawing.cuts), tuple(sawing.offcuts))


def with_side(box: Box, side: int, value: int) -> Box:
    low_x, low_y, high_x, high_y = (value if k == side else old for k, old in enumerate(box))
    return low_x, low_y, high_x, high_y


def divide(sawing: Sawing, box: Box, pieces: list[Box]) -> None:
    """Cut a box into its pieces: as many parts as one direction gives, then each part."""
    if not pieces:
        sawing.leave(box)
        return
    if pieces == [box]:
        return
    axis = direction(sawing, box, pieces)
    low, parts = box[axis], []
    for group in groups(pieces, axis, sawing.kerf):
        begin, end = min(piece[axis] for piece in group), max(piece[axis + 2] for piece in group)
        if begin > low:
            sawing.saw(with_side(box, axis, low), axis, begin - sawing.kerf)
            sawing.leave(with_side(with_side(box, axis, low), axis + 2, begin - sawing.kerf))
        if end < box[axis + 2]:
            sawing.saw(with_side(box, axis, begin), axis, end)
        parts.append((with_side(with_side(box, axis, begin), axis + 2, end), group))
        low = end + sawing.kerf
    sawing.leave(with_side(box, axis, low))
    for part, group in parts:
        divide(sawing, part, group)


def direction(sawing: Sawing, box: Box, pieces: list[Box]) -> int:
    """The axis that parts the pieces, or else that has something to cut off."""
    order = (0, 1) if sawing.crosscuts_first else (1, 0)
    counts = [sum(1 for _ in groups(pieces, axis, sawing.kerf)) for axis in (0, 1)]
    for axis in order:
        if counts[axis] > 1:
            return axis
    for axis in order:
        if min(p[axis] for p in pieces) > box[axis] or max(p[axis + 2] for p in pieces) < box[axis + 2]:
            return axis
    raise ValueError("these pieces cannot be parted by cuts from edge to edge")


def groups(pieces: list[Box], axis: int, kerf: int) -> Iterator[list[Box]]:
    """Pieces between which no cut square to an axis can pass."""
    group: list[Box] = []
    end = 0
    for piece in sorted(pieces, key=lambda p: (p[axis], p)):
        if group and piece[axis] >= end + kerf:
            yield group
            group = []
        end = max(end, piece[axis + 2]) if group else piece[axis + 2]
        group.append(piece)
    if group:
        yield group
