"""What a block brings with it: its own stock and items, its sources, and what it says of the work on it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from planbuild.core.diagnostics import Refused
from planbuild.derive.steps import order_faults
from planbuild.pipeline import Clock, resolve_file
from planbuild.records.photos import Photo
from planbuild.records.piece import Piece, StepWish

DESIGN = """\
format: 1
title: Trial
contact: trial@plans.example
licence: free
units: inch
frame: {width: 30, depth: 16, height: 6}
sources: ["A book of cases"]
stock:
  board: {species: white ash, rough: 4/4, thickness: 3/4}
parts:
  side: {stock: board, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0, mirror: left-right, glue_up: no}
  floor: {stock: board, grain: left-right, face: top, between: side, front: 0, back: 0, bottom: 0, glue_up: no}
openings:
  one: {left: side.right, right: 1 left of middle, front: 1, back: 2, bottom: floor.top, top: 1}
  other: {left: 1 right of middle, right: right side.left, front: 1, back: 2, bottom: floor.top, top: 1}
blocks:
  near_tray: {use: tray.yaml, in: one}
  far_tray: {use: tray.yaml, in: other}
joints:
  housing: {kind: dado, part: floor}
  near_rests: {kind: loose, part: near_tray, on: floor}
  far_rests: {kind: loose, part: far_tray, on: floor}
"""
TRAY = """\
format: 1
block: tray
frame: opening
moves: {goes_in: from front, opens: to front, by: frame.depth / 2}
sources: ["A book of trays", "A book of cases"]
takes:
  gap: {value: 1/8, from: 1/16, to: 1/4}
  ends: {choices: [plain, boxed], value: plain}
sizes:
  thick: 1/2
stock:
  thin: {species: hard maple, rough: 4/4, thickness: thick}
items:
  knob: {item: turned knob, diameter: 1, projection: 1}
parts:
  cheek:
    stock: thin
    grain: front-back
    face: left
    left: gap
    front: 0
    length: frame.depth - 2
    bottom: 0
    top: 1/2
    mirror: left-right
  base: {stock: thin, grain: left-right, face: top, between: cheek, front: 0, back: cheek.back, bottom: 0, glue_up: no}
  lip: {when: ends is boxed, stock: thin, grain: left-right, face: front, between: cheek, front: 0, bottom: base.top, width: 1}
joints:
  floor: {kind: dado, part: base}
hardware:
  pull: {item: knob, on: cheek.front}
steps:
  house.cheek: {note: "Mark the cheeks as a pair.", after: [mill.cheek, mill.lip]}
  size.lip: {note: "Leave it a little long."}
  glue.tray: {check: "The diagonals are equal."}
  add:
    wax.base: {title: "Wax the base", note: "Rub wax on it. Let it dry.", parts: [base], after: glue.tray}
    polish.base: {title: "Polish the base", note: "Polish it.", parts: [base], after: wax.base}
"""

Made = Callable[..., Piece]


@pytest.fixture
def made(tmp_path: Path) -> Made:
    def resolved(old: str = "", new: str = "") -> Piece:
        assert old in TRAY
        (tmp_path / "tray.yaml").write_text(TRAY.replace(old, new, 1), "utf-8")
        (tmp_path / "design.yaml").write_text(DESIGN, "utf-8")
        return resolve_file(tmp_path / "design.yaml", Clock())

    return resolved


def wish(piece: Piece, id: str) -> StepWish:
    return next(each for each in piece.steps if each.id == id)


def test_a_block_brings_its_own_stock_and_items(made: Made) -> None:
    """Half an inch, by a size of the block; and both trays are cut from one stock and buy one kind of knob."""
    piece = made()
    assert {piece.part(f"{tray}.{part}").stock for tray in ("near_tray", "far_tray") for part in ("cheek", "base")} == {
        "near_tray.thin"
    }
    assert [(each.id, round(each.thickness, 4)) for each in piece.stock] == [("board", 19.05), ("near_tray.thin", 12.7)]
    assert [each.id for each in piece.items] == ["near_tray.knob"]


def test_stock_that_differs_stays_apart(made: Made) -> None:
    """What a block takes may make its stock another one."""
    piece = made("thick: 1/2", "thick: gap * 4")
    assert len(piece.stock) == 2
    text = DESIGN.replace("in: other}", "in: other, with: {gap: 3/16}}")
    folder = Path(piece.part("near_tray.base").origin.file).parent
    (folder / "design.yaml").write_text(text, "utf-8")
    other = resolve_file(folder / "design.yaml", Clock())
    assert [round(each.thickness, 4) for each in other.stock] == [19.05, 12.7, 19.05]


def test_its_sources_join_those_of_the_piece(made: Made) -> None:
    assert made().imprint.sources == ("A book of cases", "A book of trays")


def test_its_steps_are_carried_into_every_use(made: Made) -> None:
    piece = made()
    for tray in ("near_tray", "far_tray"):
        assert wish(piece, f"house.{tray}.cheek").note == "Mark the cheeks as a pair."
        assert wish(piece, f"glue.{tray}").check == "The diagonals are equal."
        own = wish(piece, f"wax.{tray}.base")
        assert own.own == ("Rub wax on it.", "Let it dry.") and own.parts == (f"{tray}.base",) and own.after == (f"glue.{tray}",)
        assert wish(piece, f"polish.{tray}.base").after == (f"wax.{tray}.base",)
    assert order_faults(piece) == ()


def test_steps_of_what_is_not_there_are_left_out(made: Made) -> None:
    """The lip has a `when` that does not hold: its note goes with it, and nothing waits for it."""
    piece = made()
    assert not any(each.id.endswith(".lip") for each in piece.steps)
    assert wish(piece, "house.near_tray.cheek").after == ("mill.near_tray.cheek",)


@pytest.mark.parametrize("old", ["house.cheek:", "after: wax.base"])
def test_a_step_of_something_else_is_refused(made: Made, old: str) -> None:
    new = {"house.cheek:": "house.drawer:", "after: wax.base": "after: wax.lid"}[old]
    with pytest.raises(Refused) as refused:
        made(old, new)
    found = {(each.code, each.span.line if each.span else 0) for each in refused.value.diagnostics if each.stops}
    line = next(number for number, text in enumerate(TRAY.splitlines(), 1) if old in text)
    assert found == {("step-unknown", line)}


def test_a_stock_that_the_block_has_not_is_told(made: Made) -> None:
    with pytest.raises(Refused) as refused:
        made("base: {stock: thin", "base: {stock: board")
    assert {each.code for each in refused.value.diagnostics} == {"stock-missing"}


def test_photos_are_found_beside_the_file_that_names_them(made: Made, tmp_path: Path) -> None:
    """The caption is what the long form says, else what is to be seen; `detail` asks for a larger drawing."""
    for name in ("tray.jpg", "cheek.jpg"):
        (tmp_path / name).write_bytes(b"a photo, as far as reading goes")
    text = "photo: tray.jpg\nsources: ["
    piece = made("sources: [", text)
    captions = {"Photo of the near tray", "Photo of the far tray"}
    assert {each.photo for each in piece.blocks} == {Photo("tray.jpg", each) for each in captions}
    piece = made("    mirror: left-right\n", '    mirror: left-right\n    photo: {value: cheek.jpg, help: "Seen from inside"}\n')
    assert piece.part("near_tray.cheek").photo == Photo("cheek.jpg", "Seen from inside")
    piece = made("part: base}", "part: base, detail: yes, photo: tray.jpg}")
    assert [each.enlarged for each in piece.joints if each.photo] == [True, True]
    assert len(piece.joints) == 5 and sum(each.enlarged for each in piece.joints) == 2


def test_a_part_at_fault_in_a_block_is_told_alone(made: Made) -> None:
    """The block is a subassembly of what is left of it; once that was a fault of ours."""
    with pytest.raises(Refused) as refused:
        made("between: cheek, front: 0, back: cheek.back", "between: cheek, front: 30, back: cheek.back")
    assert {each.code for each in refused.value.diagnostics if each.stops} >= {"place-negative"}
