"""What stays together in a picture of many parts, and how it is moved apart: no part passes another, a drawer comes out
in front."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest
from timber import box

from planbuild.core.geometry import Axis, Motion
from planbuild.derive.pictures.explosion import Link, links, offsets, standing
from planbuild.derive.pictures.together import boxes_of, heads, kept_together, links_of
from planbuild.pipeline import Clock, resolve_file
from planbuild.records.piece import Piece

DESIGNS = Path(__file__).parents[3] / "designs" / "music-room"
CLEAR = dict.fromkeys(Axis, 50.0)


@pytest.fixture(scope="module")
def table() -> Piece:
    return resolve_file(DESIGNS / "score-table.yaml", Clock())


def test_blocks_of_a_large_piece_stay_together_copy_by_copy(table: Piece) -> None:
    groups = {each.block.id: each.copies for each in kept_together(table, links(table))}
    assert {id: [len(copy) for copy in copies] for id, copies in groups.items()} == {"drawer": [5, 5], "lattice": [17]}
    left, right = groups["drawer"]
    assert not set(left) & set(right)
    sides = standing(table)
    middle = table.frame.along(Axis.LEFT_RIGHT).middle
    assert {sides[key].x.middle < middle for key in left} != {sides[key].x.middle < middle for key in right}


def test_a_piece_of_few_parts_is_shown_in_one_picture(bench_piece: Piece) -> None:
    assert kept_together(bench_piece, links(bench_piece)) == ()


def test_a_drawer_comes_out_of_its_opening_in_front(table: Piece) -> None:
    found = links(table)
    groups = kept_together(table, found)
    boxes = boxes_of(standing(table), heads(groups))
    drawers = [copy[0] for each in groups if each.block.id == "drawer" for copy in each.copies]
    apart = links_of(found, groups, boxes)
    assert {(link.axis, link.sign) for link in apart if link.moving in drawers} == {(Axis.FRONT_BACK, 1)}
    moved = offsets(boxes, apart, CLEAR)
    for drawer in drawers:
        others = [key for key in boxes if key[0] in ("side_runner", "middle_runner", "lower_front_rail")]
        ends = [boxes[key].y.low + moved[key][1] for key in others]
        assert boxes[drawer].y.high + moved[drawer][1] < min(ends), "clear of all that it runs on"


def test_no_two_parts_of_the_table_lie_in_each_other_when_moved_apart(table: Piece) -> None:
    """The low rail of the gallery alone stays in line with its legs, and so within the height of the lifted top."""
    found = links(table)
    groups = kept_together(table, found)
    boxes = boxes_of(standing(table), heads(groups))
    moved = offsets(boxes, links_of(found, groups, boxes), CLEAR)
    stands = {key: Motion(shift=moved[key]).box(box) for key, box in boxes.items()}
    meeting = {frozenset((a[0], b[0])) for a, b in combinations(stands, 2) if stands[a].meet(stands[b]).is_solid}
    assert meeting <= {frozenset(("low_gallery_rail", "table_top"))}


def test_what_lies_above_is_not_passed_by_what_is_lifted() -> None:
    """A lid in two steps on its box, and a lamp that hangs over it joined to nothing below."""
    heights = {"box": (0, 50), "tray": (50, 60), "lid": (60, 70)}
    boxes = {(id, 0): box(0, 100, 0, 100, *height) for id, height in heights.items()}
    boxes["lamp", 0] = box(40, 60, 40, 60, 80, 90)
    down = [Link(("tray", 0), ("box", 0), Axis.BOTTOM_TOP, -1, 0.0), Link(("lid", 0), ("tray", 0), Axis.BOTTOM_TOP, -1, 0.0)]
    moved = offsets(boxes, down, CLEAR)
    assert moved["box", 0][2] < moved["tray", 0][2] < moved["lid", 0][2] <= moved["lamp", 0][2]
    assert moved["lamp", 0][:2] == (0.0, 0.0)
