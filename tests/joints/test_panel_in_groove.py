"""Panels in grooves: sized by how they move, held on all edges, and nothing in the way of that."""

from __future__ import annotations

import pytest
from boards_by_hand import BOTTOM_TOP, INCH, LEFT_RIGHT, PAIR_LR, STOCK, board, box, but, inches, join, joined, refused, site
from hypothesis import given
from hypothesis import strategies as st

from planbuild.core.geometry import Axis, Box, Face
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined
from planbuild.joints.proportions import movement_coefficient
from planbuild.records.features import EdgeBevel, Groove, Rabbet

KIND = KINDS["panel in groove"]
LEFT = board("left_stile", box(0, 2, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT)
RIGHT = board("right_stile", box(12, 14, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT)
LOW = board("low_rail", box(2, 12, 0, 0.75, 0, 3), LEFT_RIGHT, Face.FRONT)
HIGH = board("high_rail", box(2, 12, 0, 0.75, 17, 20), LEFT_RIGHT, Face.FRONT)
FRAME = (LEFT, RIGHT, LOW, HIGH)
PANEL = board("panel", box(2, 12, 0.25, 0.5, 3, 17), BOTTOM_TOP, Face.FRONT, stock="frame_ash")
THICK = board("panel", box(2, 12, 0.25, 0.75, 3, 17), BOTTOM_TOP, Face.FRONT, stock="frame_ash")


def groove(made: Joined, part: str) -> Groove:
    (found,) = (each for each in made.features[part] if isinstance(each, Groove))
    return found


def rabbets(made: Joined) -> list[Rabbet]:
    return [each for each in made.features.get("panel", ()) if isinstance(each, Rabbet)]


def test_grooves_run_out_or_stop_where_the_panel_does() -> None:
    made = joined(KIND, "panels", site(*FRAME, PANEL), panel="panel")
    assert inches(groove(made, "left_stile").void) == (1.625, 2, 0.25, 0.5, 0, 20)
    assert inches(groove(made, "low_rail").void) == (2, 12, 0.25, 0.5, 2.625, 3)
    stopped = joined(KIND, "panels", site(*FRAME, PANEL), panel="panel", stopped="yes")
    assert inches(groove(stopped, "left_stile").void) == (1.625, 2, 0.25, 0.5, 2.625, 17.375)
    assert inches(groove(stopped, "high_rail").void) == (2, 12, 0.25, 0.5, 17, 17.375)


def test_play_is_half_of_the_swelling_and_a_sixteenth_to_the_next_step() -> None:
    """Ten inches of flat-sawn white ash, from 8 to 11 points of moisture."""
    coefficient = movement_coefficient(STOCK["frame_ash"])
    assert coefficient is not None
    exact = 10 * coefficient * 3 / 2 + 1 / 16
    made = joined(KIND, "panels", site(*FRAME, PANEL), panel="panel")
    play = 0.375 - made.grows["panel"][Face.LEFT] / INCH
    assert exact <= play < exact + 1 / 32 + 1e-6 and (play * 32) == pytest.approx(round(play * 32))
    assert made.grows["panel"][Face.TOP] / INCH == pytest.approx(0.375 - 1 / 32)
    assert not made.joint.glue and all(each.glue_area == 0 for each in made.joint.contacts)
    assert len(made.joint.contacts) == 4


def test_a_thick_panel_gets_rabbeted_edges_behind() -> None:
    made = joined(KIND, "panels", site(*FRAME, THICK), panel="panel", edge={"thickness": "1/4"}, play="1/8")
    assert inches(groove(made, "left_stile").void) == (1.625, 2, 0.25, 0.5, 0, 20)
    cut = {each.edge: inches(each.void) for each in rabbets(made)}
    assert cut[Face.LEFT, Face.BACK] == (1.75, 2.125, 0.5, 0.75, 2.75, 17.25)
    assert len(cut) == 4


def test_mirrored_stiles_share_one_groove() -> None:
    stiles = board("stile", box(0, 2, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT, PAIR_LR)
    wide = board("panel", box(2, 42, 0.25, 0.5, 3, 17), LEFT_RIGHT, Face.FRONT, stock="frame_ash")
    rails = (but(LOW, body=box(2, 42, 0, 0.75, 0, 3)), but(HIGH, body=box(2, 42, 0, 0.75, 17, 20)))
    made = joined(KIND, "panels", site(stiles, *rails, wide), panel="panel", edges="all")
    assert len(made.features["stile"]) == 1 and len(made.joint.contacts) == 4


@given(wide=st.integers(40, 200), thick=st.integers(2, 8), play=st.integers(1, 5), depth=st.integers(8, 14))
def test_what_stands_in_the_grooves_and_the_play_fill_them(wide: int, thick: int, play: int, depth: int) -> None:
    """In sixteenths: the grooves and the sight of the panel hold the panel and the play around it, and nothing more."""
    w, t = wide / 16, thick / 32
    panel = board("panel", box(2, 2 + w, 0.25, 0.25 + t, 3, 17), BOTTOM_TOP, Face.FRONT, stock="frame_ash")
    frame = (LEFT, board("right_stile", box(2 + w, 4 + w, 0, 0.75, 0, 20), BOTTOM_TOP, Face.FRONT), *_rails(w))
    made = joined(KIND, "panels", site(*frame, panel), panel="panel", play=f"{play}/16", depth=f"{depth}/16", stopped="yes")
    sawn, room = panel.body, panel.body
    for face, enters in made.grows["panel"].items():
        sawn, room = sawn.grown(face, enters), room.grown(face, depth * INCH / 16)
        assert enters == pytest.approx((depth - play) * INCH / 16)
    voids = [groove(made, part.id).void for part in frame]
    assert sum(void.volume for void in voids) + panel.body.volume == pytest.approx(room.volume)
    assert sum(sawn.meet(void).volume for void in voids) + panel.body.volume == pytest.approx(sawn.volume)


@given(thick=st.integers(5, 12), left=st.integers(1, 4), on=st.sampled_from(["front", "back"]))
def test_the_edge_of_a_thick_panel_fits_its_groove(thick: int, left: int, on: str) -> None:
    """In sixteenths: nothing of the sawn panel beyond the sight lies outside the grooves."""
    deep = 0.25 + thick / 16
    panel = board("panel", box(2, 12, 0.25, deep, 3, 17), BOTTOM_TOP, Face.FRONT, stock="frame_ash")
    frame = tuple(but(each, body=Box(each.body.x, box(0, 1, 0, deep + 0.25, 0, 1).y, each.body.z)) for each in FRAME)
    made = joined(KIND, "panels", site(*frame, panel), panel="panel", edge={"thickness": f"{left}/16", "on": on}, play="1/8")
    beside = [each.void for each in rabbets(made)]
    across = groove(made, "left_stile").void.y
    assert across.size == pytest.approx(left * INCH / 16)
    assert all(each.y.size == pytest.approx((thick - left) * INCH / 16) for each in beside)
    assert all(each.y.meet(across).size <= 1e-6 for each in beside)
    assert {each.edge[1].value for each in rabbets(made)} == {on}


def _rails(wide: float) -> tuple[Board, ...]:
    return (
        board("low_rail", box(2, 2 + wide, 0, 0.75, 0, 3), LEFT_RIGHT, Face.FRONT),
        board("high_rail", box(2, 2 + wide, 0, 0.75, 17, 20), LEFT_RIGHT, Face.FRONT),
    )


@pytest.mark.parametrize(
    ("panel", "fields", "code"),
    [
        (PANEL, {"glue": "yes"}, "joint-panel-glued"),
        (PANEL, {"depth": "1-1/8"}, "joint-groove-deep"),
        (PANEL, {"play": "3/8"}, "joint-panel-draws"),
        (THICK, {}, "joint-panel-beside"),
        (THICK, {"edge": {"thickness": "1/2"}}, "joint-panel-edge"),
        (PANEL, {"panel": "panel.front"}, "joint-not-an-end"),
    ],
)
def test_what_would_not_hold_is_refused(panel: Board, fields: dict[str, object], code: str) -> None:
    where = site(*FRAME, panel)
    assert code in [each.code for each in refused(KIND, "panels", where, **{"panel": "panel", **fields})]


def test_a_panel_that_would_press_is_warned_of() -> None:
    where = site(*FRAME, PANEL)
    assert join(KIND, "panels", where, panel="panel", play="1/64")
    assert [each.code for each in where.report.found] == ["joint-panel-play", "joint-panel-play"]


BOTTOM = board("panel", box(2, 12, 0.75, 10, 0.25, 0.625), LEFT_RIGHT, Face.TOP, stock="frame_ash")
DRAWER = (
    board("left_side", box(1.5, 2, 0, 10, 0, 4), Axis.FRONT_BACK, Face.LEFT),
    board("right_side", box(12, 12.5, 0, 10, 0, 4), Axis.FRONT_BACK, Face.LEFT),
    board("drawer_front", box(2, 12, 0, 0.75, 0, 4), LEFT_RIGHT, Face.FRONT),
)
BEVEL = {"thickness": "1/4", "by": "bevel", "on": "bottom", "margin": "1-1/4"}


def edge_bevels(made: Joined) -> list[EdgeBevel]:
    return [each for each in made.features["panel"] if isinstance(each, EdgeBevel)]


def test_the_bevelled_bottom_of_a_drawer_is_held_on_three_edges_and_moves_at_the_back() -> None:
    """Common practice: the bevel fills the groove at its mouth, and is thinner at the very edge."""
    edges = ("left", "right", "front")
    made = joined(KIND, "bottom", site(*DRAWER, BOTTOM), panel="panel", edges=edges, depth="1/4", play="1/32", edge=BEVEL)
    assert set(made.grows["panel"]) == {Face.LEFT, Face.RIGHT, Face.FRONT}
    assert inches(groove(made, "left_side").void) == (1.75, 2, 0, 10, 0.375, 0.625)
    for each in edge_bevels(made):
        enters, slope = 0.25 - 1 / 32, each.depth / each.margin
        assert each.margin == pytest.approx(1.25 * INCH)
        left_at_the_mouth = 0.375 * INCH - slope * (each.margin - enters * INCH)
        assert left_at_the_mouth == pytest.approx(0.25 * INCH)
    assert [each.edge for each in edge_bevels(made)] == [(face, Face.BOTTOM) for face in (Face.LEFT, Face.RIGHT, Face.FRONT)]


def test_a_margin_is_counted_from_the_edge_of_the_panel_itself() -> None:
    edge = {"thickness": "1/4", "on": "back", "margin": "1/2"}
    made = joined(KIND, "panels", site(*FRAME, THICK), panel="panel", edge=edge, play="1/8")
    cut = {each.edge: inches(each.void) for each in rabbets(made)}
    assert cut[Face.LEFT, Face.BACK] == (1.75, 2.25, 0.5, 0.75, 2.75, 17.25)


@pytest.mark.parametrize("margin", ["1/8", "7"])
def test_a_margin_lies_beyond_the_groove_and_before_the_middle(margin: str) -> None:
    where = site(*DRAWER, BOTTOM)
    said = {"edges": ("left", "right", "front"), "depth": "1/4", "play": "1/32", "edge": {**BEVEL, "margin": margin}}
    assert "joint-panel-edge" in [each.code for each in refused(KIND, "bottom", where, panel="panel", **said)]


def test_a_bevel_that_comes_to_nothing_is_refused() -> None:
    """Half an inch of slope from 3/8 to 1/32 at the mouth, 7/32 further out: nothing is left there."""
    where = site(*DRAWER, BOTTOM)
    said = {"edges": ("left", "right", "front"), "depth": "1/4", "play": "1/32"}
    found = refused(KIND, "bottom", where, panel="panel", edge={**BEVEL, "thickness": "1/32", "margin": "1/2"}, **said)
    assert any("comes to nothing" in each.message for each in found)


@given(margin=st.integers(12, 30), left=st.integers(2, 5))
def test_the_bevelled_panel_lies_inside_the_mouth_of_its_groove(margin: int, left: int) -> None:
    """In sixteenths and thirty-seconds: cut from its numbers, and measured with a plane through the mouth."""
    edge = {**BEVEL, "thickness": f"{left}/16", "margin": f"{margin}/16"}
    made = joined(KIND, "bottom", site(*DRAWER, BOTTOM), panel="panel", edges=("left", "right"), depth="1/4", edge=edge)
    for each in edge_bevels(made):
        beyond = made.grows["panel"][each.edge[0]]
        thick = 0.375 * INCH - each.depth * (each.margin - beyond) / each.margin
        assert thick == pytest.approx(left * INCH / 16)
        assert 0 < each.depth < 0.375 * INCH
