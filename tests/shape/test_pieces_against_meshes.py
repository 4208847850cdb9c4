"""Whole pieces and joints of random sizes against an independent mesh library: volume, centre of mass, closed surfaces."""

from __future__ import annotations

from pathlib import Path

import pytest
import samples_of_cases
import samples_of_frames
import samples_of_tenons
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DataObject
from meshes import check_against_meshes
from samples import SAMPLES

from planbuild.pipeline import Clock, resolve_file

SAMPLED = (samples_of_cases, samples_of_frames, samples_of_tenons)
ROOT = Path(__file__).parent.parent.parent
DEMONSTRATIONS = ("music-room/listening-bench", "music-room/record-cabinet", "music-room/score-table", "wall-cabinet")
PIECES = [*(ROOT / "designs" / f"{name}.yaml" for name in DEMONSTRATIONS), *sorted((ROOT / "tests" / "published").glob("*.yaml"))]
SLOPED = [f"mortise and tenon, {form}" for form in ("wedged", "keyed", "pegged", "haunched")] + ["panel in groove, bevelled"]
once = settings(max_examples=1, database=None, phases=[Phase.generate], suppress_health_check=list(HealthCheck))
few = settings(once, max_examples=4)


@pytest.mark.slow
@pytest.mark.parametrize("path", PIECES, ids=lambda path: path.stem)
def test_a_piece(path: Path) -> None:
    check_against_meshes(resolve_file(path, Clock()))


def of_sample(name: str, data: DataObject, file: Path) -> None:
    file.write_text(data.draw(SAMPLES[name]).design(), "utf-8")
    check_against_meshes(resolve_file(file, Clock()))


@pytest.mark.parametrize("name", SLOPED)
@once
@given(data=st.data())
def test_a_joint_with_slopes_and_rounds(name: str, data: DataObject, tmp_path: Path) -> None:
    of_sample(name, data, tmp_path / "trial.yaml")


@pytest.mark.slow
@pytest.mark.parametrize("name", SAMPLES)
@few
@given(data=st.data())
def test_a_joint(name: str, data: DataObject, tmp_path: Path) -> None:
    of_sample(name, data, tmp_path / "trial.yaml")
