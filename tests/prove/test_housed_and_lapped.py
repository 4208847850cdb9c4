"""Proofs of joints without tenons: floors of housings, laps glued face to face, grooves that pass a glue face."""

from __future__ import annotations

from dataclasses import replace

import pytest
from timber import BOTTOM_TOP, HERE, LEFT_RIGHT, board, box, changed, joint, piece, said

from planbuild.core.diagnostics import Severity
from planbuild.core.geometry import Face
from planbuild.prove import prove
from planbuild.records.features import Chamfer, Groove, Rabbet
from planbuild.records.findings import Findings
from planbuild.records.piece import Contact, Piece
from planbuild.shape import shape


def proved(whole: Piece) -> Findings:
    return prove(whole, shape(whole))


def codes(found: Findings) -> set[str]:
    return {d.code for d in found.diagnostics if d.severity is not Severity.NOTE}


def worst(found: Findings, claim: str) -> str:
    (proof,) = (proof for proof in found.proofs if claim in proof.claim)
    return proof.worst


def housed(end: float = 14) -> Piece:
    """A shelf 20 thick in a housing 6 deep; `end` is where the shelf ends (14: on the floor)."""
    housing = Groove(**said("h", "dado"), face=Face.RIGHT, void=box(14, 20, 0, 100, 60, 80), what="housing")
    side = board(housing, body=box(0, 20, 0, 100, 0, 200), id="side", grain=BOTTOM_TOP, face=Face.LEFT, edge=Face.FRONT)
    shelf = board(body=box(end, 300, 0, 100, 60, 80), id="shelf")
    contact = Contact(("shelf", 0), ("side", 0), (-1.0, 0.0, 0.0), box(14, 14, 0, 100, 60, 80), 20.0, 2 * 6 * 100.0)
    return piece(side, shelf, joints=(replace(joint("dado", contact), kind="dado", origin=HERE),))


def test_the_housing_is_the_road_to_its_floor_not_a_hole_in_it() -> None:
    found = proved(housed())
    assert codes(found) == set()
    assert "20.0 cm², 100 % of what the bodies offer" in worst(found, "shoulder closes")


def test_a_shelf_that_stops_before_the_floor_is_found() -> None:
    assert "joint-open" in codes(proved(housed(end=15)))


def test_a_floor_that_another_cut_takes_away_is_no_longer_offered() -> None:
    whole = housed()
    behind = Groove(**said("o"), face=Face.LEFT, void=box(0, 14, 0, 40, 60, 80))
    found = proved(changed(whole, "side", features=(*whole.part("side").features, behind)))
    assert codes(found) == set()
    assert "12.0 cm², 100 %" in worst(found, "shoulder closes")


def test_a_groove_that_passes_may_take_some_glue_face_and_not_most_of_it() -> None:
    whole = housed()
    for far, expected in ((30, set()), (70, {"joint-glue-open"})):
        passing = Rabbet(**said("p", "back"), edge=(Face.RIGHT, Face.FRONT), void=box(10, 20, 0, far, 0, 200))
        assert codes(proved(changed(whole, "side", features=(*whole.part("side").features, passing)))) == expected
    own = Rabbet(**said("p", "dado"), edge=(Face.RIGHT, Face.FRONT), void=box(10, 20, 0, 30, 0, 200))
    spoilt = changed(whole, "side", features=(*whole.part("side").features, own))
    assert codes(proved(spoilt)) == {"joint-glue-open"}


@pytest.mark.parametrize("size, stops", [(1.5, False), (4.5, True)])
def test_an_eased_edge_that_runs_into_the_housing_is_told_and_can_be_built(size: float, stops: bool) -> None:
    """The end inside the housing is eased with the rest: a quarter of each wall is gone, or three quarters."""
    whole = housed()
    edges = tuple((side, face) for side in (Face.FRONT, Face.BACK) for face in (Face.BOTTOM, Face.TOP))
    around = tuple((Face.LEFT, face) for face in (Face.BOTTOM, Face.TOP))
    eased = Chamfer(**said("eased"), edges=(*edges, *around), size=size)
    found = proved(changed(whole, "shelf", features=(*whole.part("shelf").features, eased)))
    assert [each.stops for each in found.diagnostics if each.code == "joint-glue-open"] == [stops]


def test_a_wide_thin_lap_is_glued_in_its_plane() -> None:
    """Its walls are small beside the face on which it lies."""
    flat, cross = box(0, 400, 0, 8, 100, 200), box(150, 250, 0, 8, 0, 300)
    low = Groove(**said("l", "lap"), face=Face.BACK, void=box(150, 250, 4, 8, 100, 200), what="lap")
    high = Groove(**said("l", "lap"), face=Face.FRONT, void=box(150, 250, 0, 4, 100, 200), what="lap")
    rail = board(low, body=flat, id="rail", grain=LEFT_RIGHT, face=Face.FRONT, edge=Face.TOP)
    post = board(high, body=cross, id="post", grain=BOTTOM_TOP, face=Face.FRONT, edge=Face.LEFT)
    contact = Contact(
        ("rail", 0), ("post", 0), (0.0, 1.0, 0.0), box(150, 250, 4, 4, 100, 200), 100.0, 100.0 * 100, face_glued=True
    )  # fmt: skip
    whole = piece(rail, post, joints=(replace(joint("lap", contact), kind="half lap"),))
    assert codes(proved(whole)) == set()
    beside = replace(whole.joints[0], contacts=(replace(contact, face_glued=False),))
    assert "joint-glue-open" in codes(proved(replace(whole, joints=(beside,))))
