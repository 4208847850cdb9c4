"""Knock-down fittings by hand: where their holes lie in both parts and meet, and what is told of wrong lengths."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from trial import HEAD, Trial

from planbuild.core.geometry import Face
from planbuild.core.tables import row
from planbuild.pipeline import Clock, resolve_file
from planbuild.prove import prove
from planbuild.records.features import Hole
from planbuild.records.hardware import Placed
from planbuild.shape import shape

Lay = Callable[..., Trial]

BED = """
frame: {width: 40, depth: 1-3/4, height: 30}
parts:
  leg: {stock: post, grain: up, face: front, left: 0, front: 0, width: 1-3/4, bottom: 0, top: 0, mirror: left-right}
  rail: {stock: post, grain: left-right, face: front, between: [left leg, right leg], front: 0, bottom: 10, width: 5}
items:
  bolt: {item: bolt and barrel nut, diameter: 5/16, length: 4, barrel: 5/8 x 7/8, head_size: 5/8 x 1/8}
joints:
  seat: {kind: loose, part: rail, on: leg}
hardware:
"""
PUT = "  it: {item: bolt, on: leg.left, meets: rail.back, at: [11-1/2 above frame.bottom, 13-1/2 above frame.bottom]}\n"

SHELF = """
frame: {width: 24, depth: 10, height: 30}
parts:
  side: {stock: board, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0, mirror: left-right, glue_up: no}
  shelf: {stock: board, grain: left-right, face: top, between: [left side, right side], front: 0, back: 0, bottom: 8, glue_up: no}
joints:
  seat: {kind: loose, part: shelf, on: side}
hardware:
"""
CAMS = """  it:
    item: {item: cam and pin}
    on: shelf.bottom
    meets: left side.right
    at: [2 inside front, 2 inside back]
    mirror: left-right
"""


def placed(trial: Trial) -> Placed:
    assert trial.found == (), [each.message for each in trial.found]
    (found,) = trial.laid.hardware
    return found


def holes(trial: Trial, part: str, purpose: str) -> list[Hole]:
    return [each for each in trial.part(part).features if isinstance(each, Hole) and each.purpose == purpose]


def inches(*mm: float) -> tuple[float, ...]:
    return tuple(round(each / 25.4, 4) for each in mm)


# ---------------------------------------------------------------- bolt and barrel nut


def test_the_holes_of_bolt_and_barrel_meet_in_the_rail(lay: Lay) -> None:
    """4 in through 1-3/4 in leaves 2-1/4 in the rail; the bolt ends behind the barrel, 5/8 wide: its middle at 1-15/16."""
    trial = lay(BED + PUT)
    assert placed(trial).count == 4
    through, inner, barrels = holes(trial, "leg", "bolt"), holes(trial, "rail", "bolt"), holes(trial, "rail", "barrel")
    assert len(through) == 2 and len(inner) == 4 and len(barrels) == 4
    assert through[0].depth is None and inches(through[0].diameter, inner[0].diameter) == (0.375, 0.375)
    assert inner[0].face is Face.LEFT and inches(inner[0].depth or 0) == (2.5,)
    assert barrels[0].face is Face.BACK and inches(barrels[0].diameter, barrels[0].depth or 0) == (0.625, 1.3125)
    assert inches(*barrels[0].centre) == (1.75 + 1.9375, 1.75, 11.5)
    assert barrels[0].centre[2] == pytest.approx(inner[0].centre[2]), "on one line"
    assert inches(inner[0].centre[1]) == (0.875,), "in the middle of the post"


def test_a_head_that_is_let_in_takes_the_bolt_farther(lay: Lay) -> None:
    trial = lay(BED.replace("head_size", "recess: 1/2, head_size") + PUT)
    (first, *_) = holes(trial, "leg", "bolt")
    assert first.counterbore and inches(*first.counterbore) == (0.6875, 0.5)
    assert inches(holes(trial, "rail", "barrel")[0].centre[0]) == (1.75 + 2.4375,)


def test_mirrored_posts_have_their_bolts(lay: Lay) -> None:
    found = placed(trial := lay(BED + PUT))
    assert found.count == 4 and len(holes(trial, "rail", "barrel")) == 4 and len(holes(trial, "leg", "bolt")) == 2
    assert [each.on[1][0] for each in found.bought] == ["rail"] * 4


@pytest.mark.parametrize(
    "old, new, code, piece",
    [
        ("length: 4,", "length: 2-1/2,", "hardware-bolt", "tear out"),
        ("5/8 x 7/8", "5/8 x 2-1/4", "hardware-barrel", "stands out"),
        ("rail.back", "rail.right", "hardware-meets", "does not cross"),
        ("meets: rail.back, ", "", "hardware-where", "meet"),
        ("head_size", "recess: 1-5/8, head_size", "hardware-deep", "too little"),
        ("13-1/2 above", "20 above", "hardware-meets", "does not lie against"),
        ("length: 4,", "length: 60,", "hardware-bolt", "comes out"),
    ],
)
def test_what_is_told_of_a_bolt(old: str, new: str, code: str, piece: str, lay: Lay) -> None:
    trial = lay((BED + PUT).replace(old, new))
    assert piece in trial.one(code).message and trial.one(code).span is not None


def test_a_barrel_that_breaks_into_a_joint(lay: Lay) -> None:
    slip = "  slip: {stock: board, grain: front-back, face: left, left: 3-1/2, back: 0, length: 2, bottom: 10, width: 3}\n"
    joint = "  slot: {kind: mortise and tenon, tenon: slip.front, into: rail, length: 1/2}\n"
    design = BED.replace("depth: 1-3/4", "depth: 3-3/4").replace("items:", slip + "items:")
    trial = lay(design.replace("hardware:", joint + "hardware:") + PUT)
    assert "hardware-joint" in trial.codes


# ---------------------------------------------------------------- cam and pin


def test_a_cam_by_the_trade_s_sizes(lay: Lay) -> None:
    """15 mm cams, 34 mm from the end, pins of 5 mm in the side (trade system, from memory)."""
    assert row("hardware", "name", "cam_wide")["mm"] == "15"  # type: ignore[index]
    trial = lay(SHELF + CAMS)
    assert placed(trial).count == 4
    cams, ends, threads = holes(trial, "shelf", "cam"), holes(trial, "shelf", "bolt"), holes(trial, "side", "thread")
    assert (len(cams), len(ends), len(threads)) == (4, 4, 2)
    assert (cams[0].face, cams[0].diameter, cams[0].depth) == (Face.BOTTOM, 15, 12.5)
    assert (ends[0].face, ends[0].diameter, ends[0].depth) == (Face.LEFT, 8, 34)
    assert (threads[0].face, threads[0].diameter, threads[0].depth) == (Face.RIGHT, 5, 11)
    assert cams[0].centre[0] == pytest.approx(0.75 * 25.4 + 34)
    assert ends[0].centre == pytest.approx(threads[0].centre), "the pin runs on from the one into the other"


@pytest.mark.parametrize(
    "old, new, code",
    [
        ("{item: cam and pin}", "{item: cam and pin, cam: 15 mm x 9 mm}", "hardware-barrel"),
        ("left side.right", "left side.front", "hardware-meets"),
        ("shelf.bottom", "shelf.left", "hardware-meets"),
        ("{item: cam and pin}", "{item: cam and pin, cam: 15 mm x 18 mm}", "hardware-deep"),
    ],
)
def test_what_is_told_of_a_cam(old: str, new: str, code: str, lay: Lay) -> None:
    assert code in lay(SHELF + CAMS.replace(old, new)).codes


# ---------------------------------------------------------------- in wood


@pytest.mark.parametrize("text", [BED + PUT, SHELF + CAMS], ids=["bolts", "cams"])
def test_they_lie_in_their_holes_and_in_no_wood(text: str, tmp_path: Path) -> None:
    file = tmp_path / "trial.yaml"
    file.write_text(HEAD + text.lstrip("\n"), "utf-8")
    piece = resolve_file(file, Clock())
    found = prove(piece, shape(piece))
    assert not [each.message for each in found.diagnostics if each.stops]
    assert [each for each in found.proofs if "bought" in f"{each.claim} {each.worst}"]
