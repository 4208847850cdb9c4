"""Wedged tenons: sawn with straight kerfs, spread in a mortise that opens alike, each slot filled by its wedge."""

from __future__ import annotations

import pytest
from timber import BEND, DEPTH, FLARE, KERF, POST, PROUD, RAIL, flared_post, piece, wedge, wedged_rail

from planbuild.records.solids import Solids
from planbuild.shape import shape

TIPS = 2 * 0.5**2 / 2 * (28 - 2 * KERF) + 2 * 0.5**2 / 2 * 10 - 4 * 0.5**3 / 3
"""What the chamfer round the tip takes: four edges, the two long ones less the kerfs, corners once."""


@pytest.fixture(scope="module")
def solids() -> Solids:
    return shape(piece(flared_post(), wedged_rail(), wedge()))


def test_as_sawn(solids: Solids) -> None:
    tenon = (40 + PROUD) * 10 * 28 - 2 * KERF * DEPTH * 10 - TIPS
    assert solids.of["rail"].volume == pytest.approx(RAIL.volume + tenon)


def test_spread_strips_keep_their_wood(solids: Solids) -> None:
    """A strip that leans keeps its cross-section, so the fitted part has the volume of the sawn one, tips apart."""
    rail = solids.of["rail"]
    assert rail.fitted is not rail.cut
    assert rail.fitted.Volume() == pytest.approx(rail.volume, abs=0.5)
    height = rail.fitted.intersect(_slab(-PROUD, -PROUD + 0.01)).BoundingBox()
    spread = FLARE * DEPTH / BEND
    assert (height.zmin, height.zmax) == pytest.approx((86 + 0.5 - spread, 114 - 0.5 + spread), abs=0.02)


def test_mortise_opens_from_the_bottom_of_the_kerfs(solids: Solids) -> None:
    assert solids.of["post"].volume == pytest.approx(POST.volume - 40 * 10 * 28 - FLARE * BEND * 10)


def test_everything_fits_without_a_gap(solids: Solids) -> None:
    """Inside the post, mortise = tenon + two wedges: nothing left over, nothing twice."""
    inside = _slab(0, 40)
    wood = [solids.placed[key].intersect(inside).Volume() for key in (("rail", 0), ("wedge", 0), ("wedge", 1))]
    assert sum(wood) + solids.of["post"].volume == pytest.approx(POST.volume, abs=0.01)
    pairs = [("rail", "post"), ("rail", "wedge"), ("post", "wedge")]
    for a, b in pairs:
        assert solids.placed[a, 0].intersect(solids.placed[b, 0]).Volume() == pytest.approx(0, abs=1e-3)


def test_one_kerf_spreads_both_halves() -> None:
    rail = shape(piece(wedged_rail(kerfs=(100.0,)))).of["rail"]
    inside = rail.fitted.intersect(_slab(0, 0.001))
    halves = sorted((solid.BoundingBox().zmin, solid.BoundingBox().zmax) for solid in inside.Solids())
    slot = halves[1][0] - halves[0][1]
    assert slot == pytest.approx(KERF + 2 * FLARE, abs=1e-3)
    assert (halves[0][0], halves[1][1]) == pytest.approx((86 - FLARE, 114 + FLARE), abs=1e-3)


def _slab(low: float, high: float):  # type: ignore[no-untyped-def]
    import cadquery as cq

    return cq.Solid.makeBox(high - low, 100, 300, cq.Vector(low, 0, 0))
