"""Round tenons: a cylinder on the end of a rung, and the hole that it fills."""

from __future__ import annotations

import math
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

from planbuild.core.geometry import Face, Motion
from planbuild.joints import KINDS
from planbuild.joints.base import Joined
from planbuild.proofread.numbers import needs_of
from planbuild.records.features import Mortise, Tenon
from planbuild.records.piece import Copy
from planbuild.records.shaped import Station, Turned
from planbuild.shape import kernel

KIND = KINDS["mortise and tenon"]
RUNG = board("rung", box(2, 20, 0.5, 1.5, 6, 7), LEFT_RIGHT, Face.FRONT)
POST = board("post", box(0, 2, 0, 2, 0, 12), BOTTOM_TOP, Face.FRONT)


def rounded(size: str = "3/4", **more: Any) -> Joined:
    return joined(KIND, "rungs", site(RUNG, POST), tenon=("rung.left",), round=size, **more)


def tenon_of(made: Joined, part: str = "rung") -> Tenon:
    return next(each for each in made.features[part] if isinstance(each, Tenon))


def mortise_of(made: Joined, part: str = "post") -> Mortise:
    return next(each for each in made.features[part] if isinstance(each, Mortise))


def test_by_hand() -> None:
    """3/4 thick, one and a half times as long by common practice, in the middle of the end; its hole 1/16 deeper."""
    made = rounded()
    tenon, mortise = tenon_of(made), mortise_of(made)
    assert tenon.round and inches(tenon.block) == pytest.approx((0.875, 2, 0.625, 1.375, 6.125, 6.875))
    assert mortise.round and inches(mortise.void) == pytest.approx((0.8125, 2, 0.625, 1.375, 6.125, 6.875))
    hole = mortise.hole
    assert tuple(at / INCH for at in hole.centre) == pytest.approx((2, 1, 6.5))
    assert (hole.diameter / INCH, hole.depth and hole.depth / INCH) == pytest.approx((0.75, 1.1875))
    told = {name: value / INCH for name, value in made.joint.numbers if isinstance(value, float)}
    assert told == pytest.approx({"tenon diameter": 0.75, "tenon length": 1.125, "hole depth": 1.1875})


def test_nothing_overlaps_and_nothing_is_left_hollow() -> None:
    _, solids, found = cut_and_proved(rounded(), RUNG, POST)
    assert not found.diagnostics
    whole = kernel.fuse(solids.placed["post", 0].wrapped, [solids.placed["rung", 0].wrapped]).Shape()
    bottom = math.pi / 4 * 0.75**2 / 16 * INCH**3
    assert kernel.volume_and_centre(whole)[0] == pytest.approx(RUNG.body.volume + POST.body.volume - bottom, rel=1e-6)


def test_it_slides_out_and_in_no_other_way() -> None:
    _, solids, _ = cut_and_proved(rounded(), RUNG, POST)
    rung, post = solids.placed["rung", 0], solids.placed["post", 0]
    assert rung.translate((5, 0, 0)).intersect(post).Volume() == pytest.approx(0, abs=1e-3)
    for way in ((-2, 0, 0), (0, 2, 0), (0, 0, 2)):
        assert rung.translate(way).intersect(post).Volume() > 1


def test_a_through_tenon_stands_proud_of_both_rails() -> None:
    pair = (Copy("left", Motion()), Copy("right", mirrored(LEFT_RIGHT, about=(22, 2, 12))))
    post = but(POST, copies=pair)
    made = joined(KIND, "rungs", site(RUNG, post), tenon=("rung",), round="3/4", through="yes", proud="1/8")
    assert mortise_of(made).hole.depth is None
    assert told_of(made, RUNG, post) == []


def test_a_turned_rung_whose_tenons_are_as_thick_as_itself() -> None:
    """A bar of one thickness: nothing to close on, it goes in as deep as its hole lets it."""
    turned = Turned("turned", RUNG.origin, "", "", (Station(2 * INCH, INCH), Station(20 * INCH, INCH)))
    bar = but(RUNG, shapes=(turned,))
    made = joined(KIND, "rungs", site(bar, POST), tenon=("rung.left",), round="1")
    assert told_of(made, bar, POST) == []


def test_the_sheets_must_state_middle_thickness_and_depth() -> None:
    whole = joined_piece(rounded(), RUNG, POST)
    for part in ("rung", "post"):
        words = [each.words for each in needs_of(whole.part(part))]
        assert words.count("middle") == 2 and "diameter" in words
    assert "depth" in {each.words for each in needs_of(whole.part("post"))}


def test_glue_on_a_round_tenon_is_not_counted_as_if_it_were_flat() -> None:
    assert {contact.glue_area for contact in rounded().joint.contacts} == {0.0}


def wedged(size: str = "3/4", **more: Any) -> Joined:
    return rounded(size, through="yes", wedges={"stock": "walnut"}, **more)


def test_a_wedged_one_has_one_kerf_across_the_grain_of_its_mate() -> None:
    """Its wedge is as wide as the kerf is long: the chord beside the middle, by Pythagoras."""
    made = wedged()
    tenon, mortise = tenon_of(made), mortise_of(made)
    assert tenon.wedging and mortise.round and mortise.flare == tenon.wedging.flare
    (kerf,) = tenon.wedging.kerfs
    assert (kerf.across, mortise.flare_axis) == (BOTTOM_TOP, BOTTOM_TOP) and kerf.plane / INCH == pytest.approx(6.5)
    (wedge,) = made.makes
    sizes = sorted(wedge.body.size(axis) / INCH for axis in (LEFT_RIGHT, FRONT_BACK, BOTTOM_TOP))
    thick = (kerf.width + 2 * mortise.flare) / INCH
    assert sizes == pytest.approx([thick, math.sqrt(0.75**2 - (kerf.width / INCH) ** 2), kerf.depth / INCH])
    assert {"kerf depth", "wedges in each tenon", "mortise flare at each end"} <= {name for name, _ in made.joint.numbers}


@pytest.mark.parametrize("size", ["1/2", "3/4", "1-1/4"])
@pytest.mark.parametrize("proud", ["0", "1/8"])
def test_wedged_home_it_fills_its_oval_hole(size: str, proud: str) -> None:
    """The hole grows by its width times the flare, half of it on the way there (a prism); tenon and wedge take all of that
    but a hair beside the wedge."""
    more = {} if proud == "0" else {"proud": proud}
    where = site(but(RUNG, body=box(2, 20, 0.25, 1.75, 5.75, 7.25)), POST)
    made = joined(KIND, "rungs", where, tenon=("rung.left",), round=size, through="yes", wedges={"stock": "walnut"}, **more)
    rung = where.boards["rung"]
    assert told_of(made, rung, POST) == []
    _, solids, _ = cut_and_proved(made, rung, POST)
    tenon, mortise = tenon_of(made), mortise_of(made)
    assert tenon.wedging and mortise.flare_from is not None
    wide, deep = tenon.block.y.size, tenon.wedging.kerfs[0].depth - tenon.proud
    hole = POST.body.volume - solids.of["post"].cut.Volume()
    assert hole == pytest.approx(math.pi / 4 * wide**2 * 2 * INCH + wide * mortise.flare * deep, rel=1e-6)
    parts = [solids.placed[key].wrapped for key in (("post", 0), ("rung", 0), ("wedge", 0))]
    together = kernel.volume_and_centre(kernel.fuse(parts[0], parts[1:]).Shape())[0]
    bodies = POST.body.volume + rung.body.volume
    run = 1 + tenon.proud / 2 / deep
    out = (math.pi / 4 * wide**2 + 2 * wide * mortise.flare * run) * tenon.proud
    assert bodies + out - 0.002 * hole < together < bodies + out + 1


def test_it_is_spread_in_its_hole_and_straight_before() -> None:
    _, solids, _ = cut_and_proved(wedged(), RUNG, POST)
    cut, home = solids.of["rung"].cut, solids.placed["rung", 0]
    flare = mortise_of(wedged()).flare
    in_hole = kernel.common(home.wrapped, [kernel.block(box(0, 0.01, -1, 3, 0, 12))])
    assert kernel.volume_and_centre(in_hole)[0] > 0
    assert home.BoundingBox().zmax == pytest.approx(max(7 * INCH, 6.875 * INCH + flare))
    assert cut.Volume() == pytest.approx(home.Volume(), rel=2e-3)


@given(thick=st.integers(8, 24), post=st.integers(20, 48), size=st.sampled_from(("1/2", "5/8", "1")), through=st.booleans())
@settings(max_examples=4)
def test_any_rung_goes_together_or_is_refused(thick: int, post: int, size: str, through: bool) -> None:
    """In sixteenths."""
    mate = but(POST, body=box(0, post / 16, 0, post / 16, 0, 12))
    rung = but(RUNG, body=box(post / 16, 20, 0.25, 0.25 + thick / 16, 6, 6 + thick / 16))
    where = site(rung, mate)
    made = join(KIND, "rungs", where, tenon=("rung.left",), round=size, through="yes" if through else "no")
    if made is None:
        assert {each.code for each in where.report.found if each.stops} <= {"joint-round", "joint-wall"}
        return
    assert told_of(made, rung, mate) == []


@pytest.mark.parametrize(
    ("fields", "code", "words"),
    [
        ({"round": "1-1/2"}, "joint-round", "no round tenon of 1-1/2 comes out"),
        ({"round": "3/4", "width": "1"}, "joint-round", "`width` has no meaning"),
        ({"round": "3/4", "twin": "2"}, "joint-round", "`twin` has no meaning"),
        ({"round": "3/4", "through": "yes", "wedges": {"stock": "walnut", "count": "2"}}, "joint-wedge-count", "one round tenon"),
        ({"round": "1/4", "through": "yes", "wedges": {"stock": "walnut"}}, "joint-wedge-strip", "leave strips"),
        ({"round": "3/4", "peg": {"count": "1"}}, "not-built-yet", "`peg` with a round tenon"),
        ({"round": "3/4", "length": "1-7/8"}, "joint-wall", "leaves"),
    ],
)
def test_faults(fields: dict[str, Any], code: str, words: str) -> None:
    found = refused(KIND, "rungs", site(RUNG, POST), tenon=("rung.left",), **fields)
    assert [each.code for each in found] == [code] and words in found[0].message


def test_round_tenons_that_meet_in_a_post_are_not_mitred() -> None:
    side = board("side", box(0.5, 1.5, 2, 20, 6, 7), FRONT_BACK, Face.LEFT)
    found = refused(KIND, "rungs", site(RUNG, side, POST), tenon=("rung.left", "side.front"), round="3/4")
    assert [each.code for each in found] == ["joint-collision"]
    made = joined(KIND, "rungs", site(RUNG, side, POST), tenon=("rung.left", "side.front"), round="3/4", meeting="stop short")
    assert told_of(made, RUNG, side, POST) == []
