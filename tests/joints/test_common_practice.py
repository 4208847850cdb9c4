"""The sizes that joints take where nothing is said, at random sizes of wood, against what the trade's texts say.

Sources: joinery texts of about 1910 and after (tenon a third to a quarter of the stock, three to five times as long as thick,
at most six times as wide; dado a quarter to a third; haunch as long as the tenon is thick); the rest is common practice.
The numbers stand here once more, by hand, apart from the tables that the program reads.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
import samples_of_cases
import samples_of_frames
import samples_of_tenons
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DataObject
from samples import SAMPLES, Sample, X, Y, Z

from planbuild.pipeline import Clock, resolve_file
from planbuild.records.piece import Joint

SAMPLED = (samples_of_cases, samples_of_frames, samples_of_tenons)
CHISELS = (6, 10, 12)
some = settings(max_examples=4, database=None, phases=[Phase.generate], suppress_health_check=list(HealthCheck))
Numbers = dict[str, float]


def joint_of(sample: Sample, file: Path, wood: str = "white ash", **changes: str | None) -> tuple[Joint, Numbers]:
    """The joint of a sample with fields left out (None), and its printed numbers."""
    file.write_text(sample.design(**changes).replace("white ash", wood), "utf-8")
    (joint,) = (each for each in resolve_file(file, Clock()).joints if each.id == "it")
    return joint, {name: value for name, value in joint.numbers if isinstance(value, float | int)}


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "trial.yaml"


@some
@given(data=st.data())
def test_a_tenon(data: DataObject, file: Path) -> None:
    """The chisel nearest to a third of the rail; three times as long as thick at most, and 6 mm of post behind it."""
    sample = data.draw(SAMPLES["mortise and tenon"])
    rail, post = (board.body for board in sample.boards)
    _, at = joint_of(sample, file, thickness=None, length=None, through=None, proud=None, shoulders=None)
    third = min(rail.size(Y), post.size(Y)) / 3
    assert at["tenon thickness"] == min(CHISELS, key=lambda width: abs(width - third))
    assert third * 3 / 5 < at["tenon thickness"] < third * 1.5
    assert at["tenon length"] == pytest.approx(min(3 * at["tenon thickness"], post.size(X) - 6 - 1.5))
    assert at["top shoulder"] == at["bottom shoulder"] == 6, "common practice 1/4 in, or 6 mm"
    assert at["mortise depth"] - at["tenon length"] == 1.5


@some
@given(data=st.data())
def test_a_haunch(data: DataObject, file: Path) -> None:
    """As long as the tenon is thick (a cube, in one text)."""
    sample = data.draw(SAMPLES["mortise and tenon, haunched"])
    _, at = joint_of(sample, file, length=None, thickness=None, haunch="{at: top}")
    assert at["haunch length"] == at["tenon thickness"]


@some
@given(data=st.data())
def test_pegs(data: DataObject, file: Path) -> None:
    """1/4 to 3/8 in (6 to 10 mm), at most a third of the width of the tenon; drawn by 1/32 to 1/16 in."""
    sample = data.draw(SAMPLES["mortise and tenon, pegged"])
    _, at = joint_of(sample, file, thickness=None, length=None, peg="{stock: rail_wood}")
    assert 6 <= at["peg diameter"] <= min(10, at["tenon thickness"]) and at["peg diameter"] <= at["tenon width"] / 3, at
    assert 0.7 < at["draw"] <= 1.5


@pytest.mark.parametrize(("wood", "run"), [("white ash", 8), ("eastern white pine", 6)])
@some
@given(data=st.data())
def test_through_dovetails(wood: str, run: int, data: DataObject, file: Path) -> None:
    """1 in 8 in hardwood, 1 in 6 in softwood; half pins of 6 mm; pins a saw goes between; tails up to 45 wide, and from as
    wide as the pins to four times (a school text of about 1910: not over 1-3/4 in)."""
    joint, at = joint_of(data.draw(SAMPLES["through dovetail"]), file, wood, slope=None, half_pin=None, tails=None)
    assert dict(joint.numbers)["slope"] == f"1:{run}"
    assert at["half pin"] >= 6
    assert at["between tails at the tips"] >= 3
    assert at["tail width at the tip"] <= 45
    neck = at["tail width at the tip"] - 2 * at["tail length"] / run
    between = at["between tails at the tips"] + 2 * at["tail length"] / run
    assert neck >= 6 and 0.5 < at["tail width at the tip"] / between < 4.5


@some
@given(data=st.data())
def test_the_lap_of_half_blind_dovetails(data: DataObject, file: Path) -> None:
    """1/8 to 1/4 in, 3 to 6 mm."""
    _, at = joint_of(data.draw(SAMPLES["half-blind dovetail"]), file, lap=None)
    assert 3 <= at["lap"] <= 6


def share(name: str, field: str, number: str, axis: int, low: Fraction, high: Fraction) -> object:
    return pytest.param(name, field, number, axis, low, high, id=name)


@pytest.mark.parametrize(
    ("name", "field", "number", "axis", "low", "high"),
    [
        share("dado", "depth", "housing depth", 0, Fraction(1, 4), Fraction(1, 3)),
        share("rabbet", "depth", "rabbet depth", 0, Fraction(1, 2), Fraction(2, 3)),
        share("sliding dovetail", "depth", "housing depth", 0, Fraction(1, 4), Fraction(1, 2)),
        share("half lap", "depth", "cut from first bar", 2, Fraction(1, 2), Fraction(1, 2)),
        share("bridle", "thickness", "tongue thickness", 1, Fraction(1, 4), Fraction(2, 5)),
        share("tongue and groove", "thickness", "tongue thickness", 2, Fraction(1, 3), Fraction(1, 3)),
    ],
)
@some
@given(data=st.data())
def test_a_share_of_the_mate(
    name: str, field: str, number: str, axis: int, low: Fraction, high: Fraction, data: DataObject, file: Path
) -> None:
    """To the printed step of half a millimetre."""
    sample = data.draw(SAMPLES[name])
    _, at = joint_of(sample, file, **{field: None})
    mate = sample.boards[1].body.size((X, Y, Z)[axis])
    assert float(low) * mate - 0.5 <= at[number] <= float(high) * mate + 0.5, at


@some
@given(data=st.data())
def test_fingers(data: DataObject, file: Path) -> None:
    """As wide as one of the boards is thick, or half of that, so far as they come out even."""
    sample = data.draw(SAMPLES["finger joint"])
    _, at = joint_of(sample, file, finger=None)
    thin, thick = sorted((sample.boards[0].body.size(X), sample.boards[1].body.size(Y)))
    assert thin / 2 - 1 < at["finger width"] < thick + 2


@some
@given(data=st.data())
def test_a_panel_groove(data: DataObject, file: Path) -> None:
    """3/8 in, or 10 mm, deep."""
    sample = data.draw(SAMPLES["panel in groove"])
    _, at = joint_of(sample, file, depth=None, play=None)
    assert at["groove depth"] == 10 and sample.boards[1].body.size(X) >= 2 * 10


@some
@given(data=st.data())
def test_dowels(data: DataObject, file: Path) -> None:
    """A third to a half of the stock, of a drill that is sold; 1-1/2 in of dowel or more in all."""
    sample = data.draw(SAMPLES["dowel"])
    _, at = joint_of(sample, file, diameter=None, depth=None, count="1")
    assert at["dowel diameter"] in (6, 8, 10, 12)
    assert sample.boards[0].body.size(Y) / 4 < at["dowel diameter"] <= sample.boards[0].body.size(Y) / 2
