"""A cupboard whose front is a turned block, built to the last page."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.pipeline import build

CUPBOARD = Path(__file__).parent / "designs" / "corner-cupboard.yaml"


@pytest.mark.slow
def test_a_cupboard_with_a_turned_front_becomes_a_plan_set() -> None:
    built = build(CUPBOARD)
    found = (*built.checked.findings.diagnostics, *built.plan_set.told)
    assert not [each for each in found if each.stops]
    facts = built.checked.facts
    assert "joint.face_frame.corners.section" in facts.drawings  # only parts square to each other have one
    assert any(each.startswith("What opens or swings comes free: 1 checked") for each in facts.proofs)
