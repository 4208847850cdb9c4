"""Rows of copies: by count, by gaps, or each at its place; expected places worked out by hand."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.resolve.trial import Trial

SLAT = """\
frame: {{width: 30, depth: 6, height: 20}}
parts:
  slat:
    stock: board
    grain: front-back
    face: top
    front: 0
    back: 0
    {place}
    {width}
    repeat: {repeat}
"""


def _row(lay: Callable[[str], Trial], repeat: str) -> list[float]:
    found = lay(SLAT.format(place="bottom: 0", width="width: 2", repeat=repeat))
    return [low for low, _, _ in found.copies("slat").values()]


@pytest.mark.parametrize(
    ("repeat", "starts"),
    [
        # 30 = 7 x 2 + 8 gaps of 2
        ("{most_gap: 2, along: left-right, between: frame}", [2.0, 6.0, 10.0, 14.0, 18.0, 22.0, 26.0]),
        # 8 x 2 and 7 gaps of 2; with 7 the gaps would be 2-2/3
        ("{near_gap: 2, along: left-right, between: frame, ends: flush}", [0.0, 4.0, 8.0, 12.0, 16.0, 20.0, 24.0, 28.0]),
        # 6 x 2 and 5 gaps of 3 are 27; 1-1/2 is left at each end
        ("{gap: 3, along: left-right, between: frame, ends: centred}", [1.5, 6.5, 11.5, 16.5, 21.5, 26.5]),
        # 3 x 2 and 2 gaps of 3 are 12; 9 is left at each end
        ("{count: 3, gap: 3, along: left-right, between: frame}", [9.0, 14.0, 19.0]),
        ("{at: {left: [1, 5 right of left, 20]}}", [1.0, 5.0, 20.0]),
        ("{at: {right: [27, 2]}}", [1.0, 26.0]),
    ],
)
def test_a_row_stands_where_its_gaps_or_places_say(lay: Callable[[str], Trial], repeat: str, starts: list[float]) -> None:
    assert _row(lay, repeat) == pytest.approx(starts)


@pytest.mark.parametrize(
    ("repeat", "told"),
    [
        ("{along: left-right, between: frame}", "how many"),
        ("{count: 3, most_gap: 2, along: left-right, between: frame}", "count and most_gap"),
        ("{count: 9, gap: 2, along: left-right, between: frame}", "do not fit"),
        ("{gap: 30, along: left-right, between: frame}", "would stand there"),
        ("{gap: 2, along: left-right, between: frame, ends: flush}", "remainder"),
        ("{count: 3, along: left-right, between: frame, ends: centred}", "Nothing is over"),
        ("{count: 3, along: left-right}", "between what"),
        ("{at: {left: [3]}}", "one place only"),
        ("{at: {left: [3, 4]}}", "in the one before it"),
        ("{at: {left: [3, 9]}, count: 2}", "in another way"),
        ("{count: 3, between: frame}", "which way"),
    ],
)
def test_a_row_that_cannot_be_set_out_says_why(lay: Callable[[str], Trial], repeat: str, told: str) -> None:
    found = lay(SLAT.format(place="bottom: 0", width="width: 2", repeat=repeat))
    assert told in found.one("place-row").message


def test_gaps_of_rows_placed_by_hand_or_by_gap_are_not_complained_of(lay: Callable[[str], Trial]) -> None:
    for repeat in ("{gap: 0.3, along: left-right, between: frame}", "{at: {left: [1/7, 9]}}"):
        assert "place-off-step" not in lay(SLAT.format(place="bottom: 0", width="width: 2", repeat=repeat)).codes


MIRRORED = """\
frame: {width: 30, depth: 13, height: 20}
parts:
  side:
    stock: board
    grain: up
    face: left
    left: 0
    front: 1
    back: 0
    bottom: 0
    top: 0
    mirror: left-right
  foot:
    stock: board
    grain: up
    face: front
    width: 2
    left: 3
    front: 2 behind side.front
    bottom: 0
    top: 0
    mirror: {left-right: frame, front-back: side}
  slip:
    stock: board
    grain: front-back
    face: top
    front: foot.back
    back: back foot.front
    width: 2
    left: 6
    bottom: 0
"""


def test_a_mirror_lies_in_the_middle_of_the_part_that_is_named(lay: Callable[[str], Trial]) -> None:
    # the side is 12 deep from 1 to 13, its middle at 7; the foot in front stands from 3 to 3-3/4, the other from 10-1/4 to 11
    found = lay(MIRRORED)
    assert found.copies("foot")["back left"] == pytest.approx((3.0, 10.25, 0.0))
    assert found.copies("foot")["front right"] == pytest.approx((25.0, 3.0, 0.0))
    assert [float(each) for each in found.body("slip")[1]] == [3.75, 10.25]
