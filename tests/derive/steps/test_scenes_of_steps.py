"""What the pictures show: keys that exist, motions that go home, one picture a step at most."""

from __future__ import annotations

from math import hypot

from planbuild.derive.steps import StepPlan
from planbuild.records.piece import Piece


def test_each_scene_belongs_to_a_step(plan: StepPlan) -> None:
    drawn = [step.drawing for step in plan.steps if step.drawing]
    assert [scene.id for scene in plan.scenes] == drawn
    assert drawn[0] == "step.mortise.leg" and len(drawn) >= 12


def test_scenes_speak_of_what_exists(plan: StepPlan, bench_piece: Piece) -> None:
    copies = {(part.id, copy) for part in bench_piece.parts for copy in range(len(part.copies))}
    features = {(part.id, feature.id) for part in bench_piece.parts for feature in part.features}
    for scene in plan.scenes:
        assert scene.new and set(scene.new) <= copies and set(scene.context) <= copies
        assert not set(scene.new) & set(scene.context)
        assert set(scene.moves) <= {*scene.new, *scene.context}
        assert set(scene.features) <= features
        assert set(scene.marks) <= {key[0] for key in (*scene.new, *scene.context)}


def test_motions_are_unit_directions(plan: StepPlan) -> None:
    assert all(abs(hypot(*way) - 1) < 1e-9 for scene in plan.scenes for way in scene.moves.values())


def test_end_frames_close_on_rails_and_slats(plan: StepPlan, bench_piece: Piece) -> None:
    (scene,) = (each for each in plan.scenes if each.id == "step.glue.base")
    assert {key[0] for key in scene.new} == {"long_rail", "slat"}
    assert {key[0] for key in scene.context} == {"leg", "short_rail", "lower_rail", "wedge"}
    middle = bench_piece.frame.centre[0]
    for (part, copy), way in scene.moves.items():
        here = bench_piece.part(part).copies[copy].motion.box(bench_piece.part(part).body).centre[0]
        assert way == ((1.0, 0.0, 0.0) if here < middle else (-1.0, 0.0, 0.0)), part


def test_the_seat_is_fitted_lying_on_its_face(plan: StepPlan) -> None:
    """The words say so: the base comes down on it, with the buttons in its grooves; the pilot holes are to be seen."""
    (scene,) = (each for each in plan.scenes if each.id == "step.fit.seat")
    assert scene.over and ("seat", 0) not in scene.moves
    assert set(scene.moves.values()) == {(0.0, 0.0, 1.0)}
    assert {("leg", 0), ("button", 0), ("wedge", 0)} <= set(scene.moves)
    assert len(scene.features) == 12
    assert {("button", copy) for copy in range(12)} <= set(scene.new)


def test_work_on_a_part_is_drawn_close_and_what_goes_together_whole(plan: StepPlan) -> None:
    close = {scene.id: scene.close is not None for scene in plan.scenes}
    assert close["step.mortise.leg"] and close["step.taper.leg"]
    assert not close["step.glue.end_frame"] and not close["step.fit.seat"]


def test_steps_on_the_same_rails_show_different_ones(plan: StepPlan) -> None:
    scenes = {scene.id: scene.new[0][0] for scene in plan.scenes}
    assert scenes["step.tenon.rail"] != scenes["step.mitre.long_rail"] != scenes["step.kerf.lower_rail"]
