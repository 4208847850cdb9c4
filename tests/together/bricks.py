"""Bodies of unit cubes as meshes, for puzzles and frames whose outcome is known."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from planbuild.together import Mesh

Cube = tuple[int, int, int]
UNIT = 10.0
"""mm"""
X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)


def cubes(x: tuple[int, int], y: tuple[int, int], z: tuple[int, int]) -> set[Cube]:
    """All unit cubes of a box, half open."""
    return {(i, j, k) for i in range(*x) for j in range(*y) for k in range(*z)}


def mesh(held: Iterable[Cube]) -> Mesh:
    """The outer faces of the cubes, two triangles each, looking outward."""
    filled, triangles = set(held), []
    for cube in sorted(filled):
        for axis in range(3):
            for sign in (-1, 1):
                beside = list(cube)
                beside[axis] += sign
                if tuple(beside) not in filled:
                    triangles += _face(cube, axis, sign)
    return np.array(triangles) * UNIT


def _face(cube: Cube, axis: int, sign: int) -> list[list[list[float]]]:
    first, second = (axis + 1) % 3, (axis + 2) % 3
    corners = []
    for a, b in ((0, 0), (1, 0), (1, 1), (0, 1)):
        corner = [float(each) for each in cube]
        corner[axis] += sign > 0
        corner[first] += a
        corner[second] += b
        corners.append(corner)
    if sign < 0:
        corners.reverse()
    a, b, c, d = corners
    return [[a, b, c], [a, c, d]]
