"""The table of woods is whole: every number is there, in the range of wood, with its source or the mark `from memory`."""

from __future__ import annotations

import pytest

from planbuild.core.tables import rows
from planbuild.core.woods import FROM_MEMORY, VALUES, coefficient_from, wood_named, woods

LIKELY = {
    "specific_gravity": (0.3, 0.8), "moe_mpa": (7000, 16000), "mor_mpa": (50, 150), "hardness_n": (1500, 9000),
    "shrink_radial_pct": (2, 8), "shrink_tangential_pct": (4, 12), "c_radial": (0.0007, 0.003), "c_tangential": (0.0018, 0.0045),
}  # fmt: skip


def test_there_are_enough_woods() -> None:
    assert len(woods()) >= 22
    names = [name.lower() for wood in woods() for name in wood.names]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("name", VALUES)
def test_every_wood_has_the_number_and_its_source(name: str) -> None:
    low, high = LIKELY[name]
    for wood in woods():
        value = wood.value(name)
        assert value is not None and low <= value <= high, wood.name
        assert wood.source_of(name) == FROM_MEMORY or "Table" in wood.source_of(name) or "worked out" in wood.source_of(name)


def test_wood_shrinks_less_from_pith_to_bark() -> None:
    for wood in woods():
        assert wood.c_radial < wood.c_tangential and wood.shrink_radial_pct < wood.shrink_tangential_pct  # type: ignore[operator]


@pytest.mark.parametrize(
    ("name", "number", "pounds"),
    [  # Wood Handbook GTR-282 Table 5-3b, inch-pound, as printed
        ("white oak", "moe_mpa", 1.78e6), ("northern red oak", "moe_mpa", 1.82e6), ("yellow birch", "moe_mpa", 2.01e6),
        ("white oak", "mor_mpa", 15200), ("shagbark hickory", "mor_mpa", 20200), ("western redcedar", "mor_mpa", 7500),
    ],
)  # fmt: skip
def test_metric_numbers_are_those_of_the_inch_table(name: str, number: str, pounds: float) -> None:
    wood = wood_named(name)
    assert wood and wood.value(number) == pytest.approx(pounds * 0.00689475729, rel=0.008)


@pytest.mark.parametrize(("name", "pounds"), [("white oak", 1360), ("sapele", 1510), ("teak", 1000), ("Sitka spruce", 510)])
def test_hardness(name: str, pounds: float) -> None:
    wood = wood_named(name)
    assert wood and wood.hardness_n == pytest.approx(pounds * 4.4482, abs=51)  # the table gives hundreds of newtons


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("White Oak", "white oak"), ("cherry", "black cherry"), ("douglas-fir", "Douglas-fir"), ("Douglas fir", "Douglas-fir"),
        ("sugar maple (hard)", "sugar maple"), ("southern_pine", "southern pine"),
        ("Honduras mahogany (Swietenia)", "Honduras mahogany"),
    ],
)  # fmt: skip
def test_names_are_understood(typed: str, name: str) -> None:
    found = wood_named(typed)
    assert found and found.name == name


def test_what_is_no_wood() -> None:
    assert wood_named("steel") is None and wood_named("") is None


def test_coefficients_that_were_worked_out() -> None:
    """Single woods of Table 13-5 follow from Table 4-3: white ash 4.9 and 7.8 % give 0.00169 and 0.00274 (both printed)."""
    assert round(coefficient_from(4.9), 5) == 0.00169 and round(coefficient_from(7.8), 5) == 0.00274
    for wood in woods():
        for number, shrinkage in (("c_radial", wood.shrink_radial_pct), ("c_tangential", wood.shrink_tangential_pct)):
            if wood.source_of(number).startswith("worked out"):
                assert shrinkage and wood.value(number) == pytest.approx(coefficient_from(shrinkage), abs=0.000006)


@pytest.mark.parametrize("table", ["dressed", "thickness_mm", "sheet_sizes", "sheets"])
def test_what_is_sold_has_a_source(table: str) -> None:
    assert rows(table) and all(each["source"] for each in rows(table))


def test_sizes_of_sheets_are_for_sheets_of_the_table() -> None:
    known = {each["name"] for each in rows("sheets")}
    named = {name for each in rows("sheet_sizes") for name in each["for"].split("|")}
    assert named == known
