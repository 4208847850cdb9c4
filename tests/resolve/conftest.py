"""Reads and lays out the small designs of these tests."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from trial import HEAD, Trial

from planbuild.core.diagnostics import Collector, Refused
from planbuild.read import read_design
from planbuild.records.design import Design
from planbuild.resolve.layout import lay_out


@pytest.fixture
def design_of(tmp_path: Path) -> Callable[..., Design]:
    def read(text: str, units: str = "inch", board: str = "3/4", species: str = "white ash") -> Design:
        file = tmp_path / "trial.yaml"
        head = HEAD.replace("units: inch", f"units: {units}").replace("thickness: 3/4", f"thickness: {board}")
        file.write_text(head.replace("white ash, rough: 4/4", f"{species}, rough: 4/4") + text, "utf-8")
        return read_design(file)

    return read


@pytest.fixture
def lay(design_of: Callable[..., Design]) -> Callable[..., Trial]:
    """Lays a small design out; the head above is put before it."""

    def laid_out(text: str, **head: str) -> Trial:
        report = Collector()
        design = design_of(text, **head)
        laid = lay_out(design, report)
        found = tuple(each for each in Refused(tuple(report.found)).diagnostics if not each.code.startswith("joint-"))
        return Trial(design, laid, found)

    return laid_out
