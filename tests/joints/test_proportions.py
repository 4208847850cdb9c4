"""Trade proportions: every row can be read, and says why and whence."""

from __future__ import annotations

from dataclasses import replace

import pytest
from boards_by_hand import INCH, RULER, STOCK, site

from planbuild.core.tables import rows
from planbuild.core.units import Unit
from planbuild.joints.proportions import length_rule, movement_coefficient, nearest_chisel, rule


def test_every_rule_has_a_reason_and_a_source() -> None:
    for each in rows("joints"):
        assert rule(each["name"], RULER).value > 0
        assert each["reason"] and each["source"]


def test_lengths_are_round_in_either_unit() -> None:
    metric = replace(RULER, unit=Unit.MM)
    assert length_rule("button_length", RULER) == pytest.approx(1.75 * INCH)
    assert length_rule("button_length", metric) == 45.0


def test_nearest_chisel() -> None:
    practice = site().practice
    assert nearest_chisel(INCH / 3, practice) == pytest.approx(3 / 8 * INCH)
    assert nearest_chisel(0.26 * INCH, practice) == pytest.approx(INCH / 4)
    assert nearest_chisel(7 / 16 * INCH, practice) == pytest.approx(3 / 8 * INCH)


def test_movement_by_how_the_board_is_cut() -> None:
    """Wood Handbook Table 13-5, white ash: radial 0.00169, tangential 0.00274."""
    ash = STOCK["top_ash"]
    assert movement_coefficient(ash) == 0.00274
    assert movement_coefficient(replace(ash, cut="quarter")) == 0.00169
    assert movement_coefficient(replace(ash, cut="rift")) == pytest.approx((0.00169 + 0.00274) / 2)
    assert movement_coefficient(replace(ash, species="unknown wood")) is None
