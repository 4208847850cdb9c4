"""Moisture that wood settles to, against the printed table of the Wood Handbook (FPL-GTR-282, 2021), table 4-2.

122 of its cells: temperature in F, relative humidity in %, moisture content in %; the table gives one decimal.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from planbuild.core.moisture import settled_moisture


def _table() -> list[tuple[float, float, float]]:
    rows = csv.reader((Path(__file__).parent / "moisture_in_air.csv").read_text("utf-8").splitlines()[1:])
    return [(float(f), float(humidity), float(moisture)) for f, humidity, moisture in rows]


@pytest.mark.parametrize(("fahrenheit", "humidity", "moisture"), _table())
def test_it_is_that_of_the_table(fahrenheit: float, humidity: float, moisture: float) -> None:
    assert settled_moisture(humidity, (fahrenheit - 32) / 1.8) == pytest.approx(moisture, abs=0.1)


def test_damper_air_makes_damper_wood_and_warmer_air_drier_wood() -> None:
    assert settled_moisture(30, 20) < settled_moisture(60, 20) < settled_moisture(90, 20)
    assert settled_moisture(60, 35) < settled_moisture(60, 20)
