"""Which pages there are, in which order, and the small drawings they bring along."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample_facts import FACTS, FINDINGS, LETTER_EDITION

from planbuild.publish.legend import legend
from planbuild.publish.pages import pages_of, samples
from planbuild.publish.samples import SQUARE, check_square, projection_symbol
from planbuild.publish.source import Source
from planbuild.publish.words import Words
from planbuild.records.drawing import Pen
from planbuild.records.edition import Projection
from planbuild.records.facts import Facts


def source(facts: Facts = FACTS) -> Source:
    return Source(facts, FINDINGS, LETTER_EDITION, Words(facts))


def test_order() -> None:
    kinds = [page.kind for page in pages_of(source())]
    expected = "cover read_me piece glance buy cut_list sheets joints steps finish record"
    assert kinds == expected.split()


def test_a_run_without_anything_to_show_is_left_out() -> None:
    kinds = [page.kind for page in pages_of(source(replace(FACTS, joints=())))]
    assert "joints" not in kinds and len(kinds) == 10


def test_overall_size_in_both_systems() -> None:
    cover = pages_of(source())[0]
    assert cover.content["overall"] == ["18 × 11 × 10\u202f⁷⁄₈ in", "457 × 279 × 276 mm"]


def test_the_height_on_castors_is_told_beside_that_of_the_wood() -> None:
    higher = replace(FACTS, piece=replace(FACTS.piece, on_castors=12 * 25.4))
    told = [next(page for page in pages_of(source(each)) if page.kind == "piece").content["overall"] for each in (FACTS, higher)]
    assert told == ["18 × 11 × 10\u202f⁷⁄₈ in", "18 × 11 × 10\u202f⁷⁄₈ in, 12 high on its castors"]


def test_the_legend_is_on_the_page_and_its_samples_are_at_hand() -> None:
    read_me = pages_of(source())[1].content
    figures = [each["figure"] for each in read_me["samples"]]  # type: ignore[attr-defined]
    assert figures == [entry.sample.id for entry in legend(FACTS)]
    assert {"sample.square", "sample.projection", *figures} <= samples(source()).keys()


def test_tools_name_their_steps() -> None:
    tools = next(page for page in pages_of(source()) if page.kind == "buy").content["tools"]
    assert tools[1] == {"name": "tenon saw", "steps": [{"id": "tenon.rail", "number": 3}, {"id": "cut.wedge", "number": 4}]}  # type: ignore[index]


@pytest.mark.parametrize("projection", list(Projection))
def test_circles_stand_beside_the_small_end_in_third_angle(projection: Projection) -> None:
    # ISO 5456-2 and ASME Y14.3: the end view is that of the end it stands next to in third angle, of the far end in first.
    cone, inner, outer = (stroke.path for stroke in projection_symbol("x", projection, 4.5).strokes)
    corners = [step.points[0] for step in cone if step.points]
    low, high = min(x for x, _ in corners), max(x for x, _ in corners)
    size_at = {end: max(y for x, y in corners if x == end) - min(y for x, y in corners if x == end) for end in (low, high)}
    eye = outer[0].points[-1][0]
    near = low if eye < low else high
    assert (size_at[near] == min(size_at.values())) is (projection is Projection.THIRD)


def test_the_square_is_a_square() -> None:
    drawing = check_square()
    (outline,) = (stroke.path for stroke in drawing.strokes if stroke.pen is Pen.VISIBLE)
    xs, ys = zip(*(step.points[0] for step in outline if step.points), strict=True)
    assert max(xs) - min(xs) == max(ys) - min(ys) == SQUARE
    assert all(0 <= x <= drawing.width and 0 <= y <= drawing.height for s in drawing.strokes for p in s.path for x, y in p.points)


def test_a_reason_that_goes_on_is_printed_at_the_first_step_only() -> None:
    one, two, three = (replace(FACTS.steps[0], id=id, why=why) for id, why in (("a", "So."), ("b", "So."), ("c", "Then.")))
    (page,) = (page for page in pages_of(source(replace(FACTS, steps=(one, two, three)))) if page.kind == "steps")
    rows = [row["step"].why for phase in page.content["phases"] for row in phase["steps"]]  # type: ignore[attr-defined]
    assert rows == ["So.", "", "Then."]


def test_like_cuts_are_one_line_with_their_number() -> None:
    hole = replace(FACTS.parts[0].features[0], words="Hole in the top face.", several="holes in the top face.")
    drilled = replace(FACTS.parts[0], features=(hole, replace(hole, id="hole.2")))
    (page,) = (p for p in pages_of(source(replace(FACTS, parts=(drilled, *FACTS.parts[1:])))) if p.kind == "sheets")
    assert page.content["sheets"][0]["features"] == [{"words": "2 holes in the top face."}]  # type: ignore[index]


def test_the_maker_reads_no_advice_for_the_designer() -> None:
    """A warning of the sheets is the designer's, and so are hints and the marks of code; what concerns wood stays."""
    thin = FINDINGS.diagnostics[0]
    more = (replace(thin, message="The `top` is thin."), replace(thin, code="sheet-sum", message="Figures add up 0.5 off."))
    found = replace(FINDINGS, diagnostics=(thin, *more))
    record = pages_of(Source(FACTS, found, LETTER_EDITION, Words(FACTS)))[-1]
    assert record.content["warnings"] == [thin.message, "The top is thin."]
