"""Volume and centre of mass by an independent mesh library (trimesh), from a fine mesh of a solid."""

from __future__ import annotations

import cadquery as cq
import numpy as np
import trimesh
from OCP.BRepMesh import BRepMesh_IncrementalMesh


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
