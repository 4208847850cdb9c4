"""Slanted ends and mortises askew: volumes by hand, and against an independent mesh library."""

from __future__ import annotations

import math

import pytest
from meshes import mesh_of
from timber import BOTTOM_TOP, FRONT_BACK, PLAIN, board, box, piece, said

from planbuild.core.diagnostics import Refused
from planbuild.core.geometry import Face, Motion
from planbuild.core.poses import Pose
from planbuild.records.features import Mate
from planbuild.records.piece import Part
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.shape import shape

TAN10, TAN5 = (math.tan(math.radians(angle)) for angle in (10, 5))


def angled(pose: Pose, void: tuple[float, ...] = (180, 220, 20, 40, 0, 20), **more: object) -> AngledMortise:
    fields = {"face": Face.TOP, "void": box(*void), "pose": pose, "mate": Mate("x"), "through": True, **more}
    return AngledMortise(**said("m"), **fields)


def about(way: tuple[float, float, float], angle: float) -> Pose:
    return Pose.turning(way, angle, (200, 30, 20))


def volume(part: Part) -> float:
    return shape(piece(part)).of[part.id].volume


def test_a_turned_mortise_takes_its_own_size() -> None:
    assert volume(board(angled(about((0, 0, 1), 30)))) == pytest.approx(PLAIN.volume - 40 * 20 * 20)


def test_a_blind_turned_mortise() -> None:
    blind = angled(about((0, 0, 1), -20), (180, 220, 20, 40, 8, 20), through=False)
    assert volume(board(blind)) == pytest.approx(PLAIN.volume - 40 * 20 * 12)


def test_a_leaning_through_mortise_is_longer_by_the_cosine() -> None:
    lean = about((0, 1, 0), 8)
    deep = 20 / math.cos(math.radians(8))
    part = board(angled(lean, (180, 220, 20, 40, 20 - deep, 20)))
    assert volume(part) == pytest.approx(PLAIN.volume - 40 * 20 * deep)


def test_a_leaning_blind_mortise_keeps_its_depth_in_the_middle() -> None:
    lean = Pose.turning((1, 2, 0), 7, (200, 30, 20))
    part = board(angled(lean, (180, 220, 20, 40, 8, 20), through=False))
    assert volume(part) == pytest.approx(PLAIN.volume - 40 * 20 * 12)


def test_a_compound_end_takes_a_wedge_whose_mean_is_at_the_centre_line() -> None:
    """The plane crosses the centre line at 380: so 20 mm of length go, whatever the angles (plane geometry)."""
    cut = EndCut(**said("end"), end=Face.RIGHT, at=380.0, slopes=((FRONT_BACK, 10.0), (BOTTOM_TOP, -5.0)))
    assert cut.beyond(PLAIN) == pytest.approx(30 * TAN10 + 10 * TAN5)
    part = board(cut)
    assert volume(part) == pytest.approx(PLAIN.volume - 20 * 60 * 20)
    assert (cut.longer(FRONT_BACK), cut.longer(BOTTOM_TOP)) == (Face.BACK, Face.BOTTOM)
    whole = shape(piece(part)).of["board"].cut
    corners = [v.toTuple() for v in whole.Vertices()]
    for y in (0, 60):
        for z in (0, 20):
            found = max(x for x, *rest in corners if rest == pytest.approx([y, z], abs=1e-6))
            assert found == pytest.approx(380 + (y - 30) * TAN10 - (z - 10) * TAN5)


def test_the_normal_and_the_angle_from_square() -> None:
    """tan2 of the resultant is the sum of the two tan2 (plane geometry)."""
    cut = EndCut(**said("end"), end=Face.LEFT, at=10.0, slopes=((FRONT_BACK, 10.0), (BOTTOM_TOP, 5.0)))
    assert math.tan(math.radians(cut.from_square)) == pytest.approx(math.hypot(TAN10, TAN5))
    assert cut.normal[0] < 0 and math.hypot(*cut.normal) == pytest.approx(1)


def test_an_end_cut_beyond_the_other_end_is_told() -> None:
    cut = EndCut(**said("end"), end=Face.RIGHT, at=10.0, slopes=((FRONT_BACK, 45.0), (BOTTOM_TOP, 0.0)))
    with pytest.raises(Refused) as caught:
        shape(piece(board(cut)))
    assert "other end" in caught.value.diagnostics[0].message


def test_a_posed_copy_stands_where_its_pose_and_motion_say() -> None:
    """A board turned by 30 degrees and its mirror image: bounding boxes by hand, volumes kept, inside still inside."""
    pose = Pose.turning((1, 0, 0), 30, PLAIN.centre)
    mirror = Motion((1, -1, 1), (0.0, 200.0, 0.0))
    part = board(copies=(Motion(), mirror), pose=pose)
    solids = shape(piece(part))
    half = (60 * math.cos(math.radians(30)) + 20 * math.sin(math.radians(30))) / 2
    for copy, middle in ((0, 30.0), (1, 170.0)):
        around = solids.placed["board", copy].BoundingBox()
        assert (around.ymin, around.ymax) == pytest.approx((middle - half, middle + half), abs=1e-5)
        assert part.box(copy, part.body).y.low == pytest.approx(middle - half)
        assert solids.placed["board", copy].Volume() == pytest.approx(PLAIN.volume)
    assert part.way(1, Face.TOP) == pytest.approx((0, 0.5, math.cos(math.radians(30))))


def test_against_a_mesh() -> None:
    part = board(
        angled(Pose.turning((1, 2, 3), 25, (120, 30, 20)), (110, 130, 24, 36, 10, 20), through=False),
        EndCut(**said("end"), end=Face.RIGHT, at=380.0, slopes=((FRONT_BACK, 12.0), (BOTTOM_TOP, 6.0))),
        EndCut(**said("other"), end=Face.LEFT, at=20.0, slopes=((FRONT_BACK, 12.0), (BOTTOM_TOP, 6.0))),
    )
    solid = shape(piece(part)).of["board"]
    mesh = mesh_of(solid.cut)
    assert mesh.is_watertight
    assert solid.volume == pytest.approx(mesh.volume, rel=1e-5)
    assert solid.centre == pytest.approx(tuple(mesh.center_mass), abs=1e-3)
