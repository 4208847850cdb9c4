"""Every row names its source, and the numbers are those of the published tables."""

from __future__ import annotations

from fractions import Fraction

import pytest

from planbuild.core.tables import row, rows


@pytest.mark.parametrize("name", ["species", "thickness", "practice", "workshop"])
def test_each_row_has_a_source(name: str) -> None:
    assert rows(name)
    assert all(each["source"].strip() for each in rows(name))


def test_white_ash() -> None:
    """Wood Handbook: GTR-282 Table 5-3 (0.60, 1320 lbf), GTR-190 Table 13-5 (0.00169, 0.00274)."""
    ash = row("species", "name", "white ash")
    assert ash is not None
    assert (float(ash["specific_gravity"]), float(ash["c_radial"]), float(ash["c_tangential"])) == (0.60, 0.00169, 0.00274)
    assert float(ash["hardness_n"]) == pytest.approx(1320 * 4.448, rel=0.01)


def test_coefficients_follow_from_shrinkage() -> None:
    """C = (S/30) / (100 - 2S/3) reproduces Table 13-5 from Table 4-3; white oak tangential 10.5 % gives 0.00365 (GTR-190)."""
    for each in rows("species"):
        if "c_tangential" in each["derived"].split():
            shrinkage = float(each["shrink_tangential_pct"])
            assert float(each["c_tangential"]) == pytest.approx(shrinkage / 30 / (100 - 2 * shrinkage / 3), abs=0.000006)


@pytest.mark.parametrize(
    ("quarters", "finished"),
    [("4/4", Fraction(13, 16)), ("5/4", Fraction(17, 16)), ("6/4", Fraction(21, 16)), ("8/4", Fraction(7, 4))],
)
def test_surfaced_thickness(quarters: str, finished: Fraction) -> None:
    """NHLA surfaced (two sides) thickness of hardwood lumber."""
    found = row("thickness", "quarters", quarters)
    assert found is not None
    whole, _, part = found["finished_in"].partition("-")
    assert (Fraction(whole) + Fraction(part) if part else Fraction(whole)) == finished


@pytest.mark.parametrize(("table", "column"), [("joints", "name"), ("practice", "name"), ("cautions", "key")])
def test_no_row_is_there_twice(table: str, column: str) -> None:
    names = [row[column] for row in rows(table)]
    assert len(set(names)) == len(names)
