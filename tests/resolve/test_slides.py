"""Bought slides: the room beside the drawer by published sizes, where they lie, and what is told of wrong ones."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from trial import Trial

from planbuild.core.tables import row

Lay = Callable[..., Trial]

DRAWER = """
frame: {width: 20, depth: 16, height: 10}
parts:
  side: {stock: board, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0, mirror: left-right, glue_up: no}
  box_side:
    stock: board
    grain: front-back
    face: left
    left: 1/2 right of side.right
    front: 1
    length: 14
    bottom: 2
    width: 5
    mirror: left-right
items:
  slide_screw: {item: wood screw, gauge: 6, length: 1/2, head: pan}
  runner: {item: slide, length: 14, height: 1-3/4, thickness: 1/2, screws: slide_screw, screws_each: 6}
hardware:
"""
PUT = "  it: {item: runner, leaves: [box_side.left, side.right], at: {bottom: 1 above box_side.bottom}}\n"


def test_a_slide_lies_in_the_room_beside_the_drawer(lay: Lay) -> None:
    """A side-mounted slide wants 1/2 in on each side and allows 1/32 in of play (common practice)."""
    trial = lay(DRAWER + PUT)
    assert trial.found == (), [each.message for each in trial.found]
    (found,) = trial.laid.hardware
    box = found.bought[0].box
    inches = [round(each / 25.4, 6) for span in (box.x, box.y, box.z) for each in (span.low, span.high)]
    assert inches == [0.75, 1.25, 1.0, 15.0, 3.0, 4.75]
    assert found.count == 2 and found.screws == (("slide_screw", 12),) and found.meets == "side"
    assert {each.on for each in found.bought} == {(("box_side", 0), ("side", 0)), (("box_side", 1), ("side", 1))}
    assert row("hardware", "name", "slide_slack")["inch"] == "1/32"  # type: ignore[index]


@pytest.mark.parametrize("gap, fits", [("1/2", True), ("17/32", True), ("15/32", False), ("9/16", False), ("1/4", False)])
def test_the_room_at_the_side_is_as_thick_as_the_slide(gap: str, fits: bool, lay: Lay) -> None:
    trial = lay((DRAWER + PUT).replace("1/2 right of", f"{gap} right of"))
    assert (trial.codes == []) is fits
    if not fits:
        told = trial.one("hardware-room")
        assert "wants 1/2" in told.message and ("narrower" if gap != "9/16" else "wider") in told.hints[0]


@pytest.mark.parametrize(
    "old, new, code",
    [
        ("length: 14, height", "length: 15, height", "hardware-beside"),
        ("1 above box_side.bottom", "4 above box_side.bottom", "hardware-beside"),
        ("side.right]", "side.front]", "hardware-leaves"),
        ("gauge: 6, length: 1/2", "gauge: 6, length: 1", "hardware-screw-long"),
        ("leaves: [box_side.left, side.right]", "on: box_side.left", "hardware-where"),
        (", height: 1-3/4", "", "item-field"),
    ],
)
def test_what_is_told_of_a_slide(old: str, new: str, code: str, lay: Lay) -> None:
    assert code in lay((DRAWER + PUT).replace(old, new)).codes

