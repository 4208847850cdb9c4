"""Cut list, part facts and the other lists of the bench."""

from __future__ import annotations

import re

import pytest

from planbuild.core.tables import rows
from planbuild.derive.lists import Lists, compile_lists
from planbuild.derive.steps import plan_steps
from planbuild.records.edition import Edition
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids

INCH = 25.4
REFERENCE = re.compile(r"\[\[(\w+):([^\]]+)\]\]")


@pytest.fixture(scope="module")
def lists(bench_piece: Piece, bench_solids: Solids, bench_findings: Findings, letter: Edition) -> Lists:
    return compile_lists(bench_piece, bench_solids, bench_findings, letter)


@pytest.mark.parametrize(
    ("part", "count", "finished", "rough"),
    [
        ("seat", 1, (44, 15, 1), (45, 4, 1.25)),  # rough size is that of one of four strips
        ("leg", 4, (16.5, 1.75, 1.75), (17.5, 2, 2)),
        ("long_rail", 2, (38.75, 3, 1), (39.75, 3.25, 1.25)),  # 36-1/2 and two tenons of 1-1/8
        ("short_rail", 2, (12, 3, 1), (13, 3.25, 1.25)),  # 9-3/4 and two tenons of 1-1/8
        ("lower_rail", 2, (13.5, 2, 1), (14.5, 2.25, 1.25)),  # 9-3/4, two legs of 1-3/4, 1/8 proud twice
        ("slat", 5, (38.25, 1.5, 0.75), (39.25, 1.75, 1)),  # 37-1/2 and two stubs of 3/8
    ],
)
def test_sizes_by_hand(lists: Lists, part: str, count: int, finished: tuple[float, ...], rough: tuple[float, ...]) -> None:
    (facts,) = (each for each in lists.parts if each.id == part)
    assert facts.count == count
    assert facts.finished == pytest.approx([each * INCH for each in finished])
    assert facts.rough == pytest.approx([each * INCH for each in rough])


def test_texts_of_a_part(lists: Lists) -> None:
    by_id = {each.id: each for each in lists.parts}
    assert by_id["long_rail"].finished_text == ("38\u202f³⁄₄", "3", "1")
    assert by_id["long_rail"].shoulder_text == "36\u202f¹⁄₂ between shoulders"
    assert by_id["seat"].strips == "4 strips of 3\u202f³⁄₄, rings alternate"
    assert by_id["leg"].notes[0].startswith("Taper of the right face toward the bottom end. One face only: ")
    assert by_id["leg"].mirrored == 2
    assert by_id["button"].made_for == "seat" and by_id["leg"].made_for == ""


def test_each_part_stands_once_in_the_cut_list(lists: Lists, bench_piece: Piece) -> None:
    listed = [row.part for group in lists.cut_list for row in group.rows]
    assert sorted(listed) == sorted(each.id for each in bench_piece.parts)
    for group in lists.cut_list:
        assert {bench_piece.part(row.part).stock for row in group.rows} == {group.stock}


def test_notes_and_matches(lists: Lists) -> None:
    found = {row.part: row for group in lists.cut_list for row in group.rows}
    assert found["leg"].note == "2 as drawn, 2 mirrored"
    assert found["seat"].note == "4 strips of 3\u202f³⁄₄, rings alternate"
    marks = {each.id: each.mark for each in lists.parts}
    assert found["short_rail"].matched == f"{marks['lower_rail']} (shoulders)"  # 9-3/4 in both
    assert found["long_rail"].matched == ""


def test_small_parts_say_what_they_are_for_and_where_they_come_from(lists: Lists) -> None:
    """Not "button for the buttons"; their wood runs along them, since they stand every way in the piece."""
    found = {row.part: row.note for group in lists.cut_list for row in group.rows}
    assert found["button"] == "for the seat; all from one strip"
    assert found["wedge"] == "for the lower rails; all from one offcut"
    grains = {each.id: each.grain for each in lists.parts}
    assert grains["button"] == grains["wedge"] == "along the length" and grains["slat"] == "left to right"


def test_buttons_are_cut_from_one_strip_everywhere(
    lists: Lists, bench_piece: Piece, bench_solids: Solids, bench_findings: Findings, letter: Edition
) -> None:
    """By hand: twelve of 1-3/4 in and a saw cut of 1/8 each are 22-1/2 in; with an end to hold, 26."""
    (button,) = (each for each in lists.parts if each.id == "button")
    assert button.rough == pytest.approx([each * INCH for each in (26, 1.25, 1)])
    steps = {each.id: each for each in plan_steps(bench_piece, bench_solids, bench_findings, letter).steps}
    assert "[[mark:button]] one strip for all twelve" in steps["rough.stock"].sizes
    (line,) = (each for step in steps.values() if step.id.startswith("mill.") for each in step.sizes if "[[mark:button]]" in each)
    assert line == "[[mark:button]] strip ³⁄₄ × 1, 26 long"


def test_wedges_lie_side_by_side_on_their_offcut(lists: Lists) -> None:
    """By hand: eight, each as thick as its thick end, with a saw cut of 1/8 each, and 1/4 over; 1-5/8 long and 1 over."""
    (wedge,) = (each for each in lists.parts if each.id == "wedge")
    assert wedge.rough[:2] == pytest.approx((2.625 * INCH, 8 * (wedge.finished[2] + INCH / 8) + INCH / 4))
    (walnut,) = (each for each in lists.stock if "walnut" in each.title)
    assert walnut.longest_text == f"at least {wedge.rough_text[0]} along the grain by {wedge.rough_text[1]}"


def test_rule_of_the_allowances(lists: Lists) -> None:
    one = "it is that of the one piece from which all are sawn."
    assert lists.allowance_note.endswith(f"For [[mark:wedge]] and [[mark:button]] {one}")
    assert "add 1 to the length and ¹⁄₄ to the width" in lists.allowance_note
    assert "one strip" in lists.allowance_note


def test_piece(lists: Lists) -> None:
    piece = lists.piece
    assert (piece.width, piece.depth, piece.height) == pytest.approx((44 * INCH, 15 * INCH, 17.5 * INCH))
    assert piece.part_count == 1 + 4 + 2 + 2 + 2 + 5 + 12 + 8
    assert piece.part_kinds == 8
    assert piece.species == ("white ash", "black walnut")
    assert any("Wood Handbook" in each for each in piece.sources) and any("ASME B18.6.1" in each for each in piece.sources)


def test_joints_have_names_of_their_own(lists: Lists) -> None:
    names = [each.name for each in lists.joints]
    assert len(set(names)) == len(names)
    assert lists.joints[1].title == "Wedged through mortise and tenon, standing proud"
    assert ("proud", "¹⁄₈") in lists.joints[1].numbers
    assert [each.glue for each in lists.joints] == ["yellow PVA", "yellow PVA", "no glue", "no glue", "no glue"]


def test_drills_in_the_joints_are_those_of_the_hardware(lists: Lists) -> None:
    numbers = dict(next(each for each in lists.joints if each.kind == "buttons").numbers)
    assert f"pilot {numbers['pilot hole']} in" in lists.hardware[0].holes
    assert f"clearance {numbers['clearance hole']} in" in lists.hardware[0].holes


def test_ranges(lists: Lists) -> None:
    (length,) = (each for each in lists.sizes if each.name == "length")
    assert (length.value_text, length.range_text, length.help) == ("44", "36 to 52", "overall length of the seat")


def test_finish_warns_of_oily_rags(lists: Lists) -> None:
    assert lists.finish.title == "Hardwax oil, satin, two coats"
    assert lists.finish.cautions[0].signal == "WARNING" and "Rags" in lists.finish.cautions[0].hazard
    assert any("7 days" in each for each in lists.finish.care)
    assert dict(lists.finish.figures)["coats"] == "2"


def test_features_keep_their_numbers(lists: Lists, bench_piece: Piece) -> None:
    for facts in lists.parts:
        assert [each.id for each in facts.features] == [each.id for each in bench_piece.part(facts.id).features]
        assert all(each.words.endswith(".") and each.numbers for each in facts.features)


def test_practice_is_told_with_sources(lists: Lists) -> None:
    assert len(lists.practice) == len(rows("practice"))
    assert all("Source: " in each for each in lists.practice)
    assert "Added to the length of a blank: 1." in lists.practice[0], "a length, not a share"


def test_references_exist(lists: Lists, bench_piece: Piece) -> None:
    known = {("mark", each.id) for each in bench_piece.parts} | {("joint", each.id) for each in bench_piece.joints}
    texts = [text for part in lists.parts for text in (*part.notes, *(f.words for f in part.features))]
    texts += [each.where for each in (*lists.joints, *lists.hardware)]
    found = {match.groups() for text in texts for match in REFERENCE.finditer(text)}
    assert found and found <= known


def test_tables_name_their_sources() -> None:
    for name in ("fasteners", "making", "clamps", "abrasives", "finishes", "cautions", "operations"):
        assert all(row["source"].strip() for row in rows(name)), name
