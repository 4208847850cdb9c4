"""Frames, cases and puzzles whose outcome is known by plain reasoning or published.

Named sources: B. Cutler, computer analysis of six-piece burrs (the assembly of six equal pieces with eight
voids comes not apart); R. Wilson and J.-C. Latombe 1994 for the method.  The other outcomes are worked out by hand.
"""

from __future__ import annotations

import pytest
from bricks import UNIT, Cube, X, Y, Z, cubes, mesh

from planbuild.together import Blocking, Dismantled, Parting, Way, blocking, dismantle, opposite, straight

AXES = (X, Y, Z)


def held(*bodies: set[Cube]) -> Blocking:
    assert not any(one & other for n, one in enumerate(bodies) for other in bodies[n + 1 :])
    return blocking([mesh(each) for each in bodies], AXES)


def leaving(found: list[Parting]) -> set[tuple[frozenset[int], tuple[float, float, float]]]:
    return {(each.off, each.moves[0].way) for each in found}


def taken(found: Dismantled) -> list[set[int]]:
    return [set(each.off) for each in found.partings]


# ---------------------------------------------------------------- A: six equal sticks lock each other


def burr() -> list[set[Cube]]:
    """Six sticks 2 x 2 x 6; what two share goes to one of them, the same way round; the middle is void."""
    sticks = [
        cubes((-3, 3), (-1, 1), (0, 2)), cubes((-3, 3), (-1, 1), (-2, 0)),
        cubes((0, 2), (-3, 3), (-1, 1)), cubes((-2, 0), (-3, 3), (-1, 1)),
        cubes((-1, 1), (0, 2), (-3, 3)), cubes((-1, 1), (-2, 0), (-3, 3)),
    ]  # fmt: skip
    x, y, z = (set().union(*sticks[n : n + 2]) for n in (0, 2, 4))
    middle = cubes((-1, 1), (-1, 1), (-1, 1))
    lost = (x & y, y & z, z & x)
    return [stick - lost[n // 2] - middle for n, stick in enumerate(sticks)]


def test_a_six_equal_sticks_do_not_come_apart() -> None:
    sticks = burr()
    assert [len(each) for each in sticks] == [16] * 6
    found = dismantle(range(6), held(*sticks), bodies=[mesh(each) for each in sticks])
    assert found.partings == () and found.locked == (frozenset(range(6)),)


def test_i_a_solid_stick_always_leaves_along_itself() -> None:
    sticks = burr()
    sticks[0] = cubes((-3, 3), (-1, 1), (0, 2))
    others = [each - sticks[0] for each in sticks[1:]]
    ways = {way for off, way in leaving(straight(range(6), held(sticks[0], *others))) if off == {0}}
    assert ways == {X, opposite(X)}


# ---------------------------------------------------------------- B: a frame whose bars go round


BARS = [cubes(x, y, (0, 3)) for x, y in (((0, 9), (0, 3)), ((9, 12), (0, 9)), ((3, 12), (9, 12)), ((0, 3), (3, 12)))]
TENONS = [cubes(x, y, (1, 2)) for x, y in (((9, 11), (1, 2)), ((10, 11), (9, 11)), ((1, 3), (10, 11)), ((1, 2), (1, 3)))]
"""Each bar is tenoned into the next."""
PINWHEEL = [(bar | TENONS[n]) - TENONS[n - 1] for n, bar in enumerate(BARS)]


def test_b_a_pinwheel_frame_goes_together_from_two_halves() -> None:
    found = straight(range(4), held(*PINWHEEL))
    assert all(len(each.off) == 2 for each in found)
    assert leaving(found) == {
        (frozenset({1, 2}), X), (frozenset({0, 3}), opposite(X)), (frozenset({2, 3}), Y), (frozenset({0, 1}), opposite(Y)),
    }  # fmt: skip
    apart = dismantle(range(4), held(*PINWHEEL))
    assert [each.kind for each in apart.partings] == [Way.GROUP, Way.SINGLE, Way.SINGLE] and apart.locked == ()


# ---------------------------------------------------------------- C and L: two legs and two rails


RAILS = [cubes((1, 19), (1, 2), (low, low + 2)) | cubes((3, 17), (0, 3), (low, low + 2)) for low in (4, 14)]
LEGS = [cubes(x, (0, 3), (0, 20)) - RAILS[0] - RAILS[1] for x in ((0, 3), (17, 20))]


def test_c_a_leg_comes_off_first_and_no_rail_can() -> None:
    found = leaving(straight(range(4), held(*LEGS, *RAILS)))
    assert (frozenset({0}), opposite(X)) in found and (frozenset({1}), X) in found
    assert not any(off in ({2}, {3}) for off, _ in found)


def test_l_a_rail_cannot_go_in_last_and_both_legs_stop_it() -> None:
    graph = held(*LEGS, *RAILS)
    stops = {n for way in (X, opposite(X)) for n in range(4) if graph.reach([3], [n], way) < 1}
    assert stops == {0, 1}


# ---------------------------------------------------------------- D: a panel in its frame


STILES = [cubes((0, 3), (0, 20), (0, 3)), cubes((17, 20), (0, 20), (0, 3))]
DOOR_RAILS = [cubes((3, 17), y, (0, 3)) | cubes((1, 19), (y[0] + 1, y[0] + 2), (1, 2)) for y in ((0, 3), (17, 20))]
PANEL = cubes((2, 18), (2, 18), (1, 2))


def test_d_a_stile_comes_off_first_then_rails_then_the_panel() -> None:
    rails = [each - PANEL for each in DOOR_RAILS]
    stiles = [each - PANEL - DOOR_RAILS[0] - DOOR_RAILS[1] for each in STILES]
    graph = held(*stiles, *rails, PANEL)
    assert leaving(straight(range(5), graph)) == {(frozenset({0}), opposite(X)), (frozenset({1}), X)}
    found = dismantle(range(5), graph)
    assert taken(found)[0] in ({0}, {1}) and found.locked == ()
    assert not any(set(each.off) == {4} for each in found.partings[:1])


# ---------------------------------------------------------------- E: a shelf in a slot, stopped or not


def test_e_a_stopped_shelf_leaves_one_way_only() -> None:
    for slot, ways in (((0, 12), {Y, opposite(Y)}), ((3, 12), {Y})):
        tail = cubes((10, 12), slot, (4, 6)) | cubes((12, 14), slot, (3, 7))
        shelf, side = cubes((0, 10), (0, 12), (4, 6)) | tail, cubes((10, 16), (0, 12), (0, 12)) - tail
        assert {way for off, way in leaving(straight(range(2), held(shelf, side))) if off == {0}} == ways


# ---------------------------------------------------------------- F: along a slot, then out of the chimney


def test_f_two_moves_in_a_row_are_told_from_locked() -> None:
    peg = cubes((6, 8), (2, 4), (2, 4))
    block = cubes((0, 10), (0, 6), (0, 6)) - cubes((2, 8), (2, 4), (2, 4)) - cubes((2, 4), (2, 4), (2, 6))
    graph = held(peg, block)
    assert straight(range(2), graph) == []
    found = dismantle(range(2), graph, bodies=[mesh(peg), mesh(block)])
    (parting,) = found.partings
    assert parting.kind is Way.MOVES
    assert [(each.way, each.by) for each in parting.moves] == [(opposite(X), pytest.approx(4 * UNIT)), (Z, float("inf"))]


def test_f_a_peg_without_a_chimney_is_locked() -> None:
    peg = cubes((6, 8), (2, 4), (2, 4))
    block = cubes((0, 10), (0, 6), (0, 6)) - cubes((2, 8), (2, 4), (2, 4))
    assert dismantle(range(2), held(peg, block), bodies=[mesh(peg), mesh(block)]).locked == (frozenset({0, 1}),)


# ---------------------------------------------------------------- G: a lid held by its pin


def test_g_the_pin_leaves_before_the_lid() -> None:
    box = cubes((0, 10), (0, 8), (0, 8)) - cubes((1, 9), (1, 7), (1, 8))
    lid = cubes((1, 10), (1, 7), (6, 7))
    lips = cubes((1, 9), (1, 2), (7, 8)) | cubes((1, 9), (6, 7), (7, 8))
    pin = cubes((4, 5), (1, 2), (6, 8))
    bodies = ((box | lips) - lid - pin, lid - pin, pin)
    found = dismantle(range(3), held(*bodies))
    assert taken(found)[0] == {2} and found.partings[0].moves[0].way == Z
    assert found.partings[1].moves[0].way in (X, opposite(X)) and found.locked == ()


# ---------------------------------------------------------------- H: shelves behind a back


def bookcase() -> list[set[Cube]]:
    shelves = [cubes((2, 20), (0, 11), (z, z + 2)) | cubes((1, 21), (2, 11), (z, z + 2)) for z in (4, 14, 24)]
    back = cubes((1, 21), (11, 12), (0, 30))
    sides = [cubes(x, (0, 12), (0, 30)) - back - set().union(*shelves) for x in ((0, 2), (20, 22))]
    return [*sides, *shelves, back]


def test_h_shelves_go_in_before_the_back() -> None:
    graph = held(*bookcase())
    found = leaving(straight(range(6), graph))
    assert not any(off in ({2}, {3}, {4}) for off, _ in found)
    assert {way for off, way in found if off == {5}} >= {Y}
    without = leaving(straight(range(5), graph))
    assert all((frozenset({shelf}), Y) in without for shelf in (2, 3, 4))


# ---------------------------------------------------------------- J: few convex blocks


@pytest.mark.parametrize("count", [2, 3, 4, 5])
def test_j_up_to_five_convex_blocks_always_come_apart(count: int) -> None:
    """Boxes packed at random in a grid: convex, so two hands can always part up to five (J. Snoeyink and J. Stolfi 1994)."""
    cells = [cubes((x, x + 2), (y, y + 2), (z, z + 3)) for x, y, z in ((0, 0, 0), (2, 0, 1), (0, 2, 2), (2, 2, 3), (1, 1, 6))]
    assert dismantle(range(count), held(*cells[:count])).locked == ()
