"""Every published piece as a whole: placed, proved, drawn, planned and proofread without a fault."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.pipeline import check

FILES = sorted(Path(__file__).parent.glob("*.yaml"))


def test_there_are_five() -> None:
    assert len(FILES) == 5


@pytest.mark.slow
@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_plan_can_be_made_of_it(path: Path) -> None:
    checked = check(path)
    assert [each.message for each in checked.findings.diagnostics if each.stops] == []
    assert checked.facts.steps
    assert [each.message for each in checked.findings.diagnostics if each.code.startswith("drawing-")] == []
