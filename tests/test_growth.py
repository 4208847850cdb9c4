"""The time from a file to proved solids grows no faster than boards^1.2 (the aim set for this program)."""

from __future__ import annotations

import pytest

from tests.benchmarks.growth import SIZES, exponent, measured


@pytest.mark.slow
def test_time_grows_hardly_faster_than_the_number_of_boards() -> None:
    measured(2, 1)  # loads the kernel
    found = [measured(*size) for size in SIZES]
    assert [(boards, places) for boards, places, _ in found] == [(48, 72), (96, 144), (200, 300), (400, 600)]
    assert exponent(found) <= 1.2, found
