"""Blocks in the order of work: glued up as one, tried in their openings before the finish, drawn out of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.core.geometry import Face
from planbuild.derive import phrases
from planbuild.derive.lists.finish import finish_facts
from planbuild.derive.steps import StepPlan, plan_steps
from planbuild.pipeline import Clock, choose_edition, resolve_file
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.shape import shape

TRAYS = Path(__file__).parent.parent.parent / "designs" / "two-trays.yaml"


@pytest.fixture(scope="module")
def trays() -> Piece:
    return resolve_file(TRAYS, Clock())


@pytest.fixture(scope="module")
def plan(trays: Piece) -> StepPlan:
    return plan_steps(trays, shape(trays), Findings((), ()), choose_edition(trays))


def test_each_block_is_glued_up_and_tried_before_the_finish(plan: StepPlan) -> None:
    order = [step.id for step in plan.steps]
    assert plan.diagnostics == ()
    assert order.index("glue.tray") < order.index("fit.tray") < order.index("finish.trays")


def test_the_words_of_a_fitting(plan: StepPlan) -> None:
    step = next(each for each in plan.steps if each.id == "fit.tray")
    assert step.title == "Fit the two trays"
    assert "Slide each tray into its opening from the front" in step.actions[0]
    # The opening from the wall (3/4) to the divider (11-5/8), 3-1/4 high; 1/32 less at each side, 1/8 less above.
    assert "10 7⁄8 wide, 3 1⁄4 high" in plain(step.sizes[0])
    assert "10 13⁄16 wide, 3 1⁄8 high" in plain(step.sizes[1])
    assert "follows your hand" in step.note


def plain(text: str) -> str:
    """Set fractions as they are typed."""
    return text.translate(str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")).replace("\u202f", " ")


def test_the_picture_draws_the_blocks_out_of_their_openings(plan: StepPlan) -> None:
    scene = next(each for each in plan.scenes if each.id == "step.fit.tray")
    assert set(scene.moves.values()) == {(0.0, 1.0, 0.0)}
    assert {part for part, _ in scene.moves} == {"tray.cheek", "tray.base"}
    assert len(scene.moves) == 6


def test_inside_is_said_of_the_block(trays: Piece) -> None:
    """The drawn cheek's right face looks into its tray, in all four copies."""
    assert phrases.facing(trays.part("tray.cheek"), Face.RIGHT, trays) == "inside"
    bare = next(each for each in finish_facts(trays, choose_edition(trays)).actions if each.startswith("Leave bare"))
    assert "the inside of cheeks" in bare and "the top of bases" in bare
