"""Scales against the standard series."""

from fractions import Fraction

from planbuild.core.units import Unit
from planbuild.derive.sheets.scales import scale_text, series

ISO_5455 = {Fraction(n) for n in (50, 20, 10, 5, 2, 1)} | {Fraction(1, n) for n in (2, 5, 10, 20, 50, 100)}
"""ISO 5455:1979: enlarging 50:1 to 2:1, full size, reducing 1:2 to 1:100 (as far as furniture goes)."""
SHOP = {Fraction(2), Fraction(1), *(Fraction(1, n) for n in (2, 4, 8, 16, 32, 64))}
"""Double, full, half, quarter (3 in = 1 ft) and so on by halves: shop custom."""


def test_metric_scales_are_those_of_the_standard() -> None:
    assert set(series(Unit.MM)) <= ISO_5455


def test_inch_scales_are_those_of_the_shop() -> None:
    assert set(series(Unit.INCH)) == SHOP


def test_largest_first_and_as_printed() -> None:
    for unit in Unit:
        assert list(series(unit)) == sorted(series(unit), reverse=True)
    assert [scale_text(each) for each in series(Unit.MM)] == ["2:1", "1:1", "1:2", "1:5", "1:10", "1:20", "1:50", "1:100"]
