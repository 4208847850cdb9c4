"""Blocks of a sheet in rows, from left to right, and the small picture in what room is left.  Units: paper mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from planbuild.derive.sheets.block import Block
from planbuild.derive.sheets.picture import Hand, has_room, picture

_GAP, _ROW_GAP = 6.0, 6.0
_WIDEST, _HIGHEST = 60.0, 62.0
"""Of the small picture."""


@dataclass(frozen=True)
class Rows:
    """`rows` of blocks on a page of that `width`."""

    rows: tuple[tuple[Block, ...], ...]
    width: float

    @property
    def height(self) -> float:
        return sum(self._heights) + _ROW_GAP * (len(self.rows) - 1)

    @property
    def _heights(self) -> list[float]:
        return [max(block.height for block in row) for row in self.rows]

    @property
    def _tops(self) -> list[float]:
        return list(accumulate((height + _ROW_GAP for height in self._heights[:-1]), initial=0.0))

    def placed(self, hands: tuple[Hand, ...], scale: float) -> tuple[Block, ...]:
        """Each block at its place, and the picture of the part, no larger than at `scale`, where there is most room."""
        found: list[Block] = []
        for row, top in zip(self.rows, self._tops, strict=True):
            left = 0.0
            for block in row:
                found.append(block.at(left, top))
                left += block.width + _GAP
        room, height, top = self._widest_space
        small = picture(hands, min(room, _WIDEST), min(height, _HIGHEST), scale)
        if small is not None:
            found.append(small.at(self.width - small.width, top + (height - small.height) / 2))
        return tuple(found)

    def shows(self, hands: tuple[Hand, ...]) -> bool:
        """True if there is room for the picture."""
        room, height, _ = self._widest_space
        return has_room(hands, min(room, _WIDEST), min(height, _HIGHEST))

    @property
    def _widest_space(self) -> tuple[float, float, float]:
        """Width, height and top of the widest space right of the blocks of a row."""
        used = (sum(block.width + _GAP for block in row) for row in self.rows)
        spaces = zip((self.width - each for each in used), self._heights, self._tops, strict=True)
        return max(spaces, key=lambda space: space[0])


def in_rows(blocks: Sequence[Block], width: float) -> Rows:
    """A new row where the next block does not fit."""
    rows: list[list[Block]] = [[]]
    for block in blocks:
        used = sum(each.width + _GAP for each in rows[-1])
        if rows[-1] and used + block.width > width:
            rows.append([])
        rows[-1].append(block)
    return Rows(tuple(tuple(row) for row in rows), width)
