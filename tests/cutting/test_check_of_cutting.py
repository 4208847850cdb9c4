"""The independent check: a right layout passes, and every way to spoil it is noticed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planbuild.cutting import Cut, Effort, Flaw, Item, Layout, Placed, Problem, Sheet, Stock, Verdict, Way, complaints, lay_out

PROBLEM = Problem((Stock(100, 50, 3.0, 1),), (Item(60, 20, 2), Item(30, 47), Item(10, 4, 1, True)), kerf=3, trim=0)


def sound() -> Layout:
    layout = lay_out(PROBLEM, Effort(200_000))
    assert complaints(PROBLEM, layout) == []
    return layout


def spoiled(layout: Layout, **changes: object) -> Layout:
    return replace(layout, sheets=(replace(layout.sheets[0], **changes), *layout.sheets[1:]))  # type: ignore[arg-type]


def moved(layout: Layout, index: int, **changes: object) -> Layout:
    pieces = list(layout.sheets[0].pieces)
    pieces[index] = replace(pieces[index], **changes)  # type: ignore[arg-type]
    return spoiled(layout, pieces=tuple(pieces))


def index_of(layout: Layout, item: int) -> int:
    return next(k for k, piece in enumerate(layout.sheets[0].pieces) if piece.item == item)


def test_a_missing_piece_is_noticed() -> None:
    layout = sound()
    assert "item" in complaints(PROBLEM, spoiled(layout, pieces=layout.sheets[0].pieces[1:]))[0]


def test_a_piece_too_many_is_noticed() -> None:
    layout = sound()
    pieces = layout.sheets[0].pieces
    assert complaints(PROBLEM, spoiled(layout, pieces=(*pieces, pieces[0])))


def test_stock_beyond_what_is_on_hand_is_noticed() -> None:
    layout = sound()
    twice = replace(layout, sheets=(*layout.sheets, Sheet(0, ())), value=6.0)
    assert any("on hand" in fault for fault in complaints(PROBLEM, twice))


def test_a_wrong_sum_or_bound_is_noticed() -> None:
    layout = sound()
    assert complaints(PROBLEM, replace(layout, value=2.0))
    assert complaints(PROBLEM, replace(layout, bound=4.0))
    assert complaints(PROBLEM, replace(layout, verdict=Verdict.FOUND)) == complaints(PROBLEM, layout) or layout.gap == 0


def test_a_turned_piece_with_grain_is_noticed() -> None:
    layout = sound()
    assert any("turned" in f for f in complaints(PROBLEM, moved(layout, index_of(layout, 1), turned=True)))


def test_a_piece_over_the_edge_is_noticed() -> None:
    layout = sound()
    assert any("leaves" in f for f in complaints(PROBLEM, moved(layout, index_of(layout, 0), x=60)))


@pytest.mark.parametrize("gap", [0, 2])
def test_overlap_and_too_little_kerf_are_noticed(gap: int) -> None:
    problem = Problem((Stock(100, 20),), (Item(40, 20, 2),), kerf=3)
    pieces = (Placed(0, 0, 0), Placed(0, 40 + gap, 0))
    layout = Layout(Verdict.FOUND, 1.0, 0.5, (Sheet(0, pieces),))
    assert any("too near" in f for f in complaints(problem, layout))


def test_a_pinwheel_cannot_be_cut() -> None:
    problem = Problem((Stock(30, 30),), (Item(20, 10, 4, True),))
    pieces = (Placed(0, 0, 0), Placed(0, 20, 0, True), Placed(0, 10, 20), Placed(0, 0, 10, True))
    layout = Layout(Verdict.FOUND, 1.0, 0.5, (Sheet(0, pieces),))
    assert complaints(problem, layout) == ["sheet 1: no cuts from edge to edge part the pieces"]


def test_a_cut_left_out_or_moved_is_noticed() -> None:
    layout = sound()
    cuts = layout.sheets[0].cuts
    assert complaints(PROBLEM, spoiled(layout, cuts=cuts[:-1]))
    assert complaints(PROBLEM, spoiled(layout, cuts=(replace(cuts[0], at=cuts[0].at + 1), *cuts[1:])))
    assert complaints(PROBLEM, spoiled(layout, cuts=(replace(cuts[0], end=cuts[0].end - 5), *cuts[1:])))
    assert complaints(PROBLEM, spoiled(layout, cuts=cuts[1:]))


def test_an_offcut_that_is_not_there_is_noticed() -> None:
    layout = sound()
    offcuts = layout.sheets[0].offcuts
    assert offcuts
    assert complaints(PROBLEM, spoiled(layout, offcuts=(replace(offcuts[0], length=offcuts[0].length + 1), *offcuts[1:])))


def test_a_piece_on_a_flaw_is_noticed() -> None:
    problem = Problem((Stock(100, 20, flaws=(Flaw(30, 5, 2, 2),)),), (Item(40, 20),), way=Way.BOARDS)
    layout = Layout(Verdict.OPTIMAL, 1.0, 1.0, (Sheet(0, (Placed(0, 0, 0),), (Cut(1, True, 40, 0, 20),)),))
    assert any("flaw" in f for f in complaints(problem, layout))


def test_boards_are_crosscut_first() -> None:
    problem = Problem((Stock(100, 20),), (Item(100, 8), Item(30, 12, 3)), way=Way.BOARDS)
    pieces = (Placed(0, 0, 0), Placed(1, 0, 8), Placed(1, 30, 8), Placed(1, 60, 8))
    layout = Layout(Verdict.OPTIMAL, 1.0, 1.0, (Sheet(0, pieces, ()),))
    assert complaints(problem, layout) != []
    narrow = Problem((Stock(100, 20),), (Item(50, 20), Item(50, 8), Item(20, 12), Item(30, 6), Item(30, 6)), way=Way.BOARDS)
    four_stages = (Placed(0, 0, 0), Placed(1, 50, 0), Placed(2, 50, 8), Placed(3, 70, 8), Placed(4, 70, 14))
    faults = complaints(narrow, Layout(Verdict.OPTIMAL, 1.0, 1.0, (Sheet(0, four_stages, ()),)))
    assert any("not crosscut" in f for f in faults)
