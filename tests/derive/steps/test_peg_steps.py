"""Steps for pegged tenons: the mate is bored first, the tenon is marked through it, and the pegs go in last."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.derive.lists.joints import joint_title
from planbuild.derive.sheets.part_sheet import part_sheet
from planbuild.derive.steps import StepPlan, plan_steps
from planbuild.pipeline import Clock, build, choose_edition, resolve_file
from planbuild.prove import prove
from planbuild.records.piece import Piece
from planbuild.shape import shape

FRAME = Path(__file__).parent.parent.parent / "designs" / "pegged-frame.yaml"


@pytest.fixture(scope="module")
def frame() -> Piece:
    return resolve_file(FRAME, Clock())


@pytest.fixture(scope="module")
def plan(frame: Piece) -> StepPlan:
    solids = shape(frame)
    return plan_steps(frame, solids, prove(frame, solids), choose_edition(frame))


def test_the_order_of_work(plan: StepPlan) -> None:
    order = [each.id for each in plan.steps]
    (tenons,) = (each.id for each in plan.steps if each.id.startswith("peg."))
    makes = [each.id for each in plan.steps if each.id.startswith("make.")]
    assert len(makes) == 2, "drawn and plain pegs are two kinds of peg"
    assert order.index("bore.leg") < order.index(tenons) < min(map(order.index, makes))


def test_what_the_maker_is_told(plan: StepPlan) -> None:
    step = {each.id.split(".")[0]: each for each in plan.steps}
    assert any("scrap as thick as its tenon" in each for each in step["bore"].actions)
    assert any("nearer to the shoulder by the draw" in each for each in step["peg"].actions)
    assert any("¹⁄₁₆ nearer to it than in the mate" in each for each in step["peg"].sizes)
    assert any("dowel plate" in each for each in step["make"].actions)
    assert "crescent" in step["peg"].check
    driven = [action for each in plan.steps if each.id.startswith("glue.") for action in each.actions]
    assert any("point first" in each for each in driven) and any("Saw the pegs flush" in each for each in driven)


def test_round_tenons_are_fitted_to_their_holes(plan: StepPlan) -> None:
    order = [each.id for each in plan.steps]
    assert order.index("bore.leg") < order.index("round_tenon.rung")
    step = next(each for each in plan.steps if each.id == "round_tenon.rung")
    assert "⁷⁄₈ in thick, 1\u202f⁵⁄₁₆ long" in step.sizes[0]
    bored = next(each for each in plan.steps if each.id == "bore.leg")
    assert any("⁷⁄₈ drill, 1\u202f³⁄₈ deep" in each for each in bored.sizes)


def test_titles(frame: Piece) -> None:
    assert [joint_title(frame, each) for each in frame.joints] == [
        "Draw-bored blind mortise and tenon", "Pegged through mortise and tenon", "Round blind mortise and tenon",
    ]  # fmt: skip


def test_a_round_peg_has_neither_face_side_nor_face_edge(frame: Piece) -> None:
    solids = shape(frame)
    found = prove(frame, solids)
    drawn = {id: str(part_sheet(frame.part(id), frame, solids, found, choose_edition(frame))) for id in ("peg", "stretcher")}
    marks = {id: [words in text for words in ("'face side'", "'face edge'")] for id, text in drawn.items()}
    assert marks == {"peg": [False, False], "stretcher": [True, True]}


@pytest.mark.slow
def test_a_pegged_frame_becomes_a_plan_set() -> None:
    built = build(FRAME)
    found = (*built.checked.findings.diagnostics, *built.plan_set.told)
    assert not [each for each in found if each.stops]
