"""Flat outlines cut into boards: volumes by plane geometry, forms against an independent mesh library (trimesh)."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from meshes import mesh_of
from timber import board, box, piece, said

from planbuild.core.diagnostics import Refused
from planbuild.core.geometry import Face
from planbuild.core.outlines import Corner
from planbuild.records.features import Chamfer, Feature
from planbuild.records.shaped import Sawn
from planbuild.records.solids import PartSolid
from planbuild.shape import shape

BODY = box(0, 400, 0, 60, 0, 20)
V = BODY.volume
AROUND_TOP = tuple((Face.TOP, side) for side in (Face.LEFT, Face.RIGHT, Face.FRONT, Face.BACK))


def sawn(*points: tuple[float, ...], id: str = "it", what: str = "cut-out", face: Face = Face.TOP, **more: object) -> Sawn:
    corners = tuple(Corner((x, y), *rest) for x, y, *rest in points)
    return Sawn(**said(id), face=face, corners=corners, what=what, **more)  # type: ignore[arg-type]


def square(x0: float, x1: float, y0: float, y1: float, radius: float = 0.0, **more: object) -> Sawn:
    return sawn((x0, y0, radius), (x1, y0, radius), (x1, y1, radius), (x0, y1, radius), **more)  # type: ignore[arg-type]


def made(*features: Feature) -> PartSolid:
    found = shape(piece(board(*features))).of["board"]
    assert found.cut.isValid()
    mesh = mesh_of(found.cut)
    assert mesh.is_watertight
    assert mesh.body_count == 1
    assert found.volume == pytest.approx(mesh.volume, rel=1e-3)
    return found


def test_a_hand_hole_goes_through() -> None:
    assert V - made(square(150, 250, 20, 40, 10)).volume == pytest.approx((100 * 20 - 100 * (4 - math.pi)) * 20)


def test_a_recess_has_a_floor() -> None:
    found = made(square(150, 250, 20, 40, 5, what="recess", depth=6.0))
    assert V - found.volume == pytest.approx((100 * 20 - 25 * (4 - math.pi)) * 6)
    assert found.centre[2] < 10, "taken from the top"


def test_a_recess_from_below_is_open_below() -> None:
    assert made(square(150, 250, 20, 40, what="recess", depth=6.0, face=Face.BOTTOM)).centre[2] > 10


def test_notches_at_a_corner_and_in_an_edge() -> None:
    corner, edge = square(0, 30, 40, 60, id="a", what="notch"), square(200, 240, 0, 15, id="b", what="notch")
    assert V - made(corner, edge).volume == pytest.approx((30 * 20 + 40 * 15) * 20)


def test_a_finger_hole_is_round_inside_only() -> None:
    """Half a circle of 15 on a straight mouth of 30."""
    hole = sawn((185, 0), (215, 0), (215, 15, 15), (185, 15, 15))
    assert V - made(hole).volume == pytest.approx(math.pi * 15**2 / 2 * 20)


def test_a_clipped_corner_is_a_triangle() -> None:
    assert V - made(sawn((30, 0), (0, 0), (0, 25), what="clipped corner")).volume == pytest.approx(30 * 25 / 2 * 20)


def test_a_pointed_end_is_clipped_from_both_sides() -> None:
    low = sawn((20, 0), (0, 0), (0, 30), id="a", what="clipped corner")
    high = sawn((20, 60), (0, 60), (0, 30), id="b", what="clipped corner")
    assert V - made(low, high).volume == pytest.approx(2 * 20 * 30 / 2 * 20)


def test_a_rounded_corner_and_an_edge_eased_along_it() -> None:
    """The easing follows the arc: it takes more than on the straight edges alone would be left of it."""
    corner = sawn((25, 0, 0.0, 25), (0, 0), (0, 25), id="r", what="rounded corner")
    alone = made(corner)
    assert V - alone.volume == pytest.approx((1 - math.pi / 4) * 25**2 * 20)
    size, eased = 2.0, made(corner, Chamfer(**said("c"), edges=AROUND_TOP, size=2.0, group="around top"))
    straight = (400 + 60) * 2 - 2 * 25
    arc = math.pi / 2 * (25 - size / 3)
    mitres = 3 * size**3 / 3
    assert alone.volume - eased.volume == pytest.approx(size**2 / 2 * (straight + arc) - mitres, rel=1e-3)


def test_an_outline_keeps_what_lies_within() -> None:
    points = ((0, 0), (400, 0), (400, 20), (200, 60, 30), (0, 20))
    found = made(sawn(*points, what="outline", keeps=True))
    polygon = 400 * 20 + 400 * 40 / 2
    angle = 2 * math.atan2(200, 40)
    lost = 30**2 * (1 / math.tan(angle / 2) - (math.pi - angle) / 2)
    assert found.volume == pytest.approx((polygon - lost) * 20)


def test_an_outline_with_an_inside_corner() -> None:
    points = ((0, 0), (400, 0), (400, 60), (300, 60), (300, 30, 10), (100, 30, 10), (100, 60), (0, 60))
    found = made(sawn(*points, what="outline", keeps=True))
    assert found.volume == pytest.approx((400 * 60 - 200 * 30 + 2 * 100 * (1 - math.pi / 4)) * 20)


def test_what_parts_the_board_is_told() -> None:
    with pytest.raises(Refused) as refused:
        made(square(100, 120, 0, 60, what="notch"))
    (fault,) = refused.value.diagnostics
    assert (fault.code, "2 pieces" in fault.message) == ("shape-failed", True)


@settings(max_examples=12)
@given(
    st.integers(0, 300), st.integers(10, 100), st.integers(0, 40), st.integers(5, 20), st.integers(0, 4),
    st.sampled_from([None, 5.0, 12.0]), st.sampled_from([Face.TOP, Face.BOTTOM]),
)  # fmt: skip
def test_square_openings_anywhere(x: int, long: int, y: int, wide: int, radius: int, depth: float | None, face: Face) -> None:
    """Inside the board, at its rim or at a corner: the volume is always that of the numbers."""
    rim = [(px, py) for px in (x, x + long) for py in (y, y + wide) if px in (0, 400) or py in (0, 60)]
    r = 0.0 if rim else float(min(radius, wide / 2, long / 2))
    found = shape(piece(board(square(x, x + long, y, y + wide, r, depth=depth, face=face)))).of["board"]
    assert BODY.volume - found.volume == pytest.approx((long * wide - r * r * (4 - math.pi)) * (depth or 20), rel=1e-6)
