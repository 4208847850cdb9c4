"""Copies: the drawn solid carried by its motion; mirrored ones stay whole solids."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from timber import FRONT_BACK, board, box, piece, said

from planbuild.core.geometry import Face, Motion
from planbuild.records.features import Chamfer, Hole, Mate, Mortise, RoundOver, Taper, Tenon
from planbuild.records.solids import Solids
from planbuild.shape import shape

MOTIONS = tuple(
    Motion(sign, (10.0, -20.0, 30.0), order)
    for sign in itertools.product((1, -1), repeat=3)
    for order in itertools.permutations(range(3))
)
"""All 48: eight mirrorings in six orders of the axes."""

ODD = (
    Taper(**said("taper"), faces=(Face.BACK,), end=Face.RIGHT, start=100, leaving=((FRONT_BACK, 30),)),
    RoundOver(**said("round"), edges=((Face.TOP, Face.FRONT),), radius=4),
    Chamfer(**said("foot"), edges=((Face.RIGHT, Face.FRONT),), size=3),
    Mortise(**said("m"), face=Face.FRONT, void=box(30, 60, 0, 20, 4, 12), mate=Mate("x")),
    Hole(**said("h"), face=Face.BOTTOM, centre=(80, 40, 0), diameter=7, depth=9),
    Tenon(**said("t"), end=Face.LEFT, block=box(-25, 0, 10, 40, 8, 15), mate=Mate("x")),
)


@pytest.fixture(scope="module")
def solids() -> Solids:
    return shape(piece(board(*ODD, copies=MOTIONS)))


@pytest.mark.parametrize("index", range(len(MOTIONS)))
def test_copy_is_a_whole_solid_where_its_motion_says(index: int, solids: Solids) -> None:
    drawn, copy, motion = solids.of["board"], solids.placed["board", index], MOTIONS[index]
    assert copy.isValid()
    assert copy.ShapeType() == "Solid"
    assert copy.Volume() == pytest.approx(drawn.volume)
    assert copy.Center().toTuple() == pytest.approx(motion.point(drawn.centre))
    corners = sorted(vertex.toTuple() for vertex in copy.Vertices())
    expected = sorted(motion.point(vertex.toTuple()) for vertex in drawn.fitted.Vertices())
    distance = np.linalg.norm(np.array(corners)[:, None] - np.array(expected)[None], axis=2)
    assert distance.min(axis=0).max() < 1e-6
    assert distance.min(axis=1).max() < 1e-6


def test_first_copy_of_a_plain_motion_is_the_drawn_one(solids: Solids) -> None:
    plain = shape(piece(board(*ODD))).placed["board", 0]
    assert plain.Center().toTuple() == pytest.approx(solids.of["board"].centre)


