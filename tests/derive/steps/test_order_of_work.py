"""The order of work of the bench: which steps there are, that all rules hold, that it never varies."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from timber import board, piece

from planbuild.derive.steps import StepPlan, plan_steps
from planbuild.derive.steps.assembly import plan_joinings
from planbuild.derive.steps.operations import Phase, Verb, operations
from planbuild.derive.steps.order import put_in_order
from planbuild.derive.steps.precedence import edges
from planbuild.derive.steps.tasks import tasks
from planbuild.records.edition import Edition
from planbuild.records.findings import Findings
from planbuild.records.piece import GlueUp, Piece
from planbuild.records.solids import Solids

MILLING = ("mill", "make")
ASSEMBLING = ("glue", "fit")


def _positions(plan: StepPlan) -> dict[str, int]:
    return {step.id: step.number for step in plan.steps}


def test_steps_by_the_names_that_designs_use(plan: StepPlan) -> None:
    at = _positions(plan)
    assert {"mill.leg", "mortise.leg", "taper.leg", "glue.end_frame", "finish.bench", "fit.seat"} <= at.keys()
    assert 16 <= len(plan.steps) <= 26
    assert list(at.values()) == list(range(1, len(at) + 1))
    assert plan.diagnostics == ()


def test_every_part_is_milled_and_put_in(plan: StepPlan, bench_piece: Piece) -> None:
    milled = {part for step in plan.steps if step.id.split(".")[0] in MILLING for part in step.parts}
    joined = {part for step in plan.steps if step.id.split(".")[0] in ASSEMBLING for part in step.parts}
    assert milled == joined == {each.id for each in bench_piece.parts}


def test_every_copy_is_put_in_once(plan: StepPlan, bench_piece: Piece) -> None:
    """Copies added by glue-ups and fittings are a permutation of the copies of the piece (the panel's own glue-up apart)."""
    added: dict[str, int] = {}
    for step in plan.steps:
        if step.id.split(".")[0] in ASSEMBLING and step.id != "glue.seat":
            for part, count in step.counts:
                added[part] = added.get(part, 0) + count
    assert added == {each.id: len(each.copies) for each in bench_piece.parts}


def test_every_feature_is_cut_in_some_step(bench_piece: Piece) -> None:
    """All but the pilot holes, which are drilled when the seat is fitted."""
    cut = {(op.part, f.id) for op in operations(bench_piece) for f in op.features}
    there = {(p.id, f.id) for p in bench_piece.parts for f in p.features if getattr(f, "purpose", "") != "pilot"}
    assert cut == there


def test_all_rules_hold(plan: StepPlan, bench_piece: Piece) -> None:
    joinings, _ = plan_joinings(bench_piece)
    at = _positions(plan)
    found = edges(bench_piece, tasks(bench_piece, joinings))
    assert len(found) > 50
    for edge in found:
        assert at[edge.before] < at[edge.after], edge


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("rough.stock", "mill.leg"),
        ("mortise.leg", "tenon.rail"),  # tenons are pared to their mortises
        ("mortise.lower_rail", "tenon.slat"),
        ("mortise.leg", "taper.leg"),  # joinery while the faces are square
        ("groove.long_rail", "arch.long_rail"),
        ("arch.long_rail", "chamfer.seat"),
        ("glue.seat", "size.seat"),
        ("kerf.lower_rail", "make.wedge"),
        ("groove.long_rail", "make.button"),
        ("dry_fit.base", "prefinish.slat"),
        ("prefinish.slat", "glue.end_frame"),  # what the glue-up closes off is finished before it
        ("make.wedge", "glue.end_frame"),
        ("glue.end_frame", "glue.base"),
        ("glue.base", "finish.bench"),
        ("finish.bench", "fit.seat"),
    ],
)
def test_order_of_the_trade(plan: StepPlan, before: str, after: str) -> None:
    at = _positions(plan)
    assert at[before] < at[after]


def test_phases_follow_each_other(plan: StepPlan) -> None:
    ranks = [[phase.value for phase in Phase].index(step.phase) for step in plan.steps]
    assert ranks == sorted(ranks)
    assert len(set(ranks)) == len(Phase)


def test_each_step_but_the_first_says_why_it_stands_there(plan: StepPlan) -> None:
    assert all(step.why for step in plan.steps[1:])


def test_the_same_piece_gives_the_same_plan(
    plan: StepPlan, bench_piece: Piece, bench_solids: Solids, bench_findings: Findings, letter: Edition
) -> None:
    assert plan_steps(bench_piece, bench_solids, bench_findings, letter) == plan


def test_order_does_not_hang_on_the_order_of_the_tasks(bench_piece: Piece) -> None:
    joinings, _ = plan_joinings(bench_piece)
    found = tasks(bench_piece, joinings)
    ids = [each.task.id for each in put_in_order(bench_piece, found).steps]
    assert [each.task.id for each in put_in_order(bench_piece, found[::-1]).steps] == ids


def test_like_work_is_one_step(plan: StepPlan) -> None:
    """Rails of one thickness with tenons of one thickness are one setting; the thinner slats are another."""
    (rails,) = (step for step in plan.steps if step.id == "tenon.rail")
    assert rails.parts == ("long_rail", "short_rail", "lower_rail")
    (slats,) = (step for step in plan.steps if step.id == "tenon.slat")
    assert slats.parts == ("slat",)


def test_what_is_finished_before_the_glue_is_not_finished_again(plan: StepPlan) -> None:
    """The slats get their oil all round while they can be reached; of the lower rails only the inside is done."""
    by_id = {step.id: step for step in plan.steps}
    assert "slat" not in by_id["finish.bench"].parts and "lower_rail" in by_id["finish.bench"].parts
    early = " ".join(by_id["prefinish.slat"].actions)
    assert "[[mark:slat]] all round and the inside face of [[mark:lower_rail]]" in early


def test_a_lone_board_needs_no_assembly() -> None:
    alone = piece(board())
    joinings, faults = plan_joinings(alone)
    ids = [each.task.id for each in put_in_order(alone, tasks(alone, joinings)).steps]
    assert (joinings, faults) == ((), ())
    assert ids == ["rough.stock", "mill.board", "fit.board"]


def test_a_panel_is_glued_before_it_is_sized() -> None:
    panel = piece(replace(board(), glue_up=GlueUp(3, 20.0, "same")))
    verbs = [each.task.verb for each in put_in_order(panel, tasks(panel, ())).steps]
    assert verbs == [Verb.ROUGH, Verb.MILL, Verb.PANEL, Verb.SIZE, Verb.FIT]


def test_a_panel_that_is_called_like_the_piece_is_glued_in_a_step_of_its_own(made_of: Callable[..., Piece]) -> None:
    joined = made_of(("shelf", "bracket", (0.0, 0.0, -1.0)))
    shelf, *others = joined.parts
    whole = replace(joined, parts=(replace(shelf, glue_up=GlueUp(2, 60.0, "same")), *others))
    whole = replace(whole, imprint=replace(whole.imprint, title="Wall shelf"))
    joinings, _ = plan_joinings(whole)
    found = put_in_order(whole, tasks(whole, joinings)).steps
    assert {each.task.id: each.task.verb for each in found if each.task.id.startswith("glue.")} == {
        "glue.shelf": Verb.PANEL,
        "glue.shelf_2": Verb.JOIN,
    }
