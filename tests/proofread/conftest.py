"""The facts of the bench as they will be printed."""

from __future__ import annotations

import pytest

from planbuild.pipeline import Checked
from planbuild.records.facts import Facts
from planbuild.records.piece import Piece


@pytest.fixture(scope="session")
def facts(bench: Checked) -> Facts:
    return bench.facts


@pytest.fixture(scope="session")
def placed(bench: Checked) -> Piece:
    return bench.piece
