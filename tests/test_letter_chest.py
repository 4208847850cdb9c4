"""A case of blocks within a frame: web frames housed in a dovetailed case, a stack of drawers between them.

Invented; web frames housed dry in a dovetailed carcase are common practice.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.derive.steps.assembly import Joining, plan_joinings
from planbuild.pipeline import Clock, resolve_file
from planbuild.records.features import Groove, Hole, Rabbet
from planbuild.records.piece import Piece
from planbuild.records.tails import Sockets
from planbuild.shape import shape

INCH = 25.4
CHEST = Path(__file__).parent / "designs" / "letter-chest.yaml"


@pytest.fixture(scope="module")
def chest() -> Piece:
    return resolve_file(CHEST, Clock())


@pytest.fixture(scope="module")
def joinings(chest: Piece) -> dict[str, Joining]:
    found, faults = plan_joinings(chest)
    assert faults == ()
    return {each.id: each for each in found}


def test_the_webs_leave_three_openings_alike(chest: Piece) -> None:
    """17 high, less two boards and two web rails of 3/4, in three: 4-2/3 each; a drawer stands 3/32 below its rail."""
    fronts = chest.part("drawer.drawer_front")
    lows = [fronts.box(copy, fronts.body).z.low / INCH for copy in range(3)]
    assert lows == pytest.approx([0.75, 0.75 + 14 / 3 + 0.75, 0.75 + 28 / 3 + 1.5])
    assert fronts.body.z.size / INCH == pytest.approx(14 / 3 - 3 / 32)


def test_each_runner_stands_in_the_case_side_with_its_edge(chest: Piece) -> None:
    housings = [each for each in chest.part("case.case_side").features if isinstance(each, Groove) and each.joint == "web_sides"]
    assert [round(each.void.y.size / INCH, 4) for each in housings] == [6.75, 6.75]  # 11 deep, less the back and two rails of 2
    assert {round(each.void.x.size / INCH, 4) for each in housings} == {0.25}


def test_a_case_round_its_webs_is_not_glued_beforehand(joinings: dict[str, Joining]) -> None:
    """The webs are joined first; then sides, top and bottom go on one by one, since no whole case slides over them."""
    *blocks, last = joinings.values()
    assert [each.id for each in blocks] == ["web", "drawer"]
    moves = {(unit.keys[0][0], way) for unit, way in last.outer}
    assert ("case.case_top", (0.0, 0.0, -1.0)) in moves and ("case.case_bottom", (0.0, 0.0, 1.0)) in moves


def test_pilots_in_the_floor_of_a_rabbet_are_cut_after_it(chest: Piece) -> None:
    """They are as deep as said below the floor: what is cut first would count the wood over it, too."""
    side = chest.part("case.case_side")
    assert {Rabbet, Hole, Sockets} <= {type(each) for each in side.features}
    shape(chest)  # raises Refused if any cut takes another volume than its numbers say
