"""How far each part has come at its steps: no joint of a later step, no blank without its length."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from planbuild.core.geometry import Axis
from planbuild.derive.scene import Stage
from planbuild.derive.steps import StepPlan
from planbuild.records.features import Chamfer, Hole, Taper, Tenon
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids


@pytest.fixture
def close(plan: StepPlan) -> Mapping[str, Stage]:
    """The stage that each close picture draws."""
    return {scene.id: scene.close for scene in plan.scenes if scene.close}


def kinds(stage: Stage) -> set[str]:
    return {feature.kind for feature in stage.after.features}


def test_a_lower_rail_is_mortised_as_a_whole_blank(close: Mapping[str, Stage], bench_piece: Piece) -> None:
    """Its tenons are cut in a later step: until then the blank reaches to their tips."""
    rail, stage = bench_piece.part("lower_rail"), close["step.mortise.lower_rail"]
    assert kinds(stage) == {"mortise"} and stage.before.features == ()
    assert stage.after.body == rail.extent


def test_tenons_come_before_grooves_and_tips(close: Mapping[str, Stage], bench_piece: Piece) -> None:
    assert kinds(close["step.tenon.rail"]) == {"tenon"}
    assert kinds(close["step.groove.long_rail"]) == {"tenon", "groove"}
    (tenon, *_) = (f for f in close["step.tenon.rail"].after.features if isinstance(f, Tenon))
    assert tenon.mitre is None
    assert close["step.tenon.rail"].after.body == bench_piece.part("long_rail").body


def test_tips_are_cut_in_steps_of_their_own(close: Mapping[str, Stage]) -> None:
    mitred, kerfed = close["step.mitre.long_rail"], close["step.kerf.lower_rail"]
    assert all(f.mitre is None for f in mitred.before.features if isinstance(f, Tenon))
    assert all(f.mitre for f in mitred.after.features if isinstance(f, Tenon))
    before = [f for f in kerfed.before.features if isinstance(f, Tenon)]
    after = [f for f in kerfed.after.features if isinstance(f, Tenon)]
    assert all(f.wedging is None and f.tip_chamfer == 0 for f in before)
    assert all(f.wedging and f.tip_chamfer for f in after)


def test_edges_are_eased_last(close: Mapping[str, Stage]) -> None:
    eased = {id for id, stage in close.items() if any(isinstance(f, Chamfer) for f in stage.after.features)}
    assert eased == {id for id in close if id.startswith("step.chamfer.")} and len(eased) == 1


def test_pilot_holes_wait_for_the_fitting(close: Mapping[str, Stage], bench_piece: Piece) -> None:
    assert any(isinstance(f, Hole) for f in bench_piece.part("seat").features)
    assert not any(isinstance(f, Hole) for f in close["step.chamfer.seat"].after.features)


def test_wedges_are_made_longer_than_they_stay(close: Mapping[str, Stage], bench_piece: Piece) -> None:
    wedge, made = bench_piece.part("wedge"), close["step.make.wedge"].after
    (taper,) = (f for f in wedge.features if isinstance(f, Taper))
    assert made.body.size(wedge.grain) == pytest.approx(wedge.body.size(wedge.grain) + wedge.rough_length)
    assert made.body.at(taper.end) == wedge.body.at(taper.end)


def test_what_a_step_leaves_is_what_the_next_one_finds(close: Mapping[str, Stage]) -> None:
    """Mortises come first on a leg and tapers last but for the edges."""
    assert close["step.taper.leg"].before == close["step.mortise.leg"].after


def test_solids_of_the_way_weigh_what_their_numbers_say(close: Mapping[str, Stage], bench_solids: Solids) -> None:
    rail = close["step.mortise.lower_rail"].after
    solid = bench_solids.unfinished(rail)
    holes = sum(f.void.volume for f in rail.features)
    assert solid.Volume() == pytest.approx(rail.body.volume - holes) and solid.isValid()
    box = solid.BoundingBox()
    ends = rail.body.along(Axis.FRONT_BACK)
    assert (box.ymin, box.ymax) == pytest.approx((ends.low, ends.high), abs=1e-3)
