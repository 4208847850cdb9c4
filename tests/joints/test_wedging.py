"""Wedged through tenons: strips, wedges and flared mortise are one geometry, whatever the sizes."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from boards_by_hand import (
    BENCH,
    BOTTOM_TOP,
    HERE,
    INCH,
    LEFT_RIGHT,
    ONE,
    PAIR_LR,
    board,
    box,
    inches,
    joined,
    refused,
    site,
)
from hypothesis import given
from hypothesis import strategies as st

from planbuild.core.geometry import Axis, Face
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined
from planbuild.records.features import Mortise, Taper, Tenon
from planbuild.records.piece import Part

KIND = KINDS["mortise and tenon"]
BENCH_SAID: dict[str, Any] = {
    "tenon": ("lower_rail",),
    "thickness": "3/8",
    "shoulders": {"top": "1/4", "bottom": "1/4"},
    "through": "yes",
    "proud": "1/8",
    "wedges": {"count": "2", "stock": "walnut"},
}


def bench() -> Joined:
    return joined(KIND, "wedged_rails", site(*BENCH), **BENCH_SAID)


def first(made: Joined, part: str, kind: type[Any]) -> Any:
    return next(each for each in made.features[part] if isinstance(each, kind))


def test_tenon_of_the_bench() -> None:
    """1-3/4 of leg and 1/8 proud; kerfs a quarter of 1-1/2 from each edge, down to 1/4 before the shoulder."""
    tenon: Tenon = first(bench(), "lower_rail", Tenon)
    assert inches(tenon.block) == (2.5625, 2.9375, 0.75, 2.625, 5.25, 6.75)
    assert tenon.wedging is not None
    assert [kerf.plane / INCH for kerf in tenon.wedging.kerfs] == pytest.approx([5.625, 6.375])
    assert {(round(kerf.width / INCH, 6), round(kerf.depth / INCH, 6)) for kerf in tenon.wedging.kerfs} == {(1 / 16, 1.625)}
    assert (tenon.wedging.across, tenon.tip_chamfer) == (BOTTOM_TOP, pytest.approx(INCH / 32))


def test_kerfs_lie_across_the_grain_of_the_leg() -> None:
    """So that the wedges press on its end grain: they spread along its grain, which runs up."""
    tenon: Tenon = first(bench(), "lower_rail", Tenon)
    assert tenon.wedging and tenon.wedging.across is BENCH[1].grain


def test_mortise_of_the_bench_opens_at_the_far_side_only() -> None:
    mortise: Mortise = first(bench(), "leg", Mortise)
    assert (mortise.face, mortise.through, mortise.flare_axis) == (Face.BACK, True, BOTTOM_TOP)
    assert inches(mortise.void) == (2.5625, 2.9375, 0.875, 2.625, 5.25, 6.75)
    assert mortise.flare_from is not None and mortise.flare_from / INCH == pytest.approx(2.375)
    assert mortise.flare == pytest.approx(INCH / 16)


def test_eight_like_wedges_none_of_them_mirrored() -> None:
    made = bench()
    (wedge,) = made.makes
    assert (wedge.id, wedge.name, wedge.stock, wedge.made_by, len(wedge.copies)) == (
        "wedge",
        "wedge",
        "walnut",
        "wedged_rails",
        8,
    )
    assert not any(copy.motion.mirrors for copy in wedge.copies)
    assert wedge.grain is Axis.FRONT_BACK
    length, width, thickness = (round(size / INCH, 5) for size in wedge.finished)
    # Flare 1/16 over 1-1/2 goes on for 1/8 to the tip: 1/16 + 1/16 x 1.625/1.5.
    assert (length, width, thickness) == (1.625, 0.375, round(1 / 16 + 1 / 16 * 1.625 / 1.5, 5))


def test_wedges_stand_in_their_kerfs_flush_with_the_tip() -> None:
    made = bench()
    (wedge,) = made.makes
    tips = {round(copy.motion.box(wedge.body).at(copy.motion.face(Face.FRONT)) / INCH, 5) for copy in wedge.copies}
    assert tips == {0.75, 14.25}
    middle = [copy.motion.box(wedge.body).z for copy in wedge.copies]
    assert {(round(z.low / INCH, 5), round(z.high / INCH, 5)) for z in middle} == {(6.34375, 6.47396), (5.52604, 5.65625)}
    assert [each.b for each in made.joint.contacts if each.a[0] == "wedge"] == [
        ("lower_rail", n) for n in (0, 0, 0, 0, 1, 1, 1, 1)
    ]


def test_a_name_that_is_taken_is_not_used_twice() -> None:
    made = joined(KIND, "wedged_rails", site(*BENCH, made=frozenset({"wedge"})), **BENCH_SAID)
    assert made.makes[0].id == "wedged_rails_wedge"
    tenon: Tenon = first(made, "lower_rail", Tenon)
    assert tenon.wedging and tenon.wedging.wedge == "wedged_rails_wedge"


# ---------------------------------------------------------------- any size

RAIL = board("rail", box(4, 40, 0.5, 1.5, 4, 7), LEFT_RIGHT, Face.FRONT)
POST = board("post", box(2, 4, 0, 2, 0, 16), BOTTOM_TOP, Face.FRONT, PAIR_LR)


def thickness_at(wedge: Part, distance: float) -> float:
    """Of the drawn wedge, `distance` mm from its thick end: straight from its body to what its taper leaves."""
    (taper,) = (each for each in wedge.features if isinstance(each, Taper))
    ((axis, left),) = taper.leaving
    whole, length = wedge.body.size(axis), wedge.body.size(wedge.grain)
    return whole + (left - whole) * distance / length


@given(
    post=st.integers(16, 96),
    width=st.integers(24, 80),
    proud=st.integers(1, 8),
    count=st.sampled_from(("1", "2")),
    slope=st.sampled_from((None, "1:8", "1:12")),
)
def test_strips_and_wedges_fill_the_flared_mortise(post: int, width: int, proud: int, count: str, slope: str | None) -> None:
    """At the far face: tenon less its kerfs, and the wedges, together are the mortise with its two flares."""
    deep = replace(POST, body=box(4 - post / 32, 4, 0, 2, 0, 16))
    wedges = {"count": count, "stock": "walnut"} | ({"slope": slope} if slope else {})
    made = joined(
        KIND,
        "hold",
        site(RAIL, deep),
        tenon=("rail",),
        thickness="3/8",
        width=f"{width}/32",
        through="yes",
        proud=f"{proud}/32",
        wedges=wedges,
    )
    tenon, mortise, wedge = first(made, "rail", Tenon), first(made, "post", Mortise), made.makes[0]
    strips = tenon.block.size(BOTTOM_TOP) - sum(kerf.width for kerf in tenon.wedging.kerfs)
    opening = mortise.void.size(BOTTOM_TOP) + 2 * mortise.flare
    assert strips + int(count) * thickness_at(wedge, tenon.proud) == pytest.approx(opening)
    # At the bottom of the kerfs nothing has moved, and the wedge is as thin as the kerf.
    assert thickness_at(wedge, tenon.wedging.kerfs[0].depth) == pytest.approx(tenon.wedging.kerfs[0].width)
    assert wedge.body.size(wedge.grain) == pytest.approx(tenon.wedging.kerfs[0].depth)
    bottom = tenon.block.at(tenon.end) - tenon.end.sign * tenon.wedging.kerfs[0].depth
    assert mortise.flare_from == pytest.approx(bottom)


def test_one_wedge_opens_to_both_sides() -> None:
    made = joined(KIND, "hold", site(RAIL, POST), tenon=("rail",), through="yes", wedges={"count": "1", "stock": "walnut"})
    (wedge,) = made.makes
    taper = next(each for each in wedge.features if isinstance(each, Taper))
    assert set(taper.faces) == {Face.TOP, Face.BOTTOM}
    assert wedge.body.z.middle == pytest.approx(5.5 * INCH)
    assert wedge.body.z.size == pytest.approx(INCH / 16 + 2 * INCH / 16)


@pytest.mark.parametrize(
    ("code", "fields", "post"),
    [
        ("joint-wedge-count", {"wedges": {"count": "3", "stock": "walnut"}}, POST),
        ("joint-wedge-strip", {"width": "1/2", "wedges": {"count": "2", "stock": "walnut"}}, POST),
        ("joint-wedge-thin", {"wedges": {"stock": "walnut"}}, replace(POST, body=box(3.625, 4, 0, 2, 0, 16))),
        ("joint-wall", {"wedges": {"stock": "walnut"}, "shoulders": {"top": "1/8"}}, replace(POST, body=box(2, 4, 0, 2, 0, 7))),
    ],
)
def test_faults_of_wedges(code: str, fields: dict[str, Any], post: Board) -> None:
    found = refused(KIND, "hold", site(RAIL, post), tenon=("rail",), through="yes", **fields)
    assert [each.code for each in found] == [code]
    assert found[0].span == HERE and found[0].expected


def test_tenons_that_want_different_wedges() -> None:
    thin = board("thin", box(4, 40, 0.5, 1.5, 9, 12), LEFT_RIGHT, Face.FRONT)
    beam = board("beam", box(-4, 2, 0.5, 1.5, 9, 12), LEFT_RIGHT, Face.FRONT)
    single = replace(POST, copies=ONE)
    narrow = replace(RAIL, body=box(4, 40, 0.75, 1.25, 4, 7))
    where, both = site(narrow, thin, single, beam), ("rail.left", "thin.left")
    found = refused(KIND, "hold", where, tenon=both, through="yes", wedges={"stock": "walnut"})
    assert [each.code for each in found] == ["joint-wedges-differ"]
