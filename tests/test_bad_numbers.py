"""A number said badly, anywhere in a joint or a shape: an error with its place, never a fault of the modeller or an empty solid.

Each number in turn is negative, nothing, a millionth of a millimetre, a hundred kilometres; a slope is flat, upright, backward.
Nothing may be meant (no play, no draw, a place at an edge).  The rest must be told.  Each thing that is told has its own file in
`tests/faults`; here they are found without being looked for.
"""

from __future__ import annotations

from pathlib import Path

import pytest
import samples_of_cases
import samples_of_frames
import samples_of_tenons
from bad_numbers import PERHAPS, spoiled, told
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DataObject
from samples import SAMPLES
from shapes_said import SHAPES, design_of

SAMPLED = (samples_of_cases, samples_of_frames, samples_of_tenons)
once = settings(max_examples=1, database=None, phases=[Phase.generate], suppress_health_check=list(HealthCheck))
thrice = settings(once, max_examples=3)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "trial.yaml"


def check(design: str, bad: str, file: Path, may_be: tuple[str, ...] = PERHAPS) -> None:
    """An error with its place in the file; what may be meant may also make sound solids."""
    errors, whole = told(design, file)
    assert errors or (bad in may_be and whole), f"{bad} is not told\n{design}"
    assert all(each.span and each.span.file == str(file) and each.message for each in errors), design


def check_joint(name: str, data: DataObject, file: Path, step: int) -> None:
    """Of all that can be said badly every so many-th, beginning with the first."""
    sample = data.draw(SAMPLES[name])
    worse = [(field, text, bad) for field, good in sample.said.items() if field != "kind" for text, bad in spoiled(good)]
    for field, text, bad in worse[::step]:
        check(sample.design(**{field: text}), bad, file)


@pytest.mark.parametrize("name", SAMPLES)
@once
@given(data=st.data())
def test_a_joint(name: str, data: DataObject, file: Path) -> None:
    check_joint(name, data, file, 7)


@pytest.mark.slow
@pytest.mark.parametrize("name", SAMPLES)
@thrice
@given(data=st.data())
def test_a_joint_at_other_sizes(name: str, data: DataObject, file: Path) -> None:
    check_joint(name, data, file, 1)


@pytest.mark.parametrize(("name", "shape"), SHAPES.items(), ids=SHAPES)
def test_a_shape(name: str, shape: str, file: Path) -> None:
    check_shape(name, shape, file, 7)


@pytest.mark.slow
@pytest.mark.parametrize(("name", "shape"), SHAPES.items(), ids=SHAPES)
def test_a_shape_in_every_number(name: str, shape: str, file: Path) -> None:
    check_shape(name, shape, file, 1)


def check_shape(name: str, shape: str, file: Path, step: int) -> None:
    """An end may be cut the other way round."""
    for text, bad in [*spoiled(shape)][::step]:
        check(design_of(name, text), bad, file, (*PERHAPS, "-5") if name == "end cut" else PERHAPS)


@pytest.mark.parametrize(("name", "shape"), SHAPES.items(), ids=SHAPES)
def test_the_shape_itself_is_sound(name: str, shape: str, file: Path) -> None:
    assert told(design_of(name, shape), file) == ([], True)


@pytest.mark.parametrize(
    ("name", "field", "said", "code"),
    [
        ("mortise and tenon", "thickness", "90", "joint-tenon-size"),  # wider than the mortised part
        ("mortise and tenon", "length", "90", "joint-wall"),  # longer than it is thick
        ("mortise and tenon, round", "round", "80", "joint-round"),
        ("through dovetail", "tails", "[9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9]", "joint-pin-thin"),
        ("through dovetail", "half_pin", "1", "joint-pin-thin"),  # thinner than can be cut
        ("panel in groove", "depth", "40", "joint-groove-deep"),
        ("panel in groove", "play", "30", "joint-panel-draws"),
        ("dado", "depth", "29", "joint-dado-depth"),
        ("dowel", "depth", "90", "joint-wall"),
        ("bridle", "thickness", "49", "joint-bridle-thick"),
        ("finger joint", "finger", "400", "joint-finger"),
    ],
)
@once
@given(data=st.data())
def test_what_is_too_large_or_too_thin_is_called_so(
    name: str, field: str, said: str, code: str, data: DataObject, file: Path
) -> None:
    errors, _ = told(data.draw(SAMPLES[name]).design(**{field: said}), file)
    assert code in {each.code for each in errors}, errors
