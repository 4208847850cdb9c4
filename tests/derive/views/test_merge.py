"""Each line once, and none of them moved."""

from __future__ import annotations

import numpy as np

from planbuild.derive.views.lines import Run
from planbuild.derive.views.merge import merged
from planbuild.derive.views.view import LineKind

KEY = ("board", 0)


def run(*points: tuple[float, float], kind: LineKind = LineKind.OUTLINE) -> Run:
    return Run(kind, KEY, np.array(points))


def ends(runs: list[Run]) -> set[tuple[tuple[float, ...], ...]]:
    return {tuple(sorted(tuple(float(c) for c in np.round(p, 3)) for p in each.points)) for each in runs}


def test_pieces_of_one_line_are_joined_and_drawn_once() -> None:
    found = merged([run((0, 0), (40, 0)), run((40, 0), (90, 0)), run((10, 0), (60, 0), kind=LineKind.EDGE)])
    assert ends(found) == {((0.0, 0.0), (90.0, 0.0))}


def test_a_hair_where_two_lines_meet_does_not_make_one_line_of_them() -> None:
    """A hair is so short that it lies in both: the kernel leaves such crumbs on the rims of curves."""
    lines = [run((0, 0), (26, 4.8)), run((0.03, 0.015), (-11, -2.8)), run((0, 0), (0.03, 0.015))]
    found = merged(lines)
    assert ends(found) == {((0.0, 0.0), (26.0, 4.8)), ((-11.0, -2.8), (0.03, 0.015))}
