"""What the designer asks for: kept where it can be, refused with the reason where not."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from timber import HERE

from planbuild.derive.steps import StepPlan
from planbuild.derive.steps.operations import Operation, Verb
from planbuild.derive.steps.precedence import Edge
from planbuild.derive.steps.regroup import apart
from planbuild.derive.steps.tasks import Task
from planbuild.read.vocabulary import STEP_WORDS
from planbuild.records.photos import Photo
from planbuild.records.piece import StepWish

Wished = Callable[..., StepPlan]


def _ids(plan: StepPlan) -> list[str]:
    return [step.id for step in plan.steps]


def test_a_wish_moves_a_step(wished: Wished, plan: StepPlan) -> None:
    """Buttons can be made while the glue sets; they are then printed under the phase that has begun."""
    moved = wished(StepWish("make.button", HERE, after=("glue.end_frame",)))
    ids = _ids(moved)
    assert moved.diagnostics == ()
    assert ids.index("make.button") > ids.index("glue.end_frame")
    assert sorted(ids) == sorted(_ids(plan))
    (step,) = (each for each in moved.steps if each.id == "make.button")
    assert step.phase == "Glue-up"


def test_before_moves_a_step_forward(wished: Wished) -> None:
    ids = _ids(wished(StepWish("make.button", HERE, before=("make.wedge",))))
    assert ids.index("make.button") < ids.index("make.wedge")


def test_a_wish_against_a_rule_is_refused(wished: Wished) -> None:
    found = wished(StepWish("taper.leg", HERE, before=("mortise.leg",)))
    (fault,) = found.diagnostics
    assert fault.code == "step-order" and fault.stops and fault.span == HERE
    assert fault.message == (
        '"taper.leg" before "mortise.leg" cannot be: joints are marked and cut while all faces are square; '
        "a shaped part has none to measure from."
    )
    ids = _ids(found)
    assert ids.index("mortise.leg") < ids.index("taper.leg")


def test_a_chain_of_rules_is_told(wished: Wished) -> None:
    (fault,) = wished(StepWish("tenon.rail", HERE, before=("lay_out.leg",))).diagnostics
    assert fault.expected == '"lay_out.leg" before "mortise.leg" before "tenon.rail"'


def test_two_wishes_that_contradict_each_other(wished: Wished) -> None:
    one = StepWish("make.button", HERE, after=("make.wedge",))
    other = StepWish("make.wedge", HERE, after=("make.button",))
    (fault,) = wished(one, other).diagnostics
    assert fault.code == "step-order" and "another wish" in fault.message


def test_a_step_before_itself(wished: Wished) -> None:
    (fault,) = wished(StepWish("taper.leg", HERE, after=("taper.leg",))).diagnostics
    assert fault.code == "step-order"
    assert fault.message == '"taper.leg" is asked to come before or after itself.'


def test_two_names_of_one_step(wished: Wished) -> None:
    """Both rails are cut at one setting of the saw."""
    (fault,) = wished(StepWish("tenon.long_rail", HERE, after=("tenon.lower_rail",))).diagnostics
    assert fault.code == "step-order"
    assert fault.message.startswith('"tenon.long_rail" and "tenon.lower_rail" are one step, "tenon.rail":')


@pytest.mark.parametrize("wish", [StepWish("tapr.leg", HERE), StepWish("taper.leg", HERE, after=("tapr.leg",))])
def test_a_step_that_is_not_there(wished: Wished, wish: StepWish) -> None:
    (fault,) = wished(wish).diagnostics
    assert fault.code == "step-unknown" and "tapr.leg" in fault.message
    assert fault.hints == ('Did you mean "taper.leg"?',)


def test_the_reader_knows_every_kind_of_work() -> None:
    assert {verb.word for verb in Verb if verb is not Verb.OWN} | {"prefinish"} == set(STEP_WORDS)


def test_a_step_goes_by_any_part_in_it(wished: Wished) -> None:
    """`tenon.lower_rail` and `mill.long_rail` are parts of larger steps."""
    found = wished(StepWish("tenon.lower_rail", HERE, note="Leave it long."), StepWish("mill.long_rail", HERE, check="No snipe."))
    assert found.diagnostics == ()
    notes = {step.id: step.note for step in found.steps}
    assert notes["tenon.rail"] == "Leave it long."
    assert next(step for step in found.steps if step.id == "mill.seat").check.endswith("No snipe.")


def test_words_of_the_designer(wished: Wished) -> None:
    caution = ("CAUTION", "The batten springs back.", "It strikes the face.", "Clamp both ends.")
    said = {"title": "Saw the arches", "why": "it lightens the front", "note": "Keep the offcuts."}
    wish = StepWish("arch.long_rail", HERE, **said, caution=caution, photo=Photo("arch.jpg", "The arch"))
    (step,) = (each for each in wished(wish).steps if each.id == "arch.long_rail")
    assert (step.title, step.why, step.note) == ("Saw the arches", "It lightens the front.", "Keep the offcuts.")
    assert step.photo == "arch.jpg" and step.photos == (Photo("arch.jpg", "The arch"),)
    assert step.cautions[0].hazard == "The batten springs back."


def test_wishes_of_the_bench_itself(plan: StepPlan) -> None:
    by_id = {step.id: step for step in plan.steps}
    assert by_id["glue.end_frame"].title == "Glue up the two end frames"
    assert "waste side of all four legs" in by_id["taper.leg"].note


# ---------------------------------------------------------------- joined, kept in one, added


def test_two_steps_of_like_work_are_joined(wished: Wished, plan: StepPlan) -> None:
    """Small parts are made kind by kind; what was said of both is said in one step, what is alike only once."""
    one, other = (step for step in plan.steps if step.id.startswith("make.") and step.id in ("make.button", "make.wedge"))
    found = wished(StepWish(one.id, HERE, joined=other.id, note="Make two spare ones."))
    assert found.diagnostics == ()
    assert one.id not in _ids(found) and len(found.steps) == len(plan.steps) - 1
    whole = next(step for step in found.steps if step.id == other.id)
    assert set(whole.parts) == {*one.parts, *other.parts}
    assert set(one.actions) | set(other.actions) == set(whole.actions)
    assert "Make two spare ones." in whole.note
    assert whole.title.startswith(" ".join(other.title.split()[:2])) and " and " in whole.title


def test_unlike_work_is_not_joined(wished: Wished, plan: StepPlan) -> None:
    found = wished(StepWish("make.button", HERE, joined="taper.leg"))
    (fault,) = found.diagnostics
    assert fault.code == "step-join" and "only like work" in fault.message and fault.span == HERE
    assert _ids(found) == _ids(plan)


def test_what_must_come_between_keeps_steps_apart() -> None:
    """Two mills with a glue-up between them, by rules made for it."""
    one, two = (Task(f"mill.{id}", Verb.MILL, (id,), (Operation(Verb.MILL, id),)) for id in ("leg", "seat"))
    rules = [Edge("mill.leg", "glue.seat", "First the legs."), Edge("glue.seat", "mill.seat", "Then the seat.")]
    fault = apart(StepWish("mill.leg", HERE, joined="mill.seat"), one, two, rules)
    assert fault and fault.code == "step-join" and fault.message.endswith("cannot be one step: first the legs.")
    assert fault.expected == '"mill.leg" before "glue.seat" before "mill.seat"'
    assert apart(StepWish("mill.leg", HERE, joined="mill.seat"), one, two, rules[:1]) is None


def test_all_work_of_a_kind_in_one_step(wished: Wished, plan: StepPlan) -> None:
    makes = [step for step in plan.steps if step.id.startswith("make.")]
    assert len(makes) > 1
    found = wished(StepWish("make.button", HERE, gathers=True))
    assert found.diagnostics == ()
    (whole,) = (step for step in found.steps if step.id.startswith("make."))
    assert set(whole.parts) == {part for step in makes for part in step.parts}
    assert whole.id == "make.button"


def test_a_joined_step_goes_by_its_old_name(wished: Wished) -> None:
    wishes = (StepWish("make.button", HERE, joined="make.wedge"), StepWish("make.button", HERE, check="None cracked."))
    found = wished(*wishes)
    assert found.diagnostics == ()
    assert next(step for step in found.steps if step.id == "make.wedge").check.endswith("None cracked.")


def test_a_step_of_the_designers_own(wished: Wished, plan: StepPlan) -> None:
    said = {"title": "Sign the bench", "own": ("Write the year", "Sign below it"), "check": "It can be read."}
    found = wished(StepWish("sign.bench", HERE, parts=("seat",), after=(_ids(plan)[3],), **said))
    assert found.diagnostics == ()
    assert _ids(found)[4] == "sign.bench"
    step = found.steps[4]
    assert (step.title, step.actions, step.parts) == ("Sign the bench", ("Write the year.", "Sign below it."), ("seat",))
    assert step.phase == found.steps[3].phase and step.check == "It can be read."
    assert [id for id in _ids(found) if id != "sign.bench"] == _ids(plan)


def test_an_own_step_right_before_another(wished: Wished, plan: StepPlan) -> None:
    (goal,) = (step for step in plan.steps if step.id == "taper.leg")
    found = wished(StepWish("draw.taper", HERE, title="Draw", own=("Draw it.",), before=("taper.leg",)))
    assert found.diagnostics == ()
    assert _ids(found).index("draw.taper") == goal.number - 1 and _ids(found).index("taper.leg") == goal.number


@pytest.mark.parametrize(
    ("wish", "word"),
    [
        (StepWish("sign.bench", HERE, title="Sign", own=("Sign it.",)), "not said where"),
        (StepWish("taper.leg", HERE, title="Taper", own=("Taper it.",), after=("mill.seat",)), "already"),
    ],
)
def test_an_own_step_has_its_own_name_and_place(wished: Wished, wish: StepWish, word: str) -> None:
    codes = [(each.code, word in each.message) for each in wished(wish).diagnostics]
    assert ("step-own", True) in codes
