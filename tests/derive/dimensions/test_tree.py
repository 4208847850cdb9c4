"""Complete and not redundant: the leg of a published worked example, and what is picked from too many sizes.

The example (planes 0, 30, 90, 690, 700 along a leg of 700 mm) restates the degree-of-freedom rule of
dimension graphs: n planes need exactly n - 1 sizes (Hillyard and Braid 1978; Kruskal 1956 for the choice).
"""

from __future__ import annotations

import pytest

from planbuild.core.geometry import Axis, Box, Face, Span1
from planbuild.derive.dimensions.measure import Measure, Weight, linear
from planbuild.derive.dimensions.tree import choose, groups, redundant

PLANES = (0.0, 30.0, 90.0, 690.0, 700.0)
LEG = Box(Span1(0, 45), Span1(0, 45), Span1(0, 700))


def size(low: float, high: float, weight: Weight = Weight.FUNCTIONAL) -> Measure:
    return linear("mortise", f"{low}-{high}", Axis.BOTTOM_TOP, (low, high), LEG, (Face.FRONT,), weight)


CHAIN = [size(0, 30), size(30, 90), size(90, 690, Weight.DATUM), size(690, 700)]


def test_five_planes_need_exactly_four_sizes() -> None:
    overall = size(0, 700, Weight.OVERALL)
    chosen = choose([size(0, 30), size(30, 90), size(0, 90), size(0, 690, Weight.DATUM), overall])
    assert [each.ends for each in chosen.printed] == [(0, 30), (30, 90), (0, 690), (0, 700)]
    assert [each.ends for each in chosen.bracketed] == [(0, 90)]


def test_the_overall_of_a_full_chain_is_one_too_many_and_stands_in_brackets() -> None:
    sizes = [each.ends for each in CHAIN]
    assert redundant(PLANES, sizes) == ()
    assert redundant(PLANES, [*sizes, (0.0, 700.0)]) == ((0.0, 700.0),)
    chosen = choose([*CHAIN, size(0, 700, Weight.OVERALL)])
    assert len(chosen.printed) == 4
    assert [each.ends for each in chosen.bracketed] == [(0, 700)]


@pytest.mark.parametrize(
    ("missing", "left"),
    [
        (0, ((0.0,), (30.0, 90.0, 690.0, 700.0))),
        (2, ((0.0, 30.0, 90.0), (690.0, 700.0))),
        (3, ((0.0, 30.0, 90.0, 690.0), (700.0,))),
    ],
)
def test_without_one_size_the_two_groups_are_named(missing: int, left: tuple[tuple[float, ...], ...]) -> None:
    sizes = [each.ends for i, each in enumerate(CHAIN) if i != missing]
    assert groups(PLANES, sizes) == left


def test_planes_nearer_than_a_hundredth_are_one() -> None:
    assert groups((0.0, 50.0, 50.004), [(0.0, 50.004)]) == ((0.0, 50.0),)


def test_what_two_features_share_is_said_once() -> None:
    chosen = choose([size(0, 30), size(30, 90), size(0, 30), size(30, 90)])
    assert [each.ends for each in chosen.printed] == [(0, 30), (30, 90)]


def test_functional_sizes_win_over_the_whole() -> None:
    chosen = choose([size(0, 700, Weight.OVERALL), size(0, 30), size(30, 670), size(670, 700)])
    assert [each.ends for each in chosen.printed] == [(0, 30), (30, 670), (670, 700)]
    assert [each.ends for each in chosen.bracketed] == [(0, 700)]
