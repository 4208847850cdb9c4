"""The four demonstration pieces against what is published or common practice: boards and sheets as they are sold, proportions
of tenons and dovetails, hinges let in by what their leaves and knuckles ask.

Sources: surfaced thickness of hardwood (NHLA, 4/4 to 16/4); actual thickness of plywood (PS 1 performance categories; metric
panels 18 and 6.5 mm, from memory); joinery texts (tenon a third to a quarter of the stock, two thirds where it is bare-faced);
dovetails 1:8 in hardwood, laps 1/8 to 1/4 in (common practice).
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from planbuild.core.geometry import Axis
from planbuild.pipeline import Clock, resolve_file
from planbuild.records.features import Groove, Mortise, Tenon
from planbuild.records.piece import Part, Piece
from planbuild.records.tails import Tails

pytestmark = pytest.mark.slow

FOLDER = Path(__file__).parent.parent / "designs"
NAMES = ("music-room/listening-bench", "music-room/record-cabinet", "music-room/score-table", "wall-cabinet")
INCH = 25.4
SURFACED = {"4/4": Fraction(13, 16), "5/4": Fraction(17, 16), "6/4": Fraction(21, 16), "8/4": Fraction(7, 4)}
SHEETS = {"3/4 in": (0.688, 0.750), "1/4 in": (0.20, 0.281), "18 mm": (18 / INCH, 18 / INCH), "6.5 mm": (6.5 / INCH, 6.5 / INCH)}
"""Actual thickness of what is sold as that, inches."""
SIZES = {(2438.4, 1219.2), (2500.0, 1250.0)}
"""48 x 96 in, and the metric sheet; mm."""


@cache
def resolved(name: str) -> Piece:
    return resolve_file(FOLDER / f"{name}.yaml", Clock())


@pytest.fixture(params=NAMES)
def piece(request: pytest.FixtureRequest) -> Piece:
    return resolved(request.param)


def tenons(piece: Piece) -> list[tuple[Part, Tenon]]:
    return [(part, each) for part in piece.parts if not part.made_by for each in part.features if isinstance(each, Tenon)]


def test_boards_come_out_of_what_is_sold(piece: Piece) -> None:
    for stock in piece.stock:
        thick = stock.thickness / INCH
        if stock.sheet:
            low, high = SHEETS[stock.sheet.sold_as]
            assert low - 1e-6 <= thick <= high + 1e-6, stock.id
            assert stock.sheet.size in SIZES, stock.id
        else:
            leaf = SURFACED[stock.quarters] / stock.leaves
            assert thick <= leaf + 1e-6, f"{stock.id}: {thick} does not come out of {stock.quarters}"


def test_tenons_are_a_quarter_to_a_half_of_their_board(piece: Piece) -> None:
    """Twins together; up to two thirds where they are bare on one side.  At most six times as wide as thick."""
    for part, tenon in tenons(piece):
        thick, wide = sorted(tenon.end.axis.others, key=lambda axis: (round(tenon.block.size(axis), 6), -part.body.size(axis)))
        bare = any(abs(part.body.at(face) - tenon.block.at(face)) < 1e-6 for face in (thick.low, thick.high))
        beside = [each for its, each in tenons(piece) if its is part and each.end is tenon.end and each.joint == tenon.joint]
        level = [each for each in beside if each.block.along(wide) == tenon.block.along(wide)]
        share = sum(each.block.size(thick) for each in level) / part.body.size(thick)
        assert 1 / 4 - 1e-6 <= share <= (2 / 3 if bare else 1 / 2) + 1e-6, (part.id, tenon.id, share)
        assert tenon.block.size(wide) <= 6 * tenon.block.size(thick) + 1e-6, tenon.id


def test_mortises_leave_a_wall(piece: Piece) -> None:
    """1/4 in behind a blind mortise in a leg or a rail thick enough to give it, never less than 1/8 in."""
    for part in piece.parts:
        for each in (found for found in part.features if isinstance(found, Mortise) and not found.through):
            left = part.body.size(each.face.axis) - each.void.size(each.face.axis)
            assert left >= (INCH / 4 if part.body.size(each.face.axis) > 1.25 * INCH else INCH / 8) - 1e-6, (part.id, each.id)


def test_dovetails(piece: Piece) -> None:
    """1 in 8; a pin wider than a thin saw cut; a tail not over 1-3/4 in."""
    for part in piece.parts:
        for row in (each.comb for each in part.features if isinstance(each, Tails) and each.comb.slope):
            assert row.slope == pytest.approx(1 / 8), part.id
            gaps = [later.low - earlier.high for earlier, later in zip(row.tails, row.tails[1:], strict=False)]
            assert all(gap >= INCH / 8 - 1e-6 for gap in gaps) and all(tail.size <= 1.75 * INCH + 1e-6 for tail in row.tails)


def test_every_piece_that_has_dovetails_is_seen() -> None:
    table = resolved("music-room/score-table")
    assert sum(isinstance(each, Tails) for part in table.parts for each in part.features) >= 3
    assert len(tenons(table)) > 20


def test_hinges_are_let_in_by_half_of_what_the_knuckle_leaves() -> None:
    """Butts of 2 x 3/4, knuckle 3/16, on a gap of 1/16: (3/16 - 1/16) / 2 = 1/16 in, as thick as a leaf; as wide as the leaf
    up to the middle of the pin; 2 in long; one 3-1/2 in from either end of the door (one hinge for 2 to 2-1/2 ft)."""
    records = resolved("music-room/record-cabinet")
    stile, side = records.part("door.hinge_stile"), records.part("side")
    for part, faces in ((stile, {"left"}), (side, {"right"})):
        cuts = [each for each in part.features if isinstance(each, Groove) and each.face.value in faces and each.what == "recess"]
        assert len(cuts) == 2, [each.id for each in part.features]
        for each in cuts:
            sizes = sorted(each.void.size(axis) / INCH for axis in Axis)
            assert sizes[0] == pytest.approx(1 / 16) and sizes[2] == pytest.approx(2)
            assert sizes[1] <= 0.75 + 1e-6
    ends = sorted(each.void.z.low for each in stile.features if isinstance(each, Groove) and each.face.value == "left")
    assert (stile.body.z.high - ends[-1]) / INCH - 2 <= 3.5 + 1e-6
    assert stile.body.z.size / INCH < 30, "two hinges are enough"
