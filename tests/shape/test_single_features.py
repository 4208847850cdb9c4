"""One feature on one board: the volume is what plane geometry says, and the centre where it must be."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from timber import BOTTOM_TOP, FRONT_BACK, board, box, piece, said

from planbuild.core.geometry import Face
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    EdgeBevel,
    Feature,
    Groove,
    Hole,
    Mate,
    Mitre,
    Mortise,
    Rabbet,
    RoundOver,
    Slot,
    Taper,
    Tenon,
)
from planbuild.records.piece import Part
from planbuild.records.solids import PartSolid
from planbuild.shape import shape

BODY = box(0, 400, 0, 60, 0, 20)
V = BODY.volume
LONG = tuple((a, b) for a in (Face.FRONT, Face.BACK) for b in (Face.BOTTOM, Face.TOP))
AROUND_TOP = tuple((Face.TOP, side) for side in (Face.LEFT, Face.RIGHT, Face.FRONT, Face.BACK))


def solid(part: Part) -> PartSolid:
    return shape(piece(part)).of[part.id]


def volume(*features: Feature) -> float:
    made = solid(board(*features))
    assert made.cut.isValid()
    assert made.cut.Volume() == pytest.approx(made.volume)
    return made.volume


def segment(chord: float, rise: float) -> float:
    """Area of a circular segment by summing thin strips, apart from the formula under test."""
    radius = (chord**2 / 4 + rise**2) / (2 * rise)
    strips = 20000
    places = ((index + 0.5) / strips * chord - chord / 2 for index in range(strips))
    return sum(math.sqrt(radius**2 - x**2) - (radius - rise) for x in places) * chord / strips


def test_plain_board() -> None:
    made = solid(board())
    assert made.volume == pytest.approx(V)
    assert made.centre == pytest.approx((200, 30, 10))
    assert made.box == BODY
    assert made.fitted is made.cut


def test_mortise() -> None:
    void = box(100, 140, 0, 15, 5, 15)
    assert V - volume(Mortise(**said(), face=Face.FRONT, void=void, mate=Mate("x"))) == pytest.approx(40 * 15 * 10)


def test_through_mortise_opens_at_both_faces() -> None:
    void = box(100, 140, 0, 60, 5, 15)
    made = solid(board(Mortise(**said(), face=Face.FRONT, void=void, mate=Mate("x"), through=True)))
    assert V - made.volume == pytest.approx(40 * 60 * 10)
    assert len(made.cut.Faces()) == 10


def test_meeting_mortises_count_their_common_wood_once() -> None:
    one = Mortise(**said("a"), face=Face.FRONT, void=box(100, 140, 0, 30, 5, 15), mate=Mate("x"))
    other = Mortise(**said("b"), face=Face.BOTTOM, void=box(110, 130, 20, 40, 0, 12), mate=Mate("y"))
    assert V - volume(one, other) == pytest.approx(40 * 30 * 10 + 20 * 20 * 12 - 20 * 10 * 7)


def test_groove_and_rabbet_run_out_at_the_ends() -> None:
    groove = Groove(**said("g"), face=Face.TOP, void=box(0, 400, 25, 31, 14, 20))
    rabbet = Rabbet(**said("r"), edge=(Face.BOTTOM, Face.BACK), void=box(0, 400, 50, 60, 0, 8))
    assert V - volume(groove, rabbet) == pytest.approx(400 * 6 * 6 + 400 * 10 * 8)


@pytest.mark.parametrize("depth, deep", [(None, 20), (12, 12)])
def test_hole(depth: float | None, deep: float) -> None:
    hole = Hole(**said(), face=Face.TOP, centre=(50, 30, 20), diameter=8, depth=depth)
    assert V - volume(hole) == pytest.approx(math.pi * 16 * deep, rel=1e-6)


def test_counterbored_hole() -> None:
    hole = Hole(**said(), face=Face.BOTTOM, centre=(50, 30, 0), diameter=5, depth=None, counterbore=(10, 6))
    assert V - volume(hole) == pytest.approx(math.pi * (25 * 6 + 6.25 * 14), rel=1e-6)


def test_taper_of_one_face() -> None:
    made = solid(board(Taper(**said(), faces=(Face.BACK,), end=Face.RIGHT, start=100, leaving=((FRONT_BACK, 40),))))
    assert V - made.volume == pytest.approx(20 * 300 / 2 * 20)
    # Moment of the wedge taken off: it lies 2/3 of the way to its thick end, 1/3 of its depth in.
    wedge = 20 * 300 / 2 * 20
    assert made.centre[0] == pytest.approx((V * 200 - wedge * (100 + 200)) / (V - wedge))
    assert made.centre[1] == pytest.approx((V * 30 - wedge * (60 - 20 / 3)) / (V - wedge))


def test_taper_of_two_opposite_faces_shares_the_slope() -> None:
    both = Taper(**said(), faces=(Face.FRONT, Face.BACK), end=Face.LEFT, start=300, leaving=((FRONT_BACK, 30),))
    made = solid(board(both))
    assert V - made.volume == pytest.approx(2 * 15 * 300 / 2 * 20)
    assert made.centre[1] == pytest.approx(30)


def test_bevel_keeps_one_edge() -> None:
    bevel = Bevel(**said(), face=Face.BACK, keeps=Face.TOP, angle=30)
    made = solid(board(bevel))
    assert V - made.volume == pytest.approx(20 * 20 * math.tan(math.radians(30)) / 2 * 400)
    assert made.box.y.high == 60
    end = solid(board(Bevel(**said(), face=Face.RIGHT, keeps=Face.BOTTOM, angle=5)))
    assert V - end.volume == pytest.approx(20 * 20 * math.tan(math.radians(5)) / 2 * 60)


def test_bevelled_edges_take_a_wedge_each_and_mitre_at_their_corner() -> None:
    long = EdgeBevel(**said("long"), edge=(Face.FRONT, Face.BOTTOM), margin=24, depth=12)
    end = EdgeBevel(**said("end"), edge=(Face.RIGHT, Face.BOTTOM), margin=24, depth=12)
    assert V - volume(long) == pytest.approx(24 * 12 / 2 * 400)
    # what both take at their corner is a pyramid over 24 x 24, 12 high, counted once
    assert V - volume(long, end) == pytest.approx(24 * 12 / 2 * (400 + 60) - 24 * 24 * 12 / 3)


def test_a_hole_in_the_floor_of_a_rabbet_is_as_deep_as_it_says_from_there() -> None:
    step = Rabbet(**said("step"), edge=(Face.TOP, Face.BACK), void=box(0, 400, 50, 60, 12, 20))
    hole = Hole(**said("hole"), face=Face.TOP, centre=(200, 55, 12), diameter=4, depth=8)
    assert V - volume(step, hole) == pytest.approx(400 * 10 * 8 + math.pi * 2**2 * 8)


def test_arch() -> None:
    arch = Arch(**said(), face=Face.FRONT, rise=12, start=50, stop=350)
    assert V - volume(arch) == pytest.approx(segment(300, 12) * 20, rel=1e-5)


def test_half_round_arch() -> None:
    arch = Arch(**said(), face=Face.FRONT, rise=25, start=175, stop=225)
    assert V - volume(arch) == pytest.approx(math.pi * 25**2 / 2 * 20, rel=1e-6)


def test_crown_leaves_the_middle_standing() -> None:
    crown = Arch(**said(), face=Face.BACK, rise=12, start=0, stop=400, crown=True)
    made = solid(board(crown))
    assert V - made.volume == pytest.approx((400 * 12 - segment(400, 12)) * 20, rel=1e-5)
    assert made.box == BODY


def test_curve_runs_fair_through_its_points() -> None:
    """Eleven points of a half wave; its area is 2/pi of the box around it (calculus)."""
    points = tuple((x, 10 * math.sin(math.pi * x / 400)) for x in range(0, 401, 40))
    made = solid(board(Curve(**said(), face=Face.FRONT, points=points)))
    assert V - made.volume == pytest.approx(10 * 400 * 2 / math.pi * 20, rel=2e-4)


@pytest.mark.parametrize("edge", LONG)
def test_chamfer_of_one_edge(edge: tuple[Face, Face]) -> None:
    assert V - volume(Chamfer(**said(), edges=(edge,), size=3)) == pytest.approx(4.5 * 400)


def test_chamfer_around_meets_in_mitres() -> None:
    made = solid(board(Chamfer(**said(), edges=AROUND_TOP, size=3)))
    # Four prisms, less what two of them share at each corner (a pyramid of s^3 / 3, by integration).
    assert V - made.volume == pytest.approx(4.5 * (2 * 400 + 2 * 60) - 4 * 27 / 3)
    assert len(made.cut.Faces()) == 10


def test_round_over_around() -> None:
    made = solid(board(RoundOver(**said(), edges=((Face.TOP, Face.FRONT),), radius=5)))
    assert V - made.volume == pytest.approx((25 - math.pi * 25 / 4) * 400, rel=1e-6)
    around = solid(board(RoundOver(**said(), edges=AROUND_TOP, radius=5)))
    # What two edges share at a corner: the integral of (r - sqrt(r^2 - (r - z)^2))^2, which is r^3 (5/3 - pi/2).
    assert V - around.volume == pytest.approx((25 - math.pi * 25 / 4) * 920 - 4 * 125 * (5 / 3 - math.pi / 2), rel=1e-6)
    assert len(around.cut.Faces()) == 10


def test_stopped_chamfer() -> None:
    stopped = Chamfer(**said(), edges=((Face.TOP, Face.FRONT),), size=3, reach=(40, 300))
    assert V - volume(stopped) == pytest.approx(4.5 * 260)


def test_a_soft_edge_across_a_large_thin_panel() -> None:
    """A tenth of a cubic mm off fifteen million: less than the kernel can tell of the whole."""
    panel = box(0, 2400, 0, 1000, 0, 6)
    soft = RoundOver(**said("soft"), edges=((Face.FRONT, Face.LEFT),), radius=0.3)
    assert solid(board(soft, body=panel)).cut.isValid()


def test_chamfer_follows_an_arch() -> None:
    arch = Arch(**said("arch"), face=Face.FRONT, rise=12, start=50, stop=350)
    chamfer = Chamfer(**said("soft"), edges=((Face.FRONT, Face.TOP), (Face.FRONT, Face.BOTTOM)), size=2)
    made = solid(board(arch, chamfer))
    half = math.asin(150 / arch.radius)
    # Pappus: the arc's chamfer is turned about the arc's centre at the radius of its own centre of area.
    turned = 2 * half * (arch.radius + 2 / 3) * 2
    flat = 100 * 2
    assert V - segment(300, 12) * 20 - made.volume == pytest.approx(2 * (turned + flat), rel=2e-3)
    assert len(made.cut.Faces()) == 8 + 6


def test_chamfer_follows_a_curve() -> None:
    points = tuple((x, 10 * math.sin(math.pi * x / 400)) for x in range(0, 401, 40))
    curve = Curve(**said("curve"), face=Face.FRONT, points=points)
    chamfer = Chamfer(**said("soft"), edges=((Face.FRONT, Face.TOP),), size=2)
    taken = volume(curve) - volume(curve, chamfer)
    length = sum(math.hypot(b[0] - a[0], b[1] - a[1]) for a, b in zip(points, points[1:], strict=False))
    assert taken == pytest.approx(2 * length, rel=5e-3)


def test_chamfer_around_a_tapered_end_uses_the_end_as_it_is_now() -> None:
    taper = Taper(**said("taper"), faces=(Face.BACK,), end=Face.RIGHT, start=100, leaving=((FRONT_BACK, 30),))
    foot = Chamfer(
        **said("foot"), edges=tuple((Face.RIGHT, f) for f in (Face.FRONT, Face.BACK, Face.TOP, Face.BOTTOM)), size=2
    )
    assert volume(taper) - volume(taper, foot) == pytest.approx(2 * (2 * 20 + 2 * 30) - 4 * 8 / 3, rel=0.01)


def test_tenon_counts_to_the_box_and_stands_beyond_the_shoulder() -> None:
    tenon = Tenon(**said(), end=Face.RIGHT, block=box(400, 430, 10, 50, 6, 14), mate=Mate("x"))
    made = solid(board(tenon))
    assert made.volume - V == pytest.approx(30 * 40 * 8)
    assert made.box == box(0, 430, 0, 60, 0, 20)


def test_a_tenon_beside_a_long_flat_arch() -> None:
    """The kernel's volume of such a board is off by more than a millionth."""
    long = box(0, 1326, 0, 16, 0, 50)
    arch = Arch(**said("arch"), face=Face.BOTTOM, rise=30, start=198.75, stop=1326)
    hole = Hole(**said("hole"), face=Face.BOTTOM, centre=(663, 8, 0), diameter=7, depth=None)
    tenon = Tenon(**said("t"), end=Face.LEFT, block=box(-19, 0, 4, 12, 6, 41), mate=Mate("x"))
    grown = (solid(board(arch, hole, *more, body=long, face=Face.FRONT, edge=Face.TOP)).volume for more in ((tenon,), ()))
    assert next(grown) - next(grown) == pytest.approx(19 * 8 * 35, abs=7)


def test_tenons_of_a_board_with_two_curves() -> None:
    """The kernel's volume of such a board is off by more than a part of a tenon; what they share is measured then."""
    deep = Curve(**said("deep"), face=Face.BOTTOM, points=tuple((36.5 * i, 5.0 if i == 1 else 10.0) for i in range(6)))
    low = Curve(**said("low"), face=Face.FRONT, points=((0, 4.5), (91, 2.8), (182.5, 4.5)))
    tenons = [
        Tenon(**said(end.value), end=end, block=box(*span, 0, 28, 9, 16), mate=Mate("x"))
        for end, span in ((Face.LEFT, (-19, 0)), (Face.RIGHT, (182.5, 201.5)))
    ]
    with_all, bare = (solid(board(deep, low, *more, body=box(0, 182.5, 0, 38, 0, 25))) for more in (tenons, ()))
    assert with_all.volume - bare.volume == pytest.approx(2 * 19 * 28 * 7, abs=30)


def test_chamfers_of_the_body_spare_its_tenon() -> None:
    tenon = Tenon(**said("t"), end=Face.RIGHT, block=box(400, 430, 0, 60, 0, 8), mate=Mate("x"))
    chamfer = Chamfer(**said("c"), edges=LONG, size=2)
    taper = Taper(**said("a"), faces=(Face.TOP,), end=Face.RIGHT, start=300, leaving=((BOTTOM_TOP, 10),))
    assert volume(chamfer, taper, tenon) - volume(chamfer, taper) == pytest.approx(30 * 60 * 8)


@pytest.mark.parametrize("start, area", [(22, 30 * 8 - 8 * 8 / 2), (26, 30 * 8 - 4 * 4 / 2)])
def test_mitred_tenon(start: float, area: float) -> None:
    """Cut at 45 degrees right across (22 + 8 = 30) or only near the short face."""
    mitre = Mitre(Face.TOP, start)
    tenon = Tenon(**said(), end=Face.LEFT, block=box(-30, 0, 10, 50, 6, 14), mate=Mate("x"), mitre=mitre)
    assert volume(tenon) - V == pytest.approx(area * 40)


SIZES: dict[str, Callable[[float, float], tuple[Feature, float]]] = {
    "mortise": lambda a, b: (
        Mortise(**said(), face=Face.TOP, void=box(50, 50 + 100 * a, 20, 40, 20 - 15 * b, 20), mate=Mate("x")),
        100 * a * 20 * 15 * b,
    ),
    "taper": lambda a, b: (
        Taper(**said(), faces=(Face.FRONT,), end=Face.LEFT, start=390 * a, leaving=((FRONT_BACK, 60 - 50 * b),)),
        390 * a * 50 * b / 2 * 20,
    ),
    "chamfer": lambda a, b: (Chamfer(**said(), edges=LONG, size=9.9 * a), 4 * (9.9 * a) ** 2 / 2 * 400),
    "round over": lambda a, b: (RoundOver(**said(), edges=LONG, radius=9.9 * a), (4 - math.pi) * (9.9 * a) ** 2 * 400),
    "bevel": lambda a, b: (
        Bevel(**said(), face=Face.FRONT, keeps=Face.BOTTOM, angle=60 * a),
        20**2 * math.tan(math.radians(60 * a)) / 2 * 400,
    ),
    "edge bevel": lambda a, b: (
        EdgeBevel(**said(), edge=(Face.BACK, Face.TOP), margin=59 * a, depth=19 * b),
        59 * a * 19 * b / 2 * 400,
    ),
    "arch": lambda a, b: (
        Arch(**said(), face=Face.BACK, rise=50 * b * a, start=200 - 190 * a, stop=200 + 190 * a),
        segment(380 * a, 50 * b * a) * 20,
    ),
    "hole": lambda a, b: (
        Hole(**said(), face=Face.FRONT, centre=(50, 0, 10), diameter=18 * a, depth=55 * b),
        math.pi * (9 * a) ** 2 * 55 * b,
    ),
}
share = st.floats(0.1, 1.0, allow_nan=False)


@pytest.mark.parametrize("kind", SIZES)
@settings(max_examples=12)
@given(a=share, b=share)
def test_any_size_takes_what_its_numbers_say(kind: str, a: float, b: float) -> None:
    feature, taken = SIZES[kind](a, b)
    assert V - volume(feature) == pytest.approx(taken, rel=1e-4, abs=0.01)


def test_a_slot_is_two_half_rounds_and_what_lies_between() -> None:
    slot = Hole(**said(), face=Face.BOTTOM, centre=(100, 30, 0), diameter=6, depth=None, slot=Slot(FRONT_BACK, 16))
    area = math.pi * 9 + 6 * 10
    assert volume(slot) == pytest.approx(V - 20 * area)
    deep = replace(slot, counterbore=(10, 12))
    assert volume(deep) == pytest.approx(V - 8 * area - 12 * (math.pi * 25 + 10 * 10))


def test_a_slot_no_longer_than_its_drill_is_a_round_hole() -> None:
    slot = Hole(**said(), face=Face.BOTTOM, centre=(100, 30, 0), diameter=6, depth=None, slot=Slot(FRONT_BACK, 6))
    assert volume(slot) == pytest.approx(V - 20 * math.pi * 9)


@settings(max_examples=10)
@given(wide=st.floats(5, 12), angle=st.sampled_from([82, 90]))
def test_a_countersink_is_a_cone_as_wide_as_the_head(wide: float, angle: float) -> None:
    """By thin slices, apart from the formula of the cone."""
    sunk = Hole(**said(), face=Face.TOP, centre=(100, 30, 20), diameter=4, depth=None, countersink=(wide, angle))
    deep = (wide - 4) / 2 / math.tan(math.radians(angle / 2))
    slices = 2000
    radii = (wide / 2 - (wide - 4) / 2 * (index + 0.5) / slices for index in range(slices))
    cone = sum(math.pi * (radius**2 - 4) for radius in radii) * deep / slices
    assert volume(sunk) == pytest.approx(V - 20 * math.pi * 4 - cone, rel=1e-6)
