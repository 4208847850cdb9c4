"""Hands told apart from the features alone, and checked against the solids."""

from __future__ import annotations

import itertools
from dataclasses import replace

import cadquery as cq
import pytest
from timber import BOTTOM_TOP, FRONT_BACK, LEFT_RIGHT, board, box, piece, said

from planbuild.core.geometry import Box, Face, Motion, Span1
from planbuild.prove.likeness import form_of, hands
from planbuild.prove.standing import Standing
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    EdgeBevel,
    Feature,
    Groove,
    Hole,
    Mate,
    Mitre,
    Mortise,
    Rabbet,
    RoundOver,
    Taper,
    Tenon,
)
from planbuild.records.findings import Findings, Likeness
from planbuild.records.piece import Part
from planbuild.records.tails import Comb, Slim, Sockets, Tails
from planbuild.shape import shape

MIRROR = Motion((-1, 1, 1), (1000.0, 0.0, 0.0))
SQUARE = box(0, 400, 0, 40, 0, 40)


def found(*parts: Part) -> Findings:
    whole = piece(*parts)
    return hands(Standing(whole, shape(whole)))


def mortise(low: float, high: float, face: Face = Face.FRONT, **more: object) -> Mortise:
    return Mortise(**said(f"m{low}"), face=face, void=box(low, high, 0, 15, 5, 15), mate=Mate("x"), **more)  # type: ignore[arg-type]


ROW = Comb(box(0, 20, 0, 60, 0, 20), Face.LEFT, FRONT_BACK, (Span1(6, 27), Span1(33, 54)), 1 / 8)
NARROWING = Comb(box(190, 210, 0, 60, 0, 6), Face.TOP, LEFT_RIGHT, (Span1(190, 210),), 1 / 8, Slim(Face.BACK, Face.RIGHT, 2))

SAME: dict[str, tuple[Feature, ...]] = {
    "plain": (),
    "mortise off centre in length": (mortise(20, 60),),
    "taper": (Taper(**said(), faces=(Face.BACK,), end=Face.RIGHT, start=100, leaving=((FRONT_BACK, 30),)),),
    "through hole off centre": (Hole(**said(), face=Face.TOP, centre=(50, 20, 20), diameter=8, depth=None),),
    "arch": (Arch(**said(), face=Face.FRONT, rise=10, start=30, stop=200),),
    "edge bevel": (EdgeBevel(**said(), edge=(Face.BACK, Face.BOTTOM), margin=24, depth=9),),
    "bevel": (Bevel(**said(), face=Face.BACK, keeps=Face.TOP, angle=20),),
    "rabbet": (Rabbet(**said(), edge=(Face.TOP, Face.FRONT), void=box(0, 400, 0, 10, 12, 20)),),
    "curve": (Curve(**said(), face=Face.FRONT, points=((0, 0), (100, 10), (400, 3))),),
    "tails at one end": (Tails(**said(), comb=ROW, mate=Mate("x")),),
    "pins through at one end": (Sockets(**said(), comb=replace(ROW, tip=Face.BOTTOM), mate=Mate("x")),),
    "chamfer of one edge": (Chamfer(**said(), edges=((Face.TOP, Face.FRONT),), size=3),),
}
"""Each has a plane of symmetry, so its mirror image is the same part turned."""

HANDED: dict[str, tuple[Feature, ...]] = {
    "mortise off centre in length and height": (
        Mortise(**said(), face=Face.FRONT, void=box(20, 60, 0, 15, 2, 10), mate=Mate("x")),
    ),
    "one tail nearer to an edge, off the middle of the thickness": (
        Sockets(**said(), comb=Comb(box(0, 20, 0, 60, 6, 20), Face.BOTTOM, FRONT_BACK, (Span1(5, 30),), 1 / 6), mate=Mate("x")),
    ),
    "housing in the middle that narrows by one wall": (Sockets(**said(), comb=NARROWING, mate=Mate("x"), what="housing"),),
    "mortise and groove": (mortise(200, 300), Groove(**said("g"), face=Face.TOP, void=box(0, 400, 40, 45, 15, 20))),
    "taper and hole": (
        Taper(**said(), faces=(Face.BACK,), end=Face.RIGHT, start=100, leaving=((FRONT_BACK, 30),)),
        Hole(**said("h"), face=Face.TOP, centre=(50, 30, 20), diameter=8, depth=9),
    ),
    "two eased edges": (
        RoundOver(**said("r"), edges=((Face.TOP, Face.FRONT),), radius=3),
        Chamfer(**said("c"), edges=((Face.RIGHT, Face.FRONT),), size=3),
    ),
    "stopped chamfer": (Chamfer(**said(), edges=((Face.TOP, Face.FRONT),), size=3, reach=(0, 100)), mortise(20, 60)),
    "mitred tenon off centre": (
        Tenon(**said(), end=Face.LEFT, block=box(-30, 0, 10, 50, 3, 11), mate=Mate("x"), mitre=Mitre(Face.FRONT, 20)),
    ),
}


@pytest.mark.parametrize("case", SAME)
def test_symmetric_parts_have_no_hands(case: str) -> None:
    assert not form_of(board(*SAME[case])).has_hands


@pytest.mark.parametrize("case", HANDED)
def test_parts_without_symmetry_have_hands(case: str) -> None:
    assert form_of(board(*HANDED[case])).has_hands


@pytest.mark.parametrize("case", [*SAME, *HANDED])
def test_solids_agree(case: str) -> None:
    """By brute force: lay the mirrored solid on the drawn one in every way that keeps its box, and look for a perfect fit."""
    features = (SAME | HANDED)[case]
    made = shape(piece(board(*features, copies=(Motion(), MIRROR))))
    drawn, other = made.placed["board", 0], made.placed["board", 1]
    fits = any(_same(drawn, turned) for turned in _turned(other, made.of["board"].box))
    assert fits is (case in SAME)


def _turned(solid: cq.Shape, target: Box):  # type: ignore[no-untyped-def]
    """The solid in the four positions in which its box fills the target, by half turns about its three middle lines."""
    around = solid.BoundingBox()
    home = solid.translate(cq.Vector(*target.centre) - around.center)
    yield home
    for axis in ((1, 0, 0), (0, 1, 0), (0, 0, 1)):
        middle = cq.Vector(*target.centre)
        yield home.rotate(middle, middle + cq.Vector(*axis), 180)


def _same(one: cq.Shape, other: cq.Shape) -> bool:
    return one.intersect(other).Volume() > one.Volume() * (1 - 1e-6)


def test_copies_are_named_by_hand() -> None:
    """Four legs of a table: front left and back right are one hand, the other two the other."""
    features = (
        Mortise(**said("a"), face=Face.RIGHT, void=box(20, 40, 12, 22, 300, 340), mate=Mate("x")),
        Mortise(**said("b"), face=Face.BACK, void=box(16, 26, 20, 40, 300, 360), mate=Mate("y")),
    )
    copies = tuple(Motion((a, b, 1), (500.0 * (a < 0), 300.0 * (b < 0), 0.0)) for b, a in itertools.product((1, -1), repeat=2))
    leg = board(*features, body=box(0, 40, 0, 40, 0, 400), id="leg", grain=BOTTOM_TOP, face=Face.FRONT, copies=copies)
    (likeness,) = found(leg).likeness
    assert likeness == Likeness("leg", (0, 3), (1, 2))
    (proof,) = found(leg).proofs
    assert "leg (2 of 4)" in proof.worst


def test_square_section_may_also_be_turned_by_a_quarter() -> None:
    """Equal mortises in two neighbouring faces: the mirror image is the part turned by a quarter and end for end."""
    pair = (
        Mortise(**said("a"), face=Face.FRONT, void=box(300, 340, 0, 15, 15, 25), mate=Mate("x")),
        Mortise(**said("b"), face=Face.TOP, void=box(300, 340, 15, 25, 25, 40), mate=Mate("y")),
    )
    assert not form_of(board(*pair, body=SQUARE)).has_hands
    hole = Hole(**said("h"), face=Face.TOP, centre=(320, 25, 40), diameter=10, depth=15)
    assert form_of(board(pair[0], hole, body=SQUARE)).has_hands


def test_grain_is_never_turned() -> None:
    """A plate as long as it is wide is not the same part with its grain the other way."""
    plate = box(0, 100, 0, 100, 0, 20)
    hole = Hole(**said(), face=Face.TOP, centre=(20, 50, 20), diameter=8, depth=5)
    along, across = board(hole, body=plate), board(hole, body=plate, grain=FRONT_BACK, id="other")
    assert form_of(along).drawn != form_of(across).drawn


def test_different_parts_of_one_form_are_noted() -> None:
    odd = HANDED["taper and hole"]
    upright, body = Motion((1, 1, 1), order=(2, 0, 1)), box(0, 400, 0, 60, 0, 20)
    words = {"grain": upright.axis(LEFT_RIGHT), "face": upright.face(Face.TOP), "edge": upright.face(Face.FRONT)}
    turned = board(*(_carried(f, upright) for f in odd), body=upright.box(body), id="post", **words)
    notes = [(d.code, d.message) for d in found(board(*odd), turned).diagnostics]
    assert notes == [("parts-alike", "board and post are alike: they can be cut to the same stops.")]
    mirrored = board(*(_carried(f, MIRROR) for f in odd), body=MIRROR.box(body), id="other")
    notes = [(d.code, d.message) for d in found(board(*odd), mirrored).diagnostics]
    assert notes == [("parts-mirrored", "other is the mirror image of board.")]
    assert found(board(*odd), board(id="plain")).diagnostics == ()
    assert found(board(), board(id="oak", body=box(0, 399, 0, 60, 0, 20))).diagnostics == ()


def _carried(feature: Feature, motion: Motion) -> Feature:
    """A taper or a hole after a motion."""
    if isinstance(feature, Taper):
        new = motion.axis(LEFT_RIGHT).value
        leaving = tuple((motion.axis(axis), left) for axis, left in feature.leaving)
        faces, end = tuple(motion.face(f) for f in feature.faces), motion.face(feature.end)
        return replace(feature, faces=faces, end=end, start=motion.sign[new] * feature.start + motion.shift[new], leaving=leaving)
    assert isinstance(feature, Hole)
    return replace(feature, face=motion.face(feature.face), centre=motion.point(feature.centre))


