"""Keys across a seam: half a recess in either board, and a key that fills both (in)."""

from __future__ import annotations

import pytest
from boards_by_hand import FRONT_BACK, board, box, joined, mirrored, refused, site
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_pieces import cut_and_proved
from joined_solids import of_boxes, together, whole

from planbuild.core.geometry import Axis, Face
from planbuild.joints import KINDS
from planbuild.records.piece import Copy
from planbuild.records.shaped import Sawn

INCH = 25.4
KIND = KINDS["key"]
LEFT = board("left_board", box(0, 6, 0, 30, 0, 0.75), FRONT_BACK, Face.TOP)
RIGHT = board("right_board", box(6, 12, 0, 30, 0, 0.75), FRONT_BACK, Face.TOP)
BOTH = ("left_board", "right_board")


def test_a_butterfly_by_hand() -> None:
    """2 long across the seam, 1 wide, half as wide at the waist, a third of 3/4 deep, in the middle of the seam."""
    made = joined(KIND, "seam", site(LEFT, RIGHT), parts=BOTH, size="2 x 1", count="1")
    (cut,) = made.features["left_board"]
    assert isinstance(cut, Sawn) and (cut.face, cut.what, cut.depth) == (Face.TOP, "recess", pytest.approx(INCH / 4))
    places = sorted((round(x / INCH, 4), round(y / INCH, 4)) for x, y in (corner.at for corner in cut.corners))
    assert places == [(5.0, 14.5), (5.0, 15.5), (6.0, 14.75), (6.0, 15.25)]
    (key,) = made.makes
    assert key.grain is Axis.LEFT_RIGHT and key.finished == pytest.approx((2 * INCH, INCH, INCH / 4))


@pytest.mark.parametrize("shape", ["butterfly", "bar"])
def test_keys_fill_their_recesses(shape: str) -> None:
    made = joined(KIND, "seam", site(LEFT, RIGHT), parts=BOTH, shape=shape, at=("4", "20"))
    assert [len(made.features[each]) for each in BOTH] == [2, 2] and len(made.makes[0].copies) == 2
    _, solids, found = cut_and_proved(made, LEFT, RIGHT)
    assert [each.code for each in found.diagnostics if each.stops] == []
    assert all(whole(solids, key) for key in solids.placed)
    assert together(solids, *solids.placed) == pytest.approx(of_boxes(LEFT.body, RIGHT.body), rel=1e-9)


def test_mirrored_boards_of_one_part_are_keyed_to_each_other() -> None:
    pair = (Copy("left", mirrored()), Copy("right", mirrored(Axis.LEFT_RIGHT, about=(12, 30, 1))))
    half = board("half", box(0, 4, 0, 30, 0, 0.75), FRONT_BACK, Face.TOP, pair)
    middle = board("middle", box(4, 8, 0, 30, 0, 0.75), FRONT_BACK, Face.TOP)
    made = joined(KIND, "seam", site(half, middle), parts=("middle", "half"))
    assert len(made.features["half"]) == 2 and len(made.features["middle"]) == 4
    _, _, found = cut_and_proved(made, half, middle)
    assert [each.code for each in found.diagnostics if each.stops] == []


@settings(max_examples=3)
@given(long=st.integers(8, 32), wide=st.integers(4, 16), count=st.integers(1, 4))
def test_no_wood_is_lost_whatever_the_sizes(long: int, wide: int, count: int) -> None:
    """In eighths of an inch."""
    made = joined(KIND, "seam", site(LEFT, RIGHT), parts=BOTH, size=f"{long}/8 x {wide}/8", count=str(count))
    _, solids, found = cut_and_proved(made, LEFT, RIGHT)
    assert [each.code for each in found.diagnostics if each.stops] == []
    assert together(solids, *solids.placed) == pytest.approx(of_boxes(LEFT.body, RIGHT.body), rel=1e-9)


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        ({"size": "12 x 1"}, "joint-key-size"),
        ({"depth": "5/8"}, "joint-key-size"),
        ({"at": ("1/4",), "size": "2 x 1"}, "joint-key-at"),
        ({"count": "30"}, "joint-key-at"),
    ],
)
def test_what_cannot_be_let_in_is_refused(fields: dict[str, object], code: str) -> None:
    assert [each.code for each in refused(KIND, "seam", site(LEFT, RIGHT), parts=BOTH, **fields)] == [code]


def test_boards_that_do_not_lie_flush_are_refused() -> None:
    low = board("right_board", box(6, 12, 0, 30, 0, 0.5), FRONT_BACK, Face.TOP)
    assert [each.code for each in refused(KIND, "seam", site(LEFT, low), parts=BOTH)] == ["joint-key-face"]
