"""A sheet that is cut through its thickness shows its plies, which run as its faces do."""

from __future__ import annotations

from itertools import pairwise

import pytest
import shapely

from planbuild.core.geometry import Axis, Face
from planbuild.derive.pictures.hatching import long_grain, plies, ply_way
from planbuild.derive.views.view import STRAIGHT
from planbuild.records.drawing import Stroke

AREA = shapely.box(0, 0, 40, 6)


def test_even_lines_along_the_faces() -> None:
    """Six paper mm at 0.8 apart: seven lines, all level, as far apart as the next."""
    heights = _levels(plies(AREA, (1.0, 0.0)))
    assert len(heights) == 7
    assert {round(b - a, 3) for a, b in pairwise(heights)} == {0.8}
    grain = _levels(long_grain(AREA, (1.0, 0.0), 0))
    assert len({round(b - a, 3) for a, b in pairwise(grain)}) > 1, "wood has no even lines"


def test_a_sliver_too_thin_for_a_line_has_no_stroke() -> None:
    """A stroke without ink has no box, which everything drawn must have."""
    assert plies(shapely.box(0, 0, 40, 0.2), (1.0, 0.0)) == []


def _levels(strokes: list[Stroke]) -> list[float]:
    (stroke,) = strokes
    return sorted({round(y, 3) for step in stroke.path for _, y in step.points})


@pytest.mark.parametrize(
    ("square_to", "seen_from", "level"),
    [(Axis.BOTTOM_TOP, Face.FRONT, True), (Axis.LEFT_RIGHT, Face.FRONT, False), (Axis.FRONT_BACK, Face.FRONT, None)],
)
def test_how_plies_run_on_the_paper(square_to: Axis, seen_from: Face, level: bool | None) -> None:
    way = ply_way(square_to, STRAIGHT[seen_from])
    assert (way is None) if level is None else (way is not None and (abs(way[1]) < 1e-9) is level)
