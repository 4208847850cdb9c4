"""Edging in lists, steps and on sheets: a row of its own, ripped off a board, glued on before the joints."""

from __future__ import annotations

from dataclasses import replace

import pytest
from timber import BOTTOM_TOP, FRONT_BACK, HERE, board, box, piece, said

from planbuild.core.geometry import Axis, Face, Motion
from planbuild.derive.dimensions.measures import measures_of
from planbuild.derive.lists.areas import glued_area
from planbuild.derive.lists.blanks import blank_of
from planbuild.derive.lists.cut_list import allowance_note, cut_list
from planbuild.derive.lists.edging import edging_text
from planbuild.derive.lists.features import feature_facts
from planbuild.derive.lists.to_buy import to_buy
from planbuild.derive.sheets.lie import lie_of
from planbuild.derive.steps import plan_steps
from planbuild.joints.weights import density, part_mass, wood_shares
from planbuild.proofread.numbers import needs_of
from planbuild.proofread.planes import planes_of
from planbuild.prove import prove
from planbuild.records.edging import Edging, laid_on
from planbuild.records.edition import Edition
from planbuild.records.facts import StripRow
from planbuild.records.features import Groove
from planbuild.records.piece import Part, Piece
from planbuild.records.stock import Sheet, Stock
from planbuild.shape import shape

PLY = Stock("ply", HERE, "birch plywood", "", 18.0, 18.0, "", sheet=Sheet("18 mm", (2440.0, 1220.0), True, "", 2, True))
ASH = Stock("ash", HERE, "white ash", "4/4", 25.4, 19.0, "flat")
TOP = box(0, 800, 0, 300, 0, 18)
GROOVE = Groove(**said("groove"), face=Face.TOP, void=box(200, 218, 0, 300, 12, 18))


def strip(edge: Face, tongue: tuple[float, float] | None = None) -> Edging:
    return Edging(
        **said(f"edging.{edge.value}"), edge=edge, strip=TOP, stock="ash", wood="white ash", thickness=10.0, tongue=tongue
    )


def shelf(*strips: Edging, **more: object) -> Part:
    laid = laid_on(strips, TOP, Axis.BOTTOM_TOP)
    part = board(*laid, GROOVE, body=TOP, id="shelf", stock="ply", edge=Face.FRONT, **more)
    return replace(part, rough_length=0.0, rough_width=0.0)


def case(*strips: Edging) -> Piece:
    return piece(shelf(*strips), stock=(PLY, ASH))


TWO = (strip(Face.FRONT), strip(Face.LEFT, (6.0, 6.0)))


def test_the_sheet_is_cut_smaller_by_its_edging(a4: Edition) -> None:
    whole = case(*TWO)
    assert blank_of(whole, whole.part("shelf"), a4.ruler).each == (790, 290, 18)
    assert whole.part("shelf").finished == (800, 300, 18)
    assert "The rough size of an edged part is that of its sheet" in allowance_note(whole, a4)


def test_strips_have_rows_under_their_own_wood(a4: Edition) -> None:
    whole = case(*TWO)
    solids = shape(whole)
    ash, ply = cut_list(whole, prove(whole, solids), a4)
    assert (ash.stock, ash.rows, [row.part for row in ply.rows]) == ("ash", (), ["shelf"])
    assert ash.strips == (
        StripRow("shelf", "edging, front", 1, ("790", "18", "10"), ("815", "19", "10"), "glued on the front edge"),
        StripRow(
            "shelf", "edging, left", 1, ("300", "18", "16"), ("325", "19", "16"),
            "glued on the left edge, with a tongue 6 thick and 6 long",
        ),
    )  # fmt: skip
    assert ply.rows[0].note == "edging 10 of white ash: front, left"


def test_strips_are_bought_with_the_rest(a4: Edition) -> None:
    """790 + 25 by 10 + 3, and 300 + 25 by 16 + 3, 25.4 thick: 0.000426 m3 of ash."""
    ash, ply = to_buy(case(*TWO), a4)
    assert ash.net == pytest.approx((815 * 13 + 325 * 19) * 25.4e-9)
    assert ash.for_parts == ("shelf",) and ply.for_parts == ("shelf",)


def test_an_edged_part_weighs_by_its_shares() -> None:
    whole = case(*TWO)
    share = (790 * 10 + 300 * 10) / (800 * 300)
    assert dict(wood_shares(whole.part("shelf")))["ash"] == pytest.approx(300 * 10 / (800 * 300))
    volume = (800 * 300 * 18 - 18 * 300 * 6) * 1e-9
    mass = part_mass(whole, shape(whole), whole.part("shelf"))
    assert mass == pytest.approx(volume * (680 * (1 - share) + density(0.60, 8) * share))


def test_glue_under_the_strips() -> None:
    assert glued_area(case(*TWO)) == pytest.approx((790 * 18 + 300 * 18) * 1e-6)
    assert glued_area(case()) == 0


def test_words_of_an_edging(a4: Edition) -> None:
    whole = case(*TWO)
    words = [each.words for each in feature_facts(whole, whole.part("shelf"))]
    assert words[:2] == [
        "Edging of white ash on the front edge, glued on.",
        "Edging of white ash on the left edge, with a tongue.",
    ]
    assert edging_text(whole.part("shelf"), a4.ruler) == "edging 10 of white ash: front, left"
    assert edging_text(case().part("shelf"), a4.ruler) == ""


def test_every_number_of_an_edging_is_measured() -> None:
    """The seam from its edge, and the tongue; what proofreading asks for is what the sheet can state."""
    part = shelf(*TWO)
    measured = {(each.feature, each.states): each.value for each in measures_of(part, lie_of(part).datum)}
    assert measured["edging.front", "edging"] == measured["edging.left", "edging"] == 10
    assert (measured["edging.left", "tongue thickness"], measured["edging.left", "tongue length"]) == (6, 6)
    needs = [each for each in needs_of(part) if each.feature == "edging.left"]
    assert [each.words for each in needs] == ["thickness", "thickness of the tongue", "length of the tongue"]
    seams = {(each.axis, each.at) for each in planes_of(part) if "seam" in each.words}
    assert seams == {(FRONT_BACK, 10.0), (Axis.LEFT_RIGHT, 10.0)}


def test_edging_is_glued_on_before_joints_are_cut(a4: Edition) -> None:
    whole = case(*TWO[:1])
    solids = shape(whole)
    plan = plan_steps(whole, solids, prove(whole, solids), a4)
    order = [each.id for each in plan.steps]
    assert order[:3] == ["break_down.shelf", "edge.shelf", "groove.shelf"]
    step = plan.steps[1]
    assert step.title == "Edge the shelf with white ash"
    assert step.actions[0].startswith("Plane 4/4 white ash to 19 mm, joint an edge, rip a strip 10 mm thick off it")
    assert step.sizes == ("[[mark:shelf]] front: 10 × 18, 800 long",)
    assert step.drawing == "step.edge.shelf" and len(step.actions) <= 5


def test_order_of_strips_and_tongues_are_told(a4: Edition) -> None:
    whole = case(strip(Face.FRONT, (6.0, 6.0)), strip(Face.LEFT, (6.0, 6.0)))
    solids = shape(whole)
    (step,) = [each for each in plan_steps(whole, solids, prove(whole, solids), a4).steps if each.id == "edge.shelf"]
    assert any("Groove the middle of the edges 6 wide" in each for each in step.actions)
    assert any("in this order: front and left; each later strip covers the ends" in each for each in step.actions)
    assert len(step.actions) == 5


def test_copies_with_edging_on_the_other_side_are_mirrored() -> None:
    """A side with edging in front is another hand than its mirror image."""
    body = box(0, 18, 0, 300, 0, 600)
    front = laid_on((strip(Face.FRONT),), body, Axis.LEFT_RIGHT)
    housing = Groove(**said("groove"), face=Face.RIGHT, void=box(12, 18, 0, 300, 100, 118))
    pair = (Motion(), Motion((-1, 1, 1), (800.0, 0.0, 0.0)))
    side = board(
        *front, housing, body=body, id="side", stock="ply", grain=BOTTOM_TOP, face=Face.LEFT, edge=Face.FRONT, copies=pair
    )
    whole = piece(side, stock=(PLY, ASH))
    assert prove(whole, shape(whole)).alike("side").mirrored == (1,)
