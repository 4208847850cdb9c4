"""Boards by hand, one for each kind of feature that the bench has not: a sheet must be able to show them all.

Units: mm.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from timber import BOTTOM_TOP, FRONT_BACK, LEFT_RIGHT, board, box, said

from planbuild.core.geometry import Face, Span1
from planbuild.core.poses import Pose
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    EdgeBevel,
    Groove,
    Hole,
    Mate,
    Mortise,
    Rabbet,
    RoundOver,
    Taper,
    Tenon,
)
from planbuild.records.piece import Part
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.records.tails import Comb, Slim, Sockets, Tails

LONG_EDGES = ((Face.FRONT, Face.TOP), (Face.BACK, Face.TOP))
MATE = Mate("board", (0,))
WIDE = box(0, 400, 0, 100, 0, 20)


def plain() -> Part:
    return board()


def panel() -> Part:
    return board(body=box(0, 800, 0, 400, 0, 20))


def rounded() -> Part:
    return board(RoundOver(**said("round"), edges=LONG_EDGES, radius=4.0, group="long"))


def stopped_chamfer() -> Part:
    return board(Chamfer(**said("stopped"), edges=LONG_EDGES[:1], size=5.0, reach=(60.0, 340.0)))


def stopped_chamfer_off_the_drawn_faces() -> Part:
    """The holes are seen on the right, the chamfer is not."""
    chamfer = Chamfer(**said("stopped"), edges=((Face.LEFT, Face.TOP),), size=3.0, reach=(60.0, 340.0))
    hole = Hole(**said("hole"), face=Face.RIGHT, centre=(20, 100, 30), diameter=6.0, depth=12.0)
    return board(chamfer, hole, body=box(0, 20, 0, 400, 0, 60), grain=FRONT_BACK, face=Face.RIGHT, edge=Face.TOP)


def chamfered_end() -> Part:
    """One edge across the grain: its profile is seen from the sides alone."""
    return board(Chamfer(**said("end"), edges=((Face.RIGHT, Face.TOP),), size=5.0))


def tapered_on_two_sides() -> Part:
    taper = Taper(**said("taper"), faces=(Face.LEFT, Face.RIGHT), end=Face.BOTTOM, start=500.0, leaving=((LEFT_RIGHT, 24.0),))
    return board(taper, body=box(0, 40, 0, 40, 0, 700), grain=BOTTOM_TOP, face=Face.FRONT, edge=Face.LEFT)


def tapered_on_four_sides() -> Part:
    faces = (Face.LEFT, Face.RIGHT, Face.FRONT, Face.BACK)
    taper = Taper(**said("taper"), faces=faces, end=Face.BOTTOM, start=500.0, leaving=((LEFT_RIGHT, 24.0), (FRONT_BACK, 28.0)))
    return board(taper, body=box(0, 40, 0, 40, 0, 700), grain=BOTTOM_TOP, face=Face.FRONT, edge=Face.LEFT)


def crowned() -> Part:
    return board(Arch(**said("crown"), face=Face.FRONT, rise=10.0, start=0.0, stop=400.0, crown=True))


def curved() -> Part:
    return board(Curve(**said("curve"), face=Face.FRONT, points=((0.0, 5.0), (150.0, 14.0), (400.0, 0.0))))


def bevelled() -> Part:
    return board(Bevel(**said("bevel"), face=Face.FRONT, keeps=Face.TOP, angle=12.0))


def bevelled_end() -> Part:
    return board(Bevel(**said("bevel"), face=Face.RIGHT, keeps=Face.FRONT, angle=8.0))


def bevelled_edges() -> Part:
    """The front edge and both ends sloped off below, as a drawer bottom is."""
    edges = {"front": Face.FRONT, "left": Face.LEFT, "right": Face.RIGHT}
    return board(*(EdgeBevel(**said(id), edge=(face, Face.BOTTOM), margin=24.0, depth=12.0) for id, face in edges.items()))


def grooved() -> Part:
    return board(Groove(**said("groove"), face=Face.TOP, void=box(0, 400, 10, 16, 12, 20)))


def stopped_groove() -> Part:
    return board(Groove(**said("groove"), face=Face.TOP, void=box(50, 350, 10, 16, 12, 20)))


def housed() -> Part:
    """A groove across the grain."""
    return board(Groove(**said("housing"), face=Face.TOP, void=box(100, 118, 0, 60, 14, 20)))


def stopped_housing() -> Part:
    """It begins inside the front edge: only a cut along the board shows its depth and its width at once."""
    void = box(100, 118, 10, 60, 14, 20)
    return board(Groove(**said("housing"), face=Face.TOP, void=void, what="housing"))


def rabbeted() -> Part:
    return board(Rabbet(**said("rabbet"), edge=(Face.TOP, Face.BACK), void=box(0, 400, 50, 60, 12, 20)))


def end_rabbeted() -> Part:
    return board(Rabbet(**said("rabbet"), edge=(Face.TOP, Face.RIGHT), void=box(380, 400, 0, 60, 12, 20)))


def bored() -> Part:
    holes = (
        Hole(**said("pin.1"), face=Face.TOP, centre=(60, 20, 20), diameter=6.0, depth=12.0),
        Hole(**said("pin.2"), face=Face.TOP, centre=(340, 20, 20), diameter=6.0, depth=12.0),
        Hole(**said("screw"), face=Face.TOP, centre=(200, 40, 20), diameter=4.5, depth=None, counterbore=(10.0, 8.0), gauge="8"),
    )
    return board(*holes)


def bored_in_the_edge_and_end() -> Part:
    edge = Hole(**said("edge"), face=Face.FRONT, centre=(120, 0, 10), diameter=8.0, depth=30.0)
    end = Hole(**said("end"), face=Face.LEFT, centre=(0, 30, 10), diameter=8.0, depth=25.0)
    return board(edge, end)


def mortised_on_three_faces() -> Part:
    return board(
        Mortise(**said("a"), face=Face.FRONT, void=box(30, 90, 0, 25, 15, 25), mate=MATE),
        Mortise(**said("b"), face=Face.TOP, void=box(150, 190, 15, 25, 20, 40), mate=MATE),
        Mortise(**said("c"), face=Face.BACK, void=box(300, 350, 20, 40, 15, 25), mate=MATE),
        body=box(0, 600, 0, 40, 0, 40),
    )


def a_long_shelf_full_of_holes() -> Part:
    """No stretch of it is dull enough to be left out, so it is drawn small."""
    holes = [
        Hole(**said(f"pin.{i}"), face=Face.TOP, centre=(150 + 300 * i, 75 + 100 * (i % 2), 25), diameter=20.0, depth=8.0)
        for i in range(12)
    ]
    return board(*holes, body=box(0, 3750, 0, 250, 0, 25))


def mortised_deep_and_deeper() -> Part:
    """Each mortise has a depth and a place of its own, so each asks for a section of its own."""
    spots = [(20.0 + 60 * i, 4.0 + i) for i in range(10)]
    mortises = [
        Mortise(**said(f"m.{i}"), face=Face.TOP, void=box(x, x + 30, 15, 25, 40 - deep, 40), mate=MATE)
        for i, (x, deep) in enumerate(spots)
    ]
    return board(*mortises, body=box(0, 640, 0, 40, 0, 40))


def mortised_end() -> Part:
    return board(Mortise(**said("end"), face=Face.RIGHT, void=box(370, 400, 20, 40, 6, 14), mate=MATE))


def tenoned_at_one_end() -> Part:
    return board(Tenon(**said("tenon"), end=Face.RIGHT, block=box(400, 430, 5, 50, 6, 14), mate=MATE))


def tenoned_unlike() -> Part:
    one = Tenon(**said("left"), end=Face.LEFT, block=box(-30, 0, 5, 50, 6, 14), mate=MATE)
    return board(one, replace(one, id="right", end=Face.RIGHT, block=box(400, 440, 0, 50, 0, 8)))


def long_and_thin() -> Part:
    return board(body=box(0, 2400, 0, 18, 0, 12))


def dovetailed() -> Part:
    """Tails at one end, of which the middle one is wider, and pins at the other, of a mate that is narrower."""
    uneven = tuple(Span1(*ends) for ends in ((6, 24), (30, 66), (72, 94)))
    row = Comb(box(0, 12, 0, 100, 0, 20), Face.LEFT, FRONT_BACK, uneven, 1 / 6)
    even = tuple(Span1(*ends) for ends in ((16, 41), (47, 72)))
    pins = Comb(box(380, 400, 10, 78, 6, 20), Face.BOTTOM, FRONT_BACK, even, 1 / 8)
    tails = Tails(**said("tails", "corner"), comb=row, mate=MATE)
    return board(tails, Sockets(**said("pins", "corner"), comb=pins, mate=MATE), body=WIDE)


def pins_at_both_ends() -> Part:
    """Half-blind: alike at either end, so that one of them is drawn."""
    spans = tuple(Span1(*ends) for ends in ((6, 30), (36, 60), (66, 90)))
    combs = (Comb(box(*ends, 0, 96, 0, 12), Face.TOP, FRONT_BACK, spans, 1 / 8) for ends in ((0, 12), (388, 400)))
    rows = (Sockets(**said(id, "corner"), comb=comb, mate=MATE) for id, comb in zip(("left", "right"), combs, strict=True))
    return board(*rows, body=box(0, 400, 0, 96, 0, 20))


def fingered() -> Part:
    spans = tuple(Span1(100 / 9 * n, 100 / 9 * (n + 1)) for n in range(0, 9, 2))
    comb = Comb(box(0, 12, 0, 100, 0, 20), Face.LEFT, FRONT_BACK, spans, 0.0)
    return board(Tails(**said("fingers", "corner"), comb=comb, mate=MATE, what="fingers"), body=WIDE)


def slid_and_let_in() -> Part:
    """A tail at the end that slides, a stopped housing across, a socket let into the other end."""
    tail = Comb(box(0, 8, 0, 100, 0, 20), Face.LEFT, BOTTOM_TOP, (Span1(4, 16),), 1 / 8)
    across = Comb(box(150, 162, 20, 100, 13, 20), Face.BOTTOM, LEFT_RIGHT, (Span1(150, 162),), 1 / 8)
    socket = Comb(box(380, 400, 30, 60, 6, 20), Face.BOTTOM, FRONT_BACK, (Span1(30, 60),), 1 / 6)
    own = Tails(**said("tail", "hold"), comb=tail, mate=MATE, what="tail")
    takes = (Sockets(**said(id, "hold"), comb=comb, mate=MATE, what=id) for id, comb in (("housing", across), ("socket", socket)))
    return board(own, *takes, body=WIDE)


def slid_in_until_tight() -> Part:
    """The same tail and a housing that runs through, both narrowing by one flank."""
    tail = Comb(box(0, 8, 0, 100, 0, 20), Face.LEFT, BOTTOM_TOP, (Span1(4, 16),), 1 / 8, Slim(Face.BACK, Face.BOTTOM, 2))
    aside = Slim(Face.BACK, Face.LEFT, 2)
    across = Comb(box(150, 162, 0, 100, 13, 20), Face.BOTTOM, LEFT_RIGHT, (Span1(150, 162),), 1 / 8, aside)
    own = Tails(**said("tail", "hold"), comb=tail, mate=MATE, what="tail")
    return board(own, Sockets(**said("housing", "hold"), comb=across, mate=MATE, what="housing"), body=WIDE)


def mortised_askew() -> Part:
    """Two mortises turned in a face, one leaning in both directions, in a part long enough to be broken."""
    voids = (box(100, 140, 30, 40, 20, 40), box(600, 640, 30, 40, 20, 40), box(1000, 1030, 30, 40, 15, 40))
    ways = ((0.0, 0.0, 1.0), (0.0, 0.0, 1.0), (1.0, 2.0, 0.0))
    spots = ((120.0, 35.0, 40.0), (620.0, 35.0, 40.0), (1015.0, 35.0, 40.0))
    poses = (Pose.turning(way, angle, spot) for way, angle, spot in zip(ways, (30, 12, 8), spots, strict=True))
    cuts = (
        AngledMortise(**said(f"askew.{n}", "hold"), face=Face.TOP, void=void, pose=pose, mate=MATE)
        for n, (void, pose) in enumerate(zip(voids, poses, strict=True))
    )
    return board(*cuts, body=box(0, 1200, 0, 70, 0, 40))


def slanted_at_both_ends() -> Part:
    """Compound ends, a tenon on one of them, as of a leg that leans."""
    slopes = ((FRONT_BACK, 6.0), (BOTTOM_TOP, 4.0))
    body = box(0, 500, 0, 40, 0, 40)
    low = EndCut(**said("end.left"), end=Face.LEFT, at=3.5, slopes=slopes)
    high = EndCut(**said("end.right"), end=Face.RIGHT, at=496.5, slopes=slopes)
    tenon = Tenon(**said("hold.right", "hold"), end=Face.RIGHT, block=box(496.5, 525, 10, 30, 10, 30), mate=MATE)
    turned = Pose.turning((0, 2, 3), 5, (0, 20, 20))
    return board(low, high, tenon, body=body, pose=turned)


BOARDS: tuple[Callable[[], Part], ...] = (
    plain,
    panel,
    dovetailed,
    pins_at_both_ends,
    fingered,
    slid_and_let_in,
    slid_in_until_tight,
    rounded,
    stopped_chamfer,
    stopped_chamfer_off_the_drawn_faces,
    chamfered_end,
    tapered_on_two_sides,
    tapered_on_four_sides,
    crowned,
    curved,
    bevelled,
    bevelled_edges,
    bevelled_end,
    grooved,
    stopped_groove,
    housed,
    stopped_housing,
    rabbeted,
    end_rabbeted,
    bored,
    bored_in_the_edge_and_end,
    mortised_on_three_faces,
    a_long_shelf_full_of_holes,
    mortised_end,
    tenoned_at_one_end,
    tenoned_unlike,
    long_and_thin,
    mortised_askew,
    slanted_at_both_ends,
)
