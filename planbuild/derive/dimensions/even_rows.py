"""Rows of like holes at one pitch, as for shelf pins: the first is measured from the datum, the others from hole to hole."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from planbuild.core.geometry import TINY, Axis
from planbuild.derive.dimensions.measure import Datum
from planbuild.records.features import Hole
from planbuild.records.piece import Part

_LEAST = 3
"""Holes that make a row; two are a pair."""


@dataclass(frozen=True)
class Row:
    """`holes` from the datum on, `pitch` apart along `axis`."""

    holes: tuple[Hole, ...]
    axis: Axis
    pitch: float

    def before(self, hole: Hole) -> Hole | None:
        """The hole that this one is measured from; None for the first."""
        number = self.holes.index(hole)
        return self.holes[number - 1] if number else None


def even_row(part: Part, hole: Hole, axis: Axis, datum: Datum) -> Row | None:
    """The row along `axis` in which a hole stands, if it is one of equal steps."""
    if hole.purpose != "pin":
        return None
    found = [each for each in part.features if isinstance(each, Hole) and _in_line(hole, each, axis)]
    far = datum[axis].sign
    holes = sorted(found, key=lambda each: -far * each.centre[axis.value])
    steps = [abs(b.centre[axis.value] - a.centre[axis.value]) for a, b in pairwise(holes)]
    if len(holes) < _LEAST or max(steps) - min(steps) > TINY:
        return None
    return Row(tuple(holes), axis, steps[0])


def _in_line(one: Hole, other: Hole, axis: Axis) -> bool:
    """Of the same thing, like each other, and apart along the axis only."""
    if (one.purpose, one.joint, one.face) != (other.purpose, other.joint, other.face) or not alike(one, other):
        return False
    return all(abs(one.centre[each.value] - other.centre[each.value]) <= TINY for each in Axis if each is not axis)


def alike(one: Hole, other: Hole) -> bool:
    """Bored with one setting: then one note tells both."""
    if (one.gauge, one.countersink, one.slot is None) != (other.gauge, other.countersink, other.slot is None):
        return False
    if (one.depth is None, one.counterbore is None) != (other.depth is None, other.counterbore is None):
        return False
    sizes = [(each.diameter, each.depth or 0.0, *(each.counterbore or ())) for each in (one, other)]
    return all(abs(a - b) <= TINY for a, b in zip(*sizes, strict=True))
