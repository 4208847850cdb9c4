"""Printed figures: the ruler's, and references that agree with what is printed beside them."""

from fractions import Fraction

import pytest
from timber import LEFT_RIGHT, board, box, said

from planbuild.core.geometry import Face
from planbuild.core.units import Ruler, Unit
from planbuild.derive.dimensions.figures import printed_distance, text_of
from planbuild.derive.dimensions.measure import Datum, Measure
from planbuild.derive.dimensions.measures import measures_of
from planbuild.derive.dimensions.tree import Chosen, choose
from planbuild.records.features import Mate, Tenon

HALF_MM = Ruler(Unit.MM, Fraction(1, 2))
DATUM = Datum({axis: face for face in (Face.LEFT, Face.FRONT, Face.TOP) for axis in [face.axis]})


def rail() -> Chosen:
    """Sizes of the bench's long rail: 1 1/8, 36 1/2 and 1 1/8 in are 28.575, 927.1 and 28.575 mm."""
    body = box(0, 927.1, 0, 76.2, 0, 25.4)
    left = Tenon(**said("left"), end=Face.LEFT, block=box(-28.575, 0, 10, 60, 8, 17), mate=Mate("leg", (0,)))
    right = Tenon(**said("right"), end=Face.RIGHT, block=box(927.1, 955.675, 10, 60, 8, 17), mate=Mate("leg", (0,)))
    return choose(measures_of(board(left, right, body=body), DATUM))


def named(chosen: Chosen, id: str) -> Measure:
    return next(each for each in chosen.all if each.id == id)


def test_a_reference_prints_the_sum_of_what_is_printed() -> None:
    """28.5 + 927 + 28.5 = 984, though 984.25 alone would round to 984.5."""
    chosen = rail()
    assert [text_of(named(chosen, id), HALF_MM, chosen) for id in ("left:length", "body:between shoulders")] == ["28.5", "927"]
    assert text_of(named(chosen, "body:length"), HALF_MM, chosen) == "(984)"
    assert HALF_MM.printed(984.25) == "984.5"


def test_inches_on_the_ruler_add_up_exactly() -> None:
    chosen = rail()
    assert text_of(named(chosen, "body:length"), Ruler(Unit.INCH, Fraction(1, 32)), chosen) == "(38\u202f³⁄₄)"


def test_planes_that_no_size_connects_are_a_bug() -> None:
    with pytest.raises(ValueError, match="no printed sizes lead"):
        printed_distance(LEFT_RIGHT, (0.0, 500.0), HALF_MM, rail().printed)
