"""SVG figures: mm, own style, one path a pen and a tint, and fills that mean the union of what was filled."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

from sample_facts import FACTS

from planbuild.publish.rings import wound
from planbuild.publish.svg import number, svg
from planbuild.publish.theme import load_theme
from planbuild.records.drawing import Drawing, Fill, Pen, Stroke, Text, TextRole, Tint, circle, line, ring

TOKENS = load_theme("bench", Path("/nonexistent")).tokens
NS = "{http://www.w3.org/2000/svg}"


def drawn(**parts: object) -> ElementTree.Element:
    empty = {"fills": (), "strokes": (), "covers": (), "cover_strokes": (), "texts": ()}
    drawing = Drawing(**{"id": "sheet.x", "width": 80.0, "height": 40.5, "alt": "a & b", **empty, **parts})  # type: ignore[arg-type]
    return ElementTree.fromstring(svg(drawing, TOKENS.inks_for(drawing.id)))


def test_size_is_in_mm_and_equals_the_view_box_with_a_rim_for_the_lines() -> None:
    root = drawn()
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("81mm", "41.5mm", "-0.5 -0.5 81 41.5")
    assert root.findtext(f"{NS}title") == "a & b"


def test_one_path_a_pen_lighter_ones_first() -> None:
    pens = (Pen.VISIBLE, Pen.HIDDEN, Pen.VISIBLE, Pen.HIDDEN, Pen.VISIBLE)
    root = drawn(strokes=tuple(Stroke(pen, line((i, 0), (i, 5))) for i, pen in enumerate(pens)))
    hidden, visible = root.findall(f"{NS}path")
    assert visible.get("d") == "M0 0L0 5M2 0L2 5M4 0L4 5"
    assert float(hidden.get("stroke-width", "")) * 2 == float(visible.get("stroke-width", ""))
    assert hidden.get("stroke-dasharray") and not visible.get("stroke-dasharray")


def test_a_small_figure_has_thinner_lines_in_the_same_ratio() -> None:
    sheet, step = TOKENS.inks_for("sheet.leg").pens, TOKENS.inks_for("step.1").pens
    assert (sheet[Pen.VISIBLE].width, sheet[Pen.HIDDEN].width) == (0.5, 0.25)  # line group 0.5, ISO 128-2
    assert step[Pen.VISIBLE].width < sheet[Pen.VISIBLE].width and step[Pen.DIMENSION] == sheet[Pen.DIMENSION]


def test_covers_keep_their_order() -> None:
    at = ring((0, 0), (9, 0), (9, 9), (0, 9))
    root = drawn(covers=(Fill(Tint.PAPER, at), Fill(Tint.INK, at), Fill(Tint.PAPER, at)))
    assert [path.get("fill") for path in root.findall(f"{NS}path")] == ["#ffffff", "#171512", "#ffffff"]


def test_text_attributes_are_longhand() -> None:
    # The layout engine drops text with the `font:` shorthand without a word.
    (text,) = drawn(texts=(Text("¹⁄₂ <", (5, 6), 2.5, TextRole.DIMENSION, angle=90, bold=True),)).findall(f"{NS}text")
    assert text.text == "¹⁄₂ <" and text.get("transform") == "rotate(-90 5 6)"
    assert text.get("font-weight") == "600" and text.get("style") is None and float(text.get("font-size", "")) > 2.5


def test_no_figure_holds_many_elements() -> None:
    for drawing in FACTS.drawings.values():
        assert svg(drawing, TOKENS.inks_for(drawing.id)).count("<path") <= 12


def test_numbers_are_short() -> None:
    assert [number(v) for v in (1.0, -0.00001, 12.3456, 100)] == ["1", "0", "12.346", "100"]


# ---------------------------------------------------------------- rings


def signed_area(path: str) -> float:
    points = [tuple(map(float, pair.split())) for pair in re.split("[MLZ]", path) if pair]
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, [*points[1:], points[0]], strict=True)) / 2


def test_holes_run_against_their_outer_ring_whichever_way_they_came() -> None:
    outer, hole = ((0, 0), (10, 0), (10, 10), (0, 10)), ((3, 3), (3, 6), (6, 6), (6, 3))
    for one in (outer, outer[::-1]):
        for other in (hole, hole[::-1]):
            (path,) = drawn(fills=(Fill(Tint.UP, (*ring(*one), *ring(*other))),)).findall(f"{NS}path")
            first, second = [ring_ for ring_ in (path.get("d") or "").split("Z") if ring_]
            assert signed_area(first) == 100 and signed_area(second) == -9


def test_overlapping_fills_of_a_tint_run_the_same_way() -> None:
    # With the even-odd rule their overlap would be a hole.
    a, b = ((0, 0), (10, 0), (10, 10), (0, 10)), ((5, 15), (15, 15), (15, 5), (5, 5))
    (path,) = drawn(fills=(Fill(Tint.UP, ring(*a)), Fill(Tint.UP, ring(*b)))).findall(f"{NS}path")
    assert all(signed_area(each) == 100 for each in (path.get("d") or "").split("Z") if each)
    assert path.get("fill-rule") is None


def test_a_circle_turned_round_is_the_same_circle() -> None:
    there = circle((5, 5), 2)
    back = wound(tuple(there))
    again = wound(back)
    assert back == again and {p for s in back for p in s.points} == {p for s in there for p in s.points}
