"""Scales of part sheets: the standard series, the largest that fits.

Metric sheets: ISO 5455.  Inch sheets: double, full, half and so on by halves (shop custom; 3 in = 1 ft is quarter
size).
"""

from __future__ import annotations

from fractions import Fraction

from planbuild.core.units import Unit

_INCH = tuple(Fraction(*each) for each in ((2, 1), (1, 1), (1, 2), (1, 4), (1, 8), (1, 16), (1, 32), (1, 64)))
_METRIC = tuple(Fraction(*each) for each in ((2, 1), (1, 1), (1, 2), (1, 5), (1, 10), (1, 20), (1, 50), (1, 100)))


def series(unit: Unit) -> tuple[Fraction, ...]:
    """The scales of a unit's rulers, the largest first."""
    return _INCH if unit is Unit.INCH else _METRIC


def scale_text(scale: Fraction) -> str:
    """`1:4`, `2:1`."""
    return f"{scale.numerator}:{scale.denominator}"
