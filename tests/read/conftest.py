"""Reading small designs written in the test itself."""

from __future__ import annotations

from pathlib import Path

import pytest
from small_designs import Read, Told

from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.read import read_design
from planbuild.records.design import Design


@pytest.fixture
def read(tmp_path: Path) -> Read:
    """`read(text, **files)` reads a design; other files lie beside it, `series` as series.yaml."""

    def reading(text: str, **files: str) -> Design:
        for name, content in files.items():
            (tmp_path / f"{name}.yaml").write_text(content, "utf-8")
        (tmp_path / "design.yaml").write_text(text, "utf-8")
        return read_design(tmp_path / "design.yaml")

    return reading


@pytest.fixture
def told(read: Read) -> Told:
    """What is refused of a design, as findings sorted by place."""

    def refused(text: str, **files: str) -> tuple[Diagnostic, ...]:
        with pytest.raises(Refused) as caught:
            read(text, **files)
        return caught.value.diagnostics

    return refused
