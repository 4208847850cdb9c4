"""Cleats: one slope on both strips, which divides the wood that their blocks share."""

from __future__ import annotations

import math
from typing import Any

import pytest
from boards_by_hand import INCH, LEFT_RIGHT, board, box, but, joined, refused, site
from hypothesis import given, settings
from hypothesis import strategies as st

from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.records.features import Bevel
from planbuild.records.piece import Part
from planbuild.shape import shape

KIND = KINDS["cleat"]
CASE = board("case", box(0, 30, 0, 10, 0, 20), LEFT_RIGHT, Face.TOP)
HUNG = board("hung", box(0.75, 29.25, 10, 10.75, 16, 19), LEFT_RIGHT, Face.BACK, stock="frame_ash")
WALL = board("wall", box(2, 28, 10, 10.75, 13.75, 16.75), LEFT_RIGHT, Face.FRONT, stock="frame_ash")
SAID: dict[str, Any] = {"hung": "hung", "wall": "wall"}


def test_both_edges_have_one_slope_and_the_hung_strip_is_low_at_the_wall() -> None:
    made = joined(KIND, "cleat", site(CASE, HUNG, WALL), **SAID)
    (low,), (high,) = made.features["hung"], made.features["wall"]
    assert isinstance(low, Bevel) and isinstance(high, Bevel)
    assert (low.face, low.keeps, low.angle) == (Face.BOTTOM, Face.BACK, 45)
    assert (high.face, high.keeps, high.angle) == (Face.TOP, Face.FRONT, 45)
    (contact,) = made.joint.contacts
    assert contact.insert == (0, 0, -1) and len(contact.outline) == 4
    assert {(round(y / INCH, 4), round(z / INCH, 4)) for _, y, z in contact.outline} == {(10.75, 16), (10, 16.75)}


@settings(max_examples=8)
@given(thick=st.integers(8, 24), angle=st.sampled_from([30, 45, 60]))
def test_the_two_strips_are_their_blocks_without_the_half_that_the_other_has(thick: int, angle: int) -> None:
    """Sixteenths: each strip is its block less half of what both share, so that no wood is lost or claimed twice."""
    rise = round(1e6 * math.tan(math.radians(angle)))
    falls = thick / 16 * rise / 1e6
    hung = but(HUNG, body=box(0, 20, 10, 10 + thick / 16, 16, 20))
    wall = but(WALL, body=box(0, 20, 10, 10 + thick / 16, 12, 16 + falls))
    made = joined(KIND, "cleat", site(CASE, hung, wall), **SAID, angle=f"{rise}:1000000")
    shared = hung.body.meet(wall.body).volume
    for each in (hung, wall):
        assert solid_volume(each, made.features[each.id]) == pytest.approx(each.body.volume - shared / 2)


def solid_volume(each: Any, features: Any) -> float:
    from timber import piece

    part = Part(
        each.id, "A", each.id, each.origin, "ash", each.grain, each.face, each.edge, each.body, features, each.copies, 25.0, 6.0
    )
    return shape(piece(part)).of[each.id].volume


@pytest.mark.parametrize(
    ("changes", "fields", "code"),
    [
        ({"wall": box(2, 28, 10, 10.75, 13.75, 16.25)}, {}, "joint-cleat-lap"),
        ({"wall": box(2, 28, 10, 10.75, 12, 15)}, {}, "joint-no-overlap"),
        ({"wall": box(2, 28, 10.25, 11, 13.75, 16.75)}, {}, "joint-cleat-lap"),
        ({}, {"glue": "yes"}, "joint-glue"),
        ({}, {"angle": "4:1"}, "joint-cleat-angle"),
    ],
)
def test_what_does_not_hang_is_refused(changes: dict[str, Any], fields: dict[str, str], code: str) -> None:
    boards = [but(each, body=changes[each.id]) if each.id in changes else each for each in (CASE, HUNG, WALL)]
    assert [each.code for each in refused(KIND, "cleat", site(*boards), **SAID, **fields)] == [code]


def test_a_strip_that_stands_upright_is_no_cleat() -> None:
    upright = but(WALL, face=Face.TOP)
    (told,) = refused(KIND, "cleat", site(CASE, HUNG, upright), **SAID)
    assert told.code == "joint-cleat-upright"
