"""Holes for screws against the published chart, and hardware counted from the joints."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from timber import HERE

from planbuild.core.tables import rows
from planbuild.core.units import Ruler, Unit, drill_text
from planbuild.derive.lists.hardware import hardware, item_counts
from planbuild.joints.screws import is_dense, screw_holes
from planbuild.records.edition import Edition
from planbuild.records.features import Hole
from planbuild.records.piece import Piece, Stock

INCH = Ruler(Unit.INCH, Fraction(1, 32))
MM = Ruler(Unit.MM, Fraction(1, 2))


def board(species: str) -> Stock:
    return Stock("board", HERE, species, "4/4", 25.4, 19.0, "flat")


@pytest.mark.parametrize(
    ("gauge", "soft", "hard", "clearance"),
    [
        ("4", "3/64", "1/16", "7/64"),
        ("6", "1/16", "5/64", "9/64"),
        ("8", "5/64", "3/32", "11/64"),
        ("10", "3/32", "7/64", "3/16"),
        ("12", "7/64", "1/8", "7/32"),
        ("14", "7/64", "9/64", "1/4"),
    ],
)
def test_chart(gauge: str, soft: str, hard: str, clearance: str) -> None:
    """Published wood screw chart: 70 % of root in soft wood, 90 % in hard (American Wood Council rule)."""
    ash, pine = screw_holes(gauge, board("white ash"), INCH), screw_holes(gauge, board("eastern white pine"), INCH)
    assert ash and pine
    assert (Fraction(ash.pilot / 25.4).limit_denominator(64), Fraction(ash.clearance / 25.4).limit_denominator(64)) == (
        Fraction(hard),
        Fraction(clearance),
    )
    assert Fraction(pine.pilot / 25.4).limit_denominator(64) == Fraction(soft)


@pytest.mark.parametrize("row", rows("fasteners"), ids=lambda row: row["gauge"])
def test_shank_follows_the_formula(row: dict[str, str]) -> None:
    """ASME B18.6.1: shank = 0.013 N + 0.060 in; a metric screw is as thick as it is called."""
    if row["gauge"].endswith(" mm"):
        assert float(row["shank_mm"]) == float(row["gauge"].removesuffix(" mm"))
        return
    assert float(row["shank_mm"]) == pytest.approx((0.013 * int(row["gauge"]) + 0.060) * 25.4, abs=0.006)


@pytest.mark.parametrize("row", rows("fasteners"), ids=lambda row: row["gauge"])
def test_metric_drills_are_near_the_rule(row: dict[str, str]) -> None:
    """Half-millimetre drills within 0.4 mm of 70 % and 90 % of the root, and no clearance under the shank."""
    root = float(row["root_mm"])
    assert abs(float(row["pilot_soft_mm"]) - 0.7 * root) < 0.4
    assert abs(float(row["pilot_hard_mm"]) - 0.9 * root) < 0.4
    assert 0 < float(row["clearance_mm"]) - float(row["shank_mm"]) < 0.55


def test_soft_hardwoods_drill_like_softwoods() -> None:
    assert is_dense(board("white ash")) and not is_dense(board("yellow-poplar")) and not is_dense(board("eastern white pine"))


def test_unknown_gauge_has_no_holes() -> None:
    assert screw_holes("7", board("white ash"), INCH) is None


def test_drills_keep_their_own_names() -> None:
    assert drill_text(11 / 64 * 25.4, INCH) == "¹¹⁄₆₄"
    assert drill_text(11 / 64 * 25.4, MM) == "4.5"


def test_screws_of_the_bench(bench_piece: Piece, letter: Edition, a4: Edition) -> None:
    (screws,) = hardware(bench_piece, letter)
    assert screws.count == 12 == sum(dict(joint.hardware).get("top_screw", 0) for joint in bench_piece.joints)
    assert screws.size == "No. 8 × 1\u202f¹⁄₂, pan head, steel"
    assert screws.holes == "pilot ³⁄₃₂ in (white ash), clearance ¹¹⁄₆₄ in"
    assert hardware(bench_piece, a4)[0].holes == "pilot 2.5 mm (white ash), clearance 4.5 mm"


def test_list_agrees_with_the_holes_that_are_cut(bench_piece: Piece) -> None:
    """The joint cuts holes by the same table: one pilot hole for each screw, of the size in the list."""
    pilots = [f for p in bench_piece.parts for f in p.features if isinstance(f, Hole) and f.purpose == "pilot"]
    holes = screw_holes("8", board("white ash"), bench_piece.ruler)
    assert holes and len(pilots) == item_counts(bench_piece)["top_screw"]
    assert {round(each.diameter, 3) for each in pilots} == {round(holes.pilot, 3)}


def test_items_that_nothing_takes_are_not_bought(bench_piece: Piece, letter: Edition) -> None:
    bare = replace(bench_piece, joints=tuple(replace(each, hardware=()) for each in bench_piece.joints))
    assert hardware(bare, letter) == ()
