"""Sheet goods, resawn boards and glue-ups as they are said, against sizes that the trade publishes."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from planbuild.core.diagnostics import Refused
from planbuild.pipeline import Clock, resolve_file
from planbuild.records.piece import Part, Piece
from planbuild.records.stock import Price, Sheet, Stock

PLY = "sheet: birch plywood, sold_as: 3/4, thickness: 23/32, sheet_size: 48 x 96"
ASH = "species: white ash, rough: 4/4, thickness: 3/4"
HEAD = "format: 1\ntitle: Side\ncontact: a@plans.example\nlicence: free\n"

Of = Callable[..., Piece]


@pytest.fixture
def of(tmp_path: Path) -> Of:
    """One upright side of a stock, 30 high and 16 deep unless said otherwise."""

    def piece(stock: str, more: str = "", units: str = "inch", frame: tuple[str, str, str] = ("23/32", "16", "30")) -> Piece:
        width, depth, height = frame
        placed = f"  side: {{stock: board, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0{more}}}\n"
        sizes = f"frame: {{width: {width}, depth: {depth}, height: {height}}}\n"
        file = tmp_path / "design.yaml"
        file.write_text(f"{HEAD}units: {units}\n{sizes}stock:\n  board: {{{stock}}}\nparts:\n{placed}", "utf-8")
        return resolve_file(file, Clock())

    return piece


def one(piece: Piece) -> tuple[Part, Stock]:
    (part,) = piece.parts
    return part, piece.stock_of(part)


def sheet_of(piece: Piece) -> Sheet:
    sheet = one(piece)[1].sheet
    assert sheet is not None
    return sheet


def codes(piece: Piece) -> list[str]:
    return [each.code for each in piece.warnings]


def test_a_sheet_as_it_is_said(of: Of) -> None:
    part, stock = one(of(f"{PLY}, grain: along 96, core: veneer, faces: 1, price: 80 per sheet, note: buy both at once"))
    assert stock.sheet == Sheet("3/4 in", (2438.4, 1219.2), True, "veneer", 1, True)
    assert (stock.species, stock.price, stock.note) == ("birch plywood", Price(80.0, "sheet"), "buy both at once")
    assert part.finished == pytest.approx((30 * 25.4, 16 * 25.4, 23 / 32 * 25.4))


def test_a_sheet_needs_no_allowance_and_no_glue_up(of: Of) -> None:
    """16 wide: solid wood so wide is warned about and gets an inch and a quarter of allowance."""
    piece = of(PLY)
    assert (piece.parts[0].rough_length, piece.parts[0].rough_width, piece.parts[0].glue_up) == (0, 0, None)
    assert "glue-up-missing" not in codes(piece)
    assert "glue-up-missing" in codes(of(ASH, frame=("3/4", "16", "30")))
    assert of(PLY, ", rough: {length: 1/2}").parts[0].rough_length == pytest.approx(12.7)


@pytest.mark.parametrize(
    ("sheet", "sold", "actual"),
    [("birch plywood", "3/4", 23 / 32), ("ash plywood", "1/2", 15 / 32), ("plywood", "5/8", 19 / 32), ("MDF", "3/4", 3 / 4)],
)
def test_what_is_not_measured_is_taken_as_usual_and_said(of: Of, sheet: str, sold: str, actual: float) -> None:
    """PS 1 performance categories: sold as 3/4, 5/8, 1/2 are 23/32, 19/32, 15/32; fibreboard is what it is called."""
    piece = of(f"sheet: {sheet}, sold_as: {sold}, sheet_size: 48 x 96", frame=(f"{actual * 32:.0f}/32", "16", "30"))
    assert one(piece)[1].thickness == pytest.approx(actual * 25.4)
    assert not sheet_of(piece).measured
    assert "stock-measure" in codes(piece)


def test_the_grain_runs_along_the_longer_side_unless_said(of: Of) -> None:
    """Face grain runs along the 8 ft side (trade); a sheet of fibreboard has none."""
    assert sheet_of(of(PLY)).size == (2438.4, 1219.2)
    assert sheet_of(of(f"{PLY}, grain: along 48")).size == (1219.2, 2438.4)
    assert not sheet_of(of(f"{PLY}, grain: none")).grain
    assert not sheet_of(of("sheet: mdf, sold_as: 3/4, thickness: 23/32, sheet_size: 49 x 97")).grain


def test_metric_sheets(of: Of) -> None:
    """European trade: 2440 x 1220 mm, 18 mm thick."""
    piece = of("sheet: plywood, sold_as: 18, thickness: 17.8, sheet_size: 1220 x 2440", units="mm", frame=("17.8", "400", "800"))
    assert (sheet_of(piece).sold_as, sheet_of(piece).size) == ("18 mm", (2440.0, 1220.0))
    mixed = of("sheet: plywood, sold_as: 18 mm, thickness: 18 mm, sheet_size: 1220 x 2440 mm", frame=("18 mm", "16", "30"))
    assert (sheet_of(mixed).sold_as, sheet_of(mixed).size) == ("18 mm", (2440.0, 1220.0))


def test_a_part_lies_on_its_sheet_with_its_grain(of: Of) -> None:
    """60 along the grain and 40 across come out of 48 x 96 one way only; without grain both ways do."""
    tall, wide = ("23/32", "40", "60"), ("23/32", "60", "40")
    assert one(of(PLY, frame=tall))[0].finished[0] == pytest.approx(60 * 25.4)
    with pytest.raises(Refused) as refused:
        of(PLY, frame=wide)
    assert [each.code for each in refused.value.diagnostics if each.stops] == ["stock-sheet-small"]
    of(f"{PLY}, grain: along 48", frame=wide)
    of(f"{PLY}, grain: none", frame=wide)


def test_layers_make_a_part_thicker_than_its_stock(of: Of) -> None:
    part, _ = one(of(ASH, ", glue_up: {layers: 2, strips: 4, match: slip}", frame=("1-1/2", "16", "30")))
    assert part.glue_up is not None
    assert (part.glue_up.layers, part.glue_up.strips, part.glue_up.match) == (2, 4, "slip")
    assert part.finished[2] == pytest.approx(1.5 * 25.4)
    stacked, _ = one(of(PLY, ", glue_up: {layers: 2}", frame=("1-7/16", "16", "30")))
    assert stacked.glue_up is not None and (stacked.glue_up.strips, stacked.glue_up.layers) == (1, 2)


def test_a_board_is_opened_into_leaves(of: Of) -> None:
    """4/4 gives two leaves of 15/32, each planed to 3/8 at most 13/32; 8/4 gives four of 3/8."""
    _, stock = one(of("species: white ash, rough: 4/4, thickness: 3/8, resaw: yes", ", glue_up: no", frame=("3/8", "4", "30")))
    assert (stock.leaves, stock.leaf) == (2, pytest.approx(15 / 32 * 25.4))
    assert stock.sawn == stock.leaf and stock.rough == pytest.approx(25.4)
    _, thick = one(of("species: white ash, rough: 8/4, thickness: 3/8, resaw: yes", ", glue_up: no", frame=("3/8", "4", "30")))
    assert thick.leaves == 4


def test_how_boards_are_sold(of: Of) -> None:
    sold = ", lengths: [10 ft, 8 ft], widths: 5 x 9, price: 9.50 per board foot"
    _, stock = one(of(ASH + sold, ", glue_up: no", frame=("3/4", "4", "30")))
    assert stock.lengths == pytest.approx((96 * 25.4, 120 * 25.4))
    assert stock.widths == pytest.approx((5 * 25.4, 9 * 25.4))
    assert stock.price == Price(9.5, "board foot")
