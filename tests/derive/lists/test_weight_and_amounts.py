"""Weight, glue, finish and abrasive against computation by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest
from timber import board, box, piece

from planbuild.core.geometry import Face
from planbuild.derive.lists.areas import finished_area, glued_area
from planbuild.derive.lists.supplies import supplies
from planbuild.joints.weights import density, part_mass, piece_mass
from planbuild.records.edition import Edition
from planbuild.records.piece import Coating, GlueUp, Piece
from planbuild.records.solids import Solids


def test_density_of_white_ash() -> None:
    """Wood Handbook chapter 4: G12 0.60 gives Gb 0.5478 and G8 0.6130; times 1.08 is 662 kg/m3 (by hand)."""
    assert density(0.60, 8) == pytest.approx(662.0, abs=0.3)


def test_density_at_the_moisture_of_the_table() -> None:
    """At 12 % the formula must give back the printed gravity: 0.60 x 1.12."""
    assert density(0.60, 12) == pytest.approx(672.0, abs=0.01)


def test_a_slat_of_the_bench_by_hand(bench_piece: Piece, bench_solids: Solids) -> None:
    """3/4 x 1-1/2 x 37-1/2 and two stubs of 1/4 x 1-1/4 x 3/8, four chamfers of 1/16 off: 42.1 in3."""
    inches = 0.75 * 1.5 * 37.5 + 2 * 0.25 * 1.25 * 0.375 - 4 * (1 / 16) ** 2 / 2 * 37.5
    mass = part_mass(bench_piece, bench_solids, bench_piece.part("slat"))
    assert mass == pytest.approx(inches * 25.4**3 * 1e-9 * 662.0, rel=1e-3)


def test_the_bench_weighs_its_parts(bench_piece: Piece, bench_solids: Solids) -> None:
    parts = [part_mass(bench_piece, bench_solids, each) * len(each.copies) for each in bench_piece.parts]
    assert piece_mass(bench_piece, bench_solids) == pytest.approx(sum(parts))
    assert 13 < sum(parts) < 17


def _shelf() -> Piece:
    """One board of 1 m x 200 x 20 from two strips, oiled: 0.448 m2."""
    shelf = board(body=box(0, 1000, 0, 200, 0, 20), glue_up=GlueUp(2, 100.0, "alternate"))
    oil = Coating("oil", "hardwax oil", 2, "satin", "12 h", "7 days", 24.0, True, ())
    return replace(piece(shelf), coatings=(oil,))


def test_areas_by_hand() -> None:
    assert finished_area(_shelf()) == pytest.approx(2 * (1.0 * 0.2 + 1.0 * 0.02 + 0.2 * 0.02))
    assert finished_area(_shelf(), [("board", None)]) == 0
    assert finished_area(_shelf(), [("board", Face.TOP)]) == pytest.approx(1.0 * 0.2 + 2 * (1.0 * 0.02 + 0.2 * 0.02))
    assert glued_area(_shelf()) == pytest.approx(1.0 * 0.02)


def test_amounts_by_hand(a4: Edition) -> None:
    """Oil: 0.448 m2 x 2 / 24 m2/l and 15 % more is 43 ml; glue: 0.02 m2 x 200 g / 1.1 g/ml and half more is 5.5 ml."""
    by_name = {each.name: each for each in supplies(_shelf(), a4)}
    assert by_name["hardwax oil, satin"].amount == "50 ml"
    assert by_name[_shelf().glue.kind].amount == "10 ml"
    assert by_name["abrasive paper, grit 180"].amount == "1 sheet"
    assert all(each.basis for each in by_name.values())


def test_inch_editions_speak_of_ounces(letter: Edition) -> None:
    """43 ml is 1.45 US fluid ounces."""
    (oil,) = (each for each in supplies(_shelf(), letter) if "oil" in each.name)
    assert oil.amount == "2 fl oz (60 ml)"
    assert "980 ft²/gal (24 m²/l)" in oil.basis


def test_one_coat_is_not_sanded_between(a4: Edition) -> None:
    shelf = _shelf()
    once = replace(shelf, coatings=(replace(shelf.coatings[0], coats=1),))
    assert not any("320" in each.name for each in supplies(once, a4))


def test_coverage_that_is_not_known_is_not_invented(a4: Edition) -> None:
    shelf = _shelf()
    vague = replace(shelf, coatings=(replace(shelf.coatings[0], covers=None),))
    (oil,) = (each for each in supplies(vague, a4) if "oil" in each.name)
    assert oil.amount == "as its label says"
