"""The bench as far as derive needs it: placed, made solid, proved; and one edition of each unit."""

from __future__ import annotations

from fractions import Fraction

import pytest

from planbuild.core.units import Ruler, Unit
from planbuild.prove import prove
from planbuild.records.edition import A4, LETTER, Edition, Projection
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids
from planbuild.shape import shape


@pytest.fixture(scope="session")
def bench_solids(bench_piece: Piece) -> Solids:
    return shape(bench_piece)


@pytest.fixture(scope="session")
def bench_findings(bench_piece: Piece, bench_solids: Solids) -> Findings:
    return prove(bench_piece, bench_solids)


@pytest.fixture(scope="session")
def letter() -> Edition:
    return Edition("letter", LETTER, Ruler(Unit.INCH, Fraction(1, 32)), Projection.THIRD, "2026-03-02")


@pytest.fixture(scope="session")
def a4() -> Edition:
    return Edition("a4", A4, Ruler(Unit.MM, Fraction(1, 2)), Projection.FIRST, "2026-03-02")
