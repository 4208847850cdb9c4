"""Nothing missing on a sheet, nothing said twice: each single dimension is taken away and must be missed.

The method is that of dimension graphs (Hillyard and Braid 1978): planes are nodes, sizes edges.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from spoil import changed, dimension, swapped, with_more, without

from planbuild.proofread.completeness import Groups, completeness
from planbuild.records.facts import Facts
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece


def codes(found: Findings) -> list[str]:
    return [each.code for each in found.diagnostics]


def test_the_bench_is_complete_and_says_how_it_was_checked(facts: Facts, placed: Piece) -> None:
    found = completeness(facts, placed)
    assert found.diagnostics == ()
    (proof,) = found.proofs
    assert proof.checked == sum(len(part.dimensions) for part in facts.parts) > 100


def test_every_single_dimension_is_missed_when_it_is_gone(facts: Facts, placed: Piece) -> None:
    kept = [
        each.id
        for part in facts.parts
        for each in part.dimensions
        if "sheet-incomplete" not in codes(completeness(without(facts, each), placed))
    ]
    assert kept == []


def test_the_message_names_what_has_lost_its_way(facts: Facts, placed: Piece) -> None:
    lost = dimension(facts, "leg", "wedged_rails.lower_rail", "from top end")
    told = [each.message for each in completeness(without(facts, lost), placed).diagnostics]
    assert any("no printed size leads bottom-top" in each and "wedged_rails.lower_rail" in each for each in told)
    assert any("the place of wedged_rails.lower_rail is not printed" in each for each in told)


def test_a_size_that_follows_from_others_is_redundant(facts: Facts, placed: Piece) -> None:
    """The overall length of a rail closes the chain of tenon, shoulders, tenon: it may only stand in brackets."""
    overall = dimension(facts, "long_rail", "body", "length")
    assert overall.bracketed
    found = completeness(swapped(facts, overall, replace(overall, bracketed=False)), placed)
    assert codes(found) == ["sheet-redundant"]


def test_any_size_said_twice_is_redundant(facts: Facts, placed: Piece) -> None:
    sizes = [each for part in facts.parts for each in part.dimensions if each.axis and not each.bracketed]
    for each in sizes:
        assert codes(completeness(with_more(facts, replace(each, id="again")), placed)) == ["sheet-redundant"], each.id


def test_a_figure_that_is_not_on_the_drawing_is_found(facts: Facts, placed: Piece) -> None:
    drawing = facts.drawings["sheet.leg"]
    bare = replace(drawing, texts=tuple(text for text in drawing.texts if "45°" not in text.text))
    found = completeness(replace(facts, drawings={**facts.drawings, "sheet.leg": bare}), placed)
    assert codes(found) == ["sheet-undrawn"]


def test_a_part_without_a_sheet_is_found(facts: Facts, placed: Piece) -> None:
    assert "sheet-undrawn" in codes(completeness(changed(facts, "slat", lambda part: replace(part, sheet="")), placed))


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
