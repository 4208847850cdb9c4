"""Section 6: notches, cut-outs, outlines, clipped and rounded corners as features, by hand from their numbers (in)."""

from __future__ import annotations

import pytest

from planbuild.core.geometry import Face
from planbuild.records.features import Mate
from planbuild.records.shaped import Sawn

HEAD = "frame: {width: 40, depth: 16, height: 20}\nparts:\n"
SHELF = """
  shelf:
    stock: board
    grain: left-right
    face: top
    left: 0
    right: 0
    front: 0
    back: 0
    bottom: 8
    glue_up: {widest_strip: 4}
    shape: [SHAPE]
"""
LEG = """
  leg:
    stock: post
    grain: up
    width: 1-3/4
    bottom: 0
    top: 0
    left: PLACE
    back: 0
    mirror: left-right
"""
POLE = """
  pole:
    stock: post
    grain: up
    width: 1-3/4
    left: 10
    front: 5
"""


@pytest.fixture
def sawn(lay):
    """The outlines of a shelf 40 x 16 x 3/4, whose bottom is 8 above the floor."""

    def found(shape: str, more: str = "") -> tuple[Sawn, ...]:
        trial = lay(HEAD + SHELF.replace("SHAPE", shape) + more)
        assert not _faults(trial), trial.found
        features = trial.part("shelf").features
        assert all(isinstance(each, Sawn) for each in features)
        return features

    return found


def _faults(trial) -> list[str]:
    """A shelf alone does not reach the height of the frame."""
    return [each.code for each in trial.found if each.stops and each.code != "place-frame"]


def inches(shape: Sawn) -> list[tuple[float, float]]:
    return [(round(corner.at[0] / 25.4, 6), round(corner.at[1] / 25.4, 6)) for corner in shape.corners]


def test_a_notch_at_a_corner_has_its_length_along_the_grain(sawn) -> None:
    (notch,) = sawn("{notch: {corner: back left, length: 3, width: 2}}")
    assert inches(notch) == [(0, 14), (3, 14), (3, 16), (0, 16)]
    assert (notch.face, notch.depth, notch.what, notch.keeps) == (Face.TOP, None, "notch", False)


def test_a_notch_in_an_edge_is_placed_by_its_nearer_wall(sawn) -> None:
    near, far = sawn(
        "{notch: {edge: front, at: 5 inside left, length: 2, width: 1}}, "
        "{notch: {edge: front, at: 5 inside right, length: 2, width: 1}}"
    )
    assert inches(near) == [(5, 0), (7, 0), (7, 1), (5, 1)]
    assert inches(far) == [(33, 0), (35, 0), (35, 1), (33, 1)]


def test_a_notch_follows_every_copy_of_a_part(sawn) -> None:
    left, right = sawn("{notch: {for: leg, gap: 1/16}}", LEG.replace("PLACE", "2"))
    assert inches(left) == [(1.9375, 14.1875), (3.8125, 14.1875), (3.8125, 16), (1.9375, 16)]
    assert inches(right) == [(36.1875, 14.1875), (38.0625, 14.1875), (38.0625, 16), (36.1875, 16)]
    assert (left.mate, right.mate) == (Mate("leg", (0,)), Mate("leg", (1,)))


def test_with_a_corner_all_that_lies_outside_goes_with_it(sawn) -> None:
    left, right = sawn("{notch: {corner: [back left, back right], for: leg, gap: 1/16}}", LEG.replace("PLACE", "1"))
    assert inches(left) == [(0, 14.1875), (2.8125, 14.1875), (2.8125, 16), (0, 16)]
    assert inches(right) == [(37.1875, 14.1875), (40, 14.1875), (40, 16), (37.1875, 16)]


def test_a_mirrored_part_is_notched_on_its_drawn_copy(lay) -> None:
    runner = """
  runner:
    stock: board
    grain: front-back
    face: left
    left: 2
    front: 0
    back: 0
    width: 2
    bottom: 4
    mirror: left-right
    shape: [{notch: {corner: back left, for: leg, gap: 1/32}}]
"""
    trial = lay(HEAD + runner + LEG.replace("PLACE", "1/2"))
    (notch,) = trial.part("runner").features
    assert notch.face is Face.TOP
    assert inches(notch) == [(2, 14.21875), (2.28125, 14.21875), (2.28125, 16), (2, 16)]
    assert notch.mate == Mate("leg", (0,))


def test_a_stopped_notch_takes_its_depth_from_the_part(sawn) -> None:
    """A leg that ends inside the shelf is let into its underside."""
    (notch,) = sawn("{notch: {for: pole}}", POLE + "    bottom: 0\n    top: 8-1/4 above bottom\n")
    assert notch.face is Face.BOTTOM
    assert notch.depth == pytest.approx(0.25 * 25.4)


def test_cut_outs_through_into_and_in_from_an_edge(sawn) -> None:
    hand, tray, finger = sawn(
        "{cut_out: {face: top, at: {front-back: 3 inside front}, size: 4 x 1-1/2, radius: 3/4, through: yes}}, "
        "{cut_out: {face: bottom, size: 20 x 10, depth: 1/4}}, "
        "{cut_out: {face: front, at: 10 inside left, size: 3 x 1, radius: 1}}"
    )
    assert inches(hand) == [(18, 2.25), (22, 2.25), (22, 3.75), (18, 3.75)]
    assert hand.radii == pytest.approx((0.75 * 25.4,))
    assert (tray.what, tray.face, tray.depth) == ("recess", Face.BOTTOM, 0.25 * 25.4)
    assert inches(tray) == [(10, 3), (30, 3), (30, 13), (10, 13)]
    assert inches(finger) == [(8.5, 0), (11.5, 0), (11.5, 1), (8.5, 1)]
    assert [round(corner.radius / 25.4, 6) for corner in finger.corners] == [0, 0, 1, 1]


def test_metric_pairs_say_their_unit_once(sawn) -> None:
    (hand,) = sawn("{cut_out: {face: top, size: 100 x 30 mm, through: yes}}")
    assert [span.size for span in hand.spans] == pytest.approx([100, 30])


def test_corners_are_clipped_and_rounded(sawn) -> None:
    (clip,) = sawn("{clip: {corner: left front, along: {left-right: 10, front-back: 5}}}")
    (arc,) = sawn("{round: {corner: right back, radius: 3}}")
    assert inches(clip) == [(10, 0), (0, 0), (0, 5)]
    assert inches(arc) == [(37, 16), (40, 16), (40, 13)]
    assert arc.radii == pytest.approx((3 * 25.4,))
    assert arc.is_round_corner and not clip.is_round_corner


def test_an_outline_counts_from_the_low_ends(sawn) -> None:
    (outline,) = sawn("{outline: {on: top, points: [[0, 0], [40, 0], [40, 8, 2], [20, 16], [0, 8]]}}")
    assert outline.keeps
    assert inches(outline) == [(0, 0), (40, 0), (40, 8), (20, 16), (0, 8)]
    assert outline.radii == pytest.approx((2 * 25.4,))


@pytest.mark.parametrize(
    ("shape", "code"),
    [
        ("{notch: {corner: back left, length: 3}}", "shape-notch"),
        ("{notch: {corner: front top, length: 3, width: 1}}", "shape-edge"),
        ("{notch: {corner: back left, length: 40, width: 1}}", "shape-eats"),
        ("{notch: {corner: back left, length: 3, width: 1}}, {clip: {corner: left back, along: {left-right: 1, front-back: 1}}}",
         "shape-edge-twice"),
        ("{notch: {edge: top, at: 3 inside left, length: 3, width: 1}}", "shape-face"),
        ("{notch: {edge: front, at: 19 inside left, length: 30, width: 1}}", "shape-outside"),
        ("{notch: {length: 3, width: 1}}", "shape-notch"),
        ("{notch: {for: shelf}}", "ref-unknown"),
        ("{cut_out: {face: top, size: 4 x 1}}", "shape-cut-out"),
        ("{cut_out: {face: top, size: 4 x 1, through: yes, depth: 1/4}}", "shape-cut-out"),
        ("{cut_out: {face: top, size: 4 x 1, depth: 3/4}}", "shape-eats"),
        ("{cut_out: {face: top, size: 4 x 17, through: yes}}", "shape-outside"),
        ("{cut_out: {face: top, at: 3, size: 4 x 1, through: yes}}", "shape-cut-out"),
        ("{cut_out: {face: top, at: {bottom-top: 8 above bottom}, size: 4 x 1, through: yes}}", "shape-face"),
        ("{cut_out: {face: front, at: 1 inside left, size: 4 x 1}}", "shape-outside"),
        ("{cut_out: {face: front, size: 4 x 16}}", "shape-eats"),
        ("{cut_out: {face: top, size: 4, through: yes}}", "shape-size"),
        ("{cut_out: {face: top, size: 4 x 1, radius: 3/4, through: yes}}", "shape-radius"),
        ("{clip: {corner: left front, along: {left-right: 10}}}", "shape-clip"),
        ("{clip: {corner: left front, along: {left-right: 10, bottom-top: 1}}}", "shape-face"),
        ("{clip: {corner: left front, along: {left-right: 41, front-back: 1}}}", "shape-eats"),
        ("{clip: {corner: [left front, left back], along: {left-right: 1, front-back: 9}}}", "shape-eats"),
        ("{round: {corner: [left front, left back], radius: 9}}", "shape-eats"),
        ("{outline: {on: top, points: [[0, 0], [40, 0]]}}", "shape-outline"),
        ("{outline: {on: top, points: [[0, 0], [40, 16], [40, 0], [0, 16]]}}", "shape-outline"),
        ("{outline: {on: top, points: [[0, 0], [40, 0], [40, 16], [0, 16]]}}", "shape-outline"),
        ("{outline: {on: top, points: [[0, 0], [40, 0], [20, 0]]}}", "shape-outline"),
        ("{outline: {on: top, points: [[0, 0], [41, 0], [20, 3]]}}", "shape-outside"),
        ("{outline: {on: top, points: [[0, 0], [40, 0], [20, 3, 300]]}}", "shape-radius"),
    ],
)  # fmt: skip
def test_what_cannot_be_cut_is_refused_once(lay, shape: str, code: str) -> None:
    trial = lay(HEAD + SHELF.replace("SHAPE", shape))
    assert _faults(trial) == [code], trial.found


def test_a_part_that_stands_elsewhere_gets_no_notch(lay) -> None:
    trial = lay(HEAD + SHELF.replace("SHAPE", "{notch: {for: pole}}") + POLE + "    bottom: 9\n    top: 0\n")
    assert "would cut nothing" in trial.one("shape-notch").message
    shelf = SHELF.replace("SHAPE", "{notch: {corner: [back left, front left], for: leg}}")
    corner = lay(HEAD + shelf + LEG.replace("PLACE", "0"))
    assert "front left" in corner.one("shape-notch").message


def test_a_notch_goes_on_through_what_a_joint_adds(lay) -> None:
    """A shelf in housings is sawn longer than what is seen: its corner notch reaches the end of it all the same."""
    case = """
frame: {width: 30, depth: 10, height: 20}
parts:
  side: {stock: board, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0, mirror: left-right, glue_up: no}
  shelf:
    stock: board
    grain: left-right
    face: top
    between: side
    front: 0
    back: 0
    bottom: 9
    glue_up: no
    shape: [{notch: {corner: back left, length: 3, width: 2}}]
joints:
  housed: {kind: dado, part: shelf, depth: 1/4}
"""
    trial = lay(case)
    assert not [each for each in trial.found if each.stops], trial.found
    shelf = trial.part("shelf")
    (notch,) = [each for each in shelf.features if isinstance(each, Sawn)]
    assert shelf.body.x.low == pytest.approx(0.5 * 25.4)
    assert inches(notch) == [(0.5, 8), (3.75, 8), (3.75, 10), (0.5, 10)]


def test_what_a_notch_looks_at_is_bounded(lay) -> None:
    """A hundred bars over a hundred others would be ten thousand pairs."""
    row = "repeat: {{count: 100, along: {along}, between: frame}}"
    bar = "  {id}: {{stock: board, grain: {grain}, face: top, {ends}, bottom: 5, width: 1/8, " + row + "{shape}}}\n"
    notch = ", shape: [{notch: {for: other}}]"
    first = bar.format(id="one", grain="left-right", ends="left: 0, right: 0", along="front-back", shape=notch)
    other = bar.format(id="other", grain="front-back", ends="front: 0, back: 0", along="left-right", shape="")
    trial = lay("frame: {width: 40, depth: 40, height: 20}\nparts:\n" + first + other)
    assert "pairs" in trial.one("shape-notch").expected
