"""Loose tenons: mortises in both parts, a tenon that fills them but for the room at their ends."""

from __future__ import annotations

from typing import Any

import pytest
from boards_by_hand import BOTTOM_TOP, INCH, LEFT_RIGHT, board, box, inches, join, joined, mirrored, refused, site
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_pieces import cut_and_proved, told_of

from planbuild.core.geometry import Face, Motion
from planbuild.joints import KINDS
from planbuild.records.features import Mortise
from planbuild.records.piece import Copy

KIND = KINDS["loose tenon"]
PAIR = (Copy("left", Motion()), Copy("right", mirrored(LEFT_RIGHT, about=(12, 2, 10))))
RAIL = board("rail", box(2, 10, 0.5, 1.5, 4, 7), LEFT_RIGHT, Face.FRONT)
POSTS = board("post", box(0, 2, 0, 2, 0, 10), BOTTOM_TOP, Face.FRONT, PAIR, "leg_ash")


def mortises(made: Any, part: str) -> list[Mortise]:
    return [each for each in made.features[part] if isinstance(each, Mortise)]


def test_a_third_thick_and_three_times_as_deep_in_each_part() -> None:
    """Joinery texts: as for any tenon, a third of the stock (3/8 of 1), three times its thickness in either part."""
    made = joined(KIND, "hold", site(RAIL, POSTS), part="rail")
    (in_post,) = mortises(made, "post")
    left, right = mortises(made, "rail")
    assert inches(in_post.void) == (0.8125, 2, 0.8125, 1.1875, 4.25, 6.75)
    assert inches(left.void) == (2, 3.1875, 0.8125, 1.1875, 4.25, 6.75) and right.face is Face.RIGHT
    (tenon,) = made.makes
    assert inches(tenon.body) == (0.875, 3.125, 0.8125, 1.1875, 4.25, 6.75)
    assert len(tenon.copies) == 2 and tenon.grain is LEFT_RIGHT
    assert told_of(made, RAIL, POSTS) == []


def test_the_tenon_goes_in_from_the_joint_and_from_nowhere_else() -> None:
    made = joined(KIND, "hold", site(RAIL, POSTS), part="rail")
    _, solids, _ = cut_and_proved(made, RAIL, POSTS)
    tenon, post = solids.placed["loose_tenon", 0], solids.placed["post", 0]
    assert tenon.translate((5, 0, 0)).intersect(post).Volume() == pytest.approx(0, abs=1e-3)
    for way in ((-5, 0, 0), (0, 5, 0), (0, 0, 5), (0, -5, 0), (0, 0, -5)):
        assert tenon.translate(way).intersect(post).Volume() > 1


@given(count=st.integers(1, 3), thick=st.integers(8, 24), high=st.integers(40, 90), length=st.integers(8, 40))
@settings(max_examples=5)
def test_any_size_fits_or_is_refused(count: int, thick: int, high: int, length: int) -> None:
    """In sixteenths; the room at either end of the tenon is all that stays open."""
    rail = board("rail", box(2, 10, 0.25, 0.25 + thick / 16, 1, 1 + high / 16), LEFT_RIGHT, Face.FRONT)
    post = board("post", box(0, 2, 0, 2, 0, 12), BOTTOM_TOP, Face.FRONT, PAIR, "leg_ash")
    where = site(rail, post)
    made = join(KIND, "hold", where, part="rail", count=str(count), length=f"{length}/16")
    if made is None:
        assert {each.code for each in where.report.found} <= {"joint-wall", "joint-tenon-size"}
        return
    (tenon,) = made.makes
    void = sum(each.void.volume for each in mortises(made, "post"))
    room = tenon.body.volume / tenon.body.size(LEFT_RIGHT) * INCH / 16
    assert void == pytest.approx(count * (tenon.body.volume / 2 + room)) and len(tenon.copies) == 2 * count
    assert told_of(made, rail, post) == []


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        ({"count": "9"}, "joint-tenon-count"),
        ({"width": "4"}, "joint-tenon-size"),
        ({"thickness": "1-1/2"}, "joint-tenon-size"),
        ({"length": "4"}, "joint-wall"),
        ({"part": "rail.top"}, "joint-not-an-end"),
    ],
)
def test_faults(fields: dict[str, Any], code: str) -> None:
    (fault,) = refused(KIND, "hold", site(RAIL, POSTS), **{"part": "rail", **fields})
    assert fault.code == code and fault.span and fault.expected
