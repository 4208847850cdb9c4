"""Work on parts that are not square: level feet are sawn before anything is measured, slanted shoulders with their tenons."""

from __future__ import annotations

from pathlib import Path

import pytest
from timber import BOTTOM_TOP, FRONT_BACK, board, box, piece, said

from planbuild.core.geometry import Face
from planbuild.derive.lists.notes import part_notes
from planbuild.derive.steps.operations import Verb, operations
from planbuild.read import read_design
from planbuild.records.features import Mate, Tenon
from planbuild.records.piece import Part, Piece
from planbuild.records.slanted import EndCut
from planbuild.resolve import resolve

SLOPES = ((FRONT_BACK, 6.0), (BOTTOM_TOP, 4.0))
BODY = box(0, 500, 0, 40, 0, 40)


def slanted(*more: Tenon) -> Part:
    low = EndCut(**said("end.left"), end=Face.LEFT, at=4, slopes=SLOPES)
    high = EndCut(**said("end.right"), end=Face.RIGHT, at=496, slopes=SLOPES)
    return board(low, high, *more, body=BODY)


def work(part: Part) -> dict[Verb, list[str]]:
    return {each.verb: [f.id for f in each.features] for each in operations(piece(part)) if each.features}


def test_slanted_ends_are_sawn() -> None:
    assert work(slanted()) == {Verb.TRIM: ["end.left", "end.right"]}


def test_a_slanted_shoulder_is_no_end_to_saw_off() -> None:
    tenon = Tenon(**said("hold.right", "hold"), end=Face.RIGHT, block=box(496, 525, 10, 30, 10, 30), mate=Mate("x"))
    assert work(slanted(tenon)) == {Verb.TRIM: ["end.left"], Verb.TENON: ["end.right", "hold.right"]}


STOOL = """\
format: 1
title: Stool
contact: trial@plans.example
licence: free
units: inch
frame: {width: 20, depth: 14, height: 17-1/2, beyond: [leg]}
stock:
  slab: {species: white ash, rough: 8/4, thickness: 1-1/2}
parts:
  lid: {stock: slab, grain: left-right, face: top, fills: frame, glue_up: {strips: 4}, top: 0}
  leg:
    {stock: slab, grain: up, width: 1-1/2, left: 2-1/2, front: 2-1/2, bottom: 0, top: lid.bottom,
    lean: {end: bottom, left: 8 deg, front: 6 deg}, mirror: [left-right, front-back]}
joints:
  rest: {kind: loose, part: lid, on: leg}
"""


@pytest.fixture
def stool(tmp_path: Path) -> Piece:
    file = tmp_path / "stool.yaml"
    file.write_text(STOOL, "utf-8")
    return resolve(read_design(file))


def test_the_sheet_says_how_the_leg_leans(stool: Piece) -> None:
    """Sightline atan(tan 6 / tan 8) = 36.8, resultant atan(hypot(tan 8, tan 6)) = 10.0 degrees, by hand."""
    (note,) = (each for each in part_notes(stool, stool.part("leg")) if "leans" in each)
    assert "8° to the left and 6° to the front" in note
    assert "sightline 36.8°" in note and "resultant 10°" in note
    assert "mirrored copies lean mirrored" in note
