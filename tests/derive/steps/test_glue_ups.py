"""Which glue-ups there are, that they close along straight lines, and what is refused.

Outcomes of the fixtures are those of the published theory of blocking graphs (Wilson and Latombe 1994): one can
leave along a direction if no joint holds it against that direction.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
import timber
from timber import HERE

from planbuild.core.geometry import Vec
from planbuild.derive.steps import StepPlan, plan_steps
from planbuild.derive.steps.assembly import plan_joinings
from planbuild.derive.steps.checks import frame_diagonals
from planbuild.derive.steps.clamps import Clamps, frame_clamps, panel_clamps
from planbuild.derive.steps.job import Job
from planbuild.records.edition import Edition
from planbuild.records.findings import Findings
from planbuild.records.piece import Assembly, Contact, Glue, Piece
from planbuild.records.solids import Solids

INCH = 25.4
X: Vec = (1.0, 0.0, 0.0)
Y: Vec = (0.0, 1.0, 0.0)
MINUS_X: Vec = (-1.0, 0.0, 0.0)
MINUS_Y: Vec = (0.0, -1.0, 0.0)

MadeOf = Callable[..., Piece]


def test_glue_ups_of_the_bench(bench_piece: Piece) -> None:
    joinings, faults = plan_joinings(bench_piece)
    assert faults == ()
    frames, base = joinings
    assert (frames.id, base.id) == ("end_frame", "base")
    assert len(frames.groups) == 2 and len(base.groups) == 1
    assert frames.parts == ("leg", "short_rail", "lower_rail", "wedge")
    assert len(frames.glued) == 4 and len(frames.dry) == 0
    assert base.parts == ("long_rail", "slat")


def test_slats_go_in_dry_with_the_long_rails(bench_piece: Piece) -> None:
    """They are trapped between the end frames: ten dry joints beside the four glued ones."""
    base = plan_joinings(bench_piece)[0][-1]
    assert len(base.glued) == 4 and len(base.dry) == 10
    assert {unit.id for unit in base.inner} == {"long_rail", "slat"}
    assert [(unit.id, way) for unit, way in base.outer] == [("end_frame", X), ("end_frame", MINUS_X)]


def test_wedges_are_driven_against_their_tenons(bench_piece: Piece) -> None:
    frames = plan_joinings(bench_piece)[0][0]
    assert len(frames.made) == 4
    for (part, copy), way in frames.made:
        body = bench_piece.part(part).copies[copy].motion.box(bench_piece.part(part).body)
        outward = MINUS_Y if body.centre[1] < bench_piece.frame.centre[1] else Y
        assert way == tuple(0.0 - each for each in outward)


def test_frames_are_found_without_the_designer(bench_piece: Piece) -> None:
    """Legs and rails cannot close in two directions at once, so the shorter way is joined first."""
    joinings, faults = plan_joinings(replace(bench_piece, assemblies=()))
    assert faults == ()
    assert [(each.id, len(each.groups)) for each in joinings] == [("frame", 2), ("base", 1)]
    assert joinings[0].parts == ("leg", "short_rail", "lower_rail", "wedge")


def test_a_rail_between_joined_posts_is_locked(made_of: MadeOf) -> None:
    """Fixture C: two posts and two rails; with all but one rail joined, the last rail cannot go in."""
    links = [("upper", "left", MINUS_X), ("upper", "right", X), ("lower", "left", MINUS_X), ("lower", "right", X)]
    good, faults = plan_joinings(made_of(*links))
    assert faults == () and len(good) == 1
    posts = Assembly("posts", "posts", HERE, (((("left", 0), ("right", 0), ("upper", 0))),))
    _, (fault,) = plan_joinings(made_of(*links, assemblies=(posts,)))
    assert fault.code == "step-locked" and fault.stops
    assert '"posts"' in fault.message or '"lower"' in fault.message


PINWHEEL = (("a", "b", X), ("b", "c", Y), ("c", "d", MINUS_X), ("d", "a", MINUS_Y))
"""Fixture B: four bars, each tenoned into the next; no single bar can leave first, neighbours in pairs can."""


def test_a_pinwheel_goes_together_from_two_halves(made_of: MadeOf) -> None:
    joinings, faults = plan_joinings(made_of(*PINWHEEL))
    assert faults == ()
    assert [sorted(key[0] for key in group) for group in joinings[0].groups + joinings[1].groups] == [["a", "d"], ["b", "c"]]
    assert len(joinings) == 3


def test_a_pinwheel_in_one_go_is_refused_with_the_way_out(made_of: MadeOf) -> None:
    whole = Assembly("wheel", "wheel", HERE, (tuple((bar, 0) for bar in "abcd"),))
    _, (fault,) = plan_joinings(made_of(*PINWHEEL, assemblies=(whole,)))
    assert fault.code == "step-locked" and fault.span == HERE
    assert fault.hints == ("Join a and b first: name them as an assembly.",)


def test_a_locked_assembly_points_at_the_assembly(bench_piece: Piece) -> None:
    legs = tuple(("leg", copy) for copy in range(4))
    rails = tuple((rail, copy) for rail in ("long_rail", "short_rail") for copy in range(2))
    whole = Assembly("table_frame", "table frame", HERE, ((*legs, *rails),))
    _, faults = plan_joinings(replace(bench_piece, assemblies=(whole,)))
    assert faults and all(each.code == "step-locked" for each in faults)
    assert faults[0].span == HERE


def test_diagonals_by_pythagoras(
    bench_piece: Piece, bench_findings: Findings, letter: Edition
) -> None:
    """End frame 13-1/4 x 16-1/2 gives 21.162; the base across its top 40 x 13-1/4 gives 42.137."""
    joinings, _ = plan_joinings(bench_piece)
    job = Job(bench_piece, bench_findings, letter, joinings, 15.0)
    (frame, one), (base, other) = (frame_diagonals(job, each) for each in joinings)
    assert one == pytest.approx(21.162 * INCH, abs=0.02) and "end frame" in frame
    assert other == pytest.approx(42.137 * INCH, abs=0.02) and "top of the base" in base


def test_clamps(bench_piece: Piece, letter: Edition, a4: Edition) -> None:
    """Two over 13-1/4 in of end frame, two over 40 in of base (blocks of 3/4 at both ends); one each 10 in of seat."""
    joinings, _ = plan_joinings(bench_piece)
    frame, base = (frame_clamps(bench_piece, letter, each) for each in joinings)
    assert [(c.count, c.span / INCH) for c in frame] == [(2, pytest.approx(14.75))]
    assert [(c.count, c.span / INCH) for c in base] == [(2, pytest.approx(41.5))]
    assert base[0].capacity(letter) == pytest.approx(48 * INCH)
    assert base[0].capacity(a4) == 1250
    assert panel_clamps(bench_piece, letter, bench_piece.part("seat")).count == 5


def test_a_span_beyond_all_clamps(letter: Edition) -> None:
    assert Clamps(2, 5000.0).capacity(letter) == 5000.0


def test_slow_glue_ups_are_a_warning(
    bench_piece: Piece, bench_solids: Solids, bench_findings: Findings, letter: Edition, plan: StepPlan
) -> None:
    """Four joints at a minute each do not fit three minutes (a heuristic, and called that)."""
    hasty = replace(bench_piece, glue=Glue("fast glue", 3.0, 20.0))
    found = plan_steps(hasty, bench_solids, bench_findings, letter).diagnostics
    assert [each.code for each in found] == ["step-open-time", "step-open-time"]
    assert not any(each.stops for each in found) and all("heuristic" in each.source for each in found)
    (frames,) = (step for step in plan.steps if step.id == "glue.end_frame")
    assert "rule of thumb" in frames.note


def test_a_panel_that_its_frame_holds_goes_in_dry_and_a_lid_does_not() -> None:
    """Nothing glues the panel, but once the stiles are on it could not go in any more."""
    left = timber.board(body=timber.box(0, 40, 0, 20, 0, 300), id="left", grain=timber.BOTTOM_TOP)
    right = timber.board(body=timber.box(240, 280, 0, 20, 0, 300), id="right", grain=timber.BOTTOM_TOP)
    panel = timber.board(body=timber.box(30, 250, 5, 15, 0, 300), id="panel", grain=timber.BOTTOM_TOP)

    def held(way: Vec, other: Vec) -> list[str]:
        plane = timber.box(30, 40, 5, 5, 0, 300)
        contacts = (Contact(("panel", 0), ("left", 0), way, plane, 0, 0), Contact(("panel", 0), ("right", 0), other, plane, 0, 0))
        joint = timber.joint("panels", *contacts, glue=False)
        joinings, faults = plan_joinings(timber.piece(left, right, panel, joints=(joint,)))
        assert faults == ()
        return [part for each in joinings for part in each.parts]

    assert held(MINUS_X, X) == ["left", "right", "panel"]
    assert held(Y, Y) == []  # it comes from in front, when all else is done
