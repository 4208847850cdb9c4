"""Section 4 of the language: each way of placing, with places worked out by hand, and each way of getting it wrong."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from trial import letters

LEG = """
  leg:
    stock: post
    grain: up
    width: 1-3/4
    bottom: 0
    top: 0
    left: 2
    front: 1
    mirror: [left-right, front-back]
"""
RAIL = "  rail: {stock: board, grain: left-right, face: front, front: leg.front, width: 3, "
SLAT = "  slat: {stock: board, grain: left-right, face: top, left: 3, right: 3, bottom: 4, "
FRAME = "frame: {width: 40, depth: 16, height: 20}\n"


def test_an_inset_is_counted_from_the_face_of_the_same_name(lay) -> None:
    lid = "  lid: {stock: board, grain: left-right, face: top, left: 1, right: 2, front: 3, back: -1/2, top: 1/4}\n"
    trial = lay(FRAME + "parts:\n" + lid)
    assert trial.body("lid") == ((1, 38), (3, F(33, 2)), (19, F(79, 4)))


def test_square_leg_needs_no_face_and_four_copies_stand_mirrored(lay) -> None:
    trial = lay(FRAME + "parts:" + LEG)
    assert trial.body("leg") == ((2, F(15, 4)), (1, F(11, 4)), (0, 20))
    part = trial.part("leg")
    assert (part.face.value, part.edge.value) == ("front", "left")
    assert trial.copies("leg") == {
        "front left": (2, 1, 0),
        "front right": (36.25, 1, 0),
        "back left": (2, 13.25, 0),
        "back right": (36.25, 13.25, 0),
    }


@pytest.mark.parametrize(
    ("said", "axis", "expected"),
    [
        ("left: leg.right", 0, (F(15, 4), F(9, 2))),
        ("left: 1/4 inside leg.left", 0, (F(9, 4), 3)),
        ("left: 1/4 outside leg.right", 0, (4, F(19, 4))),
        ("right: 1/2 left of leg.left", 0, (F(3, 4), F(3, 2))),
        ("left: right leg.right", 0, (38, F(155, 4))),
        ("right: right leg.left", 0, (F(71, 2), F(145, 4))),
        ("centred: left-right", 0, (F(157, 8), F(163, 8))),
        ("centred: {left-right: leg}", 0, (F(5, 2), F(13, 4))),
        ("centred: {left-right: [leg.right, right leg.left]}", 0, (F(157, 8), F(163, 8))),
        ("centred: {left-right: 10 inside left}", 0, (F(77, 8), F(83, 8))),
        ("left: middle", 0, (20, F(83, 4))),
        ("right: leg.middle", 0, (F(17, 8), F(23, 8))),
        ("left: frame.width / 4", 0, (10, F(43, 4))),
        ("left: leg.left + leg.width", 0, (F(15, 4), F(9, 2))),
    ],
)
def test_ways_to_say_a_place(lay, said: str, axis: int, expected: tuple[F, F]) -> None:
    """The board is upright, 3/4 thick from left to right."""
    board = f"  board_part: {{stock: board, grain: up, face: left, {said}, front: 4, width: 3, bottom: 1, top: 1}}\n"
    assert lay(FRAME + "parts:" + LEG + board).body("board_part")[axis] == expected


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("top: 5 below top", (F(57, 4), 15)),
        ("bottom: 16 above bottom", (16, F(67, 4))),
        ("bottom: 1/2 above leg.bottom", (F(1, 2), F(5, 4))),
    ],
)
def test_heights(lay, said: str, expected: tuple[F, F]) -> None:
    shelf = f"  shelf: {{stock: board, grain: left-right, face: top, {said}, left: 4, right: 4, front: 4, back: 4}}\n"
    assert lay(FRAME + "parts:" + LEG + shelf).body("shelf")[2] == expected


def test_between_the_hands_of_a_part(lay) -> None:
    rail = RAIL + "between: leg, top: 0}\n"
    assert lay(FRAME + "parts:" + LEG + rail).body("rail")[0] == (F(15, 4), F(145, 4))


def test_between_two_things_in_any_order_and_with_a_gap(lay) -> None:
    rail = RAIL + "between: [right leg, leg], gap: 1/16, top: 0}\n"
    assert lay(FRAME + "parts:" + LEG + rail).body("rail")[0] == (F(61, 16), F(579, 16))
    wall = "  rail: {stock: board, grain: front-back, face: left, between: [leg.back, back], left: 2, width: 3, top: 0}\n"
    assert lay(FRAME + "parts:" + LEG + wall).body("rail")[1] == (F(11, 4), 16)


def test_fills_and_a_face_that_wins_over_its_side(lay) -> None:
    seat = "parts:\n  seat: {stock: board, grain: left-right, face: top, fills: frame, gap: 1/8, front: 2, top: 0, glue_up: no}\n"
    assert lay(FRAME + seat).body("seat") == ((F(1, 8), F(319, 8)), (2, F(127, 8)), (F(77, 4), 20))


@pytest.mark.parametrize(
    ("ends", "first", "pitch"),
    [("gap", F(17, 4), F(21, 4)), ("flush", F(11, 4), F(6)), ("half", F(59, 16), F(45, 8))],
)
def test_rows(lay, ends: str, first: F, pitch: F) -> None:
    """Between the legs are 10-1/2; three slats of 2 leave 4-1/2: a gap of 1-1/8, 2-1/4 or 1-1/2."""
    size, space = 2, F(21, 2)
    gap = (space - 3 * size) / {"gap": 4, "flush": 2, "half": 3}[ends]
    slat = SLAT + f"width: 2, repeat: {{count: 3, along: front-back, between: leg, ends: {ends}}}}}\n"
    trial = lay(FRAME + "parts:" + LEG + slat)
    start = F(11, 4) + {"gap": gap, "flush": 0, "half": gap / 2}[ends]
    assert trial.body("slat")[1] == (start, start + 2)
    assert [y for _, y, _ in trial.copies("slat").values()] == pytest.approx([float(start + i * (size + gap)) for i in range(3)])
    assert list(trial.copies("slat")) == ["first", "2nd", "last"]


def test_a_copy_of_a_row_can_be_built_against(lay) -> None:
    slat = SLAT + "width: 2, repeat: {count: 3, along: front-back, between: frame, ends: flush}}\n"
    strip = SLAT.replace("slat", "strip").replace("bottom: 4", "bottom: 8") + "front: 2nd slat.front, back: last slat.back}\n"
    assert lay(FRAME + "parts:\n" + slat + strip).body("strip")[1] == (7, 16)


def test_only_what_is_needed_is_asked_for(lay) -> None:
    """Each needs the other, but never the same face: no circle."""
    parts = """
  shelf: {stock: board, grain: left-right, face: top, left: side.right, right: 5, front: 0, back: 0, bottom: 3}
  side: {stock: board, grain: up, face: left, left: 0, front: shelf.front, back: shelf.back, bottom: 0, top: shelf.bottom}
"""
    trial = lay(FRAME + "parts:" + parts)
    assert trial.body("shelf")[0] == (F(3, 4), 35)
    assert trial.body("side") == ((0, F(3, 4)), (0, 16), (0, 3))


def test_a_long_chain_written_backwards(lay) -> None:
    """Each board stands on the next one written: no depth is too deep."""
    parts = "".join(
        f"  b{i}: {{stock: board, grain: left-right, face: top, left: 0, width: 1, length: 2, front: 0, bottom: b{i + 1}.top}}\n"
        for i in range(99)
    )
    last = "  b99: {stock: board, grain: left-right, face: top, left: 0, width: 1, length: 2, front: 0, bottom: 0}\n"
    trial = lay("frame: {width: 40, depth: 16, height: 75}\nparts:\n" + parts + last)
    assert trial.body("b0")[2][1] == 75


# ---------------------------------------------------------------- faults


FULL = "stock: board, grain: left-right, face: top, left: 4, right: 4, front: 4, back: 4,"


@pytest.mark.parametrize(
    ("board", "code", "said", "way_out"),
    [
        ("FLAT left: 4, right: 4, back: 4, bottom: 3", "place-too-few", "shelf", "`front`"),
        ("FLAT left: 4, front: 4, back: 4, bottom: 3", "place-too-few", "shelf", "`length`"),
        ("FULL bottom: 3, top: 3", "place-too-many", "shelf", "Drop one"),
        ("FULL length: 30, bottom: 3", "place-too-many", "shelf", "Drop one"),
        ("stock: board, grain: left-right, face: left, left: 4, right: 4", "place-face-grain", "left", "front, back"),
        ("stock: board, grain: up, face: top, left: 4, right: 4", "place-face-grain", "top", ""),
        ("FULL bottom: 3, edge: top", "place-edge", "top", "front, back"),
        ("UP left: 4, front: 4, width: 2, bottom: 5, top: 16-1/2", "place-height-slip", "16-1/2", "`16-1/2 above bottom`"),
        ("FLAT left: 4, right: 4, front: 4, back: 4, top: 19-1/2", "place-height-slip", "19-1/2", "above bottom"),
        ("FLAT left: 4, right: 36, front: 4, back: 4, bottom: 3", "place-negative", "4", "inset"),
        ("FLAT left: 0, right: 0, front: 1, width: -1, bottom: 3", "size-zero", "-1", ""),
        ("FULL bottom: leg.right", "ref-direction", "leg.right", "top"),
        ("FULL bottom: leg", "ref-which-face", "leg", "`leg.bottom` or `leg.top`"),
        ("FULL bottom: legg.top", "ref-unknown", "legg.top", '"leg"'),
        ("FULL bottom: upper leg.top", "ref-no-hand", "upper leg.top", "`left leg`"),
        ("FULL bottom: leg.height", "ref-measure", "leg.height", "`leg.length`"),
        ("FULL bottom: leg.right at 4 above bottom", "ref-at", "leg.right at 4 above bottom", "`leg.right`"),
        ("FULL bottom: leg.top + leg.bottom", "sum-two-places", "leg.top + leg.bottom", "centred"),
        ("FLAT between: leg.left, front: 4, back: 4, bottom: 3", "place-between", "leg.left", "two names"),
        ("FLAT between: shelf, front: 4, back: 4, bottom: 3", "place-between", "shelf", "two things"),
        ("FLAT between: [leg, left leg], front: 4, back: 4, bottom: 3", "place-between", "leg", "look at"),
        ("FLAT fills: leg, bottom: 3", "place-fills", "leg", "frame"),
        ("FULL bottom: 3, gap: 1/8", "place-gap", "1/8", "`between`"),
        ("FULL centred: {bottom-top: 3}", "place-centred", "3", "`3 inside bottom`"),
        ("FULL bottom: 3, mirror: [left-right, left-right]", "place-mirror-twice", "left-right", ""),
        ("FULL bottom: 3, mirror: left-right", "place-mirror", "left-right", "clear of the middle"),
        ("UP right: 3, front: 4, width: 2, bottom: 1, top: 1, mirror: left-right", "place-mirror", "left-right", "left one"),
        ("stock: board, grain: up, left: 4, front: 4, width: 2, bottom: 3, top: 3", "place-face-missing", "shelf", "`face: "),
        ("stock: board, grain: level, face: top, left: 4, front: 4", "word-unknown", "level", "up"),
        ("FULL bottom: 3, thickness: 7/8", "stock-thin", "7/8", "thicker stock"),
    ],
)
def test_faults(lay, board: str, code: str, said: str, way_out: str) -> None:
    words = {"FULL": FULL, "FLAT": "stock: board, grain: left-right, face: top,", "UP": "stock: board, grain: up, face: left,"}
    for short, long in words.items():
        board = board.replace(short, long)
    text = FRAME + "parts:" + LEG + f"  shelf: {{{board}}}\n"
    found = [each for each in lay(text).found if each.code == code]
    assert len(found) == 1
    assert letters(text, found[0]) == said
    assert way_out in " ".join((found[0].expected, *found[0].hints))


def test_a_circle_is_told_once_with_its_chain(lay) -> None:
    parts = """
  shelf: {stock: board, grain: left-right, face: top, left: side.right, length: 20, front: 0, back: 0, bottom: 3}
  side: {stock: board, grain: up, face: left, right: shelf.left, front: 0, back: 0, bottom: 0, top: 0}
  other: {stock: board, grain: up, face: left, left: side.right, front: 0, back: 0, bottom: 0, top: 0}
"""
    trial = lay(FRAME + "parts:" + parts)
    found = trial.one("place-circle")
    assert "shelf.left > side.right > shelf.left" in found.message
    assert trial.codes == ["place-circle"]


def test_sizes_in_a_circle(lay) -> None:
    text = FRAME + "sizes: {one: two + 1, two: 2 * three, three: one - 4}\nparts:" + LEG
    found = lay(text.replace("left: 2\n", "left: one\n")).one("size-circle")
    assert found.message == "A circle: one > two > three > one."


def test_all_faults_of_the_stage_at_once_in_the_order_of_the_file(lay) -> None:
    text = FRAME + "sizes: {depth_of_it: 2-, wide: 10-4}\nparts:" + LEG + f"""
  shelf: {{{FULL} bottom: legg.top}}
  rail: {{stock: board, grain: left-right, face: top, between: leg, front: 0, bottom: 2}}
  stretcher: {{stock: board, grain: left-right, face: top, left: wide, right: 2, front: 0, back: 0, bottom: 0}}
"""
    trial = lay(text)
    assert trial.codes == ["sum-no-air", "sum-doubtful-hyphen", "ref-unknown", "place-too-few"]


def test_the_frame_must_be_what_the_parts_reach(lay) -> None:
    seat = "  seat: {stock: board, grain: left-right, face: top, left: -1/4, right: -1/4, fills: frame, top: 0, glue_up: no}\n"
    text = FRAME + "parts:\n" + seat
    trial = lay(text)
    assert [each.message for each in trial.found] == [
        'The frame says 40 wide; the parts reach 40-1/2 ("seat", 11:3).',
        'The frame says 20 high; the parts reach 3/4 ("seat", 11:3).',
    ]
    assert letters(text, trial.found[0]) == "40"


def test_a_shoulder_on_a_taper_is_refused(lay) -> None:
    leg = LEG + "    shape: [{taper: {faces: inside, from: 5 below top, to: bottom, leaving: 1-1/8}}]\n"
    rail = RAIL + "between: leg, bottom: BOTTOM}\n"
    high, partly, low = (lay(FRAME + "parts:" + leg + rail.replace("BOTTOM", each)) for each in ("17", "14", "4"))
    assert "place-shoulder-planes" not in high.codes
    told = [trial.one("place-shoulder-planes").message for trial in (partly, low)]
    assert told[0].startswith('The left and right ends of "rail" land partly on the taper of "leg"')
    assert told[1].startswith('The left and right ends of "rail" land on the taper of "leg"')


def test_gaps_off_the_step_are_noted_with_a_size_that_comes_out_even(lay) -> None:
    """Between the legs are 10-1/2: five slats of 1-1/2 leave 3, a sixth of it 1/2; five of 1-3/8 leave 3-5/8: 29/48."""
    slat = SLAT + "width: WIDE, repeat: {count: 5, along: front-back, between: leg}}\n"
    even = lay(FRAME + "parts:" + LEG + slat.replace("WIDE", "1-1/2"))
    odd = lay(FRAME + "parts:" + LEG + slat.replace("WIDE", "1-3/8"))
    assert "place-off-step" not in even.codes
    note = odd.one("place-off-step")
    assert note.severity.value == "note"
    assert "29/48" in note.message
    assert "1-5/16 the gaps come out at 21/32" in note.hints[0]
