"""A tray on bought slides: it comes out, its slides are fixed, and nothing of it is planed to fit."""

from __future__ import annotations

from pathlib import Path

from planbuild.derive.steps import plan_steps
from planbuild.pipeline import Clock, resolve_file
from planbuild.prove import prove
from planbuild.records.edition import Edition
from planbuild.shape import shape

TRAY = """format: 1
title: Tray case
contact: trial@plans.example
licence: free
units: inch
stock:
  board: {species: white ash, rough: 4/4, thickness: 3/4}
frame: {width: 12, depth: 10, height: 5}
parts:
  case_floor: {stock: board, grain: front-back, face: top, fills: frame, bottom: 0, glue_up: {strips: 3}}
  wall:
    {stock: board, grain: front-back, face: left, left: 0, front: 0, back: 0, bottom: case_floor.top, top: 0, mirror: left-right}
openings:
  space: {left: left wall.right, right: right wall.left, front: 0, back: 0, bottom: 1/2 above case_floor.top, top: 0}
blocks:
  tray: {use: tray.yaml, in: space, with: {wood: board}}
joints:
  walls: {kind: butt, part: wall, to: case_floor, glue: yes}
items:
  runner: {item: slide, length: 8, height: 1-3/4, thickness: 1/2}
hardware:
  runners: {item: runner, leaves: [tray.cheek.left, wall.right], at: {bottom: 1/2 above tray.cheek.bottom}}
"""
BLOCK = """format: 1
block: tray
summary: A tray.
frame: opening
moves: {goes_in: from front, opens: to front, by: 6}
takes:
  wood: {is: stock}
parts:
  cheek: {stock: wood, grain: front-back, face: left, left: 1/2, front: 0, back: 1/4, bottom: 0, top: 1/8, mirror: left-right}
  base: {stock: wood, grain: left-right, face: top, between: cheek, front: 0, back: cheek.back, bottom: 1/2, glue_up: no}
joints:
  base: {kind: dado, part: base, depth: 1/8}
"""


def test_a_tray_on_slides_comes_out_and_is_not_fitted_to_wood(tmp_path: Path, letter: Edition) -> None:
    """The proof that it moves, and the order of work: the slides are fixed, nothing is planed to fit."""
    file = tmp_path / "trial.yaml"
    file.write_text(TRAY, "utf-8")
    (tmp_path / "tray.yaml").write_text(BLOCK, "utf-8")
    piece = resolve_file(file, Clock())
    solids = shape(piece)
    found = prove(piece, solids)
    assert not [each.message for each in found.diagnostics if each.stops]
    assert next(each for each in found.proofs if "comes free" in each.claim).checked == 1
    steps = {each.id: each for each in plan_steps(piece, solids, found, letter).steps}
    assert "fit.tray" not in steps
    assert "slotted" in " ".join(steps["fit.runners"].actions)
