"""The two cabinets: sizes, counts and hardware by hand reasoning, doors that swing, and plans without a finding."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from planbuild.core.geometry import Axis, Face
from planbuild.derive.dimensions.even_rows import even_row
from planbuild.derive.dimensions.measures import measures_of
from planbuild.derive.dimensions.tree import choose
from planbuild.derive.sheets.lie import lie_of
from planbuild.derive.steps.assembly import plan_joinings
from planbuild.derive.steps.job import Job
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.scenes import scene_of
from planbuild.derive.steps.tasks import Task, brought_whole, fixed_from_below, over_a_case, tasks
from planbuild.derive.steps.texts import write
from planbuild.pipeline import Clock, check, choose_edition, resolve_file
from planbuild.proofread.numbers import needs_of
from planbuild.prove import prove
from planbuild.records.edging import Edging
from planbuild.records.facts import Dimension
from planbuild.records.features import Groove, Hole, Rabbet
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.shape import shape

RECORDS = Path(__file__).parent.parent / "designs" / "music-room" / "record-cabinet.yaml"
WALL = Path(__file__).parent.parent / "designs" / "wall-cabinet.yaml"
INCH = 25.4


@pytest.fixture(scope="module")
def records() -> Piece:
    return resolve_file(RECORDS, Clock())


@pytest.fixture(scope="module")
def wall() -> Piece:
    return resolve_file(WALL, Clock())


@pytest.fixture(scope="module")
def wall_proved(wall: Piece) -> Findings:
    return prove(wall, shape(wall))


def holes(piece: Piece, part: str, purpose: str) -> list[Hole]:
    return [each for each in piece.part(part).features if isinstance(each, Hole) and each.purpose == purpose]


def sizes(piece: Piece, part: str, unit: float = 1.0) -> tuple[float, ...]:
    """Length, width, thickness."""
    its = piece.part(part)
    return tuple(round(its.body.size(axis) / unit, 4) for axis in (its.grain, its.width_axis, its.thickness_axis))


# ---------------------------------------------------------------- the wall cabinet


def test_boards_of_the_wall_cabinet(wall: Piece) -> None:
    """600 x 254 x 720 with doors of 18 and a gap of 2: sides 234 deep, which is 13 fingers of 18."""
    assert wall.warnings == ()
    assert sizes(wall, "side") == (720, 234, 18) and 234 == 13 * 18
    assert sizes(wall, "fixed_shelf") == (600 - 2 * 12, 234 - 18 - 6.5, 18)  # 6 into either housing
    assert sizes(wall, "back_panel") == (720 - 2 * 12, 600 - 2 * 12, 6.5)
    assert sizes(wall, "door") == (720 - 18 - 220 - 9 - 1, 300 - 2, 18)
    assert sum(len(part.copies) for part in wall.parts) == 11


def test_pins_in_the_pattern_of_the_trade(wall: Piece) -> None:
    """32 apart, the front row 37 behind the edge, holes of 5: the published pattern of system holes (from memory)."""
    found = holes(wall, "side", "pin")
    front = sorted(each.centre[2] for each in found if each.centre[1] == 20 + 37)
    assert len(found) == 14 and len(front) == 7
    assert {high - low for low, high in pairwise(front)} == {32}
    assert {(each.diameter, each.depth) for each in found} == {(5, 8)}


def test_cups_and_plates_of_the_concealed_hinges(wall: Piece) -> None:
    """A cup of 35, 4 from the edge: its middle is 21.5 in.  Plates on two holes 32 apart, 37 from the front edge."""
    cups = holes(wall, "door", "cup")
    assert [(each.centre[0] - 1, each.diameter, each.depth) for each in cups] == [(21.5, 35, 12)] * 2
    plates = sorted(each.centre[2] for each in holes(wall, "side", "plate"))
    middles = sorted(each.centre[2] for each in cups)
    assert plates == [middle + side * 16 for middle in middles for side in (-1, 1)]
    assert {each.centre[1] for each in holes(wall, "side", "plate")} == {20 + 37}


def test_the_doors_of_the_wall_cabinet_swing(wall_proved: Findings) -> None:
    assert wall_proved.diagnostics == ()
    (proof,) = (each for each in wall_proved.proofs if each.claim.startswith("What opens or swings"))
    assert proof.checked == 2


# ---------------------------------------------------------------- holes told as rows



@pytest.mark.parametrize("part", ["side"])
def test_a_row_of_pins_is_set_out_from_its_first_hole(wall: Piece, part: str) -> None:
    """Counted from the top end: 720 - 325.5 = 394.5 to the first; the others by one pitch, and nothing else of them."""
    its = wall.part(part)
    printed = [each for each in choose(measures_of(its, lie_of(its).datum)).printed if each.feature.startswith("pins.")]
    along = [each for each in printed if each.axis is Axis.BOTTOM_TOP]
    assert [each.value for each in along if not each.step] == [394.5]
    assert [(each.value, each.say) for each in along if each.step] == [(32, "7 in a row, {} apart")] * 6
    first = next(each for each in its.features if isinstance(each, Hole) and each.purpose == "pin" and each.centre[2] == 325.5)
    row = even_row(its, first, Axis.BOTTOM_TOP, lie_of(its).datum)
    assert row is not None and row.before(first) is None and row.pitch == 32


def test_proofreading_wants_the_count_and_the_pitch_of_a_row(wall: Piece) -> None:
    """A chain of steps without the number of holes is not enough, nor is one hole whose place nothing tells."""
    needs = [each for each in needs_of(wall.part("side")) if each.feature == "pins.pin.right.row_1.3"]
    place, number = sorted((each for each in needs if each.axis is Axis.BOTTOM_TOP), key=lambda each: each.told)
    step = Dimension("x", "side", "it", "step", 32, "7 in a row, 32 apart", "bottom-top", (197.5, 229.5), "v", "mm", False)
    bare = Dimension("x", "side", "it", "step", 32, "32", "bottom-top", (197.5, 229.5), "v", "mm", False)
    far = Dimension("x", "side", "it", "step", 32, "7 in a row, 32 apart", "bottom-top", (261.5, 293.5), "v", "mm", False)
    assert place.is_met_by(step) and number.is_met_by(step)
    assert place.is_met_by(bare) and not number.is_met_by(bare)
    assert not place.is_met_by(far)


# ---------------------------------------------------------------- the record cabinet


def test_boards_of_the_record_cabinet(records: Piece) -> None:
    """36 x 16 x 28-1/4 of case on a base of 6, a top of 1 that stands over by 1."""
    assert records.warnings == ()
    assert sizes(records, "cabinet_top", INCH) == (36 + 2, 16 + 1, 1)
    assert sizes(records, "case_bottom", INCH) == (36 - 2 * 0.71875 + 2 * 0.375, 16, 0.7187)
    assert sizes(records, "divider", INCH)[0] == 28.25 - 2 * 0.71875 + 2 * 0.1875
    assert sizes(records, "leg", INCH) == (6, 1.75, 1.75)
    assert len(records.part("leg").copies) == 4 and len(records.part("door.panel").copies) == 2


def test_room_for_records(records: Piece) -> None:
    """A sleeve is 12-3/8 square: two rows of about 13 clear, and more than a sleeve from front to back."""
    low, shelf, high = (records.part(id).body.along(Axis.BOTTOM_TOP) for id in ("case_bottom", "shelf", "case_top"))
    assert shelf.low - low.high == 13 * INCH
    assert high.low - shelf.high >= 12.375 * INCH
    assert records.part("shelf").body.size(Axis.FRONT_BACK) > 12.375 * INCH


def test_edging_of_ash_on_every_front_of_plywood(records: Piece) -> None:
    edged = [part.id for part in records.parts if any(isinstance(each, Edging) for each in part.features)]
    assert edged == ["side", "case_bottom", "case_top", "divider", "shelf"]
    strips = [each for id in edged for each in records.part(id).features if isinstance(each, Edging)]
    assert {(each.edge, each.thickness) for each in strips} == {(Face.FRONT, INCH / 4)}


def test_leaves_let_in_by_half_of_knuckle_less_gap(records: Piece) -> None:
    """The knuckle is 3/16 and the gap beside a door 1/16: each floor lies 1/16 deep, so the floors are a knuckle apart."""
    side, stile = records.part("side"), records.part("door.hinge_stile")
    features = (*side.features, *stile.features)
    recesses = [each for each in features if isinstance(each, Groove) and each.id.startswith("hinges.")]
    assert len(recesses) == 4
    gap = stile.body.x.low - side.body.x.high
    for recess in recesses:
        assert recess.void.x.size == pytest.approx((3 / 16 * INCH - gap) / 2)
        assert recess.void.size(Axis.BOTTOM_TOP) == pytest.approx(2 * INCH)


def test_rabbets_of_the_case_and_its_back(records: Piece) -> None:
    steps = [each for each in records.part("side").features if isinstance(each, Rabbet)]
    assert sorted(round(each.void.x.size / INCH, 4) for each in steps) == [0.375] * 3
    assert sum(len(each.bought) for each in records.hardware if each.id == "hinges") == 4


@pytest.fixture(scope="module")
def job(records: Piece) -> Job:
    return Job(records, Findings((), ()), choose_edition(records), plan_joinings(records)[0], 30.0)


def fitting(job: Job, part: str) -> Task:
    return next(each for each in tasks(job.piece, job.joinings) if each.verb is Verb.FIT and each.parts[0] == part)


def test_the_case_is_set_on_its_base_as_one_and_screwed_down(job: Job) -> None:
    """The screws go down through the case bottom, so nothing is turned upside down; divider and sides come with it."""
    task = fitting(job, "case_bottom")
    whole = brought_whole(job.piece, job.joinings, task)
    assert whole is not None and whole.name == "case"
    assert not fixed_from_below(job.piece, task)
    draft, scene = write(job, task), scene_of(job, task, {}, set())
    assert draft.title == "Set the case on the base" and draft.actions[0].startswith("Set the case on the base")
    assert scene is not None and not scene.over
    assert {key[0] for key in scene.new} == {"side", "case_bottom", "case_top", "divider"}
    assert {key[0] for key in scene.context} == {"leg", "base_long_rail", "base_short_rail"}


def test_what_is_fitted_later_is_drawn_on_the_case(job: Job) -> None:
    case = brought_whole(job.piece, job.joinings, fitting(job, "case_bottom"))
    assert case is not None
    scene = scene_of(job, fitting(job, "shelf"), {}, set(), [case])
    assert scene is not None and {"leg", "side", "divider"} <= {key[0] for key in scene.context}


def test_the_top_is_screwed_from_inside_the_case(job: Job) -> None:
    task = fitting(job, "cabinet_top")
    assert over_a_case(job.piece, task) and not fixed_from_below(job.piece, task)
    assert brought_whole(job.piece, job.joinings, task) is None
    scene = scene_of(job, task, {}, set())
    assert scene is not None and not scene.over


# ---------------------------------------------------------------- whole


@pytest.mark.slow
@pytest.mark.parametrize("design", [RECORDS, WALL], ids=["records", "wall"])
def test_nothing_is_found_in_either(design: Path) -> None:
    checked = check(design)
    assert [each.message for each in checked.findings.diagnostics] == []
    (proof,) = (each for each in checked.findings.proofs if each.claim.startswith("What opens or swings"))
    assert proof.checked == 2
