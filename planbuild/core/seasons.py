"""How much wood moves across its grain between two moisture contents."""

from __future__ import annotations

LINEAR = (6.0, 14.0)
"""Moisture contents (%) between which the published coefficients hold."""

SATURATED = 30.0
"""Moisture content (%) beyond which wood swells no more; assumed for most woods (Wood Handbook, chapter 13)."""


def change(size: float, coefficient: float, before: float, after: float) -> float:
    """What is added to a size; less than 0 where wood dries.  Units: of `size`; moisture contents in %.

    Source: Wood Handbook (USDA Forest Products Laboratory), equation 13-2, valid from 6 to 14 %.
    """
    return size * coefficient * (after - before)


def wide_change(size: float, shrinkage: float, before: float, after: float) -> float:
    """The same for moisture contents outside 6 to 14 %, from what the wood shrinks from green to dry (%).

    Source: Wood Handbook (USDA Forest Products Laboratory), equation 13-3 (from memory); none above 30 %.
    """
    start, end = min(before, SATURATED), min(after, SATURATED)
    return size * (end - start) / (SATURATED * 100 / shrinkage - SATURATED + start)
