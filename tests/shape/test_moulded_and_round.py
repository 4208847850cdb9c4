"""Mouldings, dishes and turnings: volumes by plane geometry, forms against an independent mesh library (trimesh)."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from meshes import mesh_of
from timber import BOTTOM_TOP, board, box, piece, said

from planbuild.core.diagnostics import Refused
from planbuild.core.geometry import Face
from planbuild.core.turnings import WAYS, fits
from planbuild.records.features import Feature
from planbuild.records.piece import Part
from planbuild.records.shaped import Dished, Moulding, Station, Turned
from planbuild.records.solids import PartSolid
from planbuild.shape import shape

V = 400 * 60 * 20.0
FRONT_TOP = (Face.FRONT, Face.TOP)
LEG = box(0, 40, 0, 40, 0, 600)


def made(part: Part) -> PartSolid:
    found = shape(piece(part)).of[part.id]
    assert found.cut.isValid()
    mesh = mesh_of(found.cut, 0.02)
    assert mesh.is_watertight
    assert mesh.body_count == 1
    assert found.volume == pytest.approx(mesh.volume, rel=1e-3)
    return found


def lost(*features: Feature) -> float:
    return V - made(board(*features)).volume


def turned(*stations: tuple[float, float, str]) -> Part:
    spindle = Turned(**said(), stations=tuple(Station(*each) for each in stations))
    return board(spindle, body=LEG, grain=BOTTOM_TOP, face=Face.FRONT, edge=Face.LEFT)


# ---------------------------------------------------------------- mouldings


def test_a_cove_takes_a_quarter_of_a_circle() -> None:
    assert lost(Moulding(**said(), edges=(FRONT_TOP,), form="cove", size=6)) == pytest.approx(math.pi * 9 * 400)


def test_a_stopped_cove() -> None:
    cove = Moulding(**said(), edges=(FRONT_TOP,), form="cove", size=6, reach=(50, 350))
    assert lost(cove) == pytest.approx(math.pi * 9 * 300)


def test_a_bead_rounds_both_its_sides_and_has_a_quirk() -> None:
    """Of the square round the half circle both corners go, and beside it the channel."""
    bead = Moulding(**said(), edges=(FRONT_TOP,), form="bead", size=8, quirk=3)
    assert lost(bead) == pytest.approx((2 * 16 * (1 - math.pi / 4) + 3 * 4) * 400)


def test_the_quirk_lies_on_the_first_face() -> None:
    """On the front the wood stays lower down, on the top farther back."""
    on_front = made(board(Moulding(**said(), edges=(FRONT_TOP,), form="bead", size=8, quirk=3))).centre
    on_top = made(board(Moulding(**said(), edges=((Face.TOP, Face.FRONT),), form="bead", size=8, quirk=3))).centre
    assert on_front[1] > on_top[1], "the channel takes wood at the front"
    assert on_front[2] > on_top[2], "and the other one at the top"


def test_coves_around_a_top_meet_in_mitres() -> None:
    around = tuple((Face.TOP, side) for side in (Face.LEFT, Face.RIGHT, Face.FRONT, Face.BACK))
    taken = lost(Moulding(**said(), edges=around, form="cove", size=5))
    assert 25 * math.pi / 4 * (2 * 390 + 2 * 50) < taken < 25 * math.pi / 4 * 2 * 460


# ---------------------------------------------------------------- dishes


@pytest.mark.parametrize("face", [Face.TOP, Face.BOTTOM])
def test_a_dish_is_a_cap_of_a_ball(face: Face) -> None:
    level = 20.0 if face is Face.TOP else 0.0
    dish = Dished(**said(), face=face, centre=(200, 30, level), diameter=50, depth=6)
    assert dish.radius == pytest.approx((25**2 + 6**2) / 12)
    assert lost(dish) == pytest.approx(math.pi * 6 * (3 * 25**2 + 6**2) / 6)


def test_a_dish_too_deep_is_refused() -> None:
    with pytest.raises(Refused) as refused:
        made(board(Dished(**said(), face=Face.TOP, centre=(200, 30, 20), diameter=50, depth=20)))
    assert refused.value.diagnostics[0].code == "shape-failed"


# ---------------------------------------------------------------- turnings


def volume_of(part: Part) -> float:
    found = shape(piece(part)).of[part.id]
    assert found.cut.isValid()
    return found.volume


def test_a_cylinder_and_a_cone() -> None:
    assert volume_of(turned((0, 40, "straight"), (600, 40, "straight"))) == pytest.approx(math.pi * 400 * 600)
    cone = math.pi * 600 / 3 * (20**2 + 20 * 10 + 10**2)
    assert volume_of(turned((0, 20, "straight"), (600, 40, "straight"))) == pytest.approx(cone)


def test_what_is_not_turned_stays_square() -> None:
    assert volume_of(turned((100, 40, "straight"), (400, 40, "straight"))) == pytest.approx(1600 * 300 + math.pi * 400 * 300)


def test_a_step_between_two_diameters() -> None:
    part = turned((0, 40, "straight"), (300, 40, "straight"), (300, 24, "straight"), (600, 24, "straight"))
    assert volume_of(part) == pytest.approx(math.pi * 300 * (400 + 144))


def test_a_bead_between_like_diameters_is_a_half_round() -> None:
    """Half a ring (Pappus): a bead 10 long on a neck of 20 swells to 30."""
    part = turned((0, 20, "straight"), (300, 20, "straight"), (310, 20, "bead"), (600, 20, "straight"))
    half_round = math.pi * 25 / 2
    assert volume_of(part) == pytest.approx(math.pi * 100 * 600 + 2 * math.pi * (10 + 4 * 5 / (3 * math.pi)) * half_round)
    assert part.features[0].profile[1].through == pytest.approx((305, 15))  # type: ignore[attr-defined]


def test_cove_bead_and_ogee_run_out_level() -> None:
    cove = turned((0, 20, "straight"), (30, 40, "cove"), (600, 40, "straight")).features[0].profile[0]  # type: ignore[attr-defined]
    bead = turned((0, 20, "straight"), (30, 40, "bead"), (600, 40, "straight")).features[0].profile[0]  # type: ignore[attr-defined]
    straight = 15.0
    assert cove.through[1] < straight < bead.through[1]
    ogee = turned((0, 20, "straight"), (30, 40, "ogee"), (600, 40, "straight")).features[0].profile  # type: ignore[attr-defined]
    assert len(ogee) == 4 - 1
    assert ogee[0].end == pytest.approx((15, 15))


def test_a_diameter_larger_than_the_stock_is_refused() -> None:
    with pytest.raises(Refused) as refused:
        made(turned((0, 41, "straight"), (600, 41, "straight")))
    assert "larger than the part is thick" in refused.value.diagnostics[0].message


@settings(max_examples=5)
@given(st.lists(st.tuples(st.integers(20, 90), st.integers(6, 20), st.sampled_from(WAYS)), min_size=2, max_size=4))
def test_any_profile_agrees_with_its_mesh(said_stations: list[tuple[int, int, str]]) -> None:
    along, stations = 0.0, []
    for index, (length, half, way) in enumerate(said_stations):
        before = stations[-1][1] if stations else 2 * half
        along += length if index else 0
        like = index and before == 2 * half
        steep = index and not fits((along - length, before / 2), (along, half), way)
        stations.append((along, 2.0 * half, "straight" if not index or like or steep else way))
    made(turned(*stations))
