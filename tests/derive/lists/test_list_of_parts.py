"""Cut list, part facts and the other lists of the bench."""

from __future__ import annotations

import re

import pytest

from planbuild.core.tables import rows
from planbuild.derive.lists import Lists, compile_lists
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
    assert by_id["long_rail"].finished_text == ("38\u2009³⁄₄", "3", "1")
    assert by_id["long_rail"].shoulder_text == "36\u2009¹⁄₂ between shoulders"
    assert by_id["seat"].strips == "4 strips of 3\u2009³⁄₄, rings alternate"
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
    assert found["seat"].note == "4 strips of 3\u2009³⁄₄, rings alternate"
    marks = {each.id: each.mark for each in lists.parts}
    assert found["short_rail"].matched == f"{marks['lower_rail']} (shoulders)"  # 9-3/4 in both
    assert found["long_rail"].matched == ""


def test_rule_of_the_allowances(lists: Lists) -> None:
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


def test_references_exist(lists: Lists, bench_piece: Piece) -> None:
    known = {("mark", each.id) for each in bench_piece.parts} | {("joint", each.id) for each in bench_piece.joints}
    texts = [text for part in lists.parts for text in (*part.notes, *(f.words for f in part.features))]
    texts += [each.where for each in (*lists.joints, *lists.hardware)]
    found = {match.groups() for text in texts for match in REFERENCE.finditer(text)}
    assert found and found <= known


def test_tables_name_their_sources() -> None:
    for name in ("fasteners", "making", "clamps", "abrasives", "finishes", "cautions", "operations"):
        assert all(row["source"].strip() for row in rows(name)), name
