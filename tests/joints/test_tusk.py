"""Keyed through tenons: the key draws the shoulder tight, comes out again, and a wide part can move in its mortises."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from boards_by_hand import FRONT_BACK, INCH, LEFT_RIGHT, board, box, but, inches, join, joined, mirrored, refused, site
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_pieces import cut_and_proved, joined_piece, told_of

from planbuild.core.diagnostics import Severity
from planbuild.core.geometry import Face, Motion
from planbuild.joints import KINDS
from planbuild.joints.base import Joined
from planbuild.proofread.numbers import needs_of
from planbuild.prove import prove
from planbuild.records.features import Mortise, Taper, Tenon
from planbuild.records.piece import Copy
from planbuild.shape import shape

KIND = KINDS["mortise and tenon"]
PAIR = (Copy("left", Motion()), Copy("right", mirrored(LEFT_RIGHT, about=(40, 22, 10))))
SHELF = board("shelf", box(2, 38, 0, 22, 6, 6.875), LEFT_RIGHT, Face.TOP)
STRETCHERS = board("stretcher", box(0.875, 2, 0, 22, 4.5, 8.25), FRONT_BACK, Face.LEFT, PAIR)
TABLE: dict[str, Any] = {
    "tenon": ("shelf",), "divided": "2", "width": "2", "shoulders": {"front": "4", "back": "4"}, "bare": ("top", "bottom"),
    "proud": "1-7/8", "play": "1/8", "tusk": {"wedge": "frame_ash", "opening": "7/8", "length": "2-7/8"},
}  # fmt: skip
BAR = board("bar", box(2, 20, 1, 2, 5, 8), LEFT_RIGHT, Face.FRONT)
POST = board("post", box(0, 2, 0.5, 2.5, 0, 12), FRONT_BACK, Face.LEFT)


def table() -> Joined:
    return joined(KIND, "keyed", site(SHELF, STRETCHERS), **TABLE)


def figures(made: Joined) -> dict[str, float | int | str]:
    return {name: round(value / INCH, 4) if isinstance(value, float) else value for name, value in made.joint.numbers}


def test_the_shelf_of_the_library_table() -> None:
    """Windsor, Mission Furniture part I, 1909, pp. 29-35: tenons 2 wide, the full 7/8 thick, 3 long through a mate of 1-1/8,
    mortises 1/8 longer at each side; key mortise 3/4 wide, 7/8 long at the top, 1-1/16 from the shoulder; key slope by the
    same book's tabouret, p. 22: 1/8 in 7/8."""
    made = table()
    tenon = next(each for each in made.features["shelf"] if isinstance(each, Tenon))
    assert inches(tenon.block) == (-1, 2, 4, 6, 6, 6.875)
    way = tenon.keyway
    assert way and way.face is Face.TOP
    assert (way.start / INCH, way.length / INCH, way.width / INCH) == pytest.approx((1.0625, 0.875, 0.75))
    assert way.length_at(0.875 * INCH) / INCH == pytest.approx(0.75)
    mortise = next(each for each in made.features["stretcher"] if isinstance(each, Mortise))
    assert mortise.through and inches(mortise.void) == (0.875, 2, 3.875, 6.125, 6, 6.875)
    found = figures(made)
    assert (found["key length"], found["key thickness"], found["play at each side"]) == (2.875, 0.75, 0.125)
    assert not made.joint.glue and made.joint.fit == "sliding"


def test_the_key_fills_the_space_between_the_mate_and_the_outer_wall() -> None:
    """At the top of the tenon it is as broad as the mortise is long, less what that begins inside the mate: 13/16."""
    (key,) = table().makes
    (slope,) = key.features
    assert isinstance(slope, Taper) and slope.faces == (Face.LEFT,) and len(key.copies) == 4
    assert inches(key.body) == pytest.approx((0.875 - 0.8125 - 1 / 7, 0.875, 4.625, 5.375, 5, 7.875), abs=1e-6)
    ((axis, thin),) = slope.leaving
    assert axis is LEFT_RIGHT and thin / INCH == pytest.approx(0.8125 - 1.875 / 7)


def test_nothing_overlaps_and_the_key_touches_both_walls() -> None:
    whole, solids, found = cut_and_proved(table(), SHELF, STRETCHERS)
    assert not [each for each in found.diagnostics if each.severity is not Severity.NOTE]
    key, shelf = solids.placed["key", 0], solids.placed["shelf", 0]
    assert key.distance(shelf) == pytest.approx(0, abs=1e-6)
    nudged = key.translate((-0.01 * INCH, 0, 0))
    assert nudged.intersect(shelf).Volume() > 1, "driven outward by a hair it would bite into the outer wall"
    assert key.translate((0.01 * INCH, 0, 0)).intersect(solids.placed["stretcher", 0]).Volume() > 1
    assert whole.part("shelf").finished[0] == pytest.approx(42 * INCH)


def test_the_key_mortise_takes_what_its_numbers_say() -> None:
    whole = joined_piece(table(), SHELF, STRETCHERS)
    bare = whole.part("shelf")
    solid = replace(bare, features=tuple(replace(each, keyway=None) for each in bare.features if isinstance(each, Tenon)))
    with_ways, without = shape(whole).of["shelf"], shape(replace(whole, parts=(solid,), joints=())).of["shelf"]
    each = 0.75 * 0.875 * (0.875 + 0.75) / 2 * INCH**3
    assert without.volume - with_ways.volume == pytest.approx(4 * each, rel=1e-6)


def test_a_key_that_is_too_small_no_longer_holds_the_shoulder() -> None:
    whole = joined_piece(table(), SHELF, STRETCHERS)
    key = whole.part("key")
    (slope,) = key.features
    thin = replace(key, body=key.body.grown(Face.RIGHT, -1.0), features=(replace(slope, leaving=((LEFT_RIGHT, 5.8),)),))
    worn = replace(whole, parts=(*(each for each in whole.parts if each.id != "key"), thin))
    assert "joint-open" in {each.code for each in prove(worn, shape(worn)).diagnostics}


def test_the_key_goes_out_the_way_it_came() -> None:
    _, solids, _ = cut_and_proved(table(), SHELF, STRETCHERS)
    key, others = solids.placed["key", 0], [solids.placed["shelf", 0], solids.placed["stretcher", 0]]
    up, down = key.translate((0, 0, 10)), key.translate((0, 0, -10))
    assert sum(up.intersect(each).Volume() for each in others) == pytest.approx(0, abs=1e-3)
    assert sum(down.intersect(each).Volume() for each in others) > 10


def test_defaults_by_the_published_table() -> None:
    """Nothing said but the wood of the key: the mortise as long as the tenon is thick, the key three times as long."""
    where = site(SHELF, STRETCHERS)
    said = {**TABLE, "tusk": {"wedge": "frame_ash"}}
    made = joined(KIND, "keyed", where, **{key: value for key, value in said.items() if key not in ("proud", "play")})
    found = figures(made)
    assert found["key mortise length, where the key goes in"] == 0.875 and found["key length"] == 2.625
    assert found["proud"] == pytest.approx(0.875 * 2.25 - 0.0625, abs=1e-4)
    assert told_of(made, SHELF, STRETCHERS) == []
    assert any(line.startswith("Slope of the key: ") for line in made.joint.defaults)


def test_the_sheet_must_state_the_key_mortise() -> None:
    whole = joined_piece(table(), SHELF, STRETCHERS)
    words = {each.words for each in needs_of(whole.part("shelf"))}
    assert {f"{word} of the key mortise" for word in ("length", "length below", "start", "width", "place")} <= words


@given(thick=st.integers(8, 24), wide=st.integers(24, 64), mate=st.integers(12, 32), rise=st.integers(5, 12))
@settings(max_examples=4)
def test_any_keyed_bar_goes_together_or_is_refused(thick: int, wide: int, mate: int, rise: int) -> None:
    """In sixteenths."""
    bar = but(SHELF, body=box(2, 20, 5, 5 + wide / 16, 6, 6 + thick / 16))
    post = but(STRETCHERS, body=box(2 - mate / 16, 2, 0, 22, 4, 9), copies=PAIR[:1])
    where = site(bar, post)
    said = {"tenon": ("shelf.left",), "bare": ("top", "bottom"), "tusk": {"wedge": "frame_ash", "slope": f"1:{rise}"}}
    made = join(KIND, "keyed", where, **said)
    if made is None:
        assert {each.code for each in where.report.found if each.stops} <= {"joint-key", "joint-wall"}
        return
    assert told_of(made, bar, post) == []


@pytest.mark.parametrize(
    ("fields", "code", "words"),
    [
        ({"proud": "1/2"}, "joint-key", "too little for its key"),
        ({"tusk": {"wedge": "frame_ash", "length": "3/4"}}, "joint-key", "no longer than the tenon is thick"),
        ({"tusk": {"wedge": "frame_ash", "slope": "1:1"}}, "joint-key", "tapers to nothing"),
        ({"through": "no"}, "joint-key", "a through tenon"),
        ({"wedges": {"stock": "walnut"}}, "joint-key", "wedged needs none"),
        ({"glue": "yes"}, "joint-glue", "comes apart again"),
    ],
)
def test_faults(fields: dict[str, Any], code: str, words: str) -> None:
    found = refused(KIND, "keyed", site(SHELF, STRETCHERS), **{**TABLE, **fields})
    assert code in {each.code for each in found}
    assert any(words in f"{each.message} {each.expected}" for each in found) and all(each.span for each in found)


def test_play_without_a_key_must_stay_free_of_glue() -> None:
    fields = {key: value for key, value in TABLE.items() if key not in ("tusk", "proud")}
    found = refused(KIND, "shelf", site(SHELF, STRETCHERS), **fields, glue="yes", through="yes")
    assert [each.code for each in found] == ["joint-glue"] and "free to move" in found[0].message
    made = joined(KIND, "shelf", site(SHELF, STRETCHERS), **fields, through="yes")
    assert told_of(made, SHELF, STRETCHERS) == []


@pytest.mark.parametrize(("tusk", "words"), [({"opening": "1-1/2"}, "stands beyond"), ({"thickness": "1-1/4"}, "more than half")])
def test_wood_that_will_break_is_warned_of(tusk: dict[str, str], words: str) -> None:
    where = site(SHELF, STRETCHERS)
    assert join(KIND, "keyed", where, **{**TABLE, "tusk": {**TABLE["tusk"], **tusk}})
    assert [each.code for each in where.report.found] == ["joint-proportion"] and words in where.report.found[0].message
