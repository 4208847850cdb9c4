"""Haunches: in a groove, in a mortise of their own, sloped out of sight; they fill what they should and nothing else."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import cadquery as cq
import pytest
from boards_by_hand import BOTTOM_TOP, INCH, LEFT_RIGHT, board, box, inches, joined, mirrored, refused, site
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_pieces import cut_and_proved, joined_piece, told_of

from planbuild.core.geometry import Face, Motion
from planbuild.joints import KINDS
from planbuild.joints.base import Joined, Site
from planbuild.proofread.numbers import needs_of
from planbuild.prove import prove
from planbuild.records.features import Mortise, Tenon
from planbuild.records.piece import Copy
from planbuild.shape import shape

KIND = KINDS["mortise and tenon"]
PAIR = (Copy("left", Motion()), Copy("right", mirrored(LEFT_RIGHT, about=(16, 1, 20))))
STILE = board("stile", box(0, 2, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT, PAIR, "frame_ash")
RAIL = board("rail", box(2, 14, 0, 0.75, 17, 20), LEFT_RIGHT, Face.FRONT, stock="frame_ash")
LOWER = board("lower_rail", box(2, 14, 0, 0.75, 0, 3), LEFT_RIGHT, Face.FRONT, stock="frame_ash")
PANEL = board("panel", box(2, 14, 0.25, 0.5, 3, 17), BOTTOM_TOP, Face.FRONT, stock="frame_ash")
SAID: dict[str, Any] = {"tenon": ("rail",), "thickness": "1/4", "length": "1-1/4", "shoulders": {"top": "1/2", "bottom": "3/8"}}


def grooved() -> tuple[Site, Joined]:
    """A panel in a frame: its grooves run out at the ends of the stiles."""
    where = site(STILE, RAIL, LOWER, PANEL)
    panel = joined(KINDS["panel in groove"], "panel", where, panel="panel", depth="3/8")
    return replace(where, joined={"panel": panel}), panel


def tenon(made: Joined) -> Tenon:
    return next(each for each in made.features["rail"] if isinstance(each, Tenon) and each.end is Face.LEFT)


def shallow(made: Joined) -> list[Mortise]:
    return [each for each in made.features.get("stile", ()) if isinstance(each, Mortise) and each.haunch]


def test_a_haunch_fills_the_groove_that_runs_out() -> None:
    """Noyes 1910, p. 164: the groove as wide as the tenon is thick, and the haunch as long as the groove is deep."""
    where, _ = grooved()
    made = joined(KIND, "rails", where, **SAID, haunch={"at": "outside", "length": "groove"})
    haunch = tenon(made).haunch
    assert haunch and haunch.face is Face.TOP and inches(haunch.box) == (1.625, 2, 0.25, 0.5, 19.5, 20)
    assert not shallow(made)


def test_no_opening_is_left_at_the_end_of_the_stile() -> None:
    where, panel = grooved()
    made = joined(KIND, "rails", where, **SAID, haunch={"at": "outside", "length": "groove"})
    both = replace(made, features={**made.features, "stile": (*panel.features["stile"], *made.features["stile"])})
    _, solids, found = cut_and_proved(both, STILE, RAIL)
    assert not [each.code for each in found.diagnostics if each.code.startswith("joint-")]
    together = solids.placed["stile", 0].fuse(solids.placed["rail", 0])
    end = cq.Solid.makeBox(2 * INCH, 0.75 * INCH, 0.4 * INCH, cq.Vector(0, 0, 19.6 * INCH))
    assert together.intersect(end).Volume() == pytest.approx(end.Volume(), rel=1e-6)


def test_without_a_groove_it_gets_a_shallow_mortise_open_at_the_end() -> None:
    made = joined(KIND, "rails", site(STILE, RAIL), **SAID, haunch={"at": "top", "length": "1/4"})
    (opening,) = shallow(made)
    assert opening.face is Face.RIGHT and inches(opening.void) == (1.6875, 2, 0.25, 0.5, 19.5, 20)
    assert dict(made.joint.numbers)["haunch mortise depth"] == pytest.approx(0.3125 * INCH)
    assert told_of(made, STILE, RAIL) == []


def test_sloped_it_does_not_show_at_the_end() -> None:
    made = joined(KIND, "rails", site(STILE, RAIL), **SAID, haunch={"at": "top", "slope": "yes"})
    (opening,) = shallow(made)
    assert opening.rises is Face.TOP
    whole, solids, _ = cut_and_proved(made, STILE, RAIL)
    assert told_of(made, STILE, RAIL) == []
    flush = replace(opening, id="flat", rises=None)
    stile = whole.part("stile")
    square = replace(stile, features=tuple(flush if each is opening else each for each in stile.features))
    more = shape(replace(whole, parts=(square, whole.part("rail")), joints=())).of["stile"].volume
    assert solids.of["stile"].volume - more == pytest.approx(opening.void.volume / 2, rel=1e-6)


@given(high=st.integers(4, 16), long=st.integers(2, 8), sloped=st.booleans())
@settings(max_examples=5)
def test_haunch_and_mortise_fit_at_any_size(high: int, long: int, sloped: bool) -> None:
    """In sixteenths."""
    said = {**SAID, "shoulders": {"top": f"{high}/16", "bottom": "1/4"}}
    haunch = {"at": "top", "length": f"{long}/16", **({"slope": "yes"} if sloped else {})}
    made = joined(KIND, "rails", site(STILE, RAIL), **said, haunch=haunch)
    cut = tenon(made).haunch
    assert cut and cut.box.volume == pytest.approx(high * long * 4 / 16**3 * INCH**3)
    assert told_of(made, STILE, RAIL) == []


def test_a_haunch_larger_than_its_mortise_is_found() -> None:
    made = joined(KIND, "rails", site(STILE, RAIL), **SAID, haunch={"at": "top", "length": "1/4"})
    whole = joined_piece(made, STILE, RAIL)
    first = tenon(made)
    assert first.haunch
    longer = replace(first, haunch=replace(first.haunch, box=first.haunch.box.grown(Face.LEFT, 0.2 * INCH)))
    rail = replace(whole.part("rail"), features=tuple(longer if each is first else each for each in whole.part("rail").features))
    spoilt = replace(whole, parts=(whole.part("stile"), rail))
    assert "joint-overlap" in {each.code for each in prove(spoilt, shape(spoilt)).diagnostics}


def test_the_sheets_must_state_it() -> None:
    made = joined(KIND, "rails", site(STILE, RAIL), **SAID, haunch={"at": "top", "length": "1/4"})
    words = {each.words for each in needs_of(joined_piece(made, RAIL).part("rail"))}
    assert {"length of the haunch", "section of the haunch"} <= words


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"haunch": {"at": "top"}, "bare": ("bottom",), "shoulders": {}, "width": "3"}, "no shoulder at the top"),
        ({"haunch": {"at": "top", "length": "1-1/4"}}, "no shorter than the tenon"),
        ({"haunch": {"at": "top", "length": "groove"}}, "No groove"),
        ({"haunch": {"at": "front"}}, '"front" is no face'),
    ],
)
def test_faults(fields: dict[str, Any], words: str) -> None:
    found = refused(KIND, "rails", site(STILE, RAIL), **{**SAID, **fields})
    assert len(found) == 1 and words in found[0].message and found[0].span and found[0].expected


def test_a_groove_wider_than_the_tenon_cannot_be_filled() -> None:
    where, _ = grooved()
    found = refused(KIND, "rails", where, **{**SAID, "thickness": "1/8"}, haunch={"at": "top", "length": "groove"})
    assert [each.code for each in found] == ["joint-haunch"]
