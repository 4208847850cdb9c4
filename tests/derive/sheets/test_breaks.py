"""Breaks: what is busy stays, what is dull goes, and figures stay true."""

import pytest

from planbuild.derive.sheets.breaks import all_busy, squeezed, whole


def test_what_fits_is_not_broken() -> None:
    assert squeezed(0, 100, (), 5, 100, 4) == whole(0, 100)


def test_one_dull_stretch_is_taken_out_of_its_middle() -> None:
    found = squeezed(0, 1000, (0, 50, 950, 1000), 10, 300, 4)
    assert found is not None
    assert found.breaks == ((pytest.approx(148.0), pytest.approx(852.0)),)
    assert found.length == pytest.approx(300)
    assert found(0) == 0 and found(50) == 50
    assert found(1000) - found(950) == pytest.approx(50)


def test_equal_stretches_are_broken_alike() -> None:
    found = squeezed(0, 1000, (0, 500, 1000), 10, 400, 4)
    assert found is not None
    (one, other) = found.breaks
    assert one[0] + one[1] == pytest.approx(500) and other[0] + other[1] == pytest.approx(1500)
    assert found(500) == pytest.approx(200)


def test_a_part_that_is_busy_all_along_is_not_broken() -> None:
    assert squeezed(0, 1000, range(0, 1001, 20), 10, 300, 4) is None


def test_what_is_busy_as_a_whole_is_never_broken() -> None:
    """A long mouth from 100 to 260 of which one place alone is told would be broken beside that."""
    found = squeezed(0, 420, [140], 8, 330, 4)
    assert found and any(high > 100 and low < 260 for low, high in found.breaks)
    told = squeezed(0, 420, all_busy((100, 260)), 8, 330, 4)
    assert told and told.breaks and all(high <= 100 or low >= 260 for low, high in told.breaks)
