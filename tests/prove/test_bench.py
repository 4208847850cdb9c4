"""The demonstration bench is proved sound, and spoiling one thing of it is found out."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from timber import FRONT_BACK, changed, refitted

from planbuild.core.diagnostics import Severity
from planbuild.core.geometry import Motion, Span1
from planbuild.core.units import Ruler, Unit
from planbuild.prove import prove
from planbuild.prove.movement import tops_can_move
from planbuild.prove.standing import Standing
from planbuild.records.findings import Findings
from planbuild.records.piece import Copy, Piece
from planbuild.records.solids import Solids
from planbuild.shape import shape


@pytest.fixture(scope="module")
def solids(bench_piece: Piece) -> Solids:
    return shape(bench_piece)


@pytest.fixture(scope="module")
def sound(bench_piece: Piece, solids: Solids) -> Findings:
    return prove(bench_piece, solids)


def codes(found: Findings) -> set[str]:
    return {d.code for d in found.diagnostics if d.severity is Severity.ERROR}


def test_bench_is_sound(sound: Findings) -> None:
    assert [d for d in sound.diagnostics if d.severity is not Severity.NOTE] == []
    assert all(proof.checked > 0 for proof in sound.proofs)


def test_printable_lines_take_the_ruler_of_the_pages(bench_piece: Piece, solids: Solids) -> None:
    proofs = prove(bench_piece, solids, Ruler(Unit.MM, Fraction(1, 2))).proofs
    assert bench_piece.ruler.unit is Unit.INCH and any(" mm" in proof.worst for proof in proofs)
    assert [proof.worst for proof in proofs if re.search(r"\d (sq )?in\b", proof.worst)] == []


def test_legs_are_two_mirrored_pairs_and_nothing_else_has_hands(bench_piece: Piece, sound: Findings) -> None:
    legs = sound.alike("leg")
    hands = {index: bench_piece.part("leg").copies[index].hand for index in range(4)}
    assert {hands[index] for index in legs.mirrored} in ({"front right", "back left"}, {"front left", "back right"})
    assert [like.part for like in sound.likeness if like.mirrored] == ["leg"]


def test_slat_moved_one_millimetre(bench_piece: Piece) -> None:
    """Along its length: its tenons stay in their mortises, its shoulder presses into one rail and leaves the other."""
    slat = bench_piece.part("slat")
    copies = (*slat.copies[:-1], Copy(slat.copies[-1].hand, Motion(shift=(1.0, 0.0, 0.0)).after(slat.copies[-1].motion)))
    spoilt = changed(bench_piece, "slat", copies=copies)
    assert {"joint-overlap", "joint-open"} <= codes(prove(spoilt, shape(spoilt)))


def test_long_rail_tenon_that_runs_into_its_neighbour(bench_piece: Piece) -> None:
    """Without its mitre the tenon of the long rail enters that of the short rail."""
    name = next(f.id for f in bench_piece.part("long_rail").features if getattr(f, "mitre", None))
    spoilt = refitted(bench_piece, "long_rail", name, mitre=None)
    found = prove(spoilt, shape(spoilt))
    (overlap,) = (d for d in found.diagnostics if d.code == "joint-overlap")
    assert "long rail" in overlap.message and "short rail" in overlap.message


def test_seat_has_room_to_move(bench_piece: Piece, solids: Solids) -> None:
    """White ash, flat: 0.00274 a point of moisture (Wood Handbook, table 13-5); the screws are 9-1/8 in apart,
    so 9.125 x 0.00274 is 0.075 in for the 3 points up to the damp season and 0.050 in for the 2 down to the dry one."""
    (proof,) = tops_can_move(Standing(bench_piece, solids)).proofs
    assert proof.checked == 8
    assert "swells 1/16 in and shrinks 1/16 in" in proof.worst


@pytest.mark.parametrize("moisture, code", [((6.0, 25.0, 8.0), "movement-room"), ((-12.0, 11.0, 8.0), "movement-holds")])
def test_a_climate_that_moves_the_seat_too_far(
    bench_piece: Piece, solids: Solids, moisture: tuple[float, float, float], code: str
) -> None:
    """Moistures no room has, so that the buttons that were sized for the climate of the design run out of room."""
    spoilt = replace(bench_piece, moisture=moisture)
    assert codes(tops_can_move(Standing(spoilt, solids))) == {code}


def test_groove_too_shallow_for_the_movement(bench_piece: Piece, solids: Solids) -> None:
    groove = next(f for f in bench_piece.part("long_rail").features if f.kind == "groove")
    void = groove.void.along(FRONT_BACK)  # type: ignore[attr-defined]
    shallow = groove.void.with_span(FRONT_BACK, Span1(void.low + 2.5, void.high))  # type: ignore[attr-defined]
    spoilt = refitted(bench_piece, "long_rail", groove.id, void=shallow)
    assert codes(tops_can_move(Standing(spoilt, solids))) == {"movement-room"}
