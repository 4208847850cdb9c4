"""Volume and centre of mass by an independent mesh library (trimesh), from a fine mesh of a solid."""

from __future__ import annotations

import cadquery as cq
import numpy as np
import trimesh


def mesh_of(shape: cq.Shape, deflection: float = 0.002) -> trimesh.Trimesh:
    """A closed mesh that is nowhere farther from the solid than `deflection` (mm)."""
    corners, triangles = shape.copy().tessellate(deflection, 0.02)
    mesh = trimesh.Trimesh(np.array([corner.toTuple() for corner in corners]), np.array(triangles))
    mesh.merge_vertices()
    return mesh
