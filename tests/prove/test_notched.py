"""Parts that stand in each other: the notch that would make room is named; with it the wood is shared out."""

from __future__ import annotations

from dataclasses import replace

import pytest
from timber import BOTTOM_TOP, board, box, piece, said

from planbuild.core.geometry import Face
from planbuild.core.outlines import Corner
from planbuild.prove import prove
from planbuild.records.piece import Part, Piece
from planbuild.records.shaped import Sawn
from planbuild.shape import shape

POST = board(body=box(0, 40, 30, 60, -200, 200), id="post", grain=BOTTOM_TOP, face=Face.FRONT, edge=Face.LEFT)
INSIDE = board(body=box(100, 140, 20, 40, -200, 200), id="post", grain=BOTTOM_TOP, face=Face.FRONT, edge=Face.LEFT)


def overlap(*parts: Part) -> list[str]:
    whole: Piece = piece(*parts)
    return [each.hints[0] for each in prove(whole, shape(whole)).diagnostics if each.code == "joint-overlap"]


def test_the_notch_that_would_make_room_is_named() -> None:
    (hint,) = overlap(board(id="shelf"), POST)
    assert "`notch: {corner: back left, for: post}` in the shape of shelf" in hint
    (hint,) = overlap(board(id="shelf"), INSIDE)
    assert "`notch: {for: post}` in the shape of shelf" in hint


def test_a_notched_part_shares_no_wood() -> None:
    corners = tuple(Corner(at) for at in ((0.0, 30.0), (40.0, 30.0), (40.0, 60.0), (0.0, 60.0)))
    notch = Sawn(**said("notch"), face=Face.TOP, corners=corners, what="notch")
    shelf = replace(board(id="shelf"), features=(notch,))
    assert not overlap(shelf, POST)
    solids = shape(piece(shelf, POST)).of
    assert solids["shelf"].volume == pytest.approx(400 * 60 * 20 - 40 * 30 * 20)
