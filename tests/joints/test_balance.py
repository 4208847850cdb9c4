"""A chest with a drawer or a door tried by hand: the moments about its front feet."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest
from timber import HERE, board, box, piece

from planbuild.core.geometry import Face, Motion
from planbuild.joints.balance import CARPET, CHILD, GRAVITY, PUSH, Trial, is_anchored, needs_a_warning, trials
from planbuild.joints.weights import density
from planbuild.prove.standing import Standing
from planbuild.prove.tipping import stands_with_all_open
from planbuild.records.hardware import Item, Placed
from planbuild.records.openings import Block, Moves
from planbuild.records.piece import Load, Piece
from planbuild.records.solids import Solids

DRAWER = Moves(goes_in=Face.FRONT, opens=Face.FRONT, by=300.0)
DOOR = Moves(swings=Face.FRONT, about=Face.LEFT, by=110.0)


def chest(moves: Moves = DRAWER, deep: float = 400.0, high: float = 900.0) -> Piece:
    """A case 800 wide that stands on all its depth, and what opens right behind its front, 400 deep (a door: 20)."""
    case = board(body=box(0, 800, 0, deep, 0, high), id="case")
    thick = deep if moves.opens else 20.0
    opens = board(body=box(20, 780, 0, thick, max(50.0, high - 600), high - 100), id="front")
    held = Block("held", "drawer", "drawer", HERE, opens.body, ("",), (Motion(),), ("front",), moves)
    return replace(piece(case, opens), blocks=(held,))


def weighing(whole: Piece, **kilograms: float) -> Solids:
    """Parts of these masses, each balancing at its middle; no solids."""
    dense = density(0.60, 8) * 1e-9
    of = {id: SimpleNamespace(volume=mass / dense, centre=whole.part(id).body.centre) for id, mass in kilograms.items()}
    return Solids(of, {}, lambda *_: {})  # type: ignore[arg-type, return-value]


def tried(whole: Piece, **kilograms: float) -> dict[str, Trial]:
    return {each.what.split(",")[-1].strip(): each for each in trials(whole, weighing(whole, **kilograms))}


def test_a_low_chest_is_tried_open_and_no_further() -> None:
    """Under 27 in the tests of the standard do not apply.  10 kg behind by 200, 5 kg drawn out by 300 from 200 behind."""
    (found,) = trials(chest(high=600.0), weighing(chest(high=600.0), case=10, front=5))
    assert found.moment == pytest.approx(-10 * 200 + 5 * (300 - 200)) and found.mass == pytest.approx(15) and not found.tips


def test_what_a_drawer_holds_goes_out_with_it() -> None:
    whole = replace(chest(high=600.0), loads=(Load("front", 30 * GRAVITY, "30 kg"),))
    (found,) = trials(whole, weighing(whole, case=10, front=5))
    assert found.moment == pytest.approx(-10 * 200 + (5 + 30) * 100) and found.tips
    assert found.forward == pytest.approx(1500 / 45) and found.ballast == pytest.approx(1500 / 400)


def test_a_high_chest_is_tried_as_clothing_storage() -> None:
    """The drawer holds 152 litres: 8.5 lb in a cubic foot are 20.7 kg.  A child of 60 lb at its outer edge, the back raised
    by 0.43 in; or 10 lbf at the top."""
    whole = chest()
    found = tried(whole, case=60, front=5)
    clothes = 136e-9 * 760 * 400 * 500
    assert clothes == pytest.approx(20.67, abs=0.01)
    tilt = math.atan(CARPET / 400)
    level = -60 * 200 + (5 + clothes) * 100 + CHILD * 300
    raised = 60 * 450 + (5 + clothes + CHILD) * 550
    child = next(each for what, each in found.items() if "child" in what or "27 kg" in what)
    assert child.moment == pytest.approx(level * math.cos(tilt) + raised * math.sin(tilt))
    assert found["pushed at the top"].moment == pytest.approx(-60 * 200 + (5 + clothes) * 100 + PUSH * 900)


def test_a_door_stands_square_to_the_front() -> None:
    """The middle of a door 760 wide comes 380 before the front, a child at its edge 760."""
    whole = chest(DOOR, deep=500.0)  # 760 x 500 x 500 / 2 is 95 litres
    found = tried(whole, case=60, front=8)
    assert found["everything open and filled as the design says"].moment == pytest.approx(-60 * 250 + 8 * 380)
    child = next(each for what, each in found.items() if "27 kg" in what)
    tilt = math.atan(CARPET / 500)
    level, raised = -60 * 250 + 8 * 380 + CHILD * 760, 60 * 450 + (8 + CHILD) * 550
    assert child.moment == pytest.approx(level * math.cos(tilt) + raised * math.sin(tilt))


def test_what_hangs_or_does_not_open_is_not_tried() -> None:
    whole = chest()
    hung = replace(whole, parts=(whole.parts[0], replace(whole.parts[1], stays_on="wall")))
    assert trials(hung, weighing(hung, case=10, front=5)) == ()
    shut = replace(whole, blocks=())
    assert trials(shut, weighing(shut, case=10, front=5)) == ()


# ---------------------------------------------------------------- the finding


def proved(whole: Piece, **kilograms: float) -> Any:
    return stands_with_all_open(Standing(whole, weighing(whole, **kilograms)))


def test_it_tells_what_to_change_and_that_helps() -> None:
    found = proved(chest(), case=40, front=5)
    (fault,) = found.diagnostics
    assert fault.code == "tips-over" and "tip restraint" in fault.hints[0] and "no compliance" in fault.source
    ballast = float(fault.hints[0].split("carry ")[1].split(" kg")[0])
    assert not found.proofs
    worst = max(trials(chest(), weighing(chest(), case=40, front=5)), key=lambda each: each.moment)
    assert ballast == pytest.approx(worst.moment / 400, abs=0.05)
    assert proved(chest(), case=200, front=5).diagnostics == ()


def anchored(whole: Piece) -> Piece:
    strap = Item("strap", HERE, "tip restraint", "tip restraint", ())
    put = Placed("strap", HERE, "strap", "case", Face.BACK, ((400.0, 400.0, 890.0),), 1)
    return replace(whole, items=(strap,), hardware=(put,))


def test_a_restraint_answers_it_and_the_proof_says_so() -> None:
    whole = anchored(chest())
    found = proved(whole, case=40, front=5)
    assert is_anchored(whole) and found.diagnostics == ()
    assert "must be fixed to the wall first" in found.proofs[0].worst


def test_who_is_told_to_anchor_it() -> None:
    def told(whole: Piece) -> bool:
        return needs_a_warning(whole, weighing(whole, case=60, front=5))

    assert told(chest()) and told(anchored(chest()))  # large enough for the tests, whatever they say
    assert told(chest(deep=250.0, high=600.0)) and not told(chest(high=600.0))  # more than twice as high as deep
    assert not told(replace(chest(), blocks=()))
