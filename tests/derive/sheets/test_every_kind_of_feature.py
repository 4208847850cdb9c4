"""A sheet for a board with each kind of feature: every plane reached, nothing twice, nothing on top of another."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from boards import BOARDS
from timber import piece

from planbuild.core.geometry import Axis
from planbuild.derive.dimensions.tree import groups, redundant
from planbuild.derive.sheets.part_sheet import Sheet, part_sheet
from planbuild.records.edition import Edition
from planbuild.records.facts import Dimension
from planbuild.records.findings import Findings, Likeness
from planbuild.records.legibility import clashes
from planbuild.records.piece import Part
from planbuild.shape import shape


def drawn(part: Part, edition: Edition) -> Sheet:
    alone = piece(part)
    return part_sheet(part, alone, shape(alone), Findings((), (), (Likeness(part.id, (0,), ()),)), edition)


def along(dimensions: tuple[Dimension, ...], axis: Axis) -> list[tuple[float, float]]:
    return [each.ends for each in dimensions if each.axis == axis.words and not each.bracketed]


@pytest.mark.parametrize("make", BOARDS, ids=lambda make: make.__name__)
def test_a_sheet_can_be_drawn_and_read(make: Callable[[], Part], a4: Edition, letter: Edition) -> None:
    part = make()
    for edition in (a4, letter):
        sheet = drawn(part, edition)
        assert clashes(sheet.drawing) == ()
        assert len({each.id for each in sheet.dimensions}) == len(sheet.dimensions)
        for axis in Axis:
            sizes = along(sheet.dimensions, axis)
            ends = [part.extent.along(axis).low, part.extent.along(axis).high]
            assert len(groups([*ends, *(end for size in sizes for end in size)], sizes)) == 1
            assert redundant([end for size in sizes for end in size], sizes) == ()


def test_like_holes_are_said_once_with_their_number(a4: Edition) -> None:
    from boards import bored

    texts = [text.text for text in drawn(bored(), a4).drawing.texts]
    assert "2 × ⌀ 6" in texts and "12 deep" in texts
    assert texts.count("⌀ 6") == 0


def test_unlike_ends_are_both_drawn(a4: Edition) -> None:
    from boards import tenoned_unlike

    texts = [text.text for text in drawn(tenoned_unlike(), a4).drawing.texts]
    assert "Left end" in texts and "Right end" in texts
    assert not any("both ends alike" in text for text in texts)


def test_points_of_a_curve_stand_in_the_list(a4: Edition) -> None:
    from boards import curved

    noted = [(each.states, each.text) for each in drawn(curved(), a4).dimensions if each.view == "note"]
    assert ("point 2 along", "150") in noted and ("point 2 deep", "14") in noted


def test_there_is_a_letter_for_every_section(a4: Edition) -> None:
    from boards import mortised_deep_and_deeper

    texts = {text.text for text in drawn(mortised_deep_and_deeper(), a4).drawing.texts}
    assert {"Section A–A", "Section H–H", "Section J–J", "Section K–K"} <= texts
