"""The sample piece printed once a run, on Letter and on A4."""

from __future__ import annotations

import io
from pathlib import Path

import pdfplumber
import pytest
from sample_facts import A4_EDITION, FACTS, FINDINGS, LETTER_EDITION

from planbuild.publish import Theme, load_theme, publish
from planbuild.records.planset import PlanSet

NOWHERE = Path("/nonexistent")


@pytest.fixture(scope="session")
def bench_theme() -> Theme:
    return load_theme("bench", NOWHERE)


@pytest.fixture(scope="session")
def letter(bench_theme: Theme) -> PlanSet:
    return publish(FACTS, FINDINGS, bench_theme, LETTER_EDITION)


@pytest.fixture(scope="session")
def a4(bench_theme: Theme) -> PlanSet:
    return publish(FACTS, FINDINGS, bench_theme, A4_EDITION)


@pytest.fixture(scope="session")
def letter_pages(letter: PlanSet) -> list[pdfplumber.page.Page]:
    return pdfplumber.open(io.BytesIO(letter.pdf)).pages
