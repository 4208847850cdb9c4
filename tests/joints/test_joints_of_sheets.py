"""Sheets stand still: no room for movement, glue is free to cross, and edges of plies hold."""

from __future__ import annotations

from dataclasses import replace

import pytest
from boards_by_hand import BOTTOM_TOP, FRONT_BACK, HERE, INCH, LEFT_RIGHT, board, box, joined, refused, site

from planbuild.core.geometry import Axis, Face
from planbuild.joints.base import Board
from planbuild.joints.gluing import Butt, EdgeGlue
from planbuild.joints.panel_in_groove import PanelInGroove
from planbuild.joints.proportions import movement_coefficient
from planbuild.joints.screws import is_dense
from planbuild.records.stock import Sheet, Stock

PLY = Stock("ply", HERE, "birch plywood", "", 6.0, 6.0, "", sheet=Sheet("1/4 in", (2438.4, 1219.2), True, "", 2, True))


def of_ply(plain: Board) -> Board:
    return replace(plain, stock=PLY)


def frame(panel: Board) -> tuple[Board, ...]:
    left = board("left_stile", box(0, 2, 0, 1, 0, 30), BOTTOM_TOP, Face.FRONT)
    right = board("right_stile", box(18, 20, 0, 1, 0, 30), BOTTOM_TOP, Face.FRONT)
    low = board("low_rail", box(2, 18, 0, 1, 0, 2), LEFT_RIGHT, Face.FRONT)
    high = board("high_rail", box(2, 18, 0, 1, 28, 30), LEFT_RIGHT, Face.FRONT)
    return left, right, low, high, panel


PANEL = board("panel", box(2, 18, 0.375, 0.625, 2, 28), BOTTOM_TOP, Face.FRONT)


def test_a_sheet_does_not_move() -> None:
    assert movement_coefficient(PLY) == 0.0
    assert (movement_coefficient(replace(PLY, sheet=None, species="white ash", cut="flat")) or 0) > 0


def test_a_panel_of_a_sheet_fills_its_grooves() -> None:
    """Play at the bottom of a groove is for movement; a sheet has none, and is as deep in as the groove."""
    made = joined(PanelInGroove(), "held", site(*frame(of_ply(PANEL))), panel="panel")
    assert set(made.grows["panel"].values()) == {9.525}
    assert not any("play" in word for word, _ in made.joint.numbers) and not any("Play" in each for each in made.joint.defaults)
    solid = joined(PanelInGroove(), "held", site(*frame(PANEL)), panel="panel")
    assert max(solid.grows["panel"].values()) < 0.375 * INCH


def test_a_sheet_may_be_glued_into_its_grooves() -> None:
    """Both cheeks of each edge: 3/8 deep, twice, on 16-3/4 and 26-3/4 of run."""
    made = joined(PanelInGroove(), "held", site(*frame(of_ply(PANEL))), panel="panel", glue="yes")
    assert made.joint.glue
    areas = sorted(round(each.glue_area / INCH**2, 3) for each in made.joint.contacts)
    assert areas[0] == pytest.approx(2 * 0.375 * 16, rel=0.06) and areas[-1] == pytest.approx(2 * 0.375 * 26.75, rel=0.01)
    (fault,) = refused(PanelInGroove(), "held", site(*frame(PANEL)), panel="panel", glue="yes")
    assert fault.code == "joint-panel-glued"


TOP = board("top", box(0, 30, 0, 16, 0, 1), LEFT_RIGHT, Face.TOP)


def edge(grain: Axis, box_of: tuple[float, ...]) -> Board:
    return board("edge", box(*box_of), grain, Face.TOP)  # type: ignore[arg-type]


def test_an_edge_of_solid_wood_along_a_sheet() -> None:
    """Along every side of a sheet, its `end` too: plies end everywhere alike."""
    along, end = edge(LEFT_RIGHT, (0, 30, 16, 17, 0, 1)), edge(FRONT_BACK, (30, 31, 0, 16, 0, 1))
    for strip in (along, end):
        made = joined(EdgeGlue(), "edging", site(of_ply(TOP), strip), parts=("top", "edge"))
        assert made.joint.contacts[0].glue_area > 0
    (fault,) = refused(EdgeGlue(), "edging", site(TOP, end), parts=("top", "edge"))
    assert fault.code == "joint-end-grain"


def test_wood_that_moves_along_a_sheet_tears() -> None:
    short = edge(FRONT_BACK, (0, 30, 16, 20, 0, 1))
    (fault,) = refused(EdgeGlue(), "edging", site(of_ply(TOP), short), parts=("top", "edge"))
    assert fault.code in ("joint-grain-crosses", "joint-end-grain")
    crossing = replace(edge(LEFT_RIGHT, (0, 4, 0, 16, 1, 2)), grain=LEFT_RIGHT)
    (fault,) = refused(EdgeGlue(), "edging", site(of_ply(TOP), crossing), parts=("top", "edge"))
    assert fault.code == "joint-grain-crosses"


def test_a_butted_sheet_is_not_called_end_grain() -> None:
    shelf, side = (
        of_ply(board("shelf", box(1, 20, 0, 10, 5, 6), LEFT_RIGHT, Face.TOP)),
        of_ply(board("side", box(0, 1, 0, 10, 0, 20), BOTTOM_TOP, Face.LEFT)),
    )
    where = site(shelf, side)
    made = joined(Butt(), "held", where, part="shelf", to=("side",))
    assert not where.report.found and made.joint.contacts[0].glue_area == pytest.approx(10 * INCH**2)


def test_screws_hold_in_sheets_by_their_density() -> None:
    """Birch plywood 680 and fibreboard 750 kg/m3 are dense, blockboard 480 is not."""
    sheets = [replace(PLY, species=name) for name in ("birch plywood", "MDF", "blockboard")]
    assert [is_dense(each) for each in sheets] == [True, True, False]
