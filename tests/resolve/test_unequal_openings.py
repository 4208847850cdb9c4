"""Openings of unequal size in one row, and the blocks in them: `shares: [1, 1, 2]`."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from trial import HEAD, Trial

from planbuild.core.diagnostics import Collector, Refused
from planbuild.core.geometry import Axis
from planbuild.pipeline import Clock, resolve_file
from planbuild.read import read_design
from planbuild.records.piece import Piece
from planbuild.resolve.layout import lay_out

CHEST = """\
frame: {width: 20, depth: 12, height: 18}
parts:
  side: {stock: board, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0, mirror: left-right, glue_up: no}
  floor: {stock: board, grain: left-right, face: top, between: side, front: 0, back: 0, bottom: 1, glue_up: no}
  roof: {stock: board, grain: left-right, face: top, between: side, front: 0, back: 0, top: 1, glue_up: no}
  rail:
    stock: board
    grain: left-right
    face: top
    between: side
    front: 0
    width: 2
    repeat: {at: {bottom: [first slot.top, 2nd slot.top]}}
openings:
  slot:
    left: side.right
    right: right side.left
    front: 0
    back: 1
    repeat: {shares: [1, 1, 2], along: bottom-top, between: [floor, roof], rails: rail}
"""
TRAY = """\
blocks:
  tray:
    in: slot
    frame: opening
    moves: {goes_in: from front, opens: to front, by: 6}
    takes: {wood: {is: stock}}
    with: {wood: board}
    parts:
      cheek: {stock: wood, grain: front-back, face: left, left: 1/16, front: 0, back: 0, bottom: 0, top: 1/8, mirror: left-right,
        glue_up: no}
      base: {stock: wood, grain: left-right, face: top, between: cheek, front: 0, back: 0, bottom: 1/4, glue_up: no}
    joints:
      housing: {kind: dado, part: base}
    steps:
      glue.tray: {note: "Keep it square."}
joints:
  low: {kind: dado, part: floor}
  high: {kind: dado, part: roof}
  rails: {kind: dowel, part: rail}
  rests: {kind: loose, part: tray, on: [floor, rail]}
"""

Laid = Callable[[str], Trial]


@pytest.fixture
def lay(tmp_path: Path) -> Laid:
    def laid_out(text: str) -> Trial:
        (tmp_path / "design.yaml").write_text(HEAD + text, "utf-8")
        design, report = read_design(tmp_path / "design.yaml"), Collector()
        laid = lay_out(design, report)
        return Trial(design, laid, Refused(tuple(report.found)).diagnostics)

    return laid_out


def whole(folder: Path, text: str) -> Piece:
    (folder / "design.yaml").write_text(HEAD + text, "utf-8")
    return resolve_file(folder / "design.yaml", Clock())


def spans(trial: Trial, id: str) -> tuple[float, float]:
    low, high = trial.body(id)[2]
    return float(low), float(high)


def test_shares_divide_what_the_rails_leave(lay: Laid) -> None:
    """From 1-3/4 to 16-1/4 are 14-1/2; less two rails of 3/4 are 13, in four shares of 3-1/4."""
    trial = lay(CHEST)
    assert [each for each in trial.codes if not each.startswith("joint-")] == []
    assert spans(trial, "slot") == (1.75, 5.0)
    assert spans(trial, "last_slot") == (9.75, 16.25)
    assert {hand: low[2] for hand, low in trial.copies("rail").items()} == {"first": 5.0, "last": 9.0}


def test_each_size_has_parts_of_its_own(tmp_path: Path) -> None:
    """Two trays of one size, one of twice that less what the gap takes; each is called by its place in the whole row."""
    piece = whole(tmp_path, CHEST + TRAY)
    small, large = piece.part("tray.cheek"), piece.part("last_tray.cheek")
    assert [each.hand for each in small.copies] == [
        f"{place} tray's {side}" for place in ("first", "2nd") for side in ("left", "right")
    ]
    assert [each.hand for each in large.copies] == ["last tray's left", "last tray's right"]
    tall = [round(each.body.size(Axis.BOTTOM_TOP) / 25.4, 4) for each in (small, large)]
    assert tall == [3.125, 6.375]
    assert [each.name for each in piece.blocks] == ["tray", "last tray"]
    assert [len(each.motions) for each in piece.blocks] == [2, 1]
    assert {each.id for each in piece.steps} == {"glue.tray", "glue.last_tray"}


@pytest.mark.parametrize(
    ("said", "inches"),
    [
        ("slot.bottom", 1.75),
        ("first slot.top", 5.0),
        ("2nd slot.bottom", 5.75),
        ("last slot.top", 16.25),
        ("3rd slot.bottom", 9.75),
        ("2nd tray.base.bottom", 6.0),
        ("last tray.cheek.top", 16.125),
    ],
)
def test_a_hand_means_a_place_in_the_whole_row(lay: Laid, said: str, inches: float) -> None:
    pad = f"  pad: {{stock: board, grain: left-right, face: top, between: side, front: 11, width: 1, bottom: {said}}}\nopenings:"
    trial = lay((CHEST + TRAY).replace("openings:", pad, 1))
    assert spans(trial, "pad")[0] == inches


def test_what_is_said_of_all_is_said_of_every_size(tmp_path: Path) -> None:
    """Of the whole block, of a part of it, and of what looks into it; the load and the notes on its steps too."""
    more = "finishes: {oil: {product: hardwax oil}}\nfinish: {everywhere: oil, except: {inside tray: bare, tray.base: bare}}\n"
    piece = whole(tmp_path, CHEST + TRAY + more + "loads: {tray: {load: 10 lb}}\n")
    (rests,) = (each for each in piece.joints if each.id == "rests")
    assert len([each for each in rests.contacts if each.a[0] == "tray.cheek"]) == 4
    assert len([each for each in rests.contacts if each.a[0] == "last_tray.cheek"]) == 2
    (oil,) = piece.coatings
    assert {part for part, _ in oil.bare} >= {"tray.base", "last_tray.base", "tray.cheek", "last_tray.cheek"}
    assert {each.on for each in piece.loads} == {"tray.base", "last_tray.base"}


def test_one_part_of_several_sizes_must_say_which(lay: Laid) -> None:
    joint = "  pegs: {kind: dowel, part: tray.base}\n"
    found = lay(CHEST + TRAY + joint).one("ref-part")
    assert "openings of unequal size" in found.message and "`first tray.base`" in found.hints[0]
    assert "ref-part" not in lay(CHEST + TRAY + joint.replace("tray.base", "last tray.base")).codes


@pytest.mark.parametrize(
    ("was", "wrong", "told"),
    [
        ("[1, 1, 2]", "[1, two, 2]", "`two` is no share"),
        ("[1, 1, 2]", "[1, 0]", "A share of nothing"),
        ("[1, 1, 2]", "[1]", '1 share for "slot"'),
        ("[1, 1, 2]", f"[{', '.join(['1'] * 13)}]", '13 shares for "slot"'),
    ],
)
def test_shares_that_are_none(tmp_path: Path, was: str, wrong: str, told: str) -> None:
    with pytest.raises(Refused) as refused:
        whole(tmp_path, CHEST.replace(was, wrong))
    assert any(each.code == "read-shares" and told in each.message and each.span for each in refused.value.diagnostics)


@pytest.mark.parametrize(
    ("was", "wrong", "told"),
    [
        ("rails: rail}", "rails: rail, ends: flush}", "is divided by shares: only"),
        ("bottom: 1,", "bottom: 15,", "leave no opening"),
    ],
)
def test_shares_that_cannot_divide(lay: Laid, was: str, wrong: str, told: str) -> None:
    assert any(told in each.message for each in lay(CHEST.replace(was, wrong)).found if each.code == "place-row")


def test_without_rails_the_openings_lie_one_on_the_other(lay: Laid) -> None:
    """Fractions of shares: 14-1/2 in 1-1/2, 1-1/2 and 2."""
    text = CHEST.replace("[1, 1, 2]", "[1-1/2, 3/2, 2.0]").replace(", rails: rail}", "}")
    trial = lay(text.replace("    repeat: {at: {bottom: [first slot.top, 2nd slot.top]}}", "    bottom: first slot.top"))
    assert spans(trial, "slot") == (1.75, 6.1) and spans(trial, "last_slot") == (10.45, 16.25)
