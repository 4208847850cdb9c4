"""Set covering: the cheapest choice among fillings that holds every piece, by branch and bound within a number of nodes."""

from __future__ import annotations

import numpy as np

from planbuild.cutting.columns import Filling
from planbuild.cutting.prepared import Prepared

ENOUGH = 500


def cheapest_cover(given: Prepared, fillings: list[Filling], below: int, nodes: int) -> list[Filling] | None:
    """Fillings (some more than once) that hold all pieces for less than `below`; None where none was found.

    A piece that is held more often than asked is left out of the later fillings.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array

    kinds = len(given.kinds)
    chosen = dense_ones(given, fillings)
    holds = np.array([filling.counts(kinds) for filling in chosen], np.float64).T
    stock = np.array([filling.stock for filling in chosen])
    costs = given.sizes[stock, 2].astype(np.float64)
    uses = np.array([stock == k for k in range(len(given.sizes))], np.float64)
    rules = [
        LinearConstraint(csr_array(holds), lb=given.demand.astype(np.float64)),
        LinearConstraint(csr_array(uses), ub=given.sizes[:, 3].astype(np.float64)),
        LinearConstraint(csr_array(costs[None, :]), ub=float(below - given.step)),
    ]
    most = np.minimum(given.sizes[stock, 3], int(given.demand.sum())).astype(np.float64)
    whole = np.ones(len(chosen))
    limits = {"node_limit": nodes, "mip_rel_gap": 0}
    answer = milp(costs, constraints=rules, integrality=whole, bounds=Bounds(0, most), options=limits)
    if answer.x is None:
        return None
    times = np.round(answer.x).astype(int)
    return without_surplus(given, [filling for filling, n in zip(chosen, times, strict=True) for _ in range(n)])


def dense_ones(given: Prepared, fillings: list[Filling]) -> list[Filling]:
    """As many fillings as the programme can take, those first that cost least for what they hold."""
    area = given.kinds[:, 0].astype(np.float64) * given.kinds[:, 1]
    rate = float((given.sizes[:, 2] / (given.sizes[:, 0] * given.sizes[:, 1]).astype(np.float64)).min())

    def excess(k: int) -> tuple[float, int]:
        filling = fillings[k]
        held = float(np.minimum(filling.counts(len(area)), given.demand) @ area)
        return float(given.sizes[filling.stock, 2]) - rate * held, k

    order = sorted(range(len(fillings)), key=excess)[:ENOUGH]
    return [fillings[k] for k in sorted(order)]


def without_surplus(given: Prepared, fillings: list[Filling]) -> list[Filling] | None:
    """The same fillings without pieces that nobody asked for; None if a piece is missing after all."""
    wanted = given.demand.copy()
    kept = []
    for filling in fillings:
        spots = []
        for spot in filling.spots:
            if wanted[spot[0]] > 0:
                wanted[spot[0]] -= 1
                spots.append(spot)
        if spots:
            kept.append(Filling(filling.stock, tuple(spots)))
    return kept if not wanted.any() else None
