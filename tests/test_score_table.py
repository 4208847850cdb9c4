"""The demonstration score table: from the design to the proof without a finding, its numbers reckoned by hand, and what
a change in the series does to it and to the bench."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

import pytest

from planbuild.core.diagnostics import Collector, Severity
from planbuild.core.geometry import Face
from planbuild.derive.pictures.joint_sections import joint_section
from planbuild.derive.pictures.studio import Studio
from planbuild.derive.sheets.part_sheet import part_sheet
from planbuild.derive.steps import order_faults
from planbuild.derive.steps.assembly import Joining, plan_joinings
from planbuild.derive.steps.job import Job
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.order import put_in_order
from planbuild.derive.steps.scenes import scene_of
from planbuild.derive.steps.slid_in import slid_in
from planbuild.derive.steps.tasks import tasks
from planbuild.pipeline import Clock, check, choose_edition, resolve_file
from planbuild.prove import prove
from planbuild.records import rooms
from planbuild.records.drawing import Pen, Tint
from planbuild.records.features import Feature, Groove, Hole, Mortise, Taper, Tenon
from planbuild.records.findings import Findings, Likeness
from planbuild.records.legibility import clashes, path_box, segments
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids
from planbuild.records.tails import Sockets, Tails
from planbuild.shape import shape

INCH = 25.4
ROOM = Path(__file__).parent.parent / "designs" / "music-room"
TABLE, RECORDS = "score-table.yaml", "record-cabinet.yaml"


@pytest.fixture(scope="module")
def table() -> Piece:
    return resolve_file(ROOM / TABLE, Clock())


@pytest.fixture(scope="module")
def solids(table: Piece) -> Solids:
    return shape(table)


@pytest.fixture(scope="module")
def proved(table: Piece, solids: Solids) -> Findings:
    return prove(table, solids)


Kind = TypeVar("Kind", bound=Feature)


def of_kind(piece: Piece, part: str, kind: type[Kind], joint: str = "") -> list[Kind]:
    return [f for f in piece.part(part).features if isinstance(f, kind) and f.joint.endswith(joint)]


def inches(*lengths: float) -> tuple[float, ...]:
    """To the nearest 64th; every size of the table is one."""
    return tuple(round(each / INCH * 64) / 64 for each in lengths)


# ---------------------------------------------------------------- sound


def test_nothing_is_found_from_reading_to_proving(table: Piece, proved: Findings) -> None:
    found = [*table.warnings, *order_faults(table), *proved.diagnostics]
    assert [each for each in found if each.severity is not Severity.NOTE] == []


def test_what_is_proved_covers_the_whole_piece(proved: Findings) -> None:
    checked = {proof.claim: proof.checked for proof in proved.proofs}
    assert checked["No two parts claim the same wood"] == 46 * 45 // 2
    assert checked["What opens or swings comes free"] == 2 + 1, "two drawers open, and each copy has goes_in as its opening"


# ---------------------------------------------------------------- by hand


def test_counts(table: Piece) -> None:
    """Two pairs of legs, one pair of end aprons, runners and kickers; two drawers of five boards; 15 and 2 bars."""
    counts = {part.id: len(part.copies) for part in table.parts}
    assert sum(counts.values()) == 46 and len(counts) == 20
    assert counts["drawer.drawer_side"] == 4 and counts["drawer.drawer_bottom"] == 2
    assert counts["lattice.upright"] == 15 and counts["lattice.crossbar"] == 2


def test_sizes(table: Piece) -> None:
    """The opening is 17-7/8 wide (half of 36-1/2 between the legs, less the divider) and 3 high (4-1/2 less two rails)."""
    sizes = {id: inches(*table.part(id).finished) for id in ("back_leg", "drawer.drawer_front", "drawer.drawer_bottom")}
    assert sizes["back_leg"] == (29.5 + 0.5 + 4 + 2 + 0.25, 1.75, 1.75)
    assert sizes["drawer.drawer_front"] == (17.875 - 2 / 32, 3 - 3 / 32, 0.75)
    assert sizes["drawer.drawer_bottom"][0] == 17.8125 - 2 * 0.5 + 2 * (0.25 - 1 / 32), "in grooves 1/4 deep, with 1/32 of play"
    assert inches(table.part("end_apron").finished[0]) == (17.5 + 2 * 1.125,), "21 over the legs, less two legs of 1-3/4"


def test_dovetails(table: Piece) -> None:
    """At the back two tails of 5/8 and a pin of 1/4 leave 17/64 beside them in 2-1/32; in front they stop 1/4 behind the face."""
    (back,) = of_kind(table, "drawer.drawer_side", Tails, "back_corner")
    (front,) = of_kind(table, "drawer.drawer_side", Tails, "front_corner")
    assert [inches(each.size) for each in back.comb.tails] == [(0.625,), (0.625,)]
    assert inches(*back.comb.between, back.comb.tails[0].low - back.comb.block.z.low) == (0.25, 17 / 64)
    assert (back.comb.slope, front.comb.slope) == (0.125, 0.125)
    assert inches(back.comb.depth, front.comb.depth) == (0.5, 0.5)
    sockets = of_kind(table, "drawer.drawer_front", Sockets, "front_corner")
    face = table.part("drawer.drawer_front").body.at(Face.FRONT)
    assert [inches(each.comb.block.y.low - face) for each in sockets] == [(0.25,), (0.25,)]


def test_a_tail_hides_the_groove_of_the_bottom(table: Piece) -> None:
    (front,) = of_kind(table, "drawer.drawer_side", Tails, "front_corner")
    (groove,) = of_kind(table, "drawer.drawer_side", Groove, "bottom_groove")
    lowest = front.comb.neck(front.comb.tails[0])
    assert lowest.low < groove.void.z.low and groove.void.z.high < lowest.high


def test_the_top_may_move(table: Piece) -> None:
    """Held at the back, it moves over its whole width of 22: 16 screws, of which the two nearest the back have no slot."""
    (screws,) = (joint for joint in table.joints if joint.id == "top")
    assert dict(screws.hardware) == {"top_screw": 16}
    assert {name: value for name, value in screws.numbers if name == "slots"} == {"slots": 14}


# ---------------------------------------------------------------- how it goes together


def joining(table: Piece, id: str) -> Joining:
    return next(each for each in plan_joinings(table)[0] if each.id == id)


def test_order_of_the_glue_ups(table: Piece) -> None:
    found = [each.id for each in plan_joinings(table)[0]]
    assert found[-2:] == ["table_frame", "base"]
    assert found.index("bars") < found.index("lattice_frame") < found.index("table_frame")


def test_the_upper_rail_drops_in_last_with_kicker_and_divider(table: Piece) -> None:
    tee, base = joining(table, "upper_tee"), joining(table, "base")
    assert set(tee.parts) == {"upper_front_rail", "middle_kicker", "divider"}
    assert [(unit.id, way) for unit, way in base.outer] == [("upper_tee", (0.0, 0.0, -1.0))]


def test_uprights_are_pressed_onto_the_two_crossbars(table: Piece) -> None:
    bars = joining(table, "bars")
    assert {unit.id for unit in bars.inner} == {"lattice.crossbar"} and len(bars.inner) == 2
    assert {unit.id for unit, _ in bars.outer} == {"lattice.upright"} and len(bars.outer) == 15


def test_the_bottom_is_slid_in_from_behind_when_the_drawer_is_glued_up(table: Piece) -> None:
    assert slid_in(table, "drawer.drawer_bottom") is Face.BACK
    assert "drawer.drawer_bottom" not in joining(table, "drawer").parts


def test_a_back_that_reaches_down_shuts_the_bottom_in(table: Piece) -> None:
    back = table.part("drawer.drawer_back")
    longer = replace(back, body=back.body.grown(Face.BOTTOM, 10.0).grown(Face.BACK, 10.0))
    shut = replace(table, parts=tuple(longer if each is back else each for each in table.parts))
    assert slid_in(shut, back.id) is None and slid_in(shut, "drawer.drawer_bottom") is None
    assert "drawer.drawer_bottom" in joining(shut, "drawer").parts


def test_a_groove_that_stops_shuts_the_bottom_in(table: Piece) -> None:
    side = table.part("drawer.drawer_side")
    (groove,) = of_kind(table, side.id, Groove, "bottom_groove")
    stopped = replace(groove, void=groove.void.grown(Face.BACK, -10.0))
    short = replace(side, features=tuple(stopped if each is groove else each for each in side.features))
    shut = replace(table, parts=tuple(short if each is side else each for each in table.parts))
    assert slid_in(shut, "drawer.drawer_bottom") is None


def test_drawers_are_fitted_after_the_frame_and_what_is_inside_is_fixed_before_the_top(table: Piece) -> None:
    order = [each.task.id for each in put_in_order(table, tasks(table, plan_joinings(table)[0])).steps]
    wanted = ["glue.drawer", "glue.base", "fit.drawer", "finish.table", "fit.drawer_stop", "fit.table_top"]
    assert [each for each in order if each in wanted] == wanted


def test_pictures_show_what_is_there_by_then(table: Piece) -> None:
    """No top over the drawers that are tried before it is fixed; knobs are put on the drawers, not on the frame."""
    joinings = plan_joinings(table)[0]
    job = Job(table, Findings((), ()), choose_edition(table), joinings, 0.0)
    scenes = {each.id: scene_of(job, each, {}, set()) for each in tasks(table, joinings) if each.verb in (Verb.TRY, Verb.FIT)}
    tried, knobs, bottoms = (scenes[id] for id in ("fit.drawer", "fit.drawer.pull", "fit.drawer.drawer_bottom"))
    assert tried and knobs and bottoms
    assert not {"table_top", "drawer.drawer_bottom"} & {key[0] for key in (*tried.context, *tried.new)}
    assert {key[0].partition(".")[0] for key in (*knobs.context, *bottoms.context)} == {"drawer"}
    assert set(bottoms.moves.values()) == {(0.0, -1.0, 0.0)}


# ---------------------------------------------------------------- sheets


def test_a_row_of_mortises_is_sized_once_and_placed_from_one_end(table: Piece) -> None:
    rail = table.part("low_gallery_rail")
    only = replace(table, parts=(rail,), hardware=())
    findings = Findings((), (), (Likeness(rail.id, (0,), ()),))
    sheet = part_sheet(rail, table, shape(only), findings, choose_edition(table))
    printed = [each.text for each in sheet.drawing.texts]
    assert printed.count("15 × ¹⁄₄") == 1
    places = [each for each in sheet.drawing.texts if "from left shoulder" in each.refers]
    assert len(places) == 15 and {each.angle for each in places} == {90.0}
    assert clashes(sheet.drawing) == ()


@pytest.mark.parametrize("id", ["kicker_front", "upper_front"])
def test_the_sizes_of_a_joint_stay_within_its_section(table: Piece, solids: Solids, id: str) -> None:
    """The tenon lies in the middle of its rail: a tie between two sides, which must fall the same way wherever it is drawn."""
    (joint,) = (each for each in table.joints if each.id == id)
    drawing = joint_section(Studio(table, solids, choose_edition(table), Collector()), joint, *rooms.JOINT_SECTION)
    assert drawing and clashes(drawing) == ()


def test_the_screw_is_drawn_in_its_slot(table: Piece, solids: Solids) -> None:
    """An inch and a half under its head, in the middle of the slot, its point at the bottom of the pilot hole."""
    (joint,) = (each for each in table.joints if each.id == "top")
    drawing = joint_section(Studio(table, solids, choose_edition(table), Collector()), joint, *rooms.JOINT_SECTION)
    assert drawing and drawing.scale == "1:1" and clashes(drawing) == ()
    (screw,) = (path_box(fill.path) for fill in drawing.covers if fill.tint is Tint.BOUGHT_FRONT)
    slot = next(each for each in of_kind(table, "upper_front_rail", Hole, "top") if each.slot)
    head = 0.55 * 0.92 * slot.diameter
    assert screw[3] - screw[1] == pytest.approx(1.5 * INCH + head, abs=0.1)
    assert screw[1] >= 0 and screw[3] <= drawing.height
    inked = [segment for stroke in drawing.strokes if stroke.pen is Pen.DIMENSION for segment in segments(stroke.path)]
    upright = sorted({round(a[0], 1) for a, b in inked if a[0] == b[0] and screw[3] < max(a[1], b[1]) and min(a[1], b[1]) > 0})
    assert (screw[0] + screw[2]) / 2 == pytest.approx((upright[0] + upright[1]) / 2, abs=0.2), "between the lines of its slot"


@pytest.mark.slow
def test_nothing_is_found_in_the_whole_plan() -> None:
    found = check(ROOM / TABLE).findings.diagnostics
    assert [each.message for each in found if each.severity is not Severity.NOTE] == []


# ---------------------------------------------------------------- the series


@pytest.fixture
def room(tmp_path: Path) -> Path:
    shutil.copytree(ROOM, tmp_path / "room")
    return tmp_path / "room"


def changed(room: Path, before: str, after: str) -> Callable[[str], Piece]:
    series = room / "series.yaml"
    text = series.read_text("utf-8")
    assert text.count(before) == 1
    series.write_text(text.replace(before, after), "utf-8")
    return lambda design: resolve_file(room / design, Clock())


def test_a_narrower_foot_in_the_series_narrows_every_tapered_leg(room: Path, table: Piece) -> None:
    again = changed(room, "leg_foot:      {value: 1-1/8", "leg_foot:      {value: 1")
    for design, leg in ((TABLE, "front_leg"), (TABLE, "back_leg"), ("listening-bench.yaml", "leg"), (RECORDS, "leg")):
        assert {inches(size) for each in of_kind(again(design), leg, Taper) for _, size in each.leaving} == {(1.0,)}
    assert {inches(size) for each in of_kind(table, "back_leg", Taper) for _, size in each.leaving} == {(1.125,)}


def test_a_thinner_tenon_in_the_series_changes_both_halves_in_every_piece(room: Path) -> None:
    again = changed(room, "thickness: 3/8\n    length: 1-1/8", "thickness: 1/4\n    length: 1-1/8")
    bench, records = ("listening-bench.yaml", "short_rail", "leg"), (RECORDS, "base_short_rail", "leg")
    for design, rail, leg in ((TABLE, "end_apron", "back_leg"), bench, records):
        piece = again(design)
        tenons, mortises = of_kind(piece, rail, Tenon), of_kind(piece, leg, Mortise)
        assert {inches(each.block.x.size) for each in tenons} == {(0.25,)}
        assert {inches(each.void.x.size) for each in mortises if each.mate.part == rail} == {(0.25,)}


def test_every_piece_of_the_series_is_among_those_that_change() -> None:
    """Whoever writes a fourth piece adds it to the two tests above."""
    of_the_series = {file.name for file in ROOM.glob("*.yaml") if "\nseries: series.yaml" in file.read_text("utf-8")}
    assert of_the_series == {TABLE, RECORDS, "listening-bench.yaml"}


@pytest.mark.slow
def test_a_taper_that_begins_lower_in_the_series_begins_lower_where_no_piece_departs(room: Path) -> None:
    """The cabinet says its own start: its base is too low for that of the others."""
    again = changed(room, "taper_start:   {value: 5", "taper_start:   {value: 6")
    for design, leg in ((TABLE, "front_leg"), ("listening-bench.yaml", "leg"), (RECORDS, "leg")):
        before, after = (each.part(leg) for each in (resolve_file(ROOM / design, Clock()), again(design)))
        starts = [{round(f.start / 25.4, 4) for f in part.features if isinstance(f, Taper)} for part in (before, after)]
        moved = {round(min(starts[0]) - min(starts[1]), 4)}
        assert moved == ({0} if design == RECORDS else {1}), design
