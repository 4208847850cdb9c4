"""Sag of beams, against numerical integration and a textbook's worked example."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import cumulative_trapezoid

from planbuild.core.beams import inertia, sag_even, sag_middle

SPAN, STIFFNESS = 900.0, 12000.0 * inertia(280.0, 19.0)


def integrated(moment: np.ndarray, x: np.ndarray) -> float:
    """E I y'' = -M twice integrated, the line through both supports taken off: the sag in the middle."""
    slope = cumulative_trapezoid(moment / STIFFNESS, x, initial=0)
    line = cumulative_trapezoid(slope, x, initial=0)
    return float((line[-1] * x / x[-1] - line)[len(x) // 2])


def test_even_load() -> None:
    load, x = 300.0, np.linspace(0, SPAN, 4001)
    moment = load / SPAN * x * (SPAN - x) / 2
    assert sag_even(load, SPAN, STIFFNESS) == pytest.approx(integrated(moment, x), rel=1e-5)


def test_load_in_the_middle() -> None:
    load, x = 300.0, np.linspace(0, SPAN, 4001)
    moment = load / 2 * np.minimum(x, SPAN - x)
    assert sag_middle(load, SPAN, STIFFNESS) == pytest.approx(integrated(moment, x), rel=1e-5)


def test_by_hand() -> None:
    """A shelf 3/4 by 10 by 36 in of 1.8 million psi under 25 lb a foot: 5 x 75 x 36^3 / (384 x 1.8e6 x 0.3516) = 0.0720 in."""
    section = inertia(254.0, 19.05)
    assert section / 25.4**4 == pytest.approx(10 * 0.75**3 / 12)
    assert sag_even(75 * 4.44822, 36 * 25.4, 1.8e6 * 0.00689476 * section) / 25.4 == pytest.approx(0.0720, abs=0.0002)


def test_twice_as_thick_bends_an_eighth() -> None:
    assert sag_even(1, SPAN, 12000 * inertia(280, 38)) == pytest.approx(sag_even(1, SPAN, STIFFNESS) / 8)
