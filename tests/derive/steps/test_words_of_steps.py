"""What each step says: short, in the imperative, with references that exist; tools, hardware and cautions that belong."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest

from planbuild.core.tables import rows
from planbuild.derive.steps import StepPlan, plan_steps
from planbuild.records.edition import Edition
from planbuild.records.facts import WorkStep
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids

REFERENCE = re.compile(r"\[\[(\w+):([^\]]+)\]\]")
MOST_ACTIONS, MOST_WORDS = 5, 60
"""Pages of a plan set: a step has at most this many actions and words."""
VERBS = re.compile(
    "Bend|Brush|Carry|Chamfer|Clamp|Coat|Cut|Draw|Drill|Drive|Gauge|Glue|Joint|Keep|Knife|Lay|Leave|Mark|Mask|Number|Once|Pare|"
    "Pencil|Plane|Push|Put|Rip|Rub|Sand|Saw|Scrape|Set|Slope|Square|Stack|Stand|Turn|Wipe"
)


@pytest.fixture(scope="module", params=["letter", "a4", "by hand"])
def any_plan(
    request: pytest.FixtureRequest,
    bench_piece: Piece,
    bench_solids: Solids,
    bench_findings: Findings,
    letter: Edition,
    a4: Edition,
) -> StepPlan:
    edition = a4 if request.param == "a4" else letter
    way = "hand" if request.param == "by hand" else "machine"
    made = replace(bench_piece, practice=replace(bench_piece.practice, way=way))
    return plan_steps(made, bench_solids, bench_findings, edition)


def _texts(step: WorkStep) -> Iterator[str]:
    yield from (*step.actions, *step.sizes, step.check, step.note, step.why, step.title, step.wait)


def test_steps_are_short(any_plan: StepPlan) -> None:
    for step in any_plan.steps:
        words = sum(len(REFERENCE.sub("X", action).split()) for action in step.actions)
        assert 1 <= len(step.actions) <= MOST_ACTIONS, step.id
        assert words <= MOST_WORDS, (step.id, words)


def test_actions_begin_with_a_verb_and_end_with_a_stop(any_plan: StepPlan) -> None:
    for step in any_plan.steps:
        for action in step.actions:
            assert VERBS.fullmatch(action.split()[0]), action
            assert action.endswith(".") and ".." not in action
        assert step.title[0].isupper() and not step.title.endswith(".")
        assert step.check.endswith(".")


def test_references_exist(any_plan: StepPlan, bench_piece: Piece) -> None:
    parts = {each.id for each in bench_piece.parts}
    found = {match.groups() for step in any_plan.steps for text in _texts(step) for match in REFERENCE.finditer(text)}
    assert found
    assert all(kind in ("part", "mark", "sheet") and id in parts for kind, id in found)


def test_titles_are_plain_and_all_different(any_plan: StepPlan) -> None:
    titles = [step.title for step in any_plan.steps]
    assert len(set(titles)) == len(titles)
    assert not any("[[" in each for each in titles)


def test_sizes_needed_are_at_the_step(plan: StepPlan) -> None:
    by_id = {step.id: step for step in plan.steps}
    through = "9\u202f³⁄₄ to 11\u202f¹⁄₄; ⁹⁄₁₆ from the outside face"
    assert f"[[mark:leg]] for [[mark:lower_rail]], from the top end: {through}" in by_id["lay_out.leg"].sizes
    blind = "³⁄₈ wide, 2\u202f¹⁄₄ long, 1\u202f³⁄₁₆ deep"
    assert f"8 for [[mark:long_rail]] and [[mark:short_rail]]: {blind}" in by_id["mortise.leg"].sizes
    assert "36\u202f¹⁄₂ between shoulders; tenon ³⁄₈ × 2\u202f¹⁄₄, 1\u202f¹⁄₈ long" in by_id["tenon.rail"].sizes[0]
    assert by_id["taper.leg"].sizes == ("[[mark:leg]] starts 5 from the top, leaves 1\u202f¹⁄₈ at the bottom",)
    assert by_id["fit.seat"].sizes[0] == "overhang 2 at left and right"


def test_a_line_that_is_not_cut_yet_is_told_from_the_end(plan: StepPlan) -> None:
    """The mortises for the slats are laid out before the shoulders of the lower rail are sawn."""
    by_id = {step.id: step for step in plan.steps}
    assert by_id["lay_out.leg"].number < by_id["tenon.rail"].number
    (line,) = (each for each in by_id["lay_out.leg"].sizes if each.startswith("[[mark:lower_rail]]"))
    assert ", from the front shoulder line (1\u202f⁷⁄₈ from the end): ¹⁄₂ to" in line


def test_glue_stays_out_of_mortises_that_are_still_to_be_filled(plan: StepPlan) -> None:
    """Those for the long rails meet those for the short rails inside the leg; when the base is glued they are full."""
    by_id = {step.id: step for step in plan.steps}
    assert by_id["glue.end_frame"].actions[0].startswith("Brush glue into the mortises for [[mark:short_rail]] and")
    assert ", none into those for [[mark:long_rail]];" in by_id["glue.end_frame"].actions[0]
    assert "[[mark:long_rail]] run into the glued ones" in by_id["glue.end_frame"].note
    assert "none into" not in by_id["glue.base"].actions[0] and "run into" not in by_id["glue.base"].note


def test_only_what_is_not_sanded_yet_is_sanded_for_the_finish(plan: StepPlan) -> None:
    finish = next(step for step in plan.steps if step.id == "finish.bench")
    assert finish.actions[0].startswith("Sand [[mark:seat]] with grit 120, then 180; scrape off glue marks elsewhere; dust off")
    assert "[[mark:leg]]" not in finish.actions[0]


def test_tools_of_the_steps_are_the_list_of_tools(any_plan: StepPlan) -> None:
    by_step = {(tool, step.id) for step in any_plan.steps for tool in step.tools}
    by_list = {(tool.name, id) for tool in any_plan.tools for id in tool.steps}
    assert by_step == by_list
    assert len({tool.name for tool in any_plan.tools}) == len(any_plan.tools)
    assert not any("{" in tool.name for tool in any_plan.tools)


def test_hand_tools_only_when_asked(bench_piece: Piece, bench_solids: Solids, bench_findings: Findings, letter: Edition) -> None:
    by_hand = replace(bench_piece, practice=replace(bench_piece.practice, way="hand"))
    names = " ".join(tool.name for tool in plan_steps(by_hand, bench_solids, bench_findings, letter).tools)
    assert not any(machine in names for machine in ("table saw", "jointer,", "router", "band saw", "press", "thickness planer"))
    assert "plough plane" in names


def test_clamps_are_counted_once_for_all(plan: StepPlan) -> None:
    counts = {tool.name: tool.count for tool in plan.tools if "clamps" in tool.name}
    assert counts == {"bar clamps, 18 in or longer": 5, "bar clamps, 48 in or longer": 2}
    assert not any(tool.count for tool in plan.tools if tool.name not in counts)


def test_hardware_of_the_steps_is_the_list(plan: StepPlan, bench_piece: Piece) -> None:
    used: dict[str, int] = {}
    for step in plan.steps:
        for item, count in step.hardware:
            used[item] = used.get(item, 0) + count
    wanted: dict[str, int] = {}
    for joint in bench_piece.joints:
        for item, count in joint.hardware:
            wanted[item] = wanted.get(item, 0) + count
    assert used == wanted == {"top_screw": 12}


def test_operations_of_the_joints_are_worked(plan: StepPlan, bench_piece: Piece) -> None:
    """What a joint names as its work stands in the table of operations, and a step does it on a part of the joint."""
    known = {row["operation"] for row in rows("operations")}
    assert {op for joint in bench_piece.joints for op in joint.operations} <= known


def test_cautions_stand_where_the_danger_is(any_plan: StepPlan) -> None:
    for step in any_plan.steps:
        hazards = " ".join(each.hazard for each in step.cautions)
        if "table saw" in step.tools:
            assert "throw the work back" in hazards, step.id
        if "lint-free cloths" in step.tools:
            assert "Rags" in hazards, step.id
        if any(tool.startswith("chisel") for tool in step.tools) and len(step.cautions) < 2:
            assert "chisel slips" in hazards, step.id
        assert len(step.cautions) <= 2 and len(set(step.cautions)) == len(step.cautions)
        assert [each.signal for each in step.cautions] == sorted((each.signal for each in step.cautions), reverse=True), step.id


def test_signal_words(any_plan: StepPlan) -> None:
    """ANSI Z535.6 knows four."""
    found = [*any_plan.cautions, *(each for step in any_plan.steps for each in step.cautions)]
    assert {each.signal for each in found} <= {"DANGER", "WARNING", "CAUTION", "NOTICE"}
    for each in found:
        assert each.hazard and each.harm and each.avoid and "{" not in each.avoid


def test_the_front_defers_to_manuals(plan: StepPlan) -> None:
    assert len(plan.cautions) >= 5
    assert "manual" in plan.cautions[0].avoid and "licensed practice" in plan.cautions[0].avoid


def test_short_blanks_are_warned_of(bench_piece: Piece, bench_solids: Solids, bench_findings: Findings, letter: Edition) -> None:
    """A rail of 12 in with 1 in to spare is long enough; with nothing to spare at 11 in it is not (makers' manuals, 12 in)."""

    def milling(spare: float) -> WorkStep:
        parts = tuple(replace(p, rough_length=spare) if p.id == "short_rail" else p for p in bench_piece.parts)
        found = plan_steps(replace(bench_piece, parts=parts), bench_solids, bench_findings, letter)
        return next(step for step in found.steps if step.id == "mill.seat")

    assert any("under 12 in" in each.hazard for each in milling(-25.4).cautions)
    assert not any("under 12 in" in each.hazard for each in milling(25.4).cautions)


def test_a_heavy_piece_is_lifted_by_two(
    bench_piece: Piece, bench_solids: Solids, bench_findings: Findings, letter: Edition
) -> None:
    """NIOSH: 23 kg for one person.  The bench is lighter; five times its volume is not."""
    heavy = replace(bench_solids, of={id: replace(each, volume=each.volume * 5) for id, each in bench_solids.of.items()})

    def lifting(solids: Solids) -> bool:
        steps = plan_steps(bench_piece, solids, bench_findings, letter).steps
        return any("weighs" in each.hazard for step in steps for each in step.cautions)

    assert lifting(heavy) and not lifting(bench_solids)
