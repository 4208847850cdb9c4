"""The most valuable guillotine filling of every rectangle, pieces without limit of number: compiled dynamic programming.

Exact for that question (Gilmore and Gomory): a rectangle holds one piece, or is cut in two at a sum of piece sizes.
The table serves all stocks at once, and bounds what any filling with limited pieces can be worth.
"""

from __future__ import annotations

import numpy as np
from numba import njit

compiled = njit(cache=True, nogil=True, error_model="numpy")
NOTHING, SMALLER_X, SMALLER_Y = -1, -2, -3
CUT_X, CUT_Y = 1_000_000, 2_000_000


@compiled
def rests(points):
    """For two points a <= b: index of the largest point within b - a."""
    count = len(points)
    table = np.zeros((count, count), np.int32)
    for b in range(count):
        at = b
        for a in range(b + 1):
            while points[at] > points[b] - points[a]:
                at -= 1
            table[b, a] = at
    return table


@compiled
def value_table(xs, ys, rest_x, rest_y, shapes, values):
    """Highest value within (xs[i], ys[j]), and what was done: a shape, nothing more than the next smaller, or a cut."""
    value = np.zeros((len(xs), len(ys)))
    choice = np.full((len(xs), len(ys)), NOTHING, np.int32)
    for i in range(len(xs)):
        for j in range(len(ys)):
            best, what = 0.0, NOTHING
            for k in range(len(shapes)):
                if shapes[k, 0] <= xs[i] and shapes[k, 1] <= ys[j] and values[k] > best:
                    best, what = values[k], k
            if i and value[i - 1, j] > best:
                best, what = value[i - 1, j], SMALLER_X
            if j and value[i, j - 1] > best:
                best, what = value[i, j - 1], SMALLER_Y
            for a in range(1, i):
                if 2 * xs[a] > xs[i]:
                    break
                both = value[a, j] + value[rest_x[i, a], j]
                if both > best + 1e-9:
                    best, what = both, CUT_X + a
            for a in range(1, j):
                if 2 * ys[a] > ys[j]:
                    break
                both = value[i, a] + value[i, rest_y[j, a]]
                if both > best + 1e-9:
                    best, what = both, CUT_Y + a
            value[i, j], choice[i, j] = best, what
    return value, choice
