"""The sheets of the bench: true to the solids, legible, laid out for their page."""

from __future__ import annotations

from typing import Any

import pytest
from levels import forms, has, levels, middles, sloped_levels

from planbuild.core.diagnostics import Refused
from planbuild.core.geometry import Axis, Face
from planbuild.core.units import drill_text
from planbuild.derive.sheets.below import words_room
from planbuild.derive.sheets.lie import lie_of
from planbuild.derive.sheets.part_sheet import part_sheet
from planbuild.records.drawing import Path, Pen, TextRole
from planbuild.records.edition import Edition
from planbuild.records.facts import Dimension
from planbuild.records.features import Mortise, Taper, Tenon
from planbuild.records.findings import Findings
from planbuild.records.legibility import clashes, crosses, path_box, segments
from planbuild.records.piece import Part, Piece
from planbuild.records.solids import Solids

PARTS = ("seat", "leg", "long_rail", "short_rail", "lower_rail", "slat", "wedge", "button")


@pytest.fixture(params=("letter", "a4"))
def edition(request: pytest.FixtureRequest, editions: dict[str, Edition]) -> Edition:
    return editions[request.param]


@pytest.fixture(params=PARTS)
def part(request: pytest.FixtureRequest, bench_piece: Piece) -> Part:
    return bench_piece.part(request.param)


def places_of(part: Part, solids: Solids, axis: Axis) -> set[float]:
    """Every place along an axis that can be measured on the solid of a part."""
    shape = solids.of[part.id].cut
    found = levels(shape, axis)
    for feature in part.features:
        if isinstance(feature, Taper):
            found |= sloped_levels(shape, axis, feature.end, part.body.at(feature.end))
        if isinstance(feature, Tenon) and feature.wedging and axis is feature.wedging.across:
            found |= middles(found)
    return found


def test_each_distance_is_the_distance_on_the_solid(part: Part, bench_solids: Solids, sheets: Any) -> None:
    for each in sheets["letter"][part.id].dimensions:
        if each.axis:
            (axis,) = (axis for axis in Axis if axis.words == each.axis)
            places = places_of(part, bench_solids, axis)
            assert all(has(places, end) for end in each.ends), f"{each.id} {each.ends} not on the solid"
            assert each.value == pytest.approx(each.ends[1] - each.ends[0], abs=1e-6)


def test_each_form_is_the_form_on_the_solid(part: Part, bench_solids: Solids, sheets: Any) -> None:
    found = forms(bench_solids.of[part.id].cut)
    for each in sheets["letter"][part.id].dimensions:
        if not each.axis and each.states in ("size", "tip chamfer"):
            assert has(found["chamfer"], each.value), each.id
        if not each.axis and each.states in ("radius", "diameter"):
            assert has(found["radius"], each.value / (2 if each.states == "diameter" else 1)), each.id


def figure(each: Dimension, edition: Edition) -> str:
    if each.states.endswith("diameter"):
        return drill_text(each.value, edition.ruler)
    return f"{each.value:g}°" if each.unit == "deg" else edition.ruler.printed(each.value)


def test_each_text_is_the_rulers_figure_and_is_drawn(part: Part, edition: Edition, sheets: Any) -> None:
    sheet = sheets[edition.id][part.id]
    drawn = [text.text for text in sheet.drawing.texts]
    for each in sheet.dimensions:
        assert each.view == "note" or each.text in drawn, each.id
        assert each.text.startswith("(") is each.bracketed
        if not each.bracketed:
            assert figure(each, edition) in each.text


def test_no_text_meets_other_ink(part: Part, edition: Edition, sheets: Any) -> None:
    assert clashes(sheets[edition.id][part.id].drawing) == ()


def test_the_drawing_leaves_room_for_its_words(part: Part, bench_piece: Piece, edition: Edition, sheets: Any) -> None:
    drawing = sheets[edition.id][part.id].drawing
    assert drawing.width == pytest.approx(edition.text_width)
    assert drawing.height <= edition.text_height - words_room(bench_piece, part) + 0.01
    points = [p for stroke in drawing.strokes for step in stroke.path for p in step.points]
    assert all(-0.01 <= x <= drawing.width + 0.01 and -0.01 <= y <= drawing.height + 0.01 for x, y in points)


def test_nothing_is_lettered_smaller_than_the_standard_allows(part: Part, edition: Edition, sheets: Any) -> None:
    """2.5 mm: least height of notes and dimensions on A1 to A3 sheets (ISO 3098 heights, BS guidance)."""
    assert min(text.height for text in sheets[edition.id][part.id].drawing.texts) >= 2.5


def test_each_mortise_shows_the_mark_of_what_goes_in(part: Part, bench_piece: Piece, edition: Edition, sheets: Any) -> None:
    texts = sheets[edition.id][part.id].drawing.texts
    marked = [text.refers for text in texts if text.role is TextRole.MARK]
    for feature in part.features:
        if isinstance(feature, Mortise):
            assert feature.mate.part in marked
            mark = bench_piece.part(feature.mate.part).mark
            assert any(text.text.startswith(mark) for text in texts if text.refers == feature.mate.part)


def test_grain_and_face_marks_are_shown(part: Part, edition: Edition, sheets: Any) -> None:
    words = [text.text for text in sheets[edition.id][part.id].drawing.texts]
    assert words.count("grain") == 1
    said = " ".join(words)
    assert "face side" in said and "face edge" in said


def test_face_marks_stand_on_the_wood_and_on_no_other_line(part: Part, edition: Edition, sheets: Any) -> None:
    strokes = sheets[edition.id][part.id].drawing.strokes
    marks = [stroke for stroke in strokes if stroke.pen is Pen.LEADER and is_face_mark(stroke.path)]
    assert len(marks) == (0 if part.id == "button" else 2), "the button's faces are named by its views"
    for mark in marks:
        left, top, right, bottom = path_box(mark.path)
        others = [segment for stroke in strokes if stroke.pen is Pen.DIMENSION for segment in segments(stroke.path)]
        assert not any(crosses(each, (left + 0.1, top + 0.1, right - 0.1, bottom - 0.1)) for each in others)


def is_face_mark(path: Path) -> bool:
    """A loop of two curves or a chevron of two lines; leaders and arrows are single lines."""
    return [step.verb for step in path] in (["M", "C", "C"], ["M", "L", "L"])


def test_upright_faces_are_drawn_upright(bench_piece: Piece) -> None:
    """As the small picture shows the part; a standing part is laid down, its top end to the left."""
    for part in (each for each in bench_piece.parts if each.grain is not Axis.BOTTOM_TOP):
        lie = lie_of(part)
        for face in (each for each in lie.faces if each.axis is not Axis.BOTTOM_TOP):
            assert lie.camera(face).up == Face.TOP.normal, (part.id, face)


def test_the_end_of_a_slim_part_is_enlarged(edition: Edition, sheets: Any) -> None:
    texts = [text.text for text in sheets[edition.id]["slat"].drawing.texts]
    assert "both ends alike, 2:1" in texts


def test_both_hands_of_a_mirrored_part_are_shown(edition: Edition, sheets: Any) -> None:
    words = [text.text for text in sheets[edition.id]["leg"].drawing.texts]
    assert {"as drawn", "mirrored", "front left", "back right", "front right", "back left"} <= set(words)
    assert "mirrored" not in [text.text for text in sheets[edition.id]["slat"].drawing.texts]


def test_third_angle_and_first_angle_mirror_each_other(sheets: Any) -> None:
    """Third angle: the view from above stands above; first angle: below (ISO 5456-2).  The leg's right face is the
    lower side of its back view, so it stands below in third angle and above in first."""
    assert titles(sheets["letter"]["leg"].drawing)[:2] == ["Back face", "Right face"]
    assert titles(sheets["a4"]["leg"].drawing)[:2] == ["Right face", "Back face"]


def titles(drawing: Any) -> list[str]:
    found = [text for text in drawing.texts if text.role is TextRole.TITLE and len(text.text) > 1]
    return [text.text for text in sorted(found, key=lambda text: text.at[1])]


def test_the_leg_says_what_a_maker_lays_out(sheets: Any) -> None:
    """Figures of the published design: mortises 1/2 and 9 3/4 from the top, 2 1/4 and 1 1/2 long, taper from 5, leaving 1 1/8."""
    told = {(each.feature, each.states): each.text for each in sheets["letter"]["leg"].dimensions}
    assert told["rails.short_rail", "from top end"] == "¹⁄₂"
    assert told["rails.short_rail", "length"] == "2\u202f¹⁄₄"
    assert told["wedged_rails.lower_rail", "from top end"] == "9\u202f³⁄₄"
    assert told["wedged_rails.lower_rail", "length"] == "1\u202f¹⁄₂"
    assert told["taper.right", "start from top end"] == "5"
    assert told["taper.right", "left at bottom end"] == "1\u202f¹⁄₈"
    assert told["body", "length"] == "16\u202f¹⁄₂"


def test_a_rail_gives_shoulders_first_and_its_length_in_brackets(sheets: Any) -> None:
    told = {(each.feature, each.states): each.text for each in sheets["letter"]["long_rail"].dimensions}
    assert told["body", "between shoulders"] == "36\u202f¹⁄₂"
    assert told["body", "length"] == "(38\u202f³⁄₄)"
    assert told["rails.left", "length"] == told["rails.right", "length"] == "1\u202f¹⁄₈"


def test_same_input_same_sheet(
    bench_piece: Piece, bench_solids: Solids, bench_findings: Findings, letter: Edition, sheets: Any
) -> None:
    again = part_sheet(bench_piece.part("leg"), bench_piece, bench_solids, bench_findings, letter)
    assert again == sheets["letter"]["leg"]


def test_a_drill_is_named_as_it_is_sold(sheets: Any) -> None:
    """The clearance hole for a No. 8 screw is 11/64 in (published screw chart), which a rule of 1/32 in cannot say."""
    texts = [d.text for d in sheets["letter"]["button"].dimensions if d.states == "diameter"]
    assert texts and all("¹¹⁄₆₄" in text for text in texts)


def test_a_part_for_which_no_scale_is_small_enough_is_told(
    monkeypatch: pytest.MonkeyPatch, bench_piece: Piece, bench_solids: Solids, bench_findings: Findings, letter: Edition
) -> None:
    monkeypatch.setattr("planbuild.derive.sheets.compose._main_scales", lambda *_: ())
    rail = bench_piece.part("long_rail")
    with pytest.raises(Refused) as caught:
        part_sheet(rail, bench_piece, bench_solids, bench_findings, letter)
    (fault,) = caught.value.diagnostics
    assert (fault.code, fault.span) == ("sheet-crowded", rail.origin)
