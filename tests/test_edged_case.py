"""A case of plywood with edging, housings that stop behind it and a back in rabbets, proved and proofread as a whole."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.pipeline import check

DESIGN = Path(__file__).parent / "designs" / "edged-case.yaml"


@pytest.mark.slow
def test_an_edged_case_is_sound_and_fully_told() -> None:
    checked = check(DESIGN)
    codes = {each.code for each in checked.findings.diagnostics if each.severity.value != "note"}
    assert codes <= {"step-open-time"}, codes
    steps = [step.id for step in checked.facts.steps]
    assert [id for id in steps if id.startswith(("rough", "mill"))] == []
    assert steps.index("edge.shelf") < steps.index("house.side")
    strips = [(strip.part, strip.count) for group in checked.facts.cut_list for strip in group.strips]
    assert strips == [("side", 2), ("case_top", 1), ("case_bottom", 1), ("shelf", 1)]
