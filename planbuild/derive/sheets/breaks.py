"""A long part with its dull stretches taken out, so that the rest can be drawn larger; its figures stay true.

Units: model mm along the view (u), until `paper` of the pane.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

Stretch = tuple[float, float]
BREAK_GAP = 4.0
"""Paper mm between the two break lines."""
_ALIKE = 0.02
CLOSE = 12


@dataclass(frozen=True)
class Squeeze:
    """`kept` are the stretches that are drawn, in order; `gap` is what stands for each one left out."""

    kept: tuple[Stretch, ...]
    gap: float = 0.0

    def __call__(self, u: float) -> float:
        """Where a place of the part is drawn; a place in a stretch left out lies at its edge."""
        drawn = self.kept[0][0]
        for index, (low, high) in enumerate(self.kept):
            if u <= high or index == len(self.kept) - 1:
                return drawn + (max(u, low) - low if index else u - low)
            drawn += high - low + self.gap
        raise AssertionError("a squeeze keeps at least one stretch")

    @property
    def breaks(self) -> tuple[Stretch, ...]:
        """The stretches left out."""
        return tuple((left[1], right[0]) for left, right in pairwise(self.kept))

    @property
    def length(self) -> float:
        """Of the drawing, in model mm."""
        return self(self.kept[-1][1]) - self.kept[0][0]


def whole(low: float, high: float) -> Squeeze:
    return Squeeze(((low, high),))


def squeezed(low: float, high: float, busy: Iterable[float], margin: float, room: float, gap: float) -> Squeeze | None:
    """The part from `low` to `high` drawn in `room` by leaving out dull stretches; None if there is not enough of them.

    Dull is what lies farther than `margin` from every busy place.  As few stretches are broken as will do,
    equal ones together so that a symmetrical part stays so (a heuristic).
    """
    if high - low <= room:
        return whole(low, high)
    dull = _dull(low, high, busy, margin)
    taken: list[Stretch] = []
    for group in _groups(dull):
        taken = sorted([*taken, *group])
        excess = high - low - room + gap * len(taken)
        share = excess / sum(b - a for a, b in taken)
        if share <= 1:
            return _without(low, high, [_middle(each, share) for each in taken], gap)
    return None


def all_busy(stretch: Stretch) -> list[float]:
    """Places in a stretch, so close to each other that nothing is left out between them."""
    low, high = stretch
    return [low + (high - low) * step / CLOSE for step in range(CLOSE + 1)]


def _dull(low: float, high: float, busy: Iterable[float], margin: float) -> list[Stretch]:
    places = sorted({low, high, *busy})
    return [(a + margin, b - margin) for a, b in pairwise(places) if b - a > 2 * margin]


def _groups(dull: Sequence[Stretch]) -> list[list[Stretch]]:
    """The longest first, those of one length together."""
    found: list[list[Stretch]] = []
    for each in sorted(dull, key=lambda s: (-round(s[1] - s[0], 1), s)):
        length = each[1] - each[0]
        if found and abs(found[-1][0][1] - found[-1][0][0] - length) <= _ALIKE * length:
            found[-1].append(each)
        else:
            found.append([each])
    return found


def _middle(stretch: Stretch, share: float) -> Stretch:
    middle, half = (stretch[0] + stretch[1]) / 2, (stretch[1] - stretch[0]) / 2 * share
    return middle - half, middle + half


def _without(low: float, high: float, cuts: Sequence[Stretch], gap: float) -> Squeeze:
    edges = [low, *(end for cut in cuts for end in cut), high]
    return Squeeze(tuple(zip(edges[::2], edges[1::2], strict=True)), gap)
