"""Lower bounds on the cost of sheets: areas, and dual feasible functions (which see that large pieces do not share)."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Whole = NDArray[np.int64]
MOST_FUNCTIONS = 120


def rounded_up(value: float, step: int) -> int:
    """The least multiple of `step` that is not below a bound (a millionth is put down to rounding)."""
    return int(-(-(value - 1e-6 * max(1.0, abs(value))) // step)) * step


def area_bound(sizes: Whole, items: Whole, step: int) -> int:
    """Least cost of whole sheets, as far as there are copies, whose area holds all pieces."""
    areas = (sizes[:, 0] * sizes[:, 1]).astype(np.float64)
    needed = float((items[:, 0] * items[:, 1]).sum())
    if len(sizes) == 1:
        return int(np.ceil(needed / areas[0] - 1e-9)) * int(sizes[0, 2])
    from scipy.optimize import Bounds, LinearConstraint, milp

    enough = LinearConstraint((areas / needed)[None, :], lb=1.0 - 1e-9)
    whole = np.ones(len(sizes))
    on_hand = Bounds(0, sizes[:, 3].astype(np.float64))
    answer = milp(sizes[:, 2].astype(np.float64), constraints=enough, integrality=whole, bounds=on_hand)
    return rounded_up(float(answer.mip_dual_bound), step) if answer.mip_dual_bound is not None else 0


def holds_enough(sizes: Whole, items: Whole) -> bool:
    """Has all stock together the area of the pieces?"""
    on_hand = sum(int(w) * int(h) * int(copies) for w, h, _, copies in sizes)
    return on_hand >= int((items[:, 0] * items[:, 1]).sum())


def dual_feasible(lengths: Whole, whole: int) -> list[tuple[Whole, int]]:
    """Images of lengths under functions that keep: what fits together within `whole` sums to no more than the scale."""
    found = [(lengths, whole)]
    for least in sorted({int(x) for x in lengths if 2 * x <= whole})[:: max(1, len(lengths) // 60)]:
        image = np.where(lengths > whole - least, whole, np.where(lengths < least, 0, lengths))
        found.append((image, whole))
    for k in range(1, 21):
        many = (k + 1) * lengths
        found.append((np.where(many % whole == 0, k * lengths, many // whole * whole), k * whole))
    return found[:MOST_FUNCTIONS]


def sheet_bound(size: tuple[int, int], items: Whole) -> int:
    """Least number of sheets of one size, by pairs of dual feasible functions; a turned piece counts as it counts less."""
    wide, high = size
    count = len(items)
    both = np.concatenate([items[:, 0], items[:, 1]])
    along = dual_feasible(both, wide)
    across = dual_feasible(both, high)
    turns = items[:, 2] > 0
    best = 1
    second = np.array([image / scale for image, scale in across])
    for image, scale in along:
        first = image / scale
        straight = first[:count] * second[:, count:]
        turned = first[count:] * second[:, :count]
        weight = np.where(turns, np.minimum(straight, turned), straight)
        best = max(best, int(np.ceil(weight.sum(axis=1).max() - 1e-6)))
    return best
