"""Butt hinges in one plane, under the leaf of a table: flush leaves, the pin in the plane and in the middle of the gap."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from trial import HEAD, Trial

from planbuild.core.geometry import Face
from planbuild.pipeline import Clock, resolve_file
from planbuild.prove import prove
from planbuild.records.features import Groove
from planbuild.shape import shape

Lay = Callable[..., Trial]

TABLE = """
frame: {width: 30, depth: 16, height: 3/4}
parts:
  main:
    stock: board
    grain: front-back
    face: top
    left: 8-1/32
    right: 8-1/32 inside right
    front: 0
    back: 0
    top: 0
    glue_up: no
  flap:
    stock: board
    grain: front-back
    face: top
    left: 0
    width: 8
    front: 0
    back: 0
    top: 0
    mirror: left-right
    glue_up: no
items:
  hinge: {item: butt hinge, leaf: 2 x 7/8, thickness: 1/16, knuckle: 3/16}
hardware:
"""
PUT = "  it: {item: hinge, leaves: [flap.bottom, main.bottom], at: [3 inside front, 3 inside back]}\n"


def inches(*mm: float) -> tuple[float, ...]:
    return tuple(round(each / 25.4, 6) for each in mm)


def recesses(trial: Trial, part: str) -> list[Groove]:
    return [each for each in trial.part(part).features if isinstance(each, Groove)]


def test_each_leaf_is_flush_and_the_barrel_half_in_the_wood(lay: Lay) -> None:
    """The gap is 1/32 about 8-1/64; the leaf reaches 7/8 from there, the barrel 3/32."""
    trial = lay(TABLE + PUT)
    assert trial.found == (), [each.message for each in trial.found]
    flap, main = recesses(trial, "flap"), recesses(trial, "main")
    assert (len(flap), len(main)) == (4, 8) and {each.face for each in (*flap, *main)} == {Face.BOTTOM}
    leaf, barrel = flap[:2]
    assert inches(leaf.void.x.low, leaf.void.x.high, leaf.void.z.size) == (8.015625 - 0.875, 8.0, 0.0625)
    assert inches(leaf.void.y.low, leaf.void.y.high) == (2.0, 4.0)
    assert inches(barrel.void.x.low, barrel.void.x.high, barrel.void.z.size) == (8.015625 - 0.09375, 8.0, 0.09375)
    (placed,) = trial.laid.hardware
    assert (placed.count, placed.brings, placed.meets) == (4, "flap", "main")
    pin = placed.bought[0].lumps[-1]
    assert inches(pin.box.x.middle, pin.box.z.middle, pin.box.z.size) == (8.015625, 0.0, 0.1875)


@pytest.mark.parametrize(
    "old, new, code",
    [
        ("main.bottom]", "main.left]", "hardware-leaves"),
        ("knuckle: 3/16", "knuckle: 3/32", "hardware-gap"),
        ("left: 8-1/32", "left: 8-1/4", "hardware-gap"),
        ("knuckle: 3/16", "knuckle: 1-1/2", "hardware-deep"),
        ("at: [3 inside front, 3 inside back]", "at: [1/2 inside front]", "hardware-beside"),
    ],
)
def test_what_is_told(old: str, new: str, code: str, lay: Lay) -> None:
    assert code in lay((TABLE + PUT).replace(old, new)).codes


def test_faces_that_lie_at_two_levels(lay: Lay) -> None:
    lower = TABLE.replace("height: 3/4", "height: 1").replace("    top: 0\n    mirror", "    top: 1/4\n    mirror")
    assert "one plane" in lay(lower + PUT).one("hardware-leaves").message


def test_the_hinges_lie_in_no_wood(tmp_path: Path) -> None:
    file = tmp_path / "trial.yaml"
    file.write_text(HEAD + (TABLE + PUT).lstrip("\n"), "utf-8")
    piece = resolve_file(file, Clock())
    found = prove(piece, shape(piece))
    assert not [each.message for each in found.diagnostics if each.stops and each.code.startswith("hardware")]
