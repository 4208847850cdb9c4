"""A leaf hung under a table: its hinges are set with everything face down."""

from __future__ import annotations

from pathlib import Path

from planbuild.derive.steps import plan_steps
from planbuild.pipeline import Clock, resolve_file
from planbuild.prove import prove
from planbuild.records.edition import Edition
from planbuild.shape import shape

TABLE = """format: 1
title: Leaf
contact: trial@plans.example
licence: free
units: inch
frame: {width: 16-1/32, depth: 10, height: 3/4}
stock:
  board: {species: white ash, rough: 4/4, thickness: 3/4}
parts:
  main: {stock: board, grain: front-back, face: top, left: 0, width: 8, front: 0, back: 0, top: 0, glue_up: no}
  flap: {stock: board, grain: front-back, face: top, left: 8-1/32, width: 8, front: 0, back: 0, top: 0, glue_up: no}
items:
  hinge: {item: butt hinge, leaf: 2 x 7/8, thickness: 1/16, knuckle: 3/16}
hardware:
  hinges: {item: hinge, leaves: [flap.bottom, main.bottom], at: [3 inside front, 3 inside back]}
"""


def test_a_leaf_is_hung_face_down(tmp_path: Path, letter: Edition) -> None:
    file = tmp_path / "trial.yaml"
    file.write_text(TABLE, "utf-8")
    piece = resolve_file(file, Clock())
    solids = shape(piece)
    steps = {each.id: each for each in plan_steps(piece, solids, prove(piece, solids), letter).steps}
    hung = next(each for each in steps.values() if each.title.startswith("Hang the flap"))
    assert "face down" in hung.actions[0] and "barrels down" in hung.actions[1]
    assert any(each.id.startswith("let_in") for each in steps.values())
