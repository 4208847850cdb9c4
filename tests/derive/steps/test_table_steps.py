"""Steps for a breadboarded top on plates: what is glued, what stays dry, and how the top is put on."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.derive.steps import StepPlan, plan_steps
from planbuild.pipeline import Clock, choose_edition, resolve_file
from planbuild.prove import prove
from planbuild.records.facts import WorkStep
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids
from planbuild.shape import shape

TABLE = Path(__file__).parent.parent.parent / "designs" / "breadboard-table.yaml"


@pytest.fixture(scope="module")
def table() -> Piece:
    return resolve_file(TABLE, Clock())


@pytest.fixture(scope="module")
def solids(table: Piece) -> Solids:
    return shape(table)


@pytest.fixture(scope="module")
def proved(table: Piece, solids: Solids) -> Findings:
    return prove(table, solids)


@pytest.fixture(scope="module")
def plan(table: Piece, solids: Solids, proved: Findings) -> StepPlan:
    return plan_steps(table, solids, proved, choose_edition(table))


def titled(plan: StepPlan, start: str) -> WorkStep:
    (found,) = (each for each in plan.steps if each.title.startswith(start))
    return found


def test_everything_is_proved(proved: Findings) -> None:
    assert [each.code for each in proved.diagnostics if each.stops] == []
    assert any(each.claim == "Every slot lets its screw travel" and each.checked for each in proved.proofs)


def test_the_tongues_come_before_the_tenons_that_are_sawn_from_them(plan: StepPlan) -> None:
    titles = [each.title for each in plan.steps]
    assert titles.index("Cut the tongues of the table top") < titles.index("Saw the tenons of the table top")


def test_only_the_fixed_tenons_get_glue(plan: StepPlan) -> None:
    words = " ".join(action for each in plan.steps for action in each.actions)
    assert "Brush glue on the fixed tenons of" in words and "the other tenons and the tongues stay dry" in words


def test_plates_are_set_before_the_top_is_screwed_on(plan: StepPlan) -> None:
    step = titled(plan, "Fit the table top")
    words = ("four plates", "eight clips", "Drive 16 screws")
    plates, clips, drive = (next(n for n, each in enumerate(step.actions) if word in each) for word in words)
    assert plates < drive and clips < drive
    assert dict(step.hardware) == {"plate": 4, "clip": 8, "plate_screw": 16}
