"""Steps for hardware: what is cut at the bench, what is hung, carried and fixed at the end, in that order; lists beside them."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.derive.lists.features import feature_facts
from planbuild.derive.lists.hardware import hardware
from planbuild.derive.pictures.explosion import links
from planbuild.derive.steps import StepPlan, plan_steps
from planbuild.pipeline import Clock, choose_edition, resolve_file
from planbuild.records.facts import WorkStep
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids

CUPBOARD = Path(__file__).parent.parent.parent / "designs" / "key-cupboard.yaml"


@pytest.fixture(scope="module")
def cupboard() -> Piece:
    return resolve_file(CUPBOARD, Clock())


@pytest.fixture(scope="module")
def plan(cupboard: Piece) -> StepPlan:
    from planbuild.shape import shape

    solids: Solids = shape(cupboard)
    return plan_steps(cupboard, solids, Findings((), ()), choose_edition(cupboard))


def step(plan: StepPlan, id: str) -> WorkStep:
    return next(each for each in plan.steps if each.id == id)


def test_their_order(plan: StepPlan) -> None:
    ids = [each.id for each in plan.steps]
    wanted = ["drill_rows.side", "let_in.side", "dry_fit.case", "finish.cupboard", "fit.shelf", "fit.door"]
    assert [id for id in ids if id in wanted] == wanted
    assert ids.index("fit.catch") > ids.index("finish.cupboard")


def test_titles_say_what_is_done(plan: StepPlan) -> None:
    titles = {each.id: each.title for each in plan.steps}
    assert titles["fit.door"] == "Hang the doors"
    assert titles["fit.shelf"] == "Set the shelf on its pins"
    assert titles["fit.catch"] == "Fix the catches"
    assert titles["drill_rows.side"] == "Drill the rows for the shelf pins in the sides"


def test_hardware_is_handed_out_in_the_step_that_fixes_it(plan: StepPlan, cupboard: Piece) -> None:
    assert step(plan, "fit.door").hardware == (("butt_hinge", 4), ("hinge_screw", 24), ("knob", 2))
    assert step(plan, "fit.shelf").hardware == (("pin", 4),)
    used = [pair for each in plan.steps for pair in each.hardware]
    bought = {line.id: line.count for line in hardware(cupboard, choose_edition(cupboard))}
    assert dict(used) == bought


def test_brass_screws_are_spared_and_their_pilot_is_told(plan: StepPlan) -> None:
    (line,) = [each for each in step(plan, "fit.door").sizes if "pilot" in each]
    assert "⁵⁄₆₄ in" in line and "steel screw" in line


def test_a_shelf_on_pins_needs_no_tool(plan: StepPlan) -> None:
    assert step(plan, "fit.shelf").tools == ()
    assert "drill bit ¹⁄₄ in" in step(plan, "drill_rows.side").tools


def test_the_recess_is_listed_as_it_is_cut(plan: StepPlan) -> None:
    assert "[[mark:side]] inside face: 2 × ⁵⁄₈, ¹⁄₁₆ deep" in step(plan, "let_in.side").sizes


def test_cuts_say_for_what_they_are(cupboard: Piece) -> None:
    words = {each.words for each in feature_facts(cupboard, cupboard.part("door"))}
    assert words == {
        "Recess in the left face for the butt hinge.",
        "Hole in the front face for the knob.",
        "Recess in the back face for the catch.",
    }


def test_the_list_names_both_parts_of_a_hinge(cupboard: Piece) -> None:
    lines = {each.id: each for each in hardware(cupboard, choose_edition(cupboard))}
    assert lines["butt_hinge"].where == "doors [[mark:door]] and sides [[mark:side]]"
    assert lines["hinge_screw"].count == 24


def test_doors_stand_out_before_the_shelf_that_they_close_off(cupboard: Piece) -> None:
    found = {(link.moving, link.mate) for link in links(cupboard)}
    assert (("door", 0), ("shelf", 0)) in found and (("shelf", 0), ("door", 0)) not in found


def test_pictures_show_what_goes_on(plan: StepPlan) -> None:
    scenes = {each.id: each for each in plan.scenes}
    hung = scenes["step.fit.door"]
    assert {key[0] for key in hung.bought} == {"hardware hinges", "hardware pull"}
    assert set(hung.moves.values()) == {(0.0, 1.0, 0.0)}, "doors go in from the front"
    assert scenes["step.fit.catch"].new == () and scenes["step.fit.catch"].bought
