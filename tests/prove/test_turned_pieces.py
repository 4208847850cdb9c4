"""Whole pieces with turned boards, from the text of a design to the proofs."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from planbuild.core.diagnostics import Severity
from planbuild.prove import prove
from planbuild.read import read_design
from planbuild.records.piece import Piece
from planbuild.records.slanted import AngledMortise
from planbuild.resolve import resolve
from planbuild.shape import shape

TROUGH = """\
format: 1
title: Book trough
contact: trial@plans.example
licence: free
units: inch
frame: {width: 35, depth: 10, height: 30}
stock:
  oak: {species: red oak, rough: 5/4, thickness: 7/8}
parts:
  end:
    {stock: oak, grain: up, face: left, glue_up: {strips: 2}, mirror: left-right,
    left: 1-5/8, front: 0, back: 0, bottom: 0, top: 0}
  shelf: {stock: oak, grain: left-right, face: top, glue_up: {strips: 2}, between: end, front: 0, back: 0, bottom: 7 above bottom}
  near:
    {stock: oak, grain: left-right, face: top, width: 4, between: end, turn: -45 deg,
    centred: {front-back: 1.9506 inside front, bottom-top: 26.4307 above bottom}}
  far:
    {stock: oak, grain: left-right, face: top, width: 4, between: end, turn: 45 deg,
    centred: {front-back: 2.3041 inside back, bottom-top: 26.0771 above bottom}}
joints:
  shelves: {kind: dado, part: shelf}
  trough: {kind: mortise and tenon, tenon: [near, far], thickness: 1-3/4, width: 7/8, through: yes, proud: 1-5/8}
"""
"""Windsor, Mission Furniture Part Three (1912), p. 28: both faces of the trough lie on lines at 45 degrees through a point
on the middle of the ends, 24 from the floor; tenons from 3 to 4 3/4 and from 2 1/2 to 4 1/4 along the face from there.
So the middles of the boards lie 3.875 and 3.375 along it and half a thickness below it, to the nearest 1/10 000."""


@pytest.fixture(scope="module")
def trough(tmp_path_factory: pytest.TempPathFactory) -> Piece:
    file = Path(tmp_path_factory.mktemp("trough")) / "trough.yaml"
    file.write_text(TROUGH, "utf-8")
    return resolve(read_design(file))


def test_the_boards_stand_as_the_book_draws_them(trough: Piece) -> None:
    """Outer corner 5 7/8 along the face and 7/8 below it, all by root 2; 0.23 and 0.58 inside the edges of the end."""
    near, far = (trough.part(id) for id in ("near", "far"))
    assert near.box(0, near.body).y.low / 25.4 == pytest.approx(5 - (5.875 + 0.875) / math.sqrt(2), abs=1e-3)
    assert far.box(0, far.body).y.high / 25.4 == pytest.approx(5 + (5.375 + 0.875) / math.sqrt(2), abs=1e-3)
    assert near.box(0, near.body).z.high / 25.4 == pytest.approx(28.15, abs=0.005)
    assert near.finished == pytest.approx((35 * 25.4, 4 * 25.4, 0.875 * 25.4))


def test_two_mortises_turned_against_each_other(trough: Piece) -> None:
    first, second = (f for f in trough.part("end").features if isinstance(f, AngledMortise))
    assert [round(each.length / 25.4, 4) for each in (first, second)] == [1.75, 1.75]
    runs = [each.pose.direction(each.long_axis.high.normal) for each in (first, second)]
    assert [y * z for _, y, z in runs] == pytest.approx([-0.5, 0.5]) or [y * z for _, y, z in runs] == pytest.approx([0.5, -0.5])


def test_every_proof_holds_and_no_wood_is_claimed_twice(trough: Piece) -> None:
    found = prove(trough, shape(trough))
    assert not [each for each in found.diagnostics if each.severity is not Severity.NOTE]
    (fits,) = (proof for proof in found.proofs if "tenon fits" in proof.claim)
    assert fits.checked == 4 and "beside a tenon 0 in" in fits.worst


def test_a_board_turned_otherwise_than_its_mortise_is_found_out(trough: Piece) -> None:
    near = trough.part("near")
    straight = replace(trough, parts=tuple(replace(each, pose=None) if each.id == near.id else each for each in trough.parts))
    codes = {each.code for each in prove(straight, shape(straight)).diagnostics if each.stops}
    assert {"joint-overlap", "joint-askew"} <= codes
