"""Whatever is left out of a sheet, said twice or falsified is found: every dimension of the bench is tried.

The method is that of dimension graphs (Hillyard and Braid 1978): planes are nodes, sizes edges.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from planbuild.pipeline import Checked
from planbuild.proofread.completeness import Groups, completeness
from planbuild.proofread.figures import figures
from planbuild.records.facts import Dimension, Facts


def with_dimensions(facts: Facts, part: str, dimensions: tuple[Dimension, ...]) -> Facts:
    parts = tuple(replace(p, dimensions=dimensions) if p.id == part else p for p in facts.parts)
    return replace(facts, parts=parts)


def codes(checked: Checked, facts: Facts) -> set[str]:
    return {d.code for d in completeness(facts, checked.piece).diagnostics}


def test_the_bench_is_complete_and_says_nothing_twice(bench: Checked) -> None:
    assert codes(bench, bench.facts) == set()


def test_every_size_is_missed(bench: Checked) -> None:
    """Without any one linear size that is not a bracketed reference, a part cannot be set out."""
    tried, unnoticed = 0, []
    for part in bench.facts.parts:
        for gone in part.dimensions:
            if not gone.axis or gone.bracketed:
                continue
            tried += 1
            left = tuple(d for d in part.dimensions if d is not gone)
            if "sheet-incomplete" not in codes(bench, with_dimensions(bench.facts, part.id, left)):
                unnoticed.append(gone.id)
    assert tried > 60
    assert unnoticed == []


def test_a_feature_without_any_number_is_missed(bench: Checked) -> None:
    for part in bench.facts.parts:
        for feature in {d.feature for d in part.dimensions} - {"body"}:
            left = tuple(d for d in part.dimensions if d.feature != feature)
            assert "sheet-incomplete" in codes(bench, with_dimensions(bench.facts, part.id, left)), (part.id, feature)


def test_a_size_said_twice_is_found(bench: Checked) -> None:
    for part in bench.facts.parts:
        for twice in (d for d in part.dimensions if d.axis and not d.bracketed):
            again = (*part.dimensions, replace(twice, id="again"))
            assert "sheet-redundant" in codes(bench, with_dimensions(bench.facts, part.id, again)), twice.id


def test_a_false_value_is_found(bench: Checked) -> None:
    for part in bench.facts.parts:
        for d in (d for d in part.dimensions if d.axis):
            false = tuple(replace(x, value=x.value + 1.0) if x is d else x for x in part.dimensions)
            found = figures(with_dimensions(bench.facts, part.id, false), bench.piece, bench.edition.ruler)
            assert "sheet-value" in {x.code for x in found.diagnostics}, d.id


def test_rounded_figures_that_do_not_add_up_are_told(bench: Checked) -> None:
    """Ten figures that each lose 0.3 mm to rounding drift by 3 mm, far more than 1/32 in."""
    base = bench.facts.part("slat")
    shape = next(d for d in base.dimensions if d.axis)
    step = 25.4 / 4 + 0.3
    chain = tuple(
        replace(shape, id=str(i), axis="left-right", ends=(i * step, (i + 1) * step), value=step, bracketed=False) for i in range(10)
    )
    found = figures(with_dimensions(bench.facts, "slat", chain), bench.piece, bench.edition.ruler)
    assert "sheet-sum" in {x.code for x in found.diagnostics}


@pytest.mark.parametrize("gone", [0, 1, 2, 3])
def test_groups_of_a_leg(gone: int) -> None:
    """A leg of 700 with mortise walls at 30 and 90 and a taper from 690: four sizes, none to spare."""
    sizes = [(0.0, 30.0), (30.0, 90.0), (0.0, 690.0), (0.0, 700.0)]
    groups = Groups()
    assert all(groups.join(*each) for each in sizes)
    assert not groups.join(90.0, 700.0)
    fewer = Groups()
    for each in (s for i, s in enumerate(sizes) if i != gone):
        fewer.join(*each)
    assert len({fewer.spot(at) for at in (0.0, 30.0, 90.0, 690.0, 700.0)}) == 2
