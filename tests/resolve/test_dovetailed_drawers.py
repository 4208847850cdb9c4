"""Drawers with dovetailed corners, from the text of a design to its boards."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.pipeline import Clock, resolve_file
from planbuild.records.features import Groove
from planbuild.records.piece import Part, Piece
from planbuild.records.tails import Sockets, Tails

INCH = 25.4
DRAWER = """format: 1
title: Small drawer
contact: errata@plans.example
licence: For one maker's own use.
units: inch
frame: {width: 12, depth: 10, height: 4}
stock:
  front_cherry: {species: black cherry, rough: 4/4, thickness: 3/4}
  side_oak: {species: white oak, rough: 3/4, thickness: 1/2}
parts:
  drawer_front: {stock: front_cherry, grain: left-right, face: front, fills: frame, front: 0}
  drawer_side:
    {stock: side_oak, grain: front-back, face: right, left: 0, front: 0, back: 0, bottom: 0, top: 0, mirror: left-right}
  drawer_back:
    {stock: side_oak, grain: left-right, face: front, left: 0, right: 0, back: 0, bottom: drawer_bottom.top, top: 1/4}
  drawer_bottom:
    stock: side_oak
    grain: left-right
    face: top
    between: drawer_side
    front: drawer_front.back
    back: 0
    top: UP above bottom
    glue_up: {strips: 3}
joints:
  front_corner: {kind: half-blind dovetail, tail: drawer_side, pin: drawer_front HIDE}
  back_corner: {kind: through dovetail, tail: drawer_side, pin: drawer_back}
  bottom_groove:
    kind: panel in groove
    panel: drawer_bottom
    edges: [left, right, front]
    depth: 1/4
    edge: {thickness: 1/4, by: rabbet, on: bottom}
    play: 1/32
  rest: {kind: loose, part: drawer_bottom, on: drawer_back}
"""


def resolved(folder: Path, up: str, hide: str = "") -> Piece:
    path = folder / "drawer.yaml"
    path.write_text(DRAWER.replace("UP", up).replace("HIDE", hide), "utf-8")
    return resolve_file(path, Clock())


def comb(part: Part) -> Tails | Sockets:
    return next(each for each in part.features if isinstance(each, Tails | Sockets))


def told(piece: Piece) -> list[str]:
    return [each.code for each in piece.warnings if each.code == "joint-groove-shows"]


def test_the_cut_list_has_the_length_behind_the_lap(tmp_path: Path) -> None:
    piece = resolved(tmp_path, "5/8")
    assert piece.part("drawer_side").finished == pytest.approx((9.75 * INCH, 4 * INCH, 0.5 * INCH))
    assert piece.part("drawer_front").finished == pytest.approx((12 * INCH, 4 * INCH, 0.75 * INCH))
    (groove,) = (each for each in piece.part("drawer_side").features if isinstance(each, Groove))
    assert groove.void.y.low == pytest.approx(0.25 * INCH)  # it ends where the wood ends


def test_a_groove_that_comes_out_beside_a_tail_is_told_and_a_tail_can_hide_it(tmp_path: Path) -> None:
    """Groove 1/4 to 1/2 above the bottom edge: the first tail would begin at 1/4."""
    assert told(resolved(tmp_path, "1/2")) == ["joint-groove-shows"]
    hidden = resolved(tmp_path, "1/2", ", hide: bottom_groove")
    assert told(hidden) == []
    row = comb(hidden.part("drawer_side")).comb
    neck = row.neck(row.tails[0])
    assert neck.low < 0.25 * INCH < 0.5 * INCH < neck.high
    assert not row.even and len(row.tails) == 3
    assert told(resolved(tmp_path, "5/8")) == []  # as far up as this the first tail spans it anyway


def test_the_joint_that_hides_may_be_said_before_the_joint_that_is_hidden(tmp_path: Path) -> None:
    piece = resolved(tmp_path, "1/2", ", hide: bottom_groove")
    assert [each.id for each in piece.joints] == ["front_corner", "back_corner", "bottom_groove", "rest"]
    assert [type(each) for each in piece.part("drawer_side").features] == [Tails, Tails, Groove]
