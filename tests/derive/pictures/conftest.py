"""The bench's pictures, each drawn once a run."""

from __future__ import annotations

import pytest

from planbuild.core.diagnostics import Collector
from planbuild.derive.drawings import of_the_piece, of_the_steps
from planbuild.derive.pictures.studio import Studio
from planbuild.derive.steps import plan_steps
from planbuild.records.drawing import Drawing
from planbuild.records.edition import Edition
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids


@pytest.fixture(scope="session")
def studio(bench_piece: Piece, bench_solids: Solids, letter: Edition) -> Studio:
    return Studio(bench_piece, bench_solids, letter, Collector())


@pytest.fixture(scope="session")
def of_piece(studio: Studio) -> dict[str, Drawing]:
    return {drawing.id: drawing for drawing in of_the_piece(studio)}


@pytest.fixture(scope="session")
def of_steps(studio: Studio, bench_findings: Findings) -> dict[str, Drawing]:
    scenes = plan_steps(studio.piece, studio.solids, bench_findings, studio.edition).scenes
    return {drawing.id: drawing for drawing in of_the_steps(studio, scenes)}


@pytest.fixture(scope="session")
def drawings(of_piece: dict[str, Drawing], of_steps: dict[str, Drawing]) -> dict[str, Drawing]:
    return {**of_piece, **of_steps}
