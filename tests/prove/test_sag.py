"""What carries a load is bent as its supports say, and told where the eye would see it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from moving_wood import UPRIGHT
from timber import BOTTOM_TOP, HERE, LEFT_RIGHT, board, box, joint, piece

from planbuild.core.geometry import Face, Span1
from planbuild.prove.sag import nothing_sags
from planbuild.prove.standing import Standing
from planbuild.records.hardware import Placed
from planbuild.records.piece import Contact, Load, Piece
from planbuild.records.solids import Solids

EVEN, MIDDLE = Load("shelf", 300.0, "30 kg"), Load("shelf", 300.0, "30 kg, in the middle", where="middle")
ASH = 12000.0
"""MPa (Wood Handbook, table 5-3)."""


def standing(whole: Piece) -> Standing:
    found = Standing(whole, Solids({}, {}, lambda *_: {}))  # type: ignore[arg-type, return-value]
    keys = [(each, copy) for each in whole.parts for copy in range(len(each.copies))]
    found.__dict__["boxes"] = {(each.id, copy): each.box(copy, each.body) for each, copy in keys}
    return found


def shelf(thick: float = 20.0, load: Load = EVEN, span: float = 900.0) -> Piece:
    """A shelf 280 deep in housings 6 deep of two sides."""
    sides = [board(body=box(x, x + 20, 0, 280, 0, 800), id=id, **UPRIGHT) for id, x in (("left", -20.0), ("right", span))]
    lies = board(body=box(-6, span + 6, 0, 280, 400, 400 + thick), id="shelf")
    ends = [(("left", 0), -1.0, 0.0), (("right", 0), 1.0, span)]
    planes = [(key, way, lies.body.with_span(LEFT_RIGHT, Span1(at, at))) for key, way, at in ends]
    meets = [Contact(("shelf", 0), key, (way, 0.0, 0.0), plane, 0.0, 1.0) for key, way, plane in planes]
    return replace(piece(lies, *sides, joints=(joint("housed", *meets),)), loads=(load,))


def sags(whole: Piece) -> tuple[list[str], int]:
    found = nothing_sags(standing(whole))
    assert all(each.span == HERE for each in found.diagnostics)
    return [each.code for each in found.diagnostics], found.proofs[0].checked


def thinnest(load: float, span: float, times: float, form: float) -> float:
    """Of the shelf whose sag is a 384th of its span, solved by hand for its thickness."""
    return float((times * load * span**3 * form * 12 / (ASH * 280 * span / 384)) ** (1 / 3))


@pytest.mark.parametrize(
    ("load", "least"),
    [
        (EVEN, thinnest(300 * 900 / 912, 900, 2, 5 / 384)),  # what stays doubles the sag; 12 mm of the load lie in the housings
        (MIDDLE, thinnest(300, 900, 1, 1 / 48)),
        (replace(EVEN, newtons=600.0), thinnest(600 * 900 / 912, 900, 2, 5 / 384)),
    ],
)
def test_a_shelf_just_thick_enough(load: Load, least: float) -> None:
    assert sags(shelf(least + 0.02, load)) == ([], 1)
    assert sags(shelf(least - 0.02, load)) == (["sag-seen"], 1)


def test_what_to_change_is_told_and_helps() -> None:
    (found,) = nothing_sags(standing(shelf(12.0))).diagnostics
    thick = float(found.hints[0].split("Make it ")[1].split(" mm")[0])
    span = float(found.hints[0].split("its span ")[1].split(" mm")[0])
    assert sags(shelf(thick + 0.5))[0] == [] and sags(shelf(thick - 0.5))[0] == ["sag-seen"]
    assert sags(shelf(12.0, replace(EVEN, newtons=300 * span / 900), span))[0] in ([], ["sag-seen"])


def test_a_shared_load_is_shared() -> None:
    whole = shelf(12.0)
    two = replace(whole.part("shelf"), copies=whole.part("shelf").copies * 2)
    shared = replace(whole, parts=(two, *whole.parts[1:]), loads=(replace(EVEN, shared=True, newtons=60.0),))
    alone = replace(shared, loads=(replace(EVEN, newtons=60.0),))
    assert _worst(shared) < _worst(alone)


def _worst(whole: Piece) -> float:
    line = nothing_sags(standing(whole)).proofs[0].worst
    return float(line.split("goes down ")[1].split(" mm")[0])


def test_a_shelf_on_pins() -> None:
    whole = replace(shelf(12.0), joints=())
    places = tuple((x, y, 400.0) for x in (5.0, 895.0) for y in (40.0, 240.0))
    pins = Placed("pins", HERE, "pin", "left", Face.RIGHT, places, 4, brings="shelf")
    assert sags(whole) == ([], 0)
    assert sags(replace(whole, hardware=(pins,))) == (["sag-seen"], 1)


def on_rails(high: float) -> Piece:
    """A seat on two rails that run along under its edges, between two ends."""
    whole = shelf(20.0)
    seat = board(body=box(0, 900, 0, 280, 400, 420), id="shelf")
    rails = [board(body=box(0, 900, y, y + 20, 400 - high, 400), id=id) for id, y in (("front_rail", 0.0), ("back_rail", 260.0))]
    ends = [(("left", 0), -1.0, 0.0), (("right", 0), 1.0, 900.0)]
    joints: list[Any] = []
    for rail in rails:
        plane = rail.body.with_span(BOTTOM_TOP, Span1(400, 400))
        under = Contact(("shelf", 0), (rail.id, 0), (0.0, 0.0, -1.0), plane, 0.0, 0.0)
        faces = [(key, way, rail.body.with_span(LEFT_RIGHT, Span1(at, at))) for key, way, at in ends]
        held = [Contact((rail.id, 0), key, (way, 0.0, 0.0), face, 0.0, 1.0) for key, way, face in faces]
        joints += [joint(f"on_{rail.id}", under), joint(rail.id, *held)]
    return replace(piece(seat, *rails, *whole.parts[1:], joints=tuple(joints)), loads=(replace(EVEN, newtons=3000.0),))


def test_rails_that_run_along_bend_with_the_board() -> None:
    """Board 280 x 20 and two rails 20 thick: 2 x 5 x 3000 x 900^3 / (384 x 12000 (280 x 20^3 + 2 x 20 h^3) / 12) = 900 / 384."""
    needed = 2 * 5 / 384 * 3000 * 900**3 * 12 / ASH * 384 / 900
    least = ((needed - 280 * 20**3) / 40) ** (1 / 3)
    assert least > 40
    assert sags(on_rails(least + 0.05)) == ([], 1)
    assert sags(on_rails(least - 0.05)) == (["sag-seen"], 1)
