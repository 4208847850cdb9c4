"""Smaller rooms: marks, hands, stock, practice, ranges, editions, metric designs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import islice

import pytest

from planbuild.core.diagnostics import Collector, Refused, Span
from planbuild.core.geometry import Axis
from planbuild.core.units import Unit
from planbuild.records.design import Design, Said
from planbuild.records.piece import EditionWish, Piece
from planbuild.resolve import resolve
from planbuild.resolve.copies import HandFault, Level, Spread, ordinal, selected
from planbuild.resolve.editions import edition_of
from planbuild.resolve.ledger import Row
from planbuild.resolve.marks import marks

SPAN = Span("trial.yaml", 1, 1)
FRAME = "frame: {width: 40, depth: 16, height: 20}\n"
SHELF = "parts:\n  shelf: {stock: board, grain: left-right, face: top, fills: frame, top: 0, glue_up: no}\n"
LOW = "frame: {width: length, depth: 5, height: 3/4}\n"


def test_marks_leave_out_what_is_misread_and_keep_what_is_pinned() -> None:
    report = Collector()
    ids = [f"part{i}" for i in range(300)]
    given = marks(ids, {"part3": Said("B2", SPAN)}, report)
    assert not report.found
    assert list(islice(given.values(), 5)) == ["A1", "A2", "A3", "B2", "A4"]
    assert len(set(given.values())) == 300
    assert not {mark[0] for mark in given.values()} & set("IOQ")


LEG = Spread("leg", (Axis.LEFT_RIGHT, Axis.FRONT_BACK, Axis.BOTTOM_TOP))


@pytest.mark.parametrize(
    ("hands", "copies"),
    [((), (0, 1, 2, 3, 4, 5, 6, 7)), (("left",), (0, 2, 4, 6)), (("upper", "back"), (6, 7)), (("right", "front", "lower"), (1,))],
)
def test_a_hand_left_out_means_both_when_joining(hands: tuple[str, ...], copies: tuple[int, ...]) -> None:
    assert selected([Level(LEG, None, {})], [hands]) == copies


def test_hands_of_a_row() -> None:
    slat = Spread("slat", (Axis.LEFT_RIGHT,), Axis.FRONT_BACK)
    row = Level(slat, Row(Fraction(0), (Fraction(0), Fraction(9), Fraction(18))), {})
    assert selected([row], [("2nd",)]) == (1, 4)
    assert selected([row], [("last", "right")]) == (5,)
    for wrong in (("0th",), ("4th",), ("upper",), ("left", "right")):
        with pytest.raises(HandFault):
            selected([row], [wrong])


def test_ordinals() -> None:
    assert [ordinal(i, 25) for i in (0, 1, 2, 3, 10, 11, 12, 20, 21, 24)] == [
        "first", "2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "22nd", "last",
    ]  # fmt: skip


def test_a_second_name_of_a_wood_is_understood(lay) -> None:
    trial = lay("frame: {width: 40, depth: 16, height: 3/4}\n" + SHELF, species="walnut")
    assert trial.laid.stock["board"].species == "black walnut"


def test_practice_may_be_said_anew(lay) -> None:
    said = "practice: {kerf: 3/32, waste_solid: 20 %, tenon_share: quarter, chisels: [1/2, 1/4], way: hand}\n"
    trial = lay(FRAME + SHELF + said)
    habits = trial.laid.practice
    assert habits.kerf == pytest.approx(25.4 * 3 / 32)
    assert (habits.waste_solid, habits.tenon_share, habits.way) == (0.2, 0.25, "hand")
    assert habits.chisels == (6.35, 12.7)
    assert habits.rough_length == 25.4


def test_a_metric_design_has_metric_habits_and_steps(lay) -> None:
    """Defaults in mm as the language lists them: 25, 6, 1.5, kerf 3; board of 20 mm from 4/4 (13/16 in is 20.6 mm)."""
    text = "frame: {width: 800, depth: 400, height: 20}\n" + SHELF
    trial = lay(text, units="mm", board="20")
    habits = trial.laid.practice
    assert (habits.rough_length, habits.rough_width, habits.mortise_deeper, habits.kerf) == (25, 6, 1.5, 3)
    assert trial.laid.ruler.unit is Unit.MM
    assert float(trial.laid.ruler.step) == 0.5
    assert trial.part("shelf").finished == (800, 400, 20)


# ---------------------------------------------------------------- ranges


def sized(range_said: str, board: str) -> str:
    sizes = f"sizes:\n  length: {range_said}\n"
    return LOW + sizes + f"parts:\n  panel: {{stock: board, grain: left-right, face: top, {board}}}\n"


def test_a_range_that_holds_is_silent(design_of: Callable[[str], Design]) -> None:
    piece = resolve(design_of(sized("{value: 30, from: 10, to: 60}", "fills: frame, top: 0")))
    assert piece.warnings == ()


def test_an_error_at_the_end_of_a_range_stops(design_of: Callable[[str], Design]) -> None:
    arch = "shape: [{arch: {edge: front, rise: 1, from: 20 inside left}}]"
    text = sized("{value: 30, from: 10, to: 60}", f"fills: frame, top: 0, {arch}")
    with pytest.raises(Refused) as caught:
        resolve(design_of(text))
    (found,) = caught.value.diagnostics
    assert found.code == "range-end"
    assert found.message.startswith("At length 10 (its `from`): `20 inside left` lies outside")
    assert [each.message for each in found.related] == ["shape-outside"]


def test_a_warning_at_the_end_of_a_range_warns(design_of: Callable[[str], Design]) -> None:
    """A board of 5 is one board; at its upper end of 8 it is wider than 6, where a glue-up should be spoken of."""
    text = "frame: {width: 30, depth: deep, height: 3/4}\nsizes:\n  deep: {value: 5, from: 4, to: 8}\n"
    piece = resolve(design_of(text + "parts:\n  panel: {stock: board, grain: left-right, face: top, fills: frame, top: 0}\n"))
    (found,) = piece.warnings
    assert (found.code, found.severity.value) == ("range-end", "warning")
    assert found.message.startswith("At deep 8 (its `to`)")


# ---------------------------------------------------------------- editions


def with_edition(piece: Piece, **fields: str) -> Piece:
    wish = EditionWish("mine", SPAN, **{"paper": "A4", "unit": "mm", "projection": "first angle", **fields})  # type: ignore[arg-type]
    return replace(piece, editions=(wish,))


def test_editions(bench_piece: Piece) -> None:
    assert edition_of(bench_piece, "").paper.name == "Letter"
    a4 = edition_of(bench_piece, "home_a4")
    assert (a4.paper.name, a4.ruler.unit, a4.projection.value) == ("A4", Unit.MM, "first angle")
    assert edition_of(with_edition(bench_piece, paper=""), "mine").paper.name == "Letter"


@pytest.mark.parametrize("fields", [{"paper": "A0"}, {"document": "client record"}, {"print": "shop"}])
def test_editions_that_are_not_built_are_refused(bench_piece: Piece, fields: dict[str, str]) -> None:
    with pytest.raises(Refused) as caught:
        edition_of(with_edition(bench_piece, **fields), "mine")
    assert [each.code for each in caught.value.diagnostics] == ["edition-not-built"]


def test_an_unknown_edition_is_refused(bench_piece: Piece) -> None:
    with pytest.raises(Refused) as caught:
        edition_of(bench_piece, "poster")
    assert caught.value.diagnostics[0].code == "edition-unknown"


SAID_OF_THINGS = """\
frame: {width: 30, depth: 5, height: 4}
sources: ["A book of shelves, p. 3"]
parts:
  foot:
    {stock: board, grain: front-back, face: left, left: 3, front: 0, back: 0, bottom: 0, top: shelf.bottom, mirror: left-right}
  shelf:
    stock: board
    grain: left-right
    face: top
    fills: frame
    top: 0
    sources: ["A book of boards, p. 9", "A book of shelves, p. 3"]
    note: Sand it well.
    caution: {signal: CAUTION, hazard: It is heavy., harm: It can fall on a foot., avoid: Carry it with two.}
    fit_to_work: yes
joints:
  feet:
    kind: butt
    part: foot
    to: shelf
    glue: no
    caution: {signal: NOTICE, hazard: Glue drips., harm: It spots the floor., avoid: Lay paper under it.}
loads: {shelf: {load: 20 lb}}
openings:
  under:
    left: foot.right
    right: right foot.left
    front: 0
    back: 0
    bottom: 0
    top: shelf.bottom
    caution: {signal: WARNING, hazard: The shelf can come down., harm: It can hurt., avoid: Fix it to the wall.}
"""


def test_sources_are_gathered_once_and_cautions_stand_with_their_things(design_of: Callable[..., Design]) -> None:
    piece = resolve(design_of(SAID_OF_THINGS))
    assert piece.imprint.sources == ("A book of shelves, p. 3", "A book of boards, p. 9")
    assert piece.part("shelf").note == "CAUTION: It is heavy. It can fall on a foot. Carry it with two. Sand it well."
    assert piece.part("shelf").fit_to_work
    assert piece.joints[0].note == "NOTICE: Glue drips. It spots the floor. Lay paper under it."
    assert piece.cautions == (("WARNING", "The shelf can come down.", "It can hurt.", "Fix it to the wall."),)
