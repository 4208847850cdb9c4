"""Each kind of shape in one small piece, built to the last page: cut, drawn, dimensioned and proofread together."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.pipeline import build
from planbuild.records.features import Arch, Bevel, Chamfer, Curve, EdgeBevel, Hole, RoundOver, Taper
from planbuild.records.shaped import Dished, Moulding, Sawn, Turned

DESIGNS = Path(__file__).parent / "designs"
KINDS = {Taper, Chamfer, RoundOver, Arch, Curve, Bevel, Hole}


@pytest.mark.slow
def test_a_piece_with_every_kind_of_shape_becomes_a_plan_set() -> None:
    built = build(DESIGNS / "every-shape.yaml")
    features = [feature for part in built.checked.piece.parts if not part.made_by for feature in part.features]
    assert {type(feature) for feature in features} >= KINDS
    stopped = [each for each in features if isinstance(each, Chamfer | RoundOver) and each.reach]
    assert {type(each) for each in stopped} == {Chamfer, RoundOver}
    assert {each.depth is None for each in features if isinstance(each, Hole)} == {True, False}
    found = (*built.checked.findings.diagnostics, *built.plan_set.told)
    assert not [each for each in found if each.stops]
    assert built.files["plan.pdf"].startswith(b"%PDF")


@pytest.mark.slow
def test_a_piece_with_every_outline_becomes_a_plan_set() -> None:
    built = build(DESIGNS / "sawn-shapes.yaml")
    sawn = [feature for part in built.checked.piece.parts for feature in part.features if isinstance(feature, Sawn)]
    assert {each.what for each in sawn} == {"notch", "cut-out", "recess", "outline", "clipped corner", "rounded corner"}
    found = (*built.checked.findings.diagnostics, *built.plan_set.told)
    assert not [each for each in found if each.stops]
    assert {step.id.split(".")[0] for step in built.checked.facts.steps} >= {"notch", "cut_out", "outline", "corner"}


@pytest.mark.slow
def test_a_piece_of_round_parts_and_mouldings_becomes_a_plan_set() -> None:
    built = build(DESIGNS / "round-shapes.yaml")
    features = [feature for part in built.checked.piece.parts for feature in part.features]
    assert {Turned, Dished, Moulding, EdgeBevel} <= {type(feature) for feature in features}
    found = (*built.checked.findings.diagnostics, *built.plan_set.told)
    assert not [each for each in found if each.stops]
    assert {step.id.split(".")[0] for step in built.checked.facts.steps} >= {"turn", "dish", "mould", "bevel"}
