"""Matched sets and batches: what a maker would cut to one stop, lay out from one rod, and set up once."""

from __future__ import annotations

from dataclasses import replace

import pytest
from timber import BOTTOM_TOP, FRONT_BACK, HERE, box, piece, said
from timber import board as part_of

from planbuild.core.geometry import Face, Motion
from planbuild.derive.lists.matched import batches, matched_sets
from planbuild.records.edition import Edition
from planbuild.records.facts import MatchedSet
from planbuild.records.features import Mate, Mortise
from planbuild.records.piece import Matching, Piece


def the(sets: tuple[MatchedSet, ...], way: str, *parts: str) -> MatchedSet:
    (found,) = (each for each in sets if each.way == way and each.parts == parts)
    return found


def test_the_bench_is_cut_to_few_stops(bench_piece: Piece, letter: Edition) -> None:
    sets = matched_sets(bench_piece, letter)
    assert the(sets, "one stop", "leg").pieces == 4
    assert the(sets, "one stop", "leg").size == pytest.approx(16.5 * 25.4)
    # both kinds of short rail are 9-3/4 between shoulders, with tenons of different length
    shoulders = the(sets, "one stop", "short_rail", "lower_rail")
    assert shoulders.size == pytest.approx(9.75 * 25.4) and shoulders.pieces == 4
    assert "between shoulders" in shoulders.told
    assert the(sets, "one rod", "leg").pieces == 4
    assert not [each for each in sets if "seat" in each.parts or "button" in each.parts]


def test_what_is_set_once_serves_several_parts(bench_piece: Piece) -> None:
    tenons = [each for each in batches(bench_piece) if each.work == "tenon" and set(each.parts) == {"long_rail", "short_rail"}]
    (rails,) = tenons
    assert dict(rails.numbers) == pytest.approx({"thickness": 0.375 * 25.4, "length": 1.125 * 25.4}, abs=0.01)
    assert rails.cuts == 8


def _posts(*lows: float) -> Piece:
    """Posts of one length, each mortised from `low` on over 40."""
    posts = [
        part_of(
            Mortise(**said("m", "rails"), face=Face.LEFT, void=box(0, 20, 10, 20, low, low + 40), mate=Mate("rail")),
            id=f"post_{number}",
            body=box(0, 40, 0, 40, 0, 500),
            grain=BOTTOM_TOP,
            face=Face.FRONT,
            edge=Face.LEFT,
        )
        for number, low in enumerate(lows)
    ]
    return piece(*posts)


def test_boards_laid_out_alike_share_a_rod_end_for_end_too(letter: Edition) -> None:
    """A mortise from 60 to 100 from the foot, and one from 60 to 100 from the top: the same mark on the rod turned round."""
    sets = matched_sets(_posts(60, 400, 200), letter)
    assert the(sets, "one rod", "post_0", "post_1").pieces == 2
    assert the(sets, "one stop", "post_0", "post_1", "post_2").size == 500


def test_the_designer_s_wish_comes_first(letter: Edition) -> None:
    pair = part_of(id="panel", copies=(Motion(), Motion(shift=(0, 100, 0))), grain=FRONT_BACK, body=box(0, 60, 0, 200, 0, 10))
    wish = Matching("panels", HERE, (("panel", 0), ("panel", 1)), "bookmatched pair", "the figure runs on")
    first = matched_sets(replace(piece(pair), matching=(wish,)), letter)[0]
    assert (first.way, first.parts, first.pieces, first.why) == ("bookmatched pair", ("panel",), 2, "the figure runs on")
