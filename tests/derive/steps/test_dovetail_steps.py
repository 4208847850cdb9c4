"""Steps for dovetails and fingers: which half is cut first, and what the maker is told of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.derive.steps import StepPlan, plan_steps
from planbuild.pipeline import Clock, build, choose_edition, resolve_file
from planbuild.records.facts import WorkStep
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.records.tails import Sockets, Tails

SAMPLES = Path(__file__).parent.parent.parent / "designs" / "every-dovetail.yaml"


@pytest.fixture(scope="module")
def samples() -> Piece:
    return resolve_file(SAMPLES, Clock())


@pytest.fixture(scope="module")
def plan(samples: Piece) -> StepPlan:
    from planbuild.shape import shape

    return plan_steps(samples, shape(samples), Findings((), ()), choose_edition(samples))


def step(plan: StepPlan, word: str) -> WorkStep:
    (found,) = (each for each in plan.steps if each.id.split(".")[0] == word)
    return found


PAIRS = [("tails.drawer_side", "pins.drawer_front"), ("trench.shelf", "tail.bracket"), ("tail.rail", "socket.post")]


@pytest.mark.parametrize(("first", "then"), PAIRS)
def test_the_half_that_the_other_is_fitted_to_comes_first(plan: StepPlan, first: str, then: str) -> None:
    order = [each.id for each in plan.steps]
    assert order.index(first) < order.index(then)


def test_tails_and_pins(plan: StepPlan) -> None:
    """The lower tail spans the groove, so it is wider and its sheet tells how."""
    tails, pins = step(plan, "tails"), step(plan, "pins")
    assert tails.title == "Cut the tails of the drawer sides"
    assert tails.sizes[0].endswith("front end: three tails, set out as on its sheet, ¹⁄₂ long")
    assert tails.sizes[1].endswith("back end: two tails 1\u202f¹⁄₄ wide at the tip, ¹⁄₄ apart, ¹⁄₄ in from the edges, ¹⁄₂ long")
    assert any("1:8" in each for each in tails.actions)
    assert "number both halves of each corner" in " ".join(pins.actions)
    assert any("leaving a lap of ¹⁄₄" in each for each in pins.sizes) and any("right through" in each for each in pins.sizes)


def test_a_tail_that_narrows_is_told_at_both_ends(tmp_path: Path) -> None:
    from planbuild.shape import shape

    file = tmp_path / "tapered.yaml"
    file.write_text(SAMPLES.read_text("utf-8").replace("stopped: {front: 1}}", "stopped: {front: 1}, taper: yes}"), "utf-8")
    tapered = resolve_file(file, Clock())
    steps = plan_steps(tapered, shape(tapered), Findings((), ()), choose_edition(tapered))
    housing = step(steps, "trench")
    (tail,) = (each for each in steps.steps if each.id == "tail.bracket")
    assert housing.sizes[0].endswith("; these at the back, at the front ⁷⁄₁₆ at the mouth: only the right wall slants")
    assert tail.sizes[0].endswith("; these at the back, at the front ¹⁷⁄₃₂ at the tip: only the right flank slants")
    assert "straightedge to the slanting line" in " ".join(housing.actions)
    assert "slides from end to end" not in housing.check and "light taps" in tail.actions[-1]


def test_single_dovetails(plan: StepPlan) -> None:
    assert step(plan, "trench").title == "Cut the dovetail housings for the bracket in the shelf"
    assert "¹⁄₂ wide at the mouth" in step(plan, "trench").sizes[0]
    let_in, slides = (next(each for each in plan.steps if each.id == f"tail.{part}") for part in ("rail", "bracket"))
    assert let_in.sizes[0].endswith("left and right ends: ³⁄₄ long, 1\u202f¹⁄₄ at the tip, 1 at the shoulder")  # pine: 1 in 6
    assert "plane its flanks" in slides.actions[-1] and "plane its flanks" not in let_in.actions[-1]
    assert "knife round it" in step(plan, "socket").actions[0]


def test_fingers_begin_with_one_on_one_board_and_a_space_on_the_other(plan: StepPlan) -> None:
    words = " ".join(step(plan, "fingers").sizes)
    assert "beginning with a finger" in words and "beginning with a space" in words
    assert "left and right ends" in words or "front and back ends" in words


@pytest.mark.slow
def test_every_kind_becomes_a_plan_set() -> None:
    built = build(SAMPLES)
    features = [feature for part in built.checked.piece.parts for feature in part.features]
    found = {each.what for each in features if isinstance(each, Tails | Sockets)}
    assert found == {"tails", "pins", "tail", "housing", "socket", "fingers"}
    assert not [each for each in (*built.checked.findings.diagnostics, *built.plan_set.told) if each.stops]


@pytest.fixture(scope="module")
def pins_first(tmp_path_factory: pytest.TempPathFactory) -> StepPlan:
    """The front cut pins first, the back tails first: the sides come between."""
    from planbuild.shape import shape

    text = SAMPLES.read_text("utf-8").replace("hide: bottom_groove}", "hide: bottom_groove, first: pins}")
    file = tmp_path_factory.mktemp("pins") / "trial.yaml"
    file.write_text(text, "utf-8")
    piece = resolve_file(file, Clock())
    return plan_steps(piece, shape(piece), Findings((), ()), choose_edition(piece))


def test_pins_first_where_the_design_says_so(pins_first: StepPlan) -> None:
    order = [each.id for each in pins_first.steps if each.id.split(".")[0] in ("pins", "tails")]
    assert order == ["pins.drawer_front", "tails.drawer_side", "pins.drawer_back"]
    front, sides, back = (next(each for each in pins_first.steps if each.id == id) for id in order)
    assert any(each.startswith("Set out the pins") and "1:8" in each for each in front.actions)
    assert not any("lay the tails" in each for each in front.actions)
    assert any("knife round the pins" in each for each in sides.actions)
    assert any("Set out the tails" in each for each in sides.actions), "those of the back are still set out"
    assert any("lay the tails" in each for each in back.actions)
