"""Movement of wood by the published equations, against worked examples that others printed."""

from __future__ import annotations

import pytest

from planbuild.core.seasons import change, wide_change


def test_worked_examples() -> None:
    """Wood Handbook, equation 13-2, as worked in print: mesquite 5 in wide, C 0.00129, 6 to 9 %: 0.019 in; and red alder
    flat sawn 8 in wide, 0.0026, 6 points: 0.1248 in (a magazine's chart of 2021)."""
    assert change(5, 0.00129, 6, 9) == pytest.approx(0.019, abs=0.0005)
    assert change(8, 0.0026, 6, 12) == pytest.approx(0.1248)


def test_drying_is_shrinking() -> None:
    assert change(300, 0.00274, 11, 6) == -change(300, 0.00274, 6, 11) < 0


@pytest.mark.parametrize(("shrinkage", "coefficient"), [(7.8, 0.00274), (10.5, 0.00376), (4.9, 0.00169)])
def test_both_equations_agree_in_the_middle(shrinkage: float, coefficient: float) -> None:
    """The coefficients refer to the size at 10 % moisture; about there the two equations give one answer."""
    assert wide_change(100, shrinkage, 10, 12) == pytest.approx(change(100, coefficient, 10, 12), rel=0.005)


def test_green_to_dry_is_the_whole_shrinkage() -> None:
    assert wide_change(100, 7.8, 30, 0) == pytest.approx(-7.8)


def test_above_saturation_nothing_moves() -> None:
    assert wide_change(100, 7.8, 30, 80) == 0
