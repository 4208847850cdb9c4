"""Stock preparation of sheets and glue-ups: no milling, measured first, and what is glued how."""

from __future__ import annotations

from dataclasses import replace

import pytest
from timber import BOTTOM_TOP, HERE, board, box, piece

from planbuild.core.geometry import Face
from planbuild.derive.steps import plan_steps
from planbuild.prove import prove
from planbuild.records.edition import Edition
from planbuild.records.facts import WorkStep
from planbuild.records.piece import GlueUp, Part, Piece
from planbuild.records.stock import Sheet, Stock
from planbuild.shape import shape

PLY = Stock("ply", HERE, "birch plywood", "", 18.0, 18.0, "", sheet=Sheet("18 mm", (2440.0, 1220.0), True, "", 2, True))
ASH = Stock("ash", HERE, "white ash", "4/4", 25.4, 19.0, "flat")
LEAF = Stock("ash", HERE, "white ash", "4/4", 25.4, 9.5, "flat", leaves=2, leaf=11.9)


def steps_of(whole: Piece, edition: Edition) -> dict[str, WorkStep]:
    solids = shape(whole)
    plan = plan_steps(whole, solids, prove(whole, solids), edition)
    assert not plan.diagnostics
    return {each.id: each for each in plan.steps}


def of_ply(**more: object) -> Part:
    side = board(body=box(0, 18, 0, 400, 0, 1000), id="side", stock="ply", grain=BOTTOM_TOP, face=Face.LEFT, **more)
    return replace(side, rough_length=0.0, rough_width=0.0)


def test_a_sheet_is_broken_down_and_not_milled(a4: Edition) -> None:
    steps = steps_of(piece(of_ply(), stock=(PLY,)), a4)
    assert list(steps)[0] == "break_down.side"
    assert not any(id.startswith(("rough", "mill")) for id in steps)
    step = steps["break_down.side"]
    assert step.title == "Saw the side out of birch plywood"
    assert step.actions[0].startswith("Measure the sheet at all four edges; where it is not 18 mm,")
    assert step.sizes == ("[[mark:side]] 1000 × 400",)
    assert "circular saw" in step.tools and len(step.actions) <= 5


def test_a_heavy_sheet_is_said(a4: Edition) -> None:
    """18 mm of 2440 x 1220 at 680 kg/m3 are 36 kg; at 4 mm it is 8 kg, which one can carry."""
    heavy = steps_of(piece(of_ply(), stock=(PLY,)), a4)["break_down.side"]
    assert any("about 36 kg" in each.hazard for each in heavy.cautions)
    thin = board(body=box(0, 4, 0, 400, 0, 1000), id="side", stock="ply", grain=BOTTOM_TOP, face=Face.LEFT)
    light = steps_of(piece(thin, stock=(replace(PLY, thickness=4.0, rough=4.0),)), a4)["break_down.side"]
    assert not any("whole sheet" in each.hazard for each in light.cautions)


def test_solid_wood_beside_sheets_is_milled(a4: Edition) -> None:
    rail = board(body=box(100, 500, 0, 60, 0, 19), id="rail")
    steps = steps_of(piece(of_ply(), rail, stock=(PLY, ASH)), a4)
    assert steps["rough.stock"].parts == ("rail",) and steps["mill.rail"].parts == ("rail",)
    assert steps["break_down.side"].parts == ("side",)


def test_layers_are_glued_face_to_face(a4: Edition) -> None:
    post = board(body=box(0, 400, 0, 60, 0, 38), id="post", glue_up=GlueUp(1, 60, "alternate", layers=2))
    steps = steps_of(piece(post, stock=(ASH,)), a4)
    glued = steps["glue.post"]
    assert glued.title == "Glue up the post from its layers"
    assert glued.actions[0].startswith("Stack the two layers of [[mark:post]] dry")
    assert steps["size.post"].title == "Square the post and cut it to size"
    assert "[[mark:post]] two layers" in " ".join(steps["mill.post"].sizes)


@pytest.mark.parametrize(
    ("match", "words"), [("bookmatched", "like the pages of a book"), ("slip", "none turned over"), ("", "rings alternating")]
)
def test_strips_lie_as_they_are_matched(a4: Edition, match: str, words: str) -> None:
    panel = board(body=box(0, 600, 0, 200, 0, 19), id="panel", glue_up=GlueUp(2, 100, "alternate", match))
    glued = steps_of(piece(panel, stock=(ASH,)), a4)["glue.panel"]
    assert words in glued.actions[0] and len(glued.actions) == 5


def test_splines_and_layers_of_a_panel(a4: Edition) -> None:
    panel = board(body=box(0, 600, 0, 200, 0, 38), id="panel", glue_up=GlueUp(2, 100, "alternate", "", 2, 6.0))
    glued = steps_of(piece(panel, stock=(ASH,)), a4)["glue.panel"]
    assert any("6 wide and 10 deep" in each for each in glued.actions)
    assert glued.actions[-1].startswith("Plane the two panels flat")


def test_boards_are_opened_before_they_are_planed(a4: Edition) -> None:
    bottom = board(body=box(0, 400, 0, 60, 0, 9.5), id="bottom")
    rough = steps_of(piece(bottom, stock=(LEAF,)), a4)["rough.stock"]
    assert any("saw the blanks of [[mark:bottom]] into two leaves through the thickness" in each for each in rough.actions)
