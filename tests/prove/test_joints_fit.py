"""The proofs of fit pass on a sound frame, and each fails when the thing it proves is spoilt."""

from __future__ import annotations

from dataclasses import replace

import pytest
from timber import (
    BOTTOM_TOP,
    FRONT_BACK,
    HERE,
    LEFT_RIGHT,
    POST,
    TENON,
    board,
    box,
    changed,
    frame,
    piece,
    refitted,
    said,
    wedged_frame,
)

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.geometry import Axis, Face, Motion, Span1
from planbuild.prove import prove
from planbuild.records.features import Mate, Mortise, Taper
from planbuild.records.findings import Findings
from planbuild.records.piece import Copy, Piece
from planbuild.shape import shape


def proved(whole: Piece) -> Findings:
    return prove(whole, shape(whole))


def codes(found: Findings) -> set[str]:
    return {d.code for d in found.diagnostics if d.severity is not Severity.NOTE}


def only(found: Findings, code: str) -> Diagnostic:
    (diagnostic,) = (d for d in found.diagnostics if d.code == code)
    return diagnostic


def line(found: Findings, claim: str) -> tuple[int, str]:
    (proof,) = (proof for proof in found.proofs if claim in proof.claim)
    return proof.checked, proof.worst


def moved(whole: Piece, id: str, shift: tuple[float, float, float]) -> Piece:
    copies = tuple(Copy(copy.hand, Motion(shift=shift).after(copy.motion)) for copy in whole.part(id).copies)
    return changed(whole, id, copies=copies)


def test_sound_frame_has_no_findings() -> None:
    found = proved(frame())
    assert found.diagnostics == ()
    assert line(found, "same wood") == (3, "2 of them near enough to be cut against each other; deepest overlap 0 mm")
    assert line(found, "shoulder closes") == (2, "least: rail on 1 post touches over 5.2 cm², 100 % of what the bodies offer")
    assert line(found, "glue face") == (2, "least: rail in 1 post touches over 19.0 cm², 14.0 cm² stated")
    assert line(found, "fits its mortise") == (2, "least room beside a tenon 0 mm, least room at the bottom 1.5 mm")


def test_rail_moved_one_millimetre() -> None:
    """It enters the right post and stands off the left one."""
    found = proved(moved(frame(), "rail", (1.0, 0.0, 0.0)))
    assert codes(found) == {"joint-overlap", "joint-open"}
    overlap = only(found, "joint-overlap")
    assert "rail" in overlap.message and "2 post" in overlap.message
    assert "1 mm x 20 mm x 40 mm" in overlap.message
    assert overlap.span == HERE
    assert "1 mm short of it" in only(found, "joint-open").message


def test_rail_moved_a_twentieth_of_a_millimetre_is_seen_too() -> None:
    assert "joint-overlap" in codes(proved(moved(frame(), "rail", (0.05, 0.0, 0.0))))


def test_tenon_longer_than_its_mortise() -> None:
    longer = refitted(frame(), "rail", "rails.left", block=TENON.with_span(LEFT_RIGHT, Span1(12, 40)))
    found = proved(longer)
    assert codes(found) == {"joint-bottoms", "joint-overlap"}
    assert "1.5 mm longer than its mortise is deep" in only(found, "joint-bottoms").message


def test_tenon_as_long_as_its_mortise_is_no_fault() -> None:
    assert codes(proved(refitted(frame(), "rail", "rails.left", block=TENON.with_span(LEFT_RIGHT, Span1(13.5, 40))))) == set()


@pytest.mark.parametrize("axis, span", [(FRONT_BACK, Span1(14, 26)), (BOTTOM_TOP, Span1(85, 115)), (FRONT_BACK, Span1(16, 26))])
def test_tenon_too_large_or_beside_its_mortise(axis: Axis, span: Span1) -> None:
    found = proved(refitted(frame(), "rail", "rails.left", block=TENON.with_span(axis, span)))
    assert codes(found) - {"joint-glue-open"} == {"joint-tenon-wide", "joint-overlap"}
    assert "1 mm in the wall" in only(found, "joint-tenon-wide").message


def test_tenon_that_rattles() -> None:
    thin = refitted(frame(), "rail", "rails.left", block=TENON.with_span(FRONT_BACK, Span1(15.5, 24.5)))
    found = proved(thin)
    assert codes(found) == {"joint-fit", "joint-glue-open"}
    assert "1 mm larger than the tenon" in only(found, "joint-fit").message
    stated = replace(thin.joints[0], fit="sliding", numbers=(("clearance", 1.0),))
    assert codes(proved(replace(thin, joints=(stated,)))) == {"joint-glue-open"}
    assert codes(proved(replace(thin, joints=(replace(stated, glue=False),)))) == set()


def test_solid_that_is_not_what_the_features_say() -> None:
    """The proofs measure the solids: an old solid beside changed numbers is found out."""
    whole = frame()
    old = shape(refitted(whole, "rail", "rails.left", block=TENON.with_span(BOTTOM_TOP, Span1(80, 114))))
    assert "joint-tenon-wide" in codes(prove(whole, old))
    blocked = shape(changed(whole, "post", features=()))
    assert {"joint-mortise-blocked", "joint-overlap"} <= codes(prove(whole, blocked))


def test_mortise_that_cuts_through_a_glued_cheek() -> None:
    """Another mortise takes half of one cheek's mate: less than the stated glue area is left."""
    whole = frame()
    other = Mortise(**said("o"), face=Face.FRONT, void=box(0, 40, 0, 15, 100, 114), mate=Mate("x"))
    found = proved(changed(whole, "post", features=(*whole.part("post").features, other)))
    assert codes(found) == set()  # both edges still touch, and count
    both = replace(other, id="b", face=Face.BACK, void=box(0, 40, 25, 40, 100, 114))
    found = proved(changed(whole, "post", features=(*whole.part("post").features, other, both)))
    assert "12.0 cm², 14.0 cm² stated" in only(found, "joint-glue-open").message


def test_mortise_left_out() -> None:
    found = proved(changed(frame(), "post", features=()))
    assert codes(found) == {"joint-no-mortise", "joint-overlap", "joint-glue-open"}
    assert "and so in 2 places" in only(found, "joint-overlap").message


def test_taper_that_runs_under_the_shoulder() -> None:
    taper = Taper(**said("taper"), faces=(Face.RIGHT,), end=Face.BOTTOM, start=150, leaving=((LEFT_RIGHT, 30),))
    whole = frame()
    found = proved(changed(whole, "post", features=(taper, *whole.part("post").features)))
    assert "joint-open" in codes(found)


def test_taper_that_takes_most_of_a_shoulder_warns() -> None:
    whole = frame()
    low = board(body=box(40, 300, 10, 30, 40, 80), id="low")
    contact = replace(whole.joints[0].contacts[0], a=("low", 0), shoulder=box(40, 40, 10, 30, 40, 80), glue_area=0.0)
    sloped = Taper(**said("t"), faces=(Face.RIGHT,), end=Face.BOTTOM, start=50, leaving=((LEFT_RIGHT, 30),))
    post = board(sloped, body=POST, id="post", grain=BOTTOM_TOP, face=Face.FRONT, edge=Face.LEFT)
    tried = piece(post, low, joints=(replace(whole.joints[0], contacts=(contact,)),))
    assert codes(proved(tried)) == set()
    higher = replace(sloped, start=70)
    found = proved(piece(replace(post, features=(higher,)), low, joints=tried.joints))
    small = only(found, "joint-shoulder-small")
    assert "Only 25 %" in small.message
    assert small.severity is Severity.WARNING


# ---------------------------------------------------------------- wedges


def test_sound_wedged_frame() -> None:
    found = proved(wedged_frame())
    assert codes(found) == set()
    assert line(found, "shoulder closes")[0] == 3
    assert line(found, "glue face")[0] == 3
    assert line(found, "fills its slot") == (2, "least: 100 % of the broad faces of a wedge lie on its tenon")


def test_tenon_that_is_not_as_proud_as_stated() -> None:
    whole = refitted(wedged_frame(), "rail", "wedged.left", proud=2.0)
    assert "3 mm proud, 2 mm is stated" in only(proved(whole), "joint-proud").message


def test_wedge_too_thin_is_loose() -> None:
    whole = wedged_frame()
    thin = whole.part("wedge").body
    body = thin.with_span(BOTTOM_TOP, Span1(thin.z.low, thin.z.high - 0.5))
    assert "joint-wedge-loose" in codes(proved(changed(whole, "wedge", body=body)))


def test_wedge_too_thick_enters_the_strip() -> None:
    whole = wedged_frame()
    thick = whole.part("wedge").body
    body = thick.with_span(BOTTOM_TOP, Span1(thick.z.low, thick.z.high + 0.5))
    found = codes(proved(changed(whole, "wedge", body=body)))
    assert {"joint-overlap", "joint-wedge-loose"} <= found


def test_wedge_missing() -> None:
    whole = wedged_frame()
    without = (replace(whole.joints[0], contacts=whole.joints[0].contacts[:2]),)
    found = proved(replace(changed(whole, "wedge", copies=whole.part("wedge").copies[:1]), joints=without))
    assert "2 kerfs, but there are 1 wedges" in only(found, "joint-wedge-count").message


def test_mortise_that_opens_later_than_the_tenon_spreads() -> None:
    later = refitted(wedged_frame(), "post", "wedged.rail", flare_from=20.0)
    assert "joint-overlap" in codes(proved(later))
