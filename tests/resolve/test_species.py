"""Woods that a design or its series describes itself, and boards sold by the millimetre."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.core.diagnostics import Refused
from planbuild.core.woods import coefficient_from
from planbuild.joints.dovetails.sizes import slope_rule
from planbuild.joints.proportions import movement_coefficient, wood_of
from planbuild.joints.screws import is_dense
from planbuild.pipeline import Clock, resolve_file
from planbuild.records.piece import Piece, Stock

PEAR = (
    "{density: 700 kg/m3, stiffness: 1.3 million psi, hardness: 1400 lb, shrinks: {flat: 9 %, quarter: 4.5 %}, source: own book}"
)
TEXT = """format: 1
title: Shelf board
contact: errata@plans.example
licence: For one maker's own use.
units: UNIT
frame: {width: 30, depth: 5, height: 3/4}
SPECIES
stock:
  board: {species: WOOD, rough: ROUGH, thickness: 3/4}
parts:
  panel: {stock: board, grain: left-right, face: top, fills: frame, top: 0}
"""


def resolved(folder: Path, wood: str, species: str, unit: str = "inch", rough: str = "4/4") -> Piece:
    design = folder / "board.yaml"
    text = TEXT.replace("WOOD", wood).replace("SPECIES", species).replace("UNIT", unit).replace("ROUGH", rough)
    metric = text.replace("3/4", "20").replace("width: 30, depth: 5", "width: 700, depth: 100")
    design.write_text(text if unit == "inch" else metric)
    return resolve_file(design, Clock())


def stock(folder: Path, wood: str, species: str) -> Stock:
    return resolved(folder, wood, species).stock[0]


@pytest.mark.parametrize("word", ["wild_pear", "wild pear", "Wild-pear"])
def test_a_wood_of_the_designs_own(tmp_path: Path, word: str) -> None:
    board = stock(tmp_path, word, f"species: {{wild_pear: {PEAR}}}")
    wood = wood_of(board)
    assert wood is not None and board.species == wood.name == "wild pear"
    assert wood.specific_gravity == pytest.approx(700 / 1120)  # 12 % of its dry mass is water
    assert wood.moe_mpa == pytest.approx(1.3e6 * 0.00689475729) and wood.hardness_n == pytest.approx(6227.5, abs=0.1)
    assert wood.mor_mpa is None and dict(wood.sources)["moe_mpa"] == "own book" and "mor_mpa" not in dict(wood.sources)


def test_it_moves_as_it_shrinks_unless_its_movement_is_said(tmp_path: Path) -> None:
    assert movement_coefficient(stock(tmp_path, "pear", f"species: {{pear: {PEAR}}}")) == pytest.approx(coefficient_from(9))
    moved = "species: {pear: {density: 700 kg/m3, moves: {flat: 0.0031}, source: own book}}"
    assert movement_coefficient(stock(tmp_path, "pear", moved)) == 0.0031


def test_what_is_said_of_it_counts_for_joints_and_screws(tmp_path: Path) -> None:
    yew = "species: {yew: {kind: softwood, density: 720 kg/m3, shrinks: {flat: 6 %}, source: own book}}"
    board = stock(tmp_path, "yew", yew)
    assert is_dense(board)
    light = stock(tmp_path, "yew", yew.replace("720", "400"))
    assert not is_dense(light)

    class Lying:
        stock = board

    assert slope_rule(Lying()) == "dovetail_slope_soft"  # type: ignore[arg-type]


def test_a_series_may_describe_it(tmp_path: Path) -> None:
    series = f"format: 1\nseries: Pears\npieces: [board.yaml]\nspecies:\n  pear: {PEAR}\n"
    (tmp_path / "series.yaml").write_text(series)
    board = stock(tmp_path, "pear", "series: series.yaml")
    assert board.own is not None and board.own.source == "own book"


def test_too_many(tmp_path: Path) -> None:
    many = "species:\n" + "".join(f"  pear_{number}: {PEAR}\n" for number in range(41))
    with pytest.raises(Refused) as refused:
        stock(tmp_path, "pear_0", many)
    assert "read-too-many" in {each.code for each in refused.value.diagnostics}


@pytest.mark.parametrize("rough", ["27", "27 mm"])
def test_boards_by_the_millimetre(tmp_path: Path, rough: str) -> None:
    board = resolved(tmp_path, "white ash", "", "mm", rough).stock[0]
    assert (board.quarters, board.rough, board.thickness) == ("27 mm", 27.0, 20.0)


def test_a_millimetre_board_gives_no_more_than_its_series_says(tmp_path: Path) -> None:
    with pytest.raises(Refused) as refused:
        resolved(tmp_path, "white ash", "", "mm", "20")
    (only,) = refused.value.diagnostics
    assert only.code == "stock-thin" and only.hints == ("Use 27 mm.",)
