"""Where things balance: by hand, and each part of the bench by an independent mesh library (trimesh)."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from meshes import mesh_of
from timber import BOTTOM_TOP, board, box, piece

from planbuild.core.geometry import Face, Motion
from planbuild.core.poses import Pose
from planbuild.joints.weights import Weighed, density, together, weigh, weigh_all
from planbuild.records.piece import Piece
from planbuild.shape import shape


def test_two_as_one() -> None:
    found = together([Weighed(1, (0, 0, 0)), Weighed(3, (100, 40, 8))])
    assert (found.mass, found.centre) == (4, (75, 30, 6))


def test_an_ell_of_two_boards() -> None:
    """A board lying and one standing on its end, of like section: they balance halfway between their middles."""
    lying = board(body=box(0, 400, 0, 60, 0, 20), id="lying")
    upright = board(body=box(0, 20, 0, 60, 20, 420), id="upright", grain=BOTTOM_TOP, face=Face.LEFT, edge=Face.FRONT)
    whole = piece(lying, upright)
    found = weigh_all(whole, shape(whole))
    assert found.mass == pytest.approx(2 * 400 * 60 * 20 * 1e-9 * density(0.60, 8))
    assert found.centre == pytest.approx(((200 + 10) / 2, 30, (10 + 220) / 2))


def test_a_copy_and_a_part_that_leans() -> None:
    mirrored = Motion((-1, 1, 1), (1000.0, 0.0, 0.0))
    plain = board(body=box(0, 400, 0, 60, 0, 20), copies=(Motion(), mirrored))
    turned = replace(plain, pose=Pose.turning((0, 0, 1), 90, (0, 0, 0)))
    solids = shape(piece(plain))
    assert weigh(piece(plain), solids, ("board", 1)).centre == pytest.approx((800, 30, 10))
    assert weigh(piece(turned), shape(piece(turned)), ("board", 0)).centre == pytest.approx((-30, 200, 10))


def test_the_bench_by_meshes(bench_piece: Piece) -> None:
    """Every standing part as a mesh, weighed by its volume: the same centre to 0.2 mm."""
    solids = shape(bench_piece)
    meshes = {key: mesh_of(shape_, 0.05) for key, shape_ in solids.placed.items()}
    dense = {"white ash": density(0.60, 8), "black walnut": density(0.55, 8)}
    woods = {each.id: dense[each.species] for each in bench_piece.stock}
    masses = {key: mesh.volume * 1e-9 * woods[bench_piece.part(key[0]).stock] for key, mesh in meshes.items()}
    centre = sum(masses[key] * np.array(mesh.center_mass) for key, mesh in meshes.items()) / sum(masses.values())
    found = weigh_all(bench_piece, solids)
    assert found.mass == pytest.approx(sum(masses.values()), rel=1e-3)
    assert found.centre == pytest.approx(tuple(centre), abs=0.2)
