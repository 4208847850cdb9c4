"""A face frame on pocket screws: its pockets are bored at one setting, nothing is drilled in the stiles."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.derive.dimensions.measures import measures_of
from planbuild.derive.lists.hardware import holes_of, holes_text
from planbuild.derive.sheets.lie import lie_of
from planbuild.derive.steps import plan_steps
from planbuild.pipeline import Clock, resolve_file
from planbuild.proofread.numbers import needs_of
from planbuild.prove import prove
from planbuild.records.edition import Edition
from planbuild.records.facts import WorkStep
from planbuild.records.piece import Piece
from planbuild.records.pockets import Pocket
from planbuild.shape import shape

FRAME = """format: 1
title: Face frame
contact: trial@plans.example
licence: free
units: inch
frame: {width: 24, depth: 3/4, height: 30}
stock:
  maple: {species: sugar maple, rough: 4/4, thickness: 3/4}
items:
  pocket_screw: {item: wood screw, gauge: 8, length: 1-1/4, head: pan}
parts:
  stile: {stock: maple, grain: up, face: front, left: 0, bottom: 0, front: 0, length: 30, width: 2, mirror: left-right}
  top_rail: {stock: maple, grain: left-right, face: front, between: [left stile, right stile], top: 0, front: 0, width: 2}
  low_rail: {stock: maple, grain: left-right, face: front, between: [left stile, right stile], bottom: 0, front: 0, width: 3}
joints:
  top_corner: {kind: pocket screws, part: top_rail, to: stile, item: pocket_screw, glue: GLUE}
  low_corner: {kind: pocket screws, part: low_rail, to: stile, item: pocket_screw, glue: GLUE}
"""


def frame(folder: Path, glue: str = "yes") -> Piece:
    file = folder / "frame.yaml"
    file.write_text(FRAME.replace("GLUE", glue), "utf-8")
    return resolve_file(file, Clock())


def steps_of(piece: Piece, edition: Edition) -> tuple[WorkStep, ...]:
    solids = shape(piece)
    return plan_steps(piece, solids, prove(piece, solids), edition).steps


def words(step: WorkStep) -> str:
    return " ".join((step.title, *step.actions, *step.sizes, step.check))


def test_both_rails_are_bored_at_one_setting(tmp_path: Path, letter: Edition) -> None:
    steps = steps_of(frame(tmp_path), letter)
    (pockets,) = (each for each in steps if each.id.startswith("pocket"))
    assert f"thickness of {letter.ruler.printed(0.75 * 25.4)}" in words(pockets)
    assert words(pockets).count("15° to the face") == 2 and "out at the left and right" in words(pockets)
    assert not [each for each in steps if each.id.startswith("bore")]


@pytest.mark.parametrize("glue", ["yes", "no"])
def test_the_screws_go_in_through_the_pockets_without_pilot_holes(tmp_path: Path, letter: Edition, glue: str) -> None:
    driven = [words(each) for each in steps_of(frame(tmp_path, glue), letter) if "through the pockets" in words(each)]
    assert driven and not [each for each in driven if "pilot" in each.lower()]


def test_the_list_of_hardware_says_so(tmp_path: Path, letter: Edition) -> None:
    piece = frame(tmp_path)
    (screw,) = piece.items
    assert holes_of(piece, screw, letter.ruler) is None
    assert "cut their own thread" in holes_text(piece, screw, letter.ruler)


def test_what_a_sheet_must_say_of_a_pocket_is_measured(tmp_path: Path) -> None:
    """The numbers that proofreading asks for, reckoned apart, are among those that are measured."""
    piece = frame(tmp_path)
    rail = piece.part("top_rail")
    pocket = next(each for each in rail.features if isinstance(each, Pocket))
    values = [each.value for each in measures_of(rail, lie_of(rail).datum) if each.feature == pocket.id]
    for need in (each for each in needs_of(rail) if each.feature == pocket.id):
        wanted = [need.value] if need.axis is None else [high - low for low, high in need.spans]
        assert any(value == pytest.approx(each) for value in values for each in wanted), need.words
    assert len(values) == 6
