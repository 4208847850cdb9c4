"""`planbuild wood` as it is used at the bench and by other programs."""

from __future__ import annotations

import json
from typing import Any

import pytest
from test_cli import heavy_after

from planbuild.cli import FINDINGS, GOOD, run
from planbuild.core.diagnostics import Refused
from planbuild.wood_book import celsius, millimetres, percent

KEYS = [
    "species", "specific_gravity_12", "moe_mpa", "mor_mpa", "hardness_n", "shrink_radial_pct", "shrink_tangential_pct",
    "c_radial", "c_tangential", "sources",
]  # fmt: skip


def answered(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, Any]:
    assert run(["wood", *arguments, "--json"]) == GOOD
    told: dict[str, Any] = json.loads(capsys.readouterr().out)
    return told


def test_what_is_known_of_a_wood(capsys: pytest.CaptureFixture[str]) -> None:
    told = answered(capsys, "white ash")
    assert list(told) == KEYS
    assert (told["species"], told["specific_gravity_12"], told["c_tangential"]) == ("white ash", 0.6, 0.00274)
    assert set(told["sources"]) == set(KEYS[1:-1])


def test_the_same_in_words(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["wood", "Cherry", "--width", "12", "--from", "6%", "--to", "11%"]) == GOOD
    out = capsys.readouterr().out
    assert "black cherry, a hardwood" in out and "Table 13-5" in out and "from memory" in out
    assert "flat sawn: swells 3.8 mm (0.149 in)" in out  # 12 x 0.00248 x 5 = 0.1488


def test_air(capsys: pytest.CaptureFixture[str]) -> None:
    """Wood Handbook GTR-190, Table 4-2: 12.0 % at 70 F and 65 %, 9.2 % at 70 F and 50 %."""
    told = answered(capsys, "--air", "65%", "--at", "70F")
    assert list(told) == ["moisture_pct"] and told["moisture_pct"] == pytest.approx(12.0, abs=0.1)
    assert answered(capsys, "--air", "50 %", "--at", "21.1C")["moisture_pct"] == pytest.approx(9.2, abs=0.1)


def test_movement_in_either_unit(capsys: pytest.CaptureFixture[str]) -> None:
    inches = answered(capsys, "white ash", "--width", "12", "--from", "6%", "--to", "11%")["movement"]
    metric = answered(capsys, "white ash", "--width", "304.8 mm", "--from", "6", "--to", "11")["movement"]
    assert inches == metric
    assert inches["flat_mm"] == pytest.approx(304.8 * 0.00274 * 5, abs=1e-3)
    assert inches["quarter_mm"] == pytest.approx(304.8 * 0.00169 * 5, abs=1e-3)


def test_far_beyond_the_linear_range_the_other_equation_is_taken(capsys: pytest.CaptureFixture[str]) -> None:
    """White ash from green to dry shrinks 7.8 % (Wood Handbook GTR-190, Table 4-3)."""
    moves = answered(capsys, "white ash", "--width", "100mm", "--from", "30%", "--to", "0%")["movement"]
    assert moves["flat_mm"] == pytest.approx(-7.8)


@pytest.mark.parametrize(("typed", "near"), [("oak", "white oak"), ("chery", "black cherry"), ("wallnut", "black walnut")])
def test_an_unknown_wood_suggests_near_ones(capsys: pytest.CaptureFixture[str], typed: str, near: str) -> None:
    assert run(["wood", typed]) == FINDINGS
    told = capsys.readouterr().err
    assert "error[wood-unknown]" in told and f'"{near}"' in told


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (["ash", "--width", "12"], "wood-season"), (["--width", "12", "--from", "6%", "--to", "11%"], "wood-season"),
        (["ash", "--width", "twelve", "--from", "6%", "--to", "11%"], "wood-size"),
        (["ash", "--width", "12", "--from", "6%", "--to", "110%"], "wood-percent"),
        (["--air", "65%"], "wood-air"), (["--air", "100%", "--at", "70F"], "wood-percent"),
        (["--air", "65%", "--at", "70"], "wood-warmth"), (["--air", "65%", "--at", "500F"], "wood-warmth"),
        (["MDF", "--width", "12", "--from", "6%", "--to", "11%"], "wood-still"),
    ],
)  # fmt: skip
def test_what_cannot_be_asked(capsys: pytest.CaptureFixture[str], arguments: list[str], code: str) -> None:
    assert run(["wood", *arguments]) == FINDINGS
    assert f"error[{code}]" in capsys.readouterr().err


def test_sheets_and_the_list(capsys: pytest.CaptureFixture[str]) -> None:
    assert answered(capsys, "birch plywood")["density_kg_m3"] == 680
    listed = answered(capsys)
    assert len(listed["woods"]) >= 22 and "MDF" in listed["sheets"]


WIDTHS = {"12": 304.8, "11-1/4": 285.75, "11 1/4 in": 285.75, "300mm": 300.0, "1/2": 12.7, "3 cm": 30.0}


@pytest.mark.parametrize(("text", "mm"), WIDTHS.items())
def test_widths(text: str, mm: float) -> None:
    assert millimetres(text) == pytest.approx(mm)


@pytest.mark.parametrize("text", ["", "0", "-3", "1/0", "9" * 7, "12 13", "1e9", "300 miles", "12-3", "20 m"])
def test_no_widths(text: str) -> None:
    with pytest.raises(Refused):
        millimetres(text)


def test_shares_and_warmth() -> None:
    assert percent("6.5 %", 30) == 6.5 and celsius("70F") == pytest.approx(21.11, abs=0.01) and celsius("20 °C") == 20


def test_it_starts_without_the_heavy_libraries() -> None:
    assert heavy_after("wood", "white ash") == "[]"
