"""Openings and blocks: where their faces lie, how they are copied, what they are given, what a `when` leaves out."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from trial import HEAD, Trial

from planbuild.core.diagnostics import Collector, Refused
from planbuild.core.geometry import Face
from planbuild.read import read_design
from planbuild.records.design import Said
from planbuild.resolve.blocks import blocks, openings
from planbuild.resolve.finish import coatings
from planbuild.resolve.layout import lay_out
from planbuild.resolve.work import block_assemblies, loads

CASE = """\
frame: {width: 30, depth: 16, height: 6}
parts:
  side: {stock: board, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0, mirror: left-right, glue_up: no}
  floor: {stock: board, grain: left-right, face: top, between: side, front: 0, back: 0, bottom: 0, glue_up: no}
"""
SPACE = "openings:\n  tray_space: {left: side.right, right: 1 left of middle, front: 1, back: 2, bottom: floor.top, top: 1}\n"
TRAY = """\
format: 1
block: tray
frame: opening
moves: {goes_in: from front, opens: to front, by: frame.depth / 2}
takes:
  wood: {is: stock}
  knob: {is: item, optional: yes}
  gap: {value: 1/8, from: 1/16, to: 1/4}
  ends: {choices: [plain, boxed], value: plain}
parts:
  cheek:
    stock: wood
    grain: front-back
    face: left
    left: gap
    front: 0
    length: frame.depth - 2 rounded down to 1
    bottom: 0
    top: 1/2
    mirror: left-right
  base: {stock: wood, grain: left-right, face: top, between: cheek, front: 0, back: cheek.back, bottom: 0, glue_up: no}
  end: {when: ends is boxed, stock: wood, grain: left-right, face: front, between: cheek, back: 0, bottom: 0, top: 0}
hardware:
  pull: {when: knob is given, item: knob, on: base.front}
"""

PLACES = (("tray", "tray_space"), ("tub", "other"))

Laid = Callable[..., Trial]


@pytest.fixture
def lay(tmp_path: Path) -> Laid:
    """Lays a design out beside the file of a tray."""

    def laid_out(text: str, tray: str = TRAY) -> Trial:
        (tmp_path / "tray.yaml").write_text(tray, "utf-8")
        (tmp_path / "design.yaml").write_text(HEAD + CASE + text, "utf-8")
        design, report = read_design(tmp_path / "design.yaml"), Collector()
        laid = lay_out(design, report)
        found = tuple(each for each in Refused(tuple(report.found)).diagnostics if not each.code.startswith("joint-"))
        return Trial(design, laid, found)

    return laid_out


def tray(more: str = "", gives: str = "wood: board") -> str:
    return f"{SPACE}blocks:\n  tray: {{use: tray.yaml, in: tray_space, with: {{{gives}}}{more}}}\n"


def test_an_opening_has_faces_a_middle_and_measures(lay: Laid) -> None:
    board = "  pad: {stock: board, grain: left-right, face: top, left: tray_space.left, length: tray_space.width / 2,"
    board += " centred: {front-back: tray_space}, width: tray_space.depth - 1, top: tray_space.middle, glue_up: no}\n"
    trial = lay(board + SPACE)
    assert trial.codes == []
    # From the side (3/4) to 1 left of the middle (15): 13-1/4 wide; 13 deep from 1 to 14; its height from 3/4 to 5.
    assert [tuple(map(float, each)) for each in trial.body("pad")] == [(0.75, 7.375), (1.5, 13.5), (2.125, 2.875)]


def test_a_part_fills_an_opening(lay: Laid) -> None:
    board = "  pad: {stock: board, grain: left-right, face: top, fills: tray_space, gap: 1/4, bottom: floor.top, glue_up: no}\n"
    trial = lay(board + SPACE)
    assert [tuple(map(float, each)) for each in trial.body("pad")[:2]] == [(1.0, 13.75), (1.25, 13.75)]


def test_inside_a_block_the_frame_is_its_opening(lay: Laid) -> None:
    trial = lay(tray())
    assert trial.codes == []
    # 1/8 inside the opening (3/4 to 14); its depth of 13 less 2; from the floor to 1/2 under the opening's top (5).
    assert [tuple(map(float, each)) for each in trial.body("tray.cheek")] == [(0.875, 1.625), (1.0, 12.0), (0.75, 4.5)]
    assert trial.copies("tray.cheek")["right"] == (13.125, 1.0, 0.75)


def test_a_block_is_mirrored_as_one(lay: Laid) -> None:
    """The right tray's left cheek is the one that stands at the left there, as a maker sees it."""
    copies = lay(tray(", mirror: left-right")).copies("tray.cheek")
    assert {hand: low[0] for hand, low in copies.items()} == {
        "left tray's left": 0.875,
        "left tray's right": 13.125,
        "right tray's left": 30 - 13.125 - 0.75,
        "right tray's right": 30 - 0.875 - 0.75,
    }


@pytest.mark.parametrize(
    ("said", "place"),
    [
        ("tray.cheek.right", 1.625),
        ("right tray.cheek.left", 28.375),
        ("right tray.left cheek.right", 30 - 13.125),
        ("left tray.right cheek.left", 13.125),
        ("right tray.left", 16),
        ("tray.right", 14),
    ],
)
def test_parts_of_a_block_are_reached_from_outside(lay: Laid, said: str, place: float) -> None:
    pad = f"  pad: {{stock: board, grain: up, face: left, left: {said}, front: 0, width: 1, bottom: 1, top: 1}}\n"
    trial = lay(pad + tray(", mirror: left-right"))
    assert float(trial.body("pad")[0][0]) == place


def test_joining_a_hand_left_out_means_all(lay: Laid) -> None:
    trial = lay(tray(", mirror: left-right"))
    def copies(text: str, scope: str = "") -> list[str]:
        chosen = trial.laid.words.part(Said(text, trial.design.title.span, scope=scope))
        assert chosen
        return [chosen.board.copies[copy].hand for copy in chosen.copies]

    assert len(copies("tray.cheek")) == len(copies("cheek", "tray")) == 4
    assert copies("left tray.cheek") == ["left tray's left", "left tray's right"]
    assert copies("tray.left cheek") == copies("left cheek", "tray") == ["left tray's left", "right tray's left"]
    assert copies("right tray.left cheek") == ["right tray's left"]


def test_what_is_given_stands_for_the_blocks_own_names(lay: Laid) -> None:
    trial = lay("sizes: {wide_gap: 1/4}\n" + tray(gives="wood: board, gap: wide_gap"))
    assert trial.part("tray.cheek").stock == "board"
    assert float(trial.body("tray.cheek")[0][0]) == 1.0


def test_a_when_leaves_out_what_it_is_said_of(lay: Laid) -> None:
    plain, boxed = lay(tray()), lay(tray(gives="wood: board, ends: boxed"))
    assert "tray.end" not in plain.laid.boards and "tray.end" in boxed.laid.boards
    item = "items: {knob: {item: turned knob, diameter: 1}}\n"
    assert "tray.pull" not in plain.laid.setting_out.design.hardware
    given = lay(item + tray(gives="wood: board, knob: knob"))
    assert given.laid.setting_out.design.hardware["tray.pull"].item.text == "knob"


@pytest.mark.parametrize(("when", "there"), [("gap > 1/4", False), ("gap <= 1/8", True), ("ends is not plain", False)])
def test_comparisons(lay: Laid, when: str, there: bool) -> None:
    trial = lay(tray(), TRAY.replace("ends is boxed", when))
    assert ("tray.end" in trial.laid.boards) is there


def test_a_block_that_is_absent_takes_its_parts_along(lay: Laid) -> None:
    trial = lay(tray(", when: frame.width > 40"))
    assert list(trial.laid.boards) == ["side", "floor"]
    assert trial.codes == []


def test_a_block_in_a_block_and_one_written_where_it_is_used(lay: Laid) -> None:
    outer = """\
  pair:
    frame: {width: 10, depth: 6, height: 2}
    left: 2
    front: 3
    bottom: floor.top
    takes: {oak: {is: stock}, reveal: 1/8}
    with: {oak: board, reveal: 3/16}
    parts:
      rear: {stock: oak, grain: left-right, face: front, left: 0, right: 0, back: 0, bottom: 0, top: 0}
    openings:
      half: {left: 0, right: middle, front: 0, back: rear.front, bottom: 0, top: 0}
    blocks:
      tray: {use: tray.yaml, in: half, mirror: left-right, with: {wood: oak, gap: reveal}}
"""
    trial = lay("blocks:\n" + outer)
    assert trial.codes == []
    # The frame of the pair from 2 to 12; the cheek 3/16 inside its left half; mirrored about the pair's middle, 7.
    lows = {hand: low[0] for hand, low in trial.copies("pair.tray.cheek").items()}
    assert lows["left tray's left"] == 2.1875 and lows["right tray's right"] == 12 - 0.1875 - 0.75


def test_a_block_may_be_used_twice(lay: Laid) -> None:
    spaces = SPACE + "  other: {left: middle, right: right side.left, front: 0, back: 0, bottom: floor.top, top: 0}\n"
    uses = [f"  {name}: {{use: tray.yaml, in: {space}, with: {{wood: board}}}}\n" for name, space in PLACES]
    trial = lay(spaces + "blocks:\n" + "".join(uses))
    names = [trial.part(id).name for id in ("tray.cheek", "tub.cheek", "floor")]
    assert names == ["tray cheek", "tub cheek", "floor"]


def test_openings_and_blocks_as_they_stand(lay: Laid) -> None:
    setting_out = lay(tray(", mirror: left-right")).laid.setting_out
    (space,), (block,) = openings(setting_out), blocks(setting_out)
    assert (space.box.x.low / 25.4, space.box.x.high / 25.4) == pytest.approx((0.75, 14))
    assert block.box == space.box
    assert block.hands == ("left", "right") and block.parts == ("tray.cheek", "tray.base")
    assert block.moves is not None and block.moves.by == pytest.approx(6.5 * 25.4)


def test_a_part_named_outside_is_not_seen_inside(lay: Laid) -> None:
    trial = lay(tray(), TRAY.replace("bottom: 0\n    top: 1/2", "bottom: floor.top\n    top: 1/2"))
    assert "let it take `floor`" in trial.one("ref-unknown").hints[0]


def test_blocks_in_blocks_come_to_an_end(lay: Laid) -> None:
    inner = "frame: opening\nparts: {}\nblocks:\n"
    text = inner + "".join(f"  b{n}: {{use: tray.yaml, in: frame}}\n" for n in range(30))
    with pytest.raises(Refused) as caught:
        lay("blocks:\n" + "".join(f"  a{n}: {{use: tray.yaml, in: frame}}\n" for n in range(3)), "format: 1\nblock: x\n" + text)
    assert {each.code for each in caught.value.diagnostics} <= {"read-too-many", "block-circle", "read-empty"}


# ---------------------------------------------------------------- named from outside

RESTS = "joints:\n  rests: {kind: loose, part: tray, on: floor}\n"


def test_a_blocks_name_stands_for_its_parts(lay: Laid) -> None:
    """Those that touch the floor: both cheeks and the base of each tray; the end stays in the air."""
    text = TRAY.replace("back: 0, bottom: 0", "back: 0, bottom: 1")
    trial = lay(tray(", mirror: left-right", "wood: board, ends: boxed") + RESTS, text)
    (joint,) = (each for each in trial.laid.joinery.joints if each.id == "rests")
    assert {contact.a[0] for contact in joint.contacts} == {"tray.cheek", "tray.base"}
    assert len(joint.contacts) == 6


def test_a_block_that_touches_nothing_is_told_once(lay: Laid, tmp_path: Path) -> None:
    text = tray().replace("bottom: floor.top", "bottom: 2 above floor.top") + RESTS
    (tmp_path / "tray.yaml").write_text(TRAY, "utf-8")
    (tmp_path / "design.yaml").write_text(HEAD + CASE + text, "utf-8")
    report = Collector()
    lay_out(read_design(tmp_path / "design.yaml"), report)
    assert [each.code for each in report.found if each.code == "joint-no-mate"] == ["joint-no-mate"]


def test_outside_is_whatever_is_around_the_block(lay: Laid) -> None:
    """Bars between the cheeks of a tray and the side of the case: each finds what it meets out there."""
    bars = "joints:\n  bars: {kind: dado, part: bar, into: outside, depth: 1/8, glue: no}\n"
    block = f"format: 1\nblock: bars\nframe: opening\ntakes: {{wood: {{is: stock}}}}\nparts:\n{BAR}{bars}"
    space = "openings:\n  tray_space: {left: side.right, right: right side.left, front: 1, back: 2, bottom: 2, top: 2}\n"
    trial = lay(space + "blocks:\n  tray: {use: tray.yaml, in: tray_space, with: {wood: board}}\n", block)
    (joint,) = trial.laid.joinery.joints
    assert {contact.b for contact in joint.contacts} == {("side", 0), ("side", 1)}


BAR = "  bar: {stock: wood, grain: left-right, face: top, left: 0, right: 0, front: 1, width: 1, bottom: 0}\n"


# ---------------------------------------------------------------- work and finish of blocks


OILED = """\
finishes: {oil: {product: hardwax oil}, wax: {product: paste wax}}
finish: {everywhere: oil, except: {inside tray: bare, tray.cheek: wax, inside tray_space: wax}}
"""


def test_what_looks_inside_may_be_finished_apart(lay: Laid) -> None:
    laid = lay(tray(", mirror: left-right") + OILED).laid
    oil, wax = coatings(laid.setting_out, laid.boards, laid.words)
    assert set(oil.bare) == {("tray.cheek", Face.RIGHT), ("tray.base", Face.TOP)}
    # The opening is walled by the case; the tray's own base lies on the floor in the opening's plane and looks out of it.
    assert set(wax.on) == {("tray.cheek", None), ("side", Face.RIGHT), ("floor", Face.TOP)}


def test_each_copy_of_a_block_is_a_subassembly(lay: Laid) -> None:
    laid = lay(tray(", mirror: left-right")).laid
    (found,) = block_assemblies(blocks(laid.setting_out), laid.boards, ())
    assert found.id == "tray"
    left, right = ([laid.boards[part].copies[copy].hand for part, copy in group] for group in found.groups)
    assert left == ["left tray's left", "left tray's right", "left"]
    assert right == ["right tray's right", "right tray's left", "right"]


def test_the_load_of_a_block_lies_on_its_largest_flat_board(lay: Laid) -> None:
    laid = lay(tray() + "loads: {tray: {load: 15 lb}}\n").laid
    (load,) = loads(laid.setting_out.design, laid.boards, laid.setting_out.places)
    assert load.on == "tray.base"


# ---------------------------------------------------------------- one above the other

STACK = """\
  rail: {stock: board, grain: left-right, face: top, between: side, front: 0, width: 2,
    repeat: {count: 2, along: bottom-top, between: [floor.top, frame.top]}}
openings:
  slot: {left: side.right, right: right side.left, front: 1, back: 1,
    repeat: {count: 3, along: bottom-top, between: [floor.top, frame.top], rails: rail}}
"""


def test_rails_divide_a_space_into_openings_alike(lay: Laid) -> None:
    trial = lay(STACK + "blocks:\n  tray: {use: tray.yaml, in: slot, with: {wood: board}}\n")
    assert trial.codes == []
    # 5-1/4 over the floor, less two rails of 3/4, in three: 1-1/4 each, with 3/4 between.
    assert [tuple(map(float, each)) for each in trial.body("slot")][2] == (0.75, 2.0)
    assert {hand: low[2] for hand, low in trial.copies("rail").items()} == {"first": 2.0, "last": 4.0}
    lows = {hand: low[2] for hand, low in trial.copies("tray.base").items()}
    assert lows == {"first": 0.75, "2nd": 2.75, "last": 4.75}
    assert "2nd tray's left" in trial.copies("tray.cheek")


def test_a_part_of_a_block_in_a_row_is_reached(lay: Laid) -> None:
    pad = "  pad: {stock: board, grain: left-right, face: top, between: side, front: 0, width: 1, bottom: last slot.bottom}\n"
    trial = lay(pad + STACK)
    assert float(trial.body("pad")[2][0]) == 4.75


@pytest.mark.parametrize(
    ("was", "wrong", "told"),
    [
        ("rails: rail}}", "rails: rail, ends: flush}}", "only `count`, `along` and `between`"),
        ("rails: rail}}", "rails: nothing}}", "is no part that could stand between openings"),
        ("count: 3", "count: 12", "leave no opening"),
        ("frame.top]}}\nopenings", "frame.top], rails: rail}}\nopenings", "neither rails nor shares divide it"),
    ],
)
def test_rails_that_cannot_divide(lay: Laid, was: str, wrong: str, told: str) -> None:
    assert told in lay(STACK.replace(was, wrong, 1)).one("place-row").message
