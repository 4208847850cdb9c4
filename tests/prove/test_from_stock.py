"""Parts come out of their stock, or the plan says why not."""

from __future__ import annotations

from dataclasses import replace

import pytest
from timber import HERE, board, box, piece, said

from planbuild.core.diagnostics import Severity
from planbuild.core.geometry import Face
from planbuild.prove.from_stock import parts_come_from_stock, planed_off
from planbuild.prove.standing import Standing
from planbuild.records.features import Bevel, Chamfer, Curve, Mate, Tenon
from planbuild.records.findings import Findings
from planbuild.records.piece import GlueUp, Part, Stock
from planbuild.records.stock import Sheet
from planbuild.shape import shape

INCH = 25.4


def stock(quarters: str, rough: float, thickness: float) -> Stock:
    return Stock("ash", HERE, "white ash", quarters, rough * INCH, thickness * INCH, "flat")


def proved(part: Part, wood: Stock) -> Findings:
    whole = piece(part, stock=(wood,))
    return parts_come_from_stock(Standing(whole, shape(whole)))


@pytest.mark.parametrize(
    "quarters, rough, planed", [("4/4", 1, 3 / 16), ("5/4", 1.25, 3 / 16), ("8/4", 2, 1 / 4), ("9/4", 2.25, 3 / 16)]
)
def test_planing_takes_what_the_trade_says(quarters: str, rough: float, planed: float) -> None:
    """NHLA surfaced thickness: 4/4 to 13/16, 5/4 to 1-1/16, 8/4 to 1-3/4; unlisted: common practice."""
    assert planed_off(stock(quarters, rough, 1)) == pytest.approx(planed * INCH)


@pytest.mark.parametrize(
    "thickness, severity",
    [(3 / 4, None), (13 / 16, None), (7 / 8, Severity.WARNING), (1.0, Severity.WARNING), (1 + 1 / 32, Severity.ERROR)],
)
def test_thickness_out_of_four_quarter_stock(thickness: float, severity: Severity | None) -> None:
    part = board(body=box(0, 400, 0, 100, 0, thickness * INCH))
    found = proved(part, stock("4/4", 1.0, 3 / 4)).diagnostics
    assert [(d.code, d.severity) for d in found] == ([("stock-thin", severity)] if severity else [])


def test_proof_names_the_tightest_part() -> None:
    part = board(body=box(0, 400, 0, 100, 0, 19))
    (proof,) = proved(part, stock("4/4", 1.0, 3 / 4)).proofs
    assert proof.checked == 1
    assert proof.worst == "tightest: board, 19 mm thick out of 25.5 mm rough, 6.5 mm for planing"


@pytest.mark.parametrize("strips, codes", [(4, []), (3, ["stock-strips"])])
def test_strips_must_add_up(strips: int, codes: list[str]) -> None:
    part = board(body=box(0, 400, 0, 380, 0, 19), glue_up=GlueUp(strips, 95.0, "alternate"))
    assert [d.code for d in proved(part, stock("4/4", 1.0, 3 / 4)).diagnostics] == codes


def test_tenons_count_to_the_stated_size() -> None:
    tenon = Tenon(**said(), end=Face.RIGHT, block=box(400, 430, 10, 50, 6, 14), mate=Mate("x"))
    assert proved(board(tenon), stock("8/4", 2.0, 1.75)).diagnostics == ()


def test_shapes_that_take_a_whole_face_off_are_told_and_can_be_built() -> None:
    everywhere = Curve(**said(), face=Face.FRONT, points=((0, 5), (200, 8), (400, 5)))
    (found,) = proved(board(everywhere), stock("8/4", 2.0, 1.75)).diagnostics
    assert (found.code, found.stops) == ("stock-box", False)
    assert "sawn to 400 mm x 60 mm x 20 mm, and its shapes leave only 400 mm x 55 mm x 20 mm" in found.message


def test_an_eased_bevel_that_costs_less_than_is_printed_is_no_finding() -> None:
    bevel = Bevel(**said("bevel"), face=Face.RIGHT, keeps=Face.FRONT, angle=2.0)
    eased = Chamfer(**said("eased"), edges=((Face.RIGHT, Face.FRONT),), size=1.0)
    assert proved(board(bevel, eased), stock("8/4", 2.0, 1.75)).diagnostics == ()


def test_a_solid_larger_than_its_numbers_stops() -> None:
    part = board()
    solids = shape(piece(part))
    larger = replace(solids.of["board"], box=box(0, 401, 0, 60, 0, 20))
    standing = Standing(piece(part), replace(solids, of={"board": larger}))
    (found,) = parts_come_from_stock(standing).diagnostics
    assert (found.code, found.stops) == ("stock-box", True)


def test_a_sheet_is_not_planed() -> None:
    """As thick as it is bought; solid wood of that thickness has nothing left to plane."""
    sheet = replace(stock("4/4", 18 / INCH, 18 / INCH), quarters="", sheet=Sheet("18 mm", (2440.0, 1220.0), True, "", 2, True))
    part = board(body=box(0, 400, 0, 100, 0, 18))
    found = proved(part, sheet)
    assert not found.diagnostics
    assert found.proofs[0].worst == "sheets only, which are not planed"
    assert [d.code for d in proved(part, replace(sheet, sheet=None, quarters="4/4")).diagnostics] == ["stock-thin"]


def test_each_layer_comes_out_of_a_board() -> None:
    part = board(body=box(0, 400, 0, 60, 0, 38))
    assert [d.code for d in proved(part, stock("4/4", 1.0, 3 / 4)).diagnostics] == ["stock-thin"]
    assert not proved(replace(part, glue_up=GlueUp(1, 60, "same", layers=2)), stock("4/4", 1.0, 3 / 4)).diagnostics


@pytest.mark.parametrize(("length", "codes"), [(2413.0, []), (2420.0, ["stock-long"])])
def test_boards_are_as_long_as_they_are_sold(length: float, codes: list[str]) -> None:
    """An inch of allowance on 95 in comes out of 8 ft (2438 mm)."""
    part = board(body=box(0, length, 0, 60, 0, 19))
    assert [d.code for d in proved(part, replace(stock("4/4", 1.0, 3 / 4), lengths=(1829.0, 2438.4))).diagnostics] == codes


@pytest.mark.parametrize(("glue_up", "codes"), [(None, ["stock-wide"]), (GlueUp(2, 120.0, "same"), [])])
def test_boards_are_as_wide_as_they_are_sold(glue_up: GlueUp | None, codes: list[str]) -> None:
    part = board(body=box(0, 400, 0, 240, 0, 19), glue_up=glue_up)
    found = proved(part, replace(stock("4/4", 1.0, 3 / 4), widths=(130.0, 230.0))).diagnostics
    assert [(d.code, d.severity) for d in found] == [(code, Severity.WARNING) for code in codes]


def test_a_size_between_two_figures_is_no_lost_wood() -> None:
    """The box of a solid is known to 0.0001 mm; that alone can tip a printed figure over."""
    for more in (-0.00003, 0.00003):
        part = board(body=box(0, 400.25 + more, 0, 100, 0, 19))
        assert not proved(part, stock("4/4", 1.0, 3 / 4)).diagnostics
