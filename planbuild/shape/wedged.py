"""The side view of a tenon: plain, mitred, or with kerfs that wedges open.

Drawn from the shoulder (`along` 0) to the tip, `across` in the direction that matters.  Wedged: the strip
between a kerf and the edge of the tenon moves outward, not at all at the bottom of the kerf, by `flare` at
the far face of the post and on at that slope to the tip; strips between two kerfs stay straight.
A mortise opens by the same rule, so the strip lies on its end all the way.  Units: mm.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from planbuild.core.geometry import Axis
from planbuild.records.features import Kerf, Mitre, Tenon, Wedging
from planbuild.shape.kernel import Fault, Flat


def across(tenon: Tenon) -> Axis:
    """The direction, square to its length, in which the side view of a tenon is drawn."""
    if tenon.mitre:
        return tenon.mitre.short.axis
    return tenon.wedging.across if tenon.wedging else tenon.end.axis.others[0]


def length_of(tenon: Tenon) -> float:
    return tenon.block.size(tenon.end.axis)


def side_view(tenon: Tenon, fitted: bool) -> list[Flat]:
    """Corner points (along, across) of a tenon as sawn or as it sits in its mortise, the far way round and back.

    Raises Fault if the kerfs do not lie in the tenon.
    """
    if tenon.mitre:
        return _mitred(tenon, tenon.mitre)
    if not tenon.wedging:
        return _comb(tenon, (), lambda along: 0.0)
    kerfs = _kerfs(tenon, tenon.wedging)
    return _comb(tenon, kerfs, _spread(tenon, tenon.wedging) if fitted else lambda along: 0.0)


def _spread(tenon: Tenon, wedging: Wedging) -> Callable[[float], float]:
    """How far an outer strip has moved outward, by the distance from the shoulder."""
    bottom = length_of(tenon) - max(kerf.depth for kerf in wedging.kerfs)
    far_face = length_of(tenon) - tenon.proud
    slope = wedging.flare / (far_face - bottom)
    return lambda along: slope * max(0.0, along - bottom)


def _kerfs(tenon: Tenon, wedging: Wedging) -> tuple[Kerf, ...]:
    """The kerfs from the low edge up.  Raises Fault if one does not lie in the tenon."""
    kerfs = tuple(sorted(wedging.kerfs, key=lambda kerf: kerf.plane))
    width, length = tenon.block.along(wedging.across), length_of(tenon)
    edges = [width.low, *(kerf.plane for kerf in kerfs), width.high]
    if any(b - a <= max(kerf.width for kerf in kerfs) for a, b in pairwise(edges)):
        raise Fault("Its kerfs leave no strip between them and its edge.", "use fewer or thinner wedges")
    if any(not tenon.proud < kerf.depth <= length for kerf in kerfs):
        raise Fault("A kerf is deeper than the tenon is long, or does not reach into the post.", "change the depth of the kerfs")
    return kerfs


def _comb(tenon: Tenon, kerfs: tuple[Kerf, ...], moved: Callable[[float], float]) -> list[Flat]:
    """Along the low edge to the tip, over the tip in and out of the kerfs, back along the high edge."""
    width, tip = tenon.block.along(across(tenon)), length_of(tenon)
    points = [(0.0, width.low), *_edge(tenon, kerfs, width.low, -1, moved)]
    for index, kerf in enumerate(kerfs):
        low, high, bottom = kerf.plane - kerf.width / 2, kerf.plane + kerf.width / 2, tip - kerf.depth
        left = -moved(tip) if index == 0 else 0.0
        right = moved(tip) if index == len(kerfs) - 1 else 0.0
        points += [(tip, low + left), (bottom, low), (bottom, high), (tip, high + right)]
    points += [*reversed(_edge(tenon, kerfs, width.high, +1, moved)), (0.0, width.high)]
    return points


def _edge(tenon: Tenon, kerfs: tuple[Kerf, ...], at: float, outward: int, moved: Callable[[float], float]) -> list[Flat]:
    """One edge of a tenon from where it begins to spread to the chamfered tip."""
    tip, cut = length_of(tenon), tenon.tip_chamfer
    bend = [(tip - max(kerf.depth for kerf in kerfs), at)] if kerfs and moved(tip) else []
    here = at + outward * moved(tip - cut)
    return [*bend, (tip - cut, here), (tip, at + outward * (moved(tip) - cut))]


def _mitred(tenon: Tenon, mitre: Mitre) -> list[Flat]:
    """Cut back at 45 degrees: from `start` on the short face outward to the tip on the other."""
    tip, width = length_of(tenon), tenon.block.along(mitre.short.axis)
    short, long = (width.high, width.low) if mitre.short.sign > 0 else (width.low, width.high)
    if not 0 <= mitre.start < tip:
        raise Fault("Its mitre begins before the shoulder or past the tip.", "look at how far the tenons reach")
    rise = min(tip - mitre.start, width.size)
    turn = short - mitre.short.sign * rise
    points = [(0.0, short), (mitre.start, short), (mitre.start + rise, turn)]
    return [*points, (mitre.start + rise, long), (0.0, long)] if abs(turn - long) > 1e-9 else [*points, (0.0, long)]
