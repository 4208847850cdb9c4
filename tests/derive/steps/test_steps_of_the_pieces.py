"""The order and the words of the work of three whole pieces: a cabinet for the wall, one on a base, a table with drawers."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.derive.lists.features import feature_facts
from planbuild.derive.lists.hardware import hardware
from planbuild.derive.steps.assembly import plan_joinings
from planbuild.derive.steps.checks import frame_diagonals
from planbuild.derive.steps.driven import driven_in
from planbuild.derive.steps.job import Draft, Job
from planbuild.derive.steps.order import put_in_order
from planbuild.derive.steps.tasks import tasks
from planbuild.derive.steps.texts import write
from planbuild.pipeline import Clock, choose_edition, resolve_file
from planbuild.records.findings import Findings, Likeness

DESIGNS = Path(__file__).parent.parent.parent.parent / "designs"
MOST = 5
"""Actions of a step."""

Plan = dict[str, Draft]


def planned(path: Path) -> tuple[Job, Plan]:
    """Every step in its order, in words, without pictures and solids."""
    piece = resolve_file(path, Clock())
    joinings, faults = plan_joinings(piece)
    assert not faults
    alike = tuple(Likeness(part.id, tuple(range(len(part.copies))), ()) for part in piece.parts)
    job = Job(piece, Findings((), (), alike), choose_edition(piece), joinings, 10.0)
    order = put_in_order(piece, tasks(piece, joinings))
    assert not order.diagnostics
    return job, {each.task.id: write(job, each.task) for each in order.steps}


@pytest.fixture(scope="module")
def wall() -> tuple[Job, Plan]:
    return planned(DESIGNS / "wall-cabinet.yaml")


@pytest.fixture(scope="module")
def records() -> tuple[Job, Plan]:
    return planned(DESIGNS / "music-room" / "record-cabinet.yaml")


@pytest.fixture(scope="module")
def table() -> tuple[Job, Plan]:
    return planned(DESIGNS / "music-room" / "score-table.yaml")


def in_order(plan: Plan, *ids: str) -> bool:
    places = [list(plan).index(id) for id in ids]
    return places == sorted(places)


@pytest.mark.parametrize("piece", ["wall", "records", "table"])
def test_no_step_asks_for_more_than_five_things(piece: str, request: pytest.FixtureRequest) -> None:
    _, plan = request.getfixturevalue(piece)
    assert {id: len(draft.actions) for id, draft in plan.items() if len(draft.actions) > MOST} == {}
    assert {draft.title for draft in plan.values() if len(draft.title) > 90} == set()


# ---------------------------------------------------------------- a cabinet on the wall


def test_what_hangs_on_a_wall_has_no_base_and_stands_on_nothing(wall: tuple[Job, Plan]) -> None:
    _, plan = wall
    assert plan["glue.case"].title == "Glue up the case" and "glue.base" not in plan
    assert not any("rock" in action for action in plan["glue.case"].actions) and "rocking" not in plan["glue.case"].check


def test_a_back_in_its_grooves_is_screwed_as_the_case_is_glued_and_not_fitted_again(wall: tuple[Job, Plan]) -> None:
    job, plan = wall
    assert driven_in(job.piece, job.joinings)["shelf_back"].id == "case"
    assert "fit.back_panel" not in plan
    assert any("four screws 3.5 mm × 30 (pilot 2 mm) and three screws 4 mm × 45" in each for each in plan["glue.case"].actions)
    assert dict(plan["glue.case"].hardware) == {"hung item": 3, "shelf_back item": 4}


def test_the_strip_on_the_wall_is_screwed_to_the_wall_and_to_nothing_else(wall: tuple[Job, Plan]) -> None:
    job, plan = wall
    hang = plan["fit.wall_cleat"]
    assert hang.title == "Fix the wall cleat to the wall and hang the cabinet"
    assert not any("pilot" in action.lower() for action in hang.actions)
    assert "bevel at the top, its sharp edge at the front" in hang.actions[0]
    assert "lower [[mark:hung_cleat]] over [[mark:wall_cleat]]" in hang.actions[-1]
    assert hang.cautions[0].hazard.startswith("Cables and pipes")
    (screw,) = (line for line in hardware(job.piece, job.edition) if line.id == "wall_screw")
    assert screw.holes == "clearance 5.5 mm; pilot to suit the wall"
    assert in_order(plan, "fit.wall_cleat", "fit.loose_shelf") and in_order(plan, "fit.wall_cleat", "fit.door")


def test_clamps_go_over_the_boards_that_run_across_and_are_counted_by_length(wall: tuple[Job, Plan]) -> None:
    """Top, bottom, shelf and hung cleat are pressed between the sides; the cleat is 564 long on the back, a clamp every 250."""
    _, plan = wall
    assert plan["glue.case"].sizes == ("four clamps of 800 mm", "three clamps of 300 mm")
    over = "Clamp over [[mark:case_top]], [[mark:case_bottom]], [[mark:fixed_shelf]] and [[mark:hung_cleat]]"
    assert any(action.startswith(over) for action in plan["glue.case"].actions)
    assert any("in the grooves for [[mark:back_panel]]" in action for action in plan["glue.case"].actions)


def test_a_case_is_measured_across_its_front(wall: tuple[Job, Plan]) -> None:
    """600 and 720: 937.2."""
    job, _ = wall
    where, length = frame_diagonals(job, job.joinings[-1]) or ("", 0.0)
    assert where == "across the front of the case" and length == pytest.approx((600**2 + 720**2) ** 0.5)


def test_a_shelf_beside_a_stopped_housing_is_notched(wall: tuple[Job, Plan]) -> None:
    job, plan = wall
    assert plan["rabbet.fixed_shelf"].title == "Notch the corners of the fixed shelf"
    assert plan["rabbet.fixed_shelf"].sizes == ("[[mark:fixed_shelf]] 10 from the front and 6 from the left and right ends",)
    words = [each.words for each in feature_facts(job.piece, job.piece.part("fixed_shelf"))]
    assert "Notch at the front left corner, beside the end of the housing." in words


def test_like_holes_are_told_in_one_line(wall: tuple[Job, Plan]) -> None:
    job, _ = wall
    facts = feature_facts(job.piece, job.piece.part("side"))
    assert {each.several for each in facts if each.kind == "hole"} == {
        "holes in the right face for the cup hinges.",
        "holes in the right face for the pins.",
    }
    (screwed,) = {each.several for each in feature_facts(job.piece, job.piece.part("back_panel"))}
    assert screwed == "clearance holes in the back face for 3.5 mm screws, through."


def test_both_cleats_are_bevelled_at_one_setting(wall: tuple[Job, Plan]) -> None:
    assert len(wall[1]["bevel.cleat"].sizes) == 2


# ---------------------------------------------------------------- a cabinet on a base


def test_base_case_and_doors_are_tried_each_by_itself(records: tuple[Job, Plan]) -> None:
    _, plan = records
    dry = [draft.title for id, draft in plan.items() if id.startswith("dry_fit")]
    assert sorted(dry) == [f"Put the {name} together without glue" for name in ("base", "case", "two doors")]


def test_nobody_turns_a_cabinet_over_for_its_top(records: tuple[Job, Plan]) -> None:
    """It lies on the board of the case, overhanging by an inch at the sides, and is screwed on before the doors hang."""
    _, plan = records
    top = plan["fit.cabinet_top"]
    assert top.actions[0].startswith("Set the cabinet top [[mark:cabinet_top]] on the case")
    assert not any("blanket" in action or "upside" in action for action in top.actions)
    assert "from inside" in top.actions[1] and "overhang 1 at left and right" in top.sizes
    assert in_order(plan, "fit.case_bottom", "fit.cabinet_top", "fit.shelf", "fit.hinges", "fit.tip_strap")
    assert list(plan)[-1] == "fit.tip_strap"


def test_hinges_are_let_into_a_door_when_it_fits(records: tuple[Job, Plan]) -> None:
    """The side of the case is recessed at the bench; the stile only when the door has been planed to its opening."""
    _, plan = records
    assert in_order(plan, "let_in.side", "glue.case", "fit.door", "let_in.door.hinge_stile", "finish.cabinet", "fit.hinges")
    assert "[[mark:door.hinge_stile]]" not in " ".join(plan["let_in.side"].sizes)


def test_what_is_finished_first_is_named_by_its_faces_in_the_action_only(records: tuple[Job, Plan]) -> None:
    _, plan = records
    first = plan["prefinish.door.panel"]
    assert first.title == "Sand the parts and finish what cannot be reached later"
    assert "[[mark:door.panel]] all round" in first.actions[2] and "the inside face of [[mark:side]]" in first.actions[2]


def test_the_pins_go_into_all_boards_with_rows(records: tuple[Job, Plan]) -> None:
    assert "[[mark:side]] and the divider [[mark:divider]]" in records[1]["fit.shelf"].actions[0]


# ---------------------------------------------------------------- a table with drawers


def test_legs_of_two_lengths_have_no_diagonals(table: tuple[Job, Plan]) -> None:
    """A tape from corner to corner would measure two lengths; a T has no fourth corner; the frame is measured level."""
    job, plan = table
    by_id = {each.id: frame_diagonals(job, each) for each in job.joinings}
    assert by_id["end_frame"] is None and by_id["upper_tee"] is None
    assert by_id["table_frame"] is not None and by_id["table_frame"][0] == "across the table frame at one height"
    assert plan["glue.end_frame"].check.startswith("A try square in each corner of the end frame")


def test_the_finish_says_what_stays_bare_or_is_waxed(table: tuple[Job, Plan]) -> None:
    _, plan = table
    (said,) = (each for each in plan["finish.table"].actions if each.startswith("Leave "))
    assert "the back face of [[mark:drawer.drawer_front]]" in said
    assert "put paste wax on [[mark:drawer.drawer_side]], [[mark:side_runner]], [[mark:middle_runner]] instead" in said.replace(
        " and [[mark:middle", ", [[mark:middle"
    )
    assert "[[mark:drawer.drawer_side]] bare" not in said
    assert not any("drawer_bottom" in each for each in plan["finish.table"].actions if "alike" in each)


def test_long_titles_say_the_stock_or_all(table: tuple[Job, Plan]) -> None:
    _, plan = table
    assert plan["lay_out.front_leg"].title == "Lay out all mortises"
    assert plan["mill.end_apron"].title == "Mill the 4/4 white ash"


def test_like_work_is_one_set_up(table: tuple[Job, Plan]) -> None:
    _, plan = table
    assert plan["mortise.low_gallery_rail"].sizes[0].startswith("30 for [[mark:lattice.upright]]")
    assert plan["rabbet.runner"].title == "Cut the step along the edge of the runners"
    assert "[[mark:upper_front_rail]], [[mark:side_kicker]] and [[mark:middle_kicker]]" in plan["bore.upper_front_rail"].sizes[0]
    assert plan["notch.side_runner"].title == "Notch the side runners and side kickers"


def test_long_waits_are_told_in_hours(table: tuple[Job, Plan]) -> None:
    assert table[1]["glue.core"].wait == "12 h in the clamps."



def test_panels_of_which_there_are_two_are_told_as_two(table: tuple[Job, Plan]) -> None:
    _, plan = table
    assert plan["glue.drawer.drawer_bottom"].title == "Glue up the two drawer bottoms from their strips"
    assert plan["size.drawer.drawer_bottom"].title == "Flatten the two drawer bottoms and cut them to size"
