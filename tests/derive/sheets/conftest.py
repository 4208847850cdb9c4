"""The sheets of the bench in both editions, drawn once a run."""

from __future__ import annotations

import pytest

from planbuild.derive.sheets.part_sheet import Sheet, part_sheet
from planbuild.records.edition import Edition
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids

Sheets = dict[str, Sheet]


@pytest.fixture(scope="session")
def editions(letter: Edition, a4: Edition) -> dict[str, Edition]:
    return {each.id: each for each in (letter, a4)}


@pytest.fixture(scope="session")
def sheets(bench_piece: Piece, bench_solids: Solids, bench_findings: Findings, editions: dict[str, Edition]) -> dict[str, Sheets]:
    """Edition id -> part id -> sheet."""
    return {
        id: {part.id: part_sheet(part, bench_piece, bench_solids, bench_findings, edition) for part in bench_piece.parts}
        for id, edition in editions.items()
    }
