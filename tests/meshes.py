"""Volume and centre of mass by an independent mesh library (trimesh), from a fine mesh of a solid."""

from __future__ import annotations

import cadquery as cq
import numpy as np
import pytest
import trimesh
from OCP.BRepMesh import BRepMesh_IncrementalMesh

from planbuild.records.piece import Piece
from planbuild.shape import shape


def mesh_of(shape: cq.Shape, deflection: float = 0.002) -> trimesh.Trimesh:
    """A closed mesh that is nowhere farther from the solid than `deflection` (mm).

    The kernel is asked for it beforehand: CadQuery's own request takes the figure as a share of each edge.
    """
    shape = shape.copy()
    BRepMesh_IncrementalMesh(shape.wrapped, deflection, False, 0.05, False)
    corners, triangles = shape.tessellate(deflection, 0.05)
    mesh = trimesh.Trimesh(np.array([corner.toTuple() for corner in corners]), np.array(triangles))
    mesh.merge_vertices()
    return mesh


def check_against_meshes(whole: Piece) -> None:
    """Every part of a piece, as cut and as fitted: a closed mesh of the same volume and centre of mass, to 0.1 %."""
    for made in shape(whole).of.values():
        for solid in (made.cut,) if made.fitted is made.cut else (made.cut, made.fitted):
            mesh = mesh_of(solid)
            assert mesh.is_watertight, made.part
            assert solid.Volume() == pytest.approx(mesh.volume, rel=1e-3), made.part
            size = float(np.linalg.norm(mesh.extents))
            assert np.linalg.norm(np.array(solid.Center().toTuple()) - mesh.center_mass) < 1e-3 * size, made.part
