"""Pegs: holes in mate and tenon, in line or drawn, pegs that fill them, and wood all round."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from boards_by_hand import (
    BOTTOM_TOP,
    FRONT_BACK,
    INCH,
    LEFT_RIGHT,
    board,
    box,
    but,
    inches,
    join,
    joined,
    mirrored,
    refused,
    site,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_pieces import cut_and_proved, joined_piece, told_of

from planbuild.core.diagnostics import Refused
from planbuild.core.geometry import Box, Face, Motion, Span1
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined
from planbuild.proofread.numbers import needs_of
from planbuild.records.features import Hole, Mortise, Tenon
from planbuild.records.piece import Copy, Part
from planbuild.records.shaped import Turned
from planbuild.shape import kernel, shape
from planbuild.shape.kernel import Fault
from planbuild.shape.pegs import bent

KIND = KINDS["mortise and tenon"]
RAIL = board("rail", box(2, 20, 0.5, 1.5, 6, 9.5), LEFT_RIGHT, Face.FRONT)
POST = board("post", box(0, 2, 0, 2, 0, 12), BOTTOM_TOP, Face.FRONT)
SIDE_RAIL = board("side_rail", box(0.5, 1.5, 2, 20, 6, 9.5), FRONT_BACK, Face.LEFT)


def pegged(*boards: Board, **peg: str) -> Joined:
    return joined(KIND, "pegged", site(*(boards or (RAIL, POST))), tenon=("rail.left",), peg=peg)


def tenon_of(made: Joined, part: str = "rail") -> Tenon:
    return next(each for each in made.features[part] if isinstance(each, Tenon))


def holes_of(made: Joined, part: str = "post") -> list[Hole]:
    return [each for each in made.features[part] if isinstance(each, Hole)]


def test_defaults_by_common_practice() -> None:
    """A tenon 3/8 thick and 3 wide: two pegs of 1/4, drawn 1/16, two diameters from the shoulder, a quarter of the width
    from either edge."""
    made = pegged()
    first, second = tenon_of(made).pegs
    assert (first.diameter / INCH, first.draw / INCH, first.start / INCH) == pytest.approx((0.25, 0.0625, 0.4375))
    assert (first.plane / INCH, second.plane / INCH) == pytest.approx((7, 8.5))
    assert [tuple(round(at / INCH, 4) for at in hole.centre) for hole in holes_of(made)] == [(1.5, 0, 7), (1.5, 0, 8.5)]
    assert all(hole.depth is None and hole.face is Face.FRONT and hole.purpose == "peg" for hole in holes_of(made))
    (peg,) = made.makes
    assert inches(peg.body) == pytest.approx((1.375, 1.625, 0, 2, 6.875, 7.125)) and len(peg.copies) == 2
    assert peg.grain is FRONT_BACK and peg.stock == RAIL.stock.id and isinstance(peg.features[0], Turned)
    assert peg.bend and peg.bend.by == pytest.approx((INCH / 16, 0, 0)) and peg.bend.between.size == pytest.approx(INCH * 3 / 8)
    told = dict(made.joint.numbers)
    assert told["pegs in each tenon"] == 2 and told["draw"] == pytest.approx(INCH / 16)


def test_a_narrow_tenon_gets_one_peg_and_a_plain_one_stays_straight() -> None:
    narrow = but(RAIL, body=box(2, 20, 0.5, 1.5, 6, 8))
    made = pegged(narrow, POST, draw="0")
    (hole,) = tenon_of(made).pegs
    assert hole.draw == 0 and hole.start == pytest.approx(0.5 * INCH) and made.makes[0].bend is None
    assert "draw" not in dict(made.joint.numbers)
    assert told_of(made, narrow, POST) == []


def test_nothing_overlaps_and_nothing_is_left_hollow() -> None:
    """Post, rail and bent pegs together are the two boards, but for the room at the bottom of the mortise."""
    made = pegged()
    _, solids, found = cut_and_proved(made, RAIL, POST)
    assert not found.diagnostics
    keys = [("post", 0), ("rail", 0), ("peg", 0), ("peg", 1)]
    first, *others = (solids.placed[key].wrapped for key in keys)
    whole, _ = kernel.volume_and_centre(kernel.fuse(first, others).Shape())
    bottom = tenon_of(made).block.size(FRONT_BACK) * 3 * INCH * INCH / 16
    assert whole == pytest.approx(RAIL.body.volume + POST.body.volume - bottom, rel=1e-6)
    assert all(len(kernel.solids_of(solids.placed[key].wrapped)) == 1 for key in keys)


def test_the_peg_is_straight_on_the_bench_and_bent_at_home() -> None:
    _, solids, _ = cut_and_proved(pegged(), RAIL, POST)
    peg = solids.of["peg"]
    assert peg.cut.Volume() == pytest.approx(math.pi / 4 * 0.25**2 * 2 * INCH**3, rel=1e-6)
    assert peg.fitted.Volume() == pytest.approx(peg.cut.Volume(), rel=1e-6)
    assert peg.cut.BoundingBox().xlen == pytest.approx(INCH / 4, abs=1e-3)
    assert peg.fitted.BoundingBox().xlen == pytest.approx(INCH * 5 / 16, abs=1e-3)


def test_the_shoulder_is_held() -> None:
    """Drawn out by a hair the tenon bites into its pegs; without pegs it would slide out."""
    _, solids, _ = cut_and_proved(pegged(), RAIL, POST)
    out = solids.placed["rail", 0].translate((1.0, 0, 0))
    assert out.intersect(solids.placed["peg", 0]).Volume() > 1
    assert out.intersect(solids.placed["post", 0]).Volume() == pytest.approx(0, abs=1e-3)


def test_a_straight_rod_would_not_go_through_drawn_holes() -> None:
    whole = joined_piece(pegged(), RAIL, POST)
    straight = replace(whole, parts=tuple(replace(each, bend=None) for each in whole.parts))
    solids = shape(straight)
    assert solids.placed["peg", 0].intersect(solids.placed["rail", 0]).Volume() > 10


def test_pegs_of_rails_that_meet_in_a_post_pass_each_other() -> None:
    """Mitred tenons at one height: the pegs of the first go up by a diameter, those of the other down."""
    boards = (RAIL, SIDE_RAIL, POST)
    made = joined(KIND, "pegged", site(*boards), tenon=("rail.left", "side_rail.front"), peg={"diameter": "1/4"})
    up, down = (tenon_of(made, part).pegs[0].plane / INCH for part in ("rail", "side_rail"))
    assert (up, down) == pytest.approx((7.25, 6.75))
    assert len(made.makes[0].copies) == 4
    assert told_of(made, *boards) == []


def test_copies_of_a_post_share_their_holes_and_all_pegs_lean_toward_their_own_shoulder() -> None:
    pair = (Copy("left", Motion()), Copy("right", mirrored(LEFT_RIGHT, about=(22, 2, 12))))
    post, rail = but(POST, copies=pair), but(RAIL, body=box(2, 20, 0.5, 1.5, 6, 9.5))
    made = joined(KIND, "pegged", site(rail, post), tenon=("rail",), peg={"count": "2"})
    assert len(holes_of(made)) == 2 and len(made.makes[0].copies) == 4
    assert told_of(made, rail, post) == []


def test_a_tenon_that_is_not_in_the_middle_bends_its_pegs_where_it_is() -> None:
    made = joined(KIND, "pegged", site(RAIL, POST), tenon=("rail.left",), from_face={"front": "1/8"}, peg={"count": "1"})
    bend = made.makes[0].bend
    assert bend and (bend.between.low / INCH, bend.between.high / INCH) == pytest.approx((0.625, 1.0))
    assert told_of(made, RAIL, POST) == []


def test_the_sheets_must_state_both_holes() -> None:
    whole = joined_piece(pegged(), RAIL, POST)
    words = [each.words for each in needs_of(whole.part("rail"))]
    assert all(words.count(f"{word} of a peg hole") == 2 for word in ("start", "place", "diameter"))
    assert "diameter" in {each.words for each in needs_of(whole.part("post"))}


def test_glue_is_not_counted_where_the_holes_are() -> None:
    plain = joined(KIND, "pegged", site(RAIL, POST), tenon=("rail.left",))
    areas = [max(contact.glue_area for contact in made.joint.contacts) for made in (plain, pegged(draw="0"))]
    assert areas[0] - areas[1] == pytest.approx(4 * math.pi * (INCH / 8) ** 2)
    drawn = max(contact.glue_area for contact in pegged().joint.contacts)
    assert 0 < areas[1] - drawn < 4 * math.pi * (INCH / 8) ** 2


@given(
    thick=st.integers(12, 28), wide=st.integers(20, 80), post=st.integers(24, 48), size=st.sampled_from(("1/4", "3/8")),
    count=st.integers(1, 3), draw=st.sampled_from(("0", "1/32", "1/16")),
)  # fmt: skip
@settings(max_examples=4)
def test_any_pegged_rail_goes_together_or_is_refused(thick: int, wide: int, post: int, size: str, count: int, draw: str) -> None:
    """In sixteenths."""
    mate = but(POST, body=box(0, post / 16, 0, post / 16, 0, 14))
    rail = but(RAIL, body=box(post / 16, 20, 0.25, 0.25 + thick / 16, 6, 6 + wide / 16))
    where = site(rail, mate)
    made = join(KIND, "pegged", where, tenon=("rail.left",), peg={"diameter": size, "count": str(count), "draw": draw})
    if made is None:
        assert {each.code for each in where.report.found if each.stops} <= {"joint-peg", "joint-wall"}
        return
    assert told_of(made, rail, mate) == []


@pytest.mark.parametrize(
    ("fields", "code", "words"),
    [
        ({"peg": {"count": "5"}}, "joint-peg", "5 pegs through one tenon"),
        ({"peg": {"draw": "3/16"}}, "joint-peg", "cannot find its way"),
        ({"peg": {"from_shoulder": "1/8"}}, "joint-peg", "at the face of the mate"),
        ({"peg": {"from_shoulder": "1-1/8"}}, "joint-peg", "at the tip"),
        ({"peg": {"from_shoulder": "3/16", "draw": "1/16"}}, "joint-peg", "at the shoulder"),
        ({"peg": {"diameter": "1", "from_shoulder": "9/16", "count": "3"}}, "joint-peg", "breaks out"),
        ({"peg": {"count": "1"}, "play": "1/8", "glue": "no"}, "joint-peg", "free to move"),
        ({"peg": {"count": "1"}, "through": "yes", "tusk": {"wedge": "walnut"}, "glue": "no"}, "joint-peg", "draws the shoulder"),
        ({"peg": {"count": "1"}, "through": "yes", "wedges": {"stock": "walnut"}}, "not-built-yet", "wedged tenons"),
        ({"peg": {"count": "1"}, "twin": "2"}, "not-built-yet", "side by side"),
    ],
)
def test_faults(fields: dict[str, Any], code: str, words: str) -> None:
    found = refused(KIND, "pegged", site(RAIL, POST), tenon=("rail.left",), **fields)
    assert [each.code for each in found] == [code]
    assert words in found[0].message and found[0].span


@pytest.mark.parametrize(
    ("peg", "words"),
    [
        ({"draw": "3/32"}, "much to draw"),
        ({"from_shoulder": "5/16"}, "at the face of the mate"),
        ({"count": "1", "diameter": "3/8", "from_shoulder": "7/8"}, "at the tip"),
    ],
)
def test_wood_that_may_split_is_warned_of(peg: dict[str, str], words: str) -> None:
    where = site(RAIL, POST)
    assert join(KIND, "pegged", where, tenon=("rail.left",), peg=peg)
    assert {each.code for each in where.report.found} == {"joint-proportion"}
    assert [each for each in where.report.found if words in each.message and each.source and each.hints]


def test_a_thick_peg_is_much_for_a_narrow_tenon() -> None:
    """A third of the width or less, by common practice."""
    narrow = but(RAIL, body=box(2, 20, 0.5, 1.5, 6, 7.25))
    where = site(narrow, POST)
    assert join(KIND, "pegged", where, tenon=("rail.left",), peg={"diameter": "3/8"})
    assert "much for a tenon" in " ".join(each.message for each in where.report.found)


def test_a_peg_does_not_go_through_the_mortise_of_another_joint() -> None:
    other = board("other", box(1.2, 1.8, 2, 20, 6, 9), FRONT_BACK, Face.LEFT)
    boards = (RAIL, other, POST)
    before = joined(KIND, "before", site(*boards), tenon=("other.front",), length="1/4")
    assert any(isinstance(each, Mortise) for each in before.features["post"])
    where = site(*boards, joined={"before": before})
    found = refused(KIND, "pegged", where, tenon=("rail.left",), peg={"count": "2"})
    assert [each.code for each in found] == ["joint-collision"] and 'a mortise of "before"' in found[0].message


def test_a_rod_that_would_fall_apart_is_a_fault() -> None:
    (peg,) = pegged().makes
    assert peg.bend
    far = replace(peg.bend, by=(INCH, 0.0, 0.0))
    solid = shape(joined_piece(pegged(), RAIL, POST)).of["peg"].cut.wrapped
    with pytest.raises(Fault):
        bent(peg, solid, far)


def test_a_hole_beside_the_tenon_is_a_fault() -> None:
    whole = joined_piece(pegged(), RAIL, POST)

    def spoilt(part: Part) -> Part:
        features = [f for f in part.features if isinstance(f, Tenon)]
        return replace(part, features=tuple(replace(f, pegs=(replace(f.pegs[0], start=0.9 * f.block.x.size),)) for f in features))

    with pytest.raises(Refused) as refusal:
        shape(replace(whole, parts=(spoilt(whole.part("rail")),), joints=()))
    assert "of its peg holes lie in it" in refusal.value.diagnostics[0].message


def test_the_bore_of_a_hole() -> None:
    hole, body = holes_of(pegged())[0], Box(Span1(0, 50.8), Span1(0, 50.8), Span1(0, 300))
    assert inches(hole.bore(body)) == pytest.approx((1.375, 1.625, 0, 2, 6.875, 7.125))
    assert inches(replace(hole, depth=INCH).bore(body))[2:4] == (0, 1)


def test_the_mortise_of_a_mitred_tenon_takes_wood_from_the_long_cheek_of_the_other() -> None:
    """Mortises are deeper than their tenons: at the tip the long cheek may face the other mortise, which holds no glue."""
    post = board("post", box(0, 1.75, 0, 1.75, 0, 24), BOTTOM_TOP, Face.FRONT)
    rail = board("rail", box(1.75, 20, 0.25, 1.375, 20, 24), LEFT_RIGHT, Face.FRONT)
    side = board("side", box(0.25, 1.375, 1.75, 20, 20, 24), FRONT_BACK, Face.LEFT)
    made = joined(KIND, "mitred", site(rail, side, post), tenon=("rail.left", "side.front"))
    assert all(each.mitre for each in (tenon_of(made, "rail"), tenon_of(made, "side")))
    assert "joint-glue-open" not in told_of(made, rail, side, post)
