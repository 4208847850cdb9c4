"""What is printed is what is true, and printed figures add up."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from spoil import changed, dimension, swapped

from planbuild.core.diagnostics import Severity
from planbuild.core.units import Ruler, Unit
from planbuild.proofread.figures import figures
from planbuild.records.facts import Facts
from planbuild.records.piece import Piece

INCH = Ruler(Unit.INCH, Fraction(1, 32))


def test_the_bench_is_true_and_adds_up(facts: Facts, placed: Piece) -> None:
    found = figures(facts, placed, INCH)
    assert found.diagnostics == ()
    assert found.proofs[0].checked > 50


def test_any_value_that_is_not_between_its_planes_is_found(facts: Facts, placed: Piece) -> None:
    for old in [each for part in facts.parts for each in part.dimensions if each.axis]:
        found = figures(swapped(facts, old, replace(old, value=old.value + 1.0)), placed, INCH)
        assert "sheet-value" in {each.code for each in found.diagnostics}, old.id


def test_a_figure_that_is_not_its_value(facts: Facts, placed: Piece) -> None:
    old = dimension(facts, "leg", "taper.right", "start from top end")
    (found,) = figures(swapped(facts, old, replace(old, text="6")), placed, INCH).diagnostics
    assert (found.code, found.expected) == ("sheet-value", "5")


def test_an_angle_that_is_not_its_value(facts: Facts, placed: Piece) -> None:
    old = dimension(facts, "long_rail", "rails.right", "mitre")
    (found,) = figures(swapped(facts, old, replace(old, text="mitre 40°")), placed, INCH).diagnostics
    assert (found.code, found.expected) == ("sheet-value", "45°")


def test_a_reference_that_is_not_the_sum_beside_it(facts: Facts, placed: Piece) -> None:
    """1 1/8 + 36 1/2 + 1 1/8 = 38 3/4."""
    old = dimension(facts, "long_rail", "body", "length")
    (found,) = figures(swapped(facts, old, replace(old, text="(38)")), placed, INCH).diagnostics
    assert (found.code, found.expected) == ("sheet-sum", "38\u202f³⁄₄")


def test_rounded_figures_that_do_not_add_up_are_told(facts: Facts, placed: Piece) -> None:
    """Ten figures that each lose 0.3 mm to rounding drift by 3 mm, far more than 1/32 in."""
    pattern = next(each for each in facts.part("slat").dimensions if each.axis)
    step = 25.4 / 4 + 0.3
    chain = tuple(
        replace(pattern, id=str(i), axis="left-right", ends=(i * step, (i + 1) * step), value=step, text="¹⁄₄", bracketed=False)
        for i in range(10)
    )
    found = figures(changed(facts, "slat", lambda part: replace(part, dimensions=chain)), placed, INCH)
    drifted = [each for each in found.diagnostics if each.code == "sheet-sum"]
    assert drifted and all(each.severity is Severity.WARNING for each in drifted)
