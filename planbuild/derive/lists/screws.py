"""Drills by the names under which they are sold."""

from __future__ import annotations

from fractions import Fraction

from planbuild.core.units import Ruler, Unit


def drill_text(size: float, ruler: Ruler) -> str:
    """By sixty-fourths of an inch or half millimetres, whatever the plan rounds to.  Units: mm in."""
    step = Fraction(1, 64) if ruler.unit is Unit.INCH else Fraction(1, 2)
    return Ruler(ruler.unit, step).printed(size)
