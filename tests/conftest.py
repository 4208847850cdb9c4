"""Shared ground of the tests: the demonstration bench at each stage, made once a run, and golden files.

Pytest's `--renew-golden` rewrites the golden files; look at the diff before committing it.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import settings

from planbuild.pipeline import Built, Checked, Clock, build, check, resolve_file
from planbuild.records.piece import Piece

REPOSITORY = Path(__file__).parent.parent
BENCH = REPOSITORY / "designs" / "music-room" / "listening-bench.yaml"

os.environ.setdefault("SOURCE_DATE_EPOCH", "1772409600")

# The same samples on every machine: a failure seen once is seen again, and a run that passed passes.
settings.register_profile("repeatable", derandomize=True, deadline=None)
settings.load_profile("repeatable")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--renew-golden", action="store_true", help="rewrite the golden files")


@pytest.fixture(scope="session")
def bench_path() -> Path:
    return BENCH


@pytest.fixture(scope="session")
def bench_piece() -> Piece:
    return resolve_file(BENCH, Clock())


@pytest.fixture(scope="session")
def bench() -> Checked:
    """Everything derived and proved of the bench, first edition."""
    return check(BENCH)


@pytest.fixture(scope="session")
def bench_built() -> Built:
    """The whole plan set of the bench, first edition."""
    return build(BENCH)


@pytest.fixture
def golden(request: pytest.FixtureRequest):
    """`golden(name, text)` compares text with `tests/golden/<name>` and shows a readable diff."""

    def compare(name: str, text: str) -> None:
        file = REPOSITORY / "tests" / "golden" / name
        if request.config.getoption("--renew-golden"):
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, "utf-8")
        assert file.exists(), f"no golden file {name}: run pytest --renew-golden and look at what it wrote"
        assert text.splitlines() == file.read_text("utf-8").splitlines()

    return compare
