"""The printed order carried out on the solids: what is in the way is named, and a part comes from where it can."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from planbuild.derive.scene import Scene
from planbuild.derive.steps import StepPlan, plan_steps
from planbuild.derive.steps.assembly import plan_joinings
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.replay import replay
from planbuild.derive.steps.scenes import moves_of
from planbuild.derive.steps.tasks import Task
from planbuild.pipeline import Clock, choose_edition, resolve_file
from planbuild.prove import prove
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.shape import shape

NICHE = """\
format: 1
title: Niche
contact: errata@plans.example
licence: Free to build.
units: inch
frame: {width: 20, depth: 8, height: 12}
stock:
  board: {species: white oak, rough: 4/4, thickness: 3/4}
parts:
  side: {stock: board, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0, mirror: left-right,
    glue_up: {widest_strip: 4}}
  roof: {stock: board, grain: left-right, face: top, between: side, front: 0, back: 0, top: 0, glue_up: {widest_strip: 4}}
  ledger: {stock: board, grain: front-back, face: left, left: side.right, front: 1, back: 1, bottom: 4, width: 1,
    mirror: left-right}
  shelf: {stock: board, grain: left-right, face: top, between: side, gap: 1/32, front: 0, back: 0, bottom: ledger.top,
    glue_up: {widest_strip: 4}}
joints:
  corners: {kind: dado, part: roof}
  ledgers: {kind: screws, part: ledger, to: side, count: 2,
    item: {item: wood screw, head: flat, gauge: 8, length: 1-1/4, material: steel}}
  shelf_on: {kind: loose, part: shelf, on: ledger}
"""
"""A shelf that lies on two ledgers, under a roof that is glued in before it."""

BARS = """\
  bar: {stock: board, grain: left-right, face: front, between: side, front: 0, bottom: 0, top: roof.bottom,
    glue_up: {widest_strip: 4}}
  bar_behind: {stock: board, grain: left-right, face: back, between: side, back: 0, bottom: 0, top: roof.bottom,
    glue_up: {widest_strip: 4}}
joints:
  bars: {kind: dado, part: [bar, bar_behind]}
  under: {kind: butt, part: [bar, bar_behind], to: roof, glue: yes}
"""
"""What closes it in front and behind."""

Planned = Callable[[str], tuple[Piece, Findings, StepPlan]]


@pytest.fixture
def planned(tmp_path: Path) -> Planned:
    def of(text: str) -> tuple[Piece, Findings, StepPlan]:
        file = tmp_path / "niche.yaml"
        file.write_text(text, "utf-8")
        piece = resolve_file(file, Clock())
        solids = shape(piece)
        found = prove(piece, solids)
        return piece, found, plan_steps(piece, solids, found, choose_edition(piece))

    return of


def test_what_cannot_be_let_down_is_slid_in_from_the_front(planned: Planned) -> None:
    _, _, plan = planned(NICHE)
    step = next(each for each in plan.steps if each.id == "fit.shelf")
    assert step.actions[0].startswith("Slide") and step.actions[0].endswith("to its place from the front.")
    scene = next(each for each in plan.scenes if each.id == "step.fit.shelf")
    assert scene.moves == {("shelf", 0): (0.0, 1.0, 0.0)}
    assert [each.code for each in plan.diagnostics] == []
    assert plan.proofs[0].checked == 4  # two sides, the ledgers both at once, the shelf


def test_what_cannot_come_in_at_all_is_told_with_what_is_in_the_way(planned: Planned) -> None:
    shut = NICHE.replace("joints:\n", BARS).replace("gap: 1/32, front: 0, back: 0", "gap: 1/32, front: 1, back: 1")
    _, _, plan = planned(shut)
    (fault,) = (each for each in plan.diagnostics if each.stops)
    assert fault.code == "step-blocked"
    assert fault.message == 'In "fit.shelf" the shelf cannot go to its place: the roof is in the way.'
    assert fault.span and "shelf:" in shut.splitlines()[fault.span.line - 1]


def test_all_that_is_in_the_way_is_named(planned: Planned) -> None:
    """The roof stands in housings of both sides that end above it: between them it goes in from above, not from below."""
    piece, found, _ = planned(NICHE)
    assert found.freedom is not None
    (joining,) = plan_joinings(piece)[0]
    assert set(moves_of(joining).values()) == {(1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)}
    put_in = Task("fit.roof", Verb.FIT, ("roof",))
    for way, told in ((-1.0, ""), (1.0, "left side and right side are in the way")):
        moves = {("roof", 0): (0.0, 0.0, way)}
        scene = Scene("step.fit.roof", new=(("roof", 0),), context=(("side", 0), ("side", 1)), moves=moves)
        faults = replay(piece, found.freedom, [put_in], [scene]).diagnostics
        assert [told in each.message for each in faults] == ([True] if told else [])
