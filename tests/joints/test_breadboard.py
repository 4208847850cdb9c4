"""Breadboard ends: one tenon holds, the panel moves past the others, and no wood is lost or there twice."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeVar

import pytest
from boards_by_hand import BOTTOM_TOP, FRONT_BACK, INCH, LEFT_RIGHT, PAIR_LR, board, box, inches, join, joined, refused, site
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_pieces import told_of
from joined_solids import clash, is_free, solids_of, volume, whole

from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined
from planbuild.records.features import Feature, Groove, Hole, Mortise, Rabbet
from planbuild.records.shaped import Sawn

KIND = KINDS["breadboard end"]
TOP = board("slab", box(3, 41, 0, 24, 16.5, 17.5), LEFT_RIGHT, Face.TOP, stock="top_ash")
END = board("end", box(0, 3, 0, 24, 16.5, 17.5), FRONT_BACK, Face.TOP, PAIR_LR, "top_ash")


def made_of(top: Board = TOP, end: Board = END, **fields: object) -> Joined:
    return joined(KIND, "ends", site(top, end), **{"panel": "slab", "end": "end", **fields})


Kind = TypeVar("Kind", bound=Feature)


def of(made: Joined, part: str, kind: type[Kind]) -> list[Kind]:
    return [each for each in made.features[part] if isinstance(each, kind)]


def test_three_tenons_on_a_tongue_a_third_thick() -> None:
    """A top an inch thick and 24 wide, by the usual rules: tongue 3/8 by 1/2, tenons 2-1/2 wide and 1-1/2 long."""
    made = made_of()
    assert made.grows == {"slab": {Face.LEFT: pytest.approx(1.5 * INCH), Face.RIGHT: pytest.approx(1.5 * INCH)}}
    (groove,) = of(made, "end", Groove)
    assert inches(groove.void) == (2.46875, 3, 0, 24, 16.8125, 17.1875)
    assert len(of(made, "slab", Rabbet)) == 4
    assert {inches(each.void)[:2] for each in of(made, "slab", Rabbet)} == {(1.5, 3), (41, 42.5)}
    notches = [each.spans for each in of(made, "slab", Sawn) if each.id.startswith("ends.left")]
    gaps = [(round(y.low / INCH, 4), round(y.high / INCH, 4)) for _, y in notches]
    assert gaps == [(0, 1), (3.5, 10.75), (13.25, 20.5), (23, 24)]
    assert {(round(x.low / INCH, 4), round(x.high / INCH, 4)) for x, _ in notches} == {(1.5, 2.5)}


def test_the_outer_mortises_are_wider_by_what_the_panel_moves() -> None:
    """White ash, flat sawn, moves 0.00274 a point (Wood Handbook): 8 to 11 % over 11 in is 0.090, so 3/32 either way."""
    mortises = {inches(each.void)[2:4] for each in of(made_of(), "end", Mortise)}
    assert mortises == {(0.90625, 3.59375), (10.75, 13.25), (20.40625, 23.09375)}
    assert {inches(each.void)[:2] for each in of(made_of(), "end", Mortise)} == {(1.4375, 3)}
    assert dict(made_of().joint.numbers)["play beside every other tenon"] == pytest.approx(3 * INCH / 32)


def test_only_the_fixed_tenon_is_glued_and_crosses_the_grain() -> None:
    made = made_of()
    assert [each.insert for each in made.joint.contacts] == [(-1, 0, 0), (1, 0, 0)]
    assert {round(each.glue_area / INCH**2, 6) for each in made.joint.contacts} == {2 * 2.5 * 1.5}
    assert {round(each.cross_grain / INCH, 6) for each in made.joint.contacts} == {2.5}
    assert all(each.glue_area == 0 for each in made_of(glue="no").joint.contacts)


def test_pegs_hold_in_the_middle_and_in_slots_beside_it() -> None:
    made = made_of(pegs="yes")
    in_panel, in_end = of(made, "slab", Hole), of(made, "end", Hole)
    assert [each.slot is None for each in in_panel] == [False, True, False] * 2
    assert {round(each.slot.length / INCH, 6) for each in in_panel if each.slot} == {0.4375}
    assert all(each.slot.along is FRONT_BACK for each in in_panel if each.slot)
    assert len(in_end) == 3 and all(each.slot is None and each.depth is None for each in in_end)
    assert made.joint.hardware == (("peg", 6),) and [each.id for each in made.buys] == ["peg"]
    assert {round(each.centre[0] / INCH, 6) for each in in_end} == {2.0}, "in the middle of the inch beyond the tongue"


def test_fixed_at_one_side_the_far_tenon_moves_most() -> None:
    front = dict(made_of(fixed="front").joint.numbers)
    assert front["fixed tenon, counted from the front"] == 1
    assert front["play beside every other tenon"] > dict(made_of().joint.numbers)["play beside every other tenon"]


def test_solids_close_come_apart_one_way_and_are_blocked_the_others() -> None:
    made = made_of(pegs="yes")
    solids = solids_of(TOP, END, made=made)
    panel, end = ("slab", 0), ("end", 0)
    assert whole(solids, panel) and whole(solids, end) and whole(solids, ("end", 1))
    assert clash(solids, end, panel) < 1e-3
    assert is_free(solids, end, panel, (-1, 0, 0), 2 * INCH)
    assert not is_free(solids, end, panel, (0, 0, 1), INCH) and not is_free(solids, end, panel, (0, 1, 0), INCH)


def test_no_wood_is_lost_but_the_room_that_is_stated() -> None:
    """By hand, in: groove 17/32 less tongue 1/2 over the length; mortises deeper by 1/16 and the outer ones 3/16 wider."""
    made = made_of()
    solids = solids_of(TOP, END, made=made)
    cut = volume(solids.placed["end", 0].wrapped)
    tongue = 0.375 * (24 * 0.5 + 3 * 2.5 * 1)
    groove_tip = 0.375 * (1 / 32) * (24 - 3 * 2.5)
    room = groove_tip + 0.375 * 3 * 2.5 / 16 + 0.375 * 4 * 3 / 32 * (1.5625 - 0.5 - 1 / 32)
    assert cut / INCH**3 == pytest.approx(24 * 3 - tongue - room)


def test_every_proof_holds() -> None:
    made = made_of(pegs="yes")
    assert told_of(made, TOP, END) == []


@settings(max_examples=12)
@given(wide=st.integers(14, 44), count=st.sampled_from([1, 2, 3, 5]), length=st.integers(5, 9), thick=st.integers(6, 12))
def test_panel_and_end_account_for_each_other(wide: int, count: int, length: int, thick: int) -> None:
    """Random sizes: what the panel gains less what is cut off it again lies in grooves and mortises, or the joint is refused."""
    top = board("slab", box(3, 41, 0, wide, 0, thick / 8), LEFT_RIGHT, Face.TOP)
    end = board("end", box(0, 3, 0, wide, 0, thick / 8), FRONT_BACK, Face.TOP, PAIR_LR)
    where = site(top, end)
    fields = {"fixed": "front"} if count == 2 else {}
    made = join(KIND, "ends", where, panel="slab", end="end", tenon_count=str(count), tenon_length=f"{length}/4", **fields)
    if made is None:
        assert {each.code for each in where.report.found} <= {"joint-wall", "joint-tenon-size"}
        return
    gained = top.body.grown(Face.LEFT, length * INCH / 4).volume - top.body.volume
    left = [each for each in made.features["slab"] if each.id.startswith("ends.left")]
    thin = sum(each.void.volume for each in left if isinstance(each, Rabbet))
    (groove,), mortises = of(made, "end", Groove), of(made, "end", Mortise)
    tongue = groove.void.size(BOTTOM_TOP)
    gone = sum(x.size * y.size * tongue for x, y in (each.spans for each in left if isinstance(each, Sawn)))
    taken = groove.void.volume + sum(each.void.volume - each.void.meet(groove.void).volume for each in mortises)
    stands = gained - thin - gone
    assert 0 < stands < taken
    assert len(mortises) == count and all(each.void.meet(end.body).volume == pytest.approx(each.void.volume) for each in mortises)


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        ({"tenon_length": "3"}, "joint-wall"),
        ({"depth": "1-1/2"}, "joint-breadboard-depth"),
        ({"tongue": "5/8"}, "joint-tongue-thick"),
        ({"tenon_count": "20"}, "joint-tenon-count"),
        ({"tenon_width": "9"}, "joint-tenon-size"),
        ({"tenon_count": "2"}, "joint-fixed-along"),
        ({"fixed": "left"}, "joint-fixed-along"),
        ({"pegs": "yes", "tenon_length": "3/4"}, "joint-peg"),
        ({"end": "along"}, "joint-breadboard-across"),
        ({"end": "short"}, "joint-breadboard-across"),
    ],
)
def test_what_cannot_be_is_refused(fields: dict[str, str], code: str) -> None:
    others = (
        board("along", box(0, 3, 0, 24, 16.5, 17.5), LEFT_RIGHT, Face.TOP, PAIR_LR),
        board("short", box(0, 3, 1, 24, 16.5, 17.5), FRONT_BACK, Face.TOP, PAIR_LR),
    )
    end = next((each for each in others if each.id == fields.get("end")), END)
    found = refused(KIND, "ends", site(TOP, end), **{"panel": "slab", "end": end.id, **fields})
    assert [each.code for each in found][:1] == [code] and all(each.span for each in found)


def test_without_published_movement_nothing_can_be_cut() -> None:
    odd = replace(TOP, stock=replace(TOP.stock, species="moon wood"))
    assert [each.code for each in refused(KIND, "ends", site(odd, END), panel="slab", end="end")] == ["joint-movement"]
