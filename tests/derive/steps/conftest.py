"""The order of work of the bench, and small pieces whose parts are only blocks with contacts."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

import pytest
from timber import HERE, board, box, piece

from planbuild.core.geometry import Vec
from planbuild.derive.steps import StepPlan, plan_steps
from planbuild.records.edition import Edition
from planbuild.records.findings import Findings
from planbuild.records.piece import Contact, Joint, Piece, StepWish
from planbuild.records.solids import Solids

Blocks = Callable[..., Piece]


@pytest.fixture(scope="session")
def plan(bench_piece: Piece, bench_solids: Solids, bench_findings: Findings, letter: Edition) -> StepPlan:
    return plan_steps(bench_piece, bench_solids, bench_findings, letter)


@pytest.fixture
def wished(bench_piece: Piece, bench_solids: Solids, bench_findings: Findings, letter: Edition) -> Callable[..., StepPlan]:
    """The plan of the bench with these wishes instead of its own."""

    def make(*wishes: StepWish) -> StepPlan:
        return plan_steps(replace(bench_piece, steps=wishes), bench_solids, bench_findings, letter)

    return make


def blocks(*links: tuple[str, str, Vec], glue: bool = True, **more: object) -> Piece:
    """A piece of blocks named in `links`: (entering, receiving, way home)."""
    names = dict.fromkeys(name for a, b, _ in links for name in (a, b))
    parts = [board(id=name) for name in names]
    flat = box(0, 1, 0, 1, 0, 0)
    contacts = tuple(Contact((a, 0), (b, 0), way, flat, 0.0, 100.0) for a, b, way in links)
    joint = Joint("joint", "butt", "butt", HERE, contacts, glue, "snug", (), (), ())
    return replace(piece(*parts, joints=(joint,)), **more)  # type: ignore[arg-type]


@pytest.fixture
def made_of() -> Callable[..., Piece]:
    return blocks


def positions(plan: StepPlan) -> Mapping[str, int]:
    return {step.id: step.number for step in plan.steps}
