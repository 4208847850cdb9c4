"""Rows of holes for shelf pins: the pitch may be told once for the row, with how many holes there are.

Written from the features alone.  Units: mm, positions in the frame of the piece.
"""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis
from planbuild.records.features import Hole
from planbuild.records.piece import Part

Stretch = tuple[float, float]


@dataclass(frozen=True)
class Steps:
    """`spans` lead from one hole of a row to its neighbours, `count` is how many holes the row has."""

    spans: tuple[Stretch, ...]
    count: int


def steps_of(part: Part, hole: Hole, axis: Axis) -> Steps | None:
    """None if the hole does not stand in a row of three or more with equal steps."""
    if hole.purpose != "pin":
        return None
    row = [each for each in part.features if isinstance(each, Hole) and _key(each, axis) == _key(hole, axis)]
    places = sorted(each.centre[axis.value] for each in row)
    gaps = [high - low for low, high in zip(places, places[1:], strict=False)]
    if len(places) < 3 or max(gaps) > min(gaps) + TINY:
        return None
    here = hole.centre[axis.value]
    spans = tuple((low, high) for low, high in zip(places, places[1:], strict=False) if here in (low, high))
    return Steps(spans, len(places))


def _key(hole: Hole, axis: Axis) -> tuple[object, ...]:
    across = tuple(round(hole.centre[each.value], 2) for each in Axis if each is not axis)
    return hole.purpose, hole.joint, hole.face, round(hole.diameter, 2), hole.depth, across
