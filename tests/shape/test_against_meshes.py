"""Volumes and centres of mass of whole parts against an independent mesh library (trimesh), to 0.1 %."""

from __future__ import annotations

import pytest
from meshes import check_against_meshes
from timber import BOTTOM_TOP, FRONT_BACK, LEFT_RIGHT, board, box, flared_post, piece, said, wedge, wedged_rail

from planbuild.core.geometry import Face, Span1
from planbuild.core.outlines import Corner
from planbuild.core.poses import Pose
from planbuild.records.features import (
    Arch,
    Chamfer,
    Curve,
    EdgeBevel,
    Groove,
    Hole,
    Mate,
    Mortise,
    RoundOver,
    Slot,
    Taper,
    Tenon,
)
from planbuild.records.piece import Part, Piece
from planbuild.records.shaped import Moulding, Sawn
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.records.tails import Comb, Sockets, Tails

LONG = tuple((a, b) for a in (Face.FRONT, Face.BACK) for b in (Face.BOTTOM, Face.TOP))
WAVE = ((0.0, 4.0), (100.0, 12.0), (220.0, 3.0), (400.0, 9.0))

ROW = Comb(box(384, 400, 0, 60, 0, 20), Face.RIGHT, FRONT_BACK, (Span1(8, 26), Span1(34, 52)), 1 / 6)
HOUSING = Comb(box(100, 120, 0, 60, 14, 20), Face.BOTTOM, LEFT_RIGHT, (Span1(101, 119),), 1 / 8)
RIM = tuple(Corner(at, radius) for at, radius in (((0, 5), 0), ((380, 0), 6), ((400, 40), 9), ((200, 60), 0), ((10, 55), 12)))

PARTS: tuple[Part, ...] = (
    board(
        Arch(**said("arch"), face=Face.FRONT, rise=15, start=60, stop=340),
        Chamfer(**said("soft"), edges=LONG, size=2),
        Groove(**said("groove"), face=Face.TOP, void=box(0, 400, 45, 50, 12, 20)),
        Tenon(**said("t"), end=Face.RIGHT, block=box(400, 430, 25, 45, 6, 14), mate=Mate("x")),
        id="arched",
    ),
    board(
        Curve(**said("curve"), face=Face.BACK, points=WAVE),
        RoundOver(**said("soft"), edges=((Face.TOP, Face.FRONT),), radius=6),
        Chamfer(**said("fine"), edges=((Face.TOP, Face.BACK),), size=1),
        Hole(**said("h"), face=Face.TOP, centre=(100, 20, 20), diameter=9, depth=None, counterbore=(16, 5)),
        id="wavy",
    ),
    board(
        Taper(**said("taper"), faces=(Face.FRONT, Face.BACK), end=Face.RIGHT, start=80, leaving=((FRONT_BACK, 25),)),
        Chamfer(**said("long"), edges=LONG, size=3),
        Chamfer(**said("foot"), edges=tuple((Face.RIGHT, f) for f in (Face.FRONT, Face.BACK)), size=3),
        Mortise(**said("m"), face=Face.FRONT, void=box(20, 60, 0, 60, 6, 14), mate=Mate("x"), through=True),
        id="tapered",
    ),
    flared_post(),
    wedged_rail(),
    wedge(),
    board(
        Tails(**said("tails"), comb=ROW, mate=Mate("x")),
        EdgeBevel(**said("field"), edge=(Face.LEFT, Face.TOP), margin=40, depth=8, step=2),
        Moulding(**said("cove"), edges=((Face.FRONT, Face.BOTTOM),), form="cove", size=5, reach=(60, 300)),
        id="tailed",
    ),
    board(
        Sockets(**said("housing"), comb=HOUSING, mate=Mate("x"), what="housing"),
        Hole(
            **said("h"),
            face=Face.TOP,
            centre=(300, 30, 20),
            diameter=5,
            depth=None,
            slot=Slot(LEFT_RIGHT, 14),
            countersink=(9, 90),
        ),
        EndCut(**said("cut"), end=Face.RIGHT, at=380, slopes=((FRONT_BACK, 12.0), (BOTTOM_TOP, -5.0))),
        id="housed",
    ),
    board(
        Sawn(**said("rim"), face=Face.TOP, corners=RIM, what="outline", keeps=True),
        AngledMortise(
            **said("askew"),
            face=Face.TOP,
            void=box(180, 220, 24, 36, 5, 20),
            pose=Pose.turning((0.0, 1.0, 0.0), 10.0, (200.0, 30.0, 20.0)),
            mate=Mate("x"),
        ),
        id="outlined",
    ),
)


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.id)
def test_part_against_its_mesh(part: Part) -> None:
    check_against_meshes(piece(part))


def test_bench_against_its_meshes(bench_piece: Piece) -> None:
    check_against_meshes(bench_piece)
