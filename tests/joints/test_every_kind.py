"""Every kind of joint at random sizes, made from a design: wood is neither lost nor there twice, and bad numbers are told.

A new kind brings a sample (`samples_of_frames`, `samples_of_cases`), each of its forms another (`samples_of_tenons`); until
a kind does, the first test fails.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import get_args

import pytest
import samples_of_cases
import samples_of_frames
import samples_of_tenons
from cut_again import volume_of
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DataObject, DrawFn
from joined_solids import block_of, clash, volume
from pydantic import BaseModel
from samples import BACK, DOWN, FRONT, LEFT, RIGHT, SAMPLES, UP, Sample, kind_of

from planbuild.core.diagnostics import Refused
from planbuild.core.geometry import TINY, Axis, Box, Span1, Vec
from planbuild.core.render import one_line
from planbuild.joints import KINDS
from planbuild.pipeline import Clock, resolve_file
from planbuild.prove import prove
from planbuild.records.design import JointSaid, Said
from planbuild.records.piece import Piece
from planbuild.records.solids import Key, Solids
from planbuild.shape import kernel, shape

HAIR = 1e-2
"""Volumes that differ by less are the same, mm3."""
WAYS = (LEFT, RIGHT, FRONT, BACK, DOWN, UP)
SAMPLED = (samples_of_cases, samples_of_frames, samples_of_tenons)
few = settings(
    max_examples=2,
    database=None,
    phases=[Phase.generate],
    suppress_health_check=list(HealthCheck),
)
many = settings(few, max_examples=15)


def test_every_kind_has_a_sample() -> None:
    """What is missing: a function with `@sample("<kind>")` in one of the modules of samples."""
    sampled = {kind_of(name) for name in SAMPLES}
    missing, unknown = sorted(set(KINDS) - sampled), sorted(sampled - set(KINDS))
    assert not missing, f"these kinds of joint have no sample of random sizes, write one each: {missing}"
    assert not unknown, f"samples of kinds that are not in joints.KINDS: {unknown}"


# ---------------------------------------------------------------- sound numbers


@dataclass(frozen=True)
class Made:
    """A sample made into solids; `moving` and `still` are the two parts of its joint."""

    sample: Sample
    piece: Piece
    solids: Solids

    @property
    def keys(self) -> list[Key]:
        return list(self.solids.placed)

    @property
    def moving(self) -> Key:
        return self.sample.boards[0].id, 0

    def blocked_by(self, by: Vec) -> float:
        """The wood that the moving part would have to go through."""
        return sum(clash(self.solids, self.moving, key, by) for key in self.keys if key != self.moving)


def made_of(sample: Sample, folder: Path) -> Made:
    file = folder / "trial.yaml"
    file.write_text(sample.design(), "utf-8")
    try:
        piece = resolve_file(file, Clock())
    except Refused as refused:
        raise AssertionError([one_line(each) for each in refused.diagnostics]) from None
    return Made(sample, piece, shape(piece))


def check(made: Made) -> None:
    every_part_is_one_sound_solid_within_its_stock(made)
    numbers_alone_cut_the_same(made)
    no_wood_is_there_twice_or_lost(made)
    goes_together_as_it_says(made)


def every_part_is_one_sound_solid_within_its_stock(made: Made) -> None:
    for part in made.piece.parts:
        solid = made.solids.of[part.id].cut
        assert len(kernel.solids_of(solid.wrapped)) == 1 and kernel.is_valid(solid.wrapped), part.id
        bounds = solid.BoundingBox()
        reach = [(bounds.xmin, bounds.xmax), (bounds.ymin, bounds.ymax), (bounds.zmin, bounds.zmax)]
        for (low, high), span in zip(reach, (part.extent.x, part.extent.y, part.extent.z), strict=True):
            assert span.low - TINY < low and high < span.high + TINY, part.id
        assert all(rough > cut - TINY for rough, cut in zip(part.ordered, reversed_sizes(part.finished), strict=True))


def reversed_sizes(finished: tuple[float, float, float]) -> tuple[float, float, float]:
    """Thickness, width, length, as a bill has them."""
    length, width, thickness = finished
    return thickness, width, length


def numbers_alone_cut_the_same(made: Made) -> None:
    for part in made.piece.parts:
        assert volume(made.solids.of[part.id].cut.wrapped) == pytest.approx(volume_of(part), abs=HAIR), part.id


def no_wood_is_there_twice_or_lost(made: Made) -> None:
    solids = [made.solids.placed[key].wrapped for key in made.keys]
    together = volume(kernel.fuse(solids[0], solids[1:]).Shape())
    assert sum(map(volume, solids)) == pytest.approx(together, abs=HAIR), "two parts fill the same wood"
    empty, proud = made.sample.empty, made.sample.proud
    bodies = block_of(*made.sample.bodies)
    inside = sum(volume(kernel.common(bodies, [solid])) for solid in solids)
    if empty is not None:
        (joint,) = (each for each in made.piece.joints if each.id == "it")
        stated = empty if isinstance(empty, float | int) else empty(joint)
        assert volume(bodies) - inside == pytest.approx(stated, abs=HAIR), "wood is lost, or a void is hidden"
    if proud is not None:
        assert together - inside == pytest.approx(proud, abs=HAIR), "wood stands out of the bodies"


def goes_together_as_it_says(made: Made) -> None:
    """Free to be drawn out against the way home; stopped there and wherever the sample says so, and nowhere else.

    A wedged tenon goes in as it is made; spread, it is held.
    """
    still = made.sample.boards[1].id, 0
    held = [each for joint in made.piece.joints for each in joint.contacts if {each.a, each.b} == {made.moving, still}]
    (home,) = {each.insert if each.a == made.moving else backward(each.insert) for each in held}
    far = max(size_along(board.body, home) for board in made.sample.boards)
    for share in (0.02, 0.3, 0.7, 1.0):
        out = (-home[0] * far * share, -home[1] * far * share, -home[2] * far * share)
        assert cut_clash(made, still, out) < HAIR, f"not free to come out along {home}"
    play = made.sample.play
    ways = [(way, 2.0) for way in made.sample.blocked] + [(home, 2.0 + play)] * made.sample.stops
    for (x, y, z), by in ways:
        assert made.blocked_by((by * x, by * y, by * z)) > 1, f"not stopped along {(x, y, z)}"
    for x, y, z in set(WAYS) - {home, *made.sample.blocked}:
        assert made.blocked_by((2 * x, 2 * y, 2 * z)) < HAIR, f"stopped along {(x, y, z)}, and the sample does not say so"


def cut_clash(made: Made, still: Key, by: Vec) -> float:
    """The wood in the way of the moving part as it leaves the bench."""
    solid = made.solids.of[made.moving[0]].cut.translate(by)
    return volume(kernel.common(made.solids.placed[still].wrapped, [solid.wrapped]))


def backward(way: Vec) -> Vec:
    return (-way[0], -way[1], -way[2])


def size_along(body: Box, way: Vec) -> float:
    return sum(abs(part) * size for part, size in zip(way, (body.x.size, body.y.size, body.z.size), strict=True))


@pytest.mark.parametrize("kind", SAMPLES)
@few
@given(data=st.data())
def test_no_wood_is_lost_or_there_twice(kind: str, data: DataObject, tmp_path_factory: pytest.TempPathFactory) -> None:
    check(made_of(data.draw(SAMPLES[kind]), tmp_path_factory.mktemp("joint")))


@pytest.mark.slow
@pytest.mark.parametrize("kind", SAMPLES)
@many
@given(data=st.data())
def test_no_wood_is_lost_or_there_twice_at_many_sizes(
    kind: str, data: DataObject, tmp_path_factory: pytest.TempPathFactory
) -> None:
    check(made_of(data.draw(SAMPLES[kind]), tmp_path_factory.mktemp("joint")))


# ---------------------------------------------------------------- bad numbers


BAD = (
    *("0", "-5", "0.001", "0.3", "1", "2", "3", "5", "7", "12", "24", "45", "1000", "100000000", "1/0", "nonsense", "(((", "[]"),
    *("5 deg", "80 deg", "1:8", "9:1", "8 %", "2 x 3", "at most 40", "third", "left", "top", "middle", "all", "yes", "no"),
    *("screw", "side", "rail", "rail.left", "slab", "rail_wood"),
)
"""Too small, too large, of another sort, or no words of the language at all."""


def fields_of(model: type[BaseModel]) -> dict[str, object]:
    """What may be said, by the word for it."""
    return {field.alias or name: field.annotation for name, field in model.model_fields.items() if name not in OF_ALL}


OF_ALL = {"kind", "origin", *(set(JointSaid.model_fields) - {"glue", "fit"})}


def bad(draw: DrawFn, form: object) -> str:
    """A text for a field of that form, as bad as can be."""
    text, models = draw(st.sampled_from(BAD)), [each for each in (form, *get_args(form)) if isinstance(each, type)]
    nested = next((each for each in models if issubclass(each, BaseModel) and each is not Said), None)
    if nested and draw(st.booleans()):
        inside = draw(st.lists(st.sampled_from(sorted(fields_of(nested))), min_size=1, max_size=3, unique=True))
        return "{" + ", ".join(f"{each}: {draw(st.sampled_from(BAD))}" for each in inside) + "}"
    if "Mapping" in str(form) and draw(st.booleans()):
        return f"{{{draw(st.sampled_from(('left', 'right', 'front', 'back', 'top', 'bottom')))}: {text}}}"
    return f"[{text}, {draw(st.sampled_from(BAD))}]" if "tuple" in str(form) and draw(st.booleans()) else text


@st.composite
def spoiled(draw: DrawFn, kind: str) -> str:
    """The design of a sample with one or two fields said badly, or with a board somewhere else or of another size."""
    sample, forms = draw(SAMPLES[kind]), fields_of(KINDS[kind_of(kind)].said)
    if draw(st.integers(0, 3)) == 0:
        return elsewhere(draw, sample).design()
    names = draw(st.lists(st.sampled_from(sorted(forms)), min_size=1, max_size=2, unique=True))
    return sample.design(**{name: bad(draw, forms[name]) for name in names})


def elsewhere(draw: DrawFn, sample: Sample) -> Sample:
    first, second, *others = sample.boards
    spans = {}
    for axis in Axis:
        span, shift = first.body.along(axis), draw(st.sampled_from((0, 0, 0, -7, 3, 0.5, 60)))
        size = max(span.size + draw(st.sampled_from((0, 0, 0, -5, 9, 100))), 0.5)
        spans[axis] = Span1(span.low + shift, span.low + shift + size)
    moved = replace(first, body=Box.of(spans))
    return replace(sample, boards=(moved, second, *others))


def check_told(design: str, folder: Path) -> None:
    """An error with its place in the file, or a piece that is sound; nothing else."""
    file = folder / "trial.yaml"
    file.write_text(design, "utf-8")
    try:
        piece = resolve_file(file, Clock())
        solids = shape(piece)
        found = [each for each in prove(piece, solids).diagnostics if each.stops]
    except Refused as refused:
        found = [each for each in refused.diagnostics if each.stops]
    else:
        wrong = [part.id for part in piece.parts if not is_whole(solids, part.id)]
        assert found or not wrong, f"no finding tells that these are empty or in pieces: {wrong}\n{design}"
    assert all(each.span is not None and each.message for each in found), design


def is_whole(solids: Solids, part: str) -> bool:
    solid = solids.of[part].cut.wrapped
    return len(kernel.solids_of(solid)) == 1 and kernel.is_valid(solid)


@pytest.mark.parametrize("kind", [kind for kind in SAMPLES if kind in KINDS])
@few
@given(data=st.data())
def test_bad_numbers_are_told(kind: str, data: DataObject, tmp_path_factory: pytest.TempPathFactory) -> None:
    check_told(data.draw(spoiled(kind)), tmp_path_factory.mktemp("bad"))


@pytest.mark.slow
@pytest.mark.parametrize("kind", SAMPLES)
@many
@given(data=st.data())
def test_many_bad_numbers_are_told(kind: str, data: DataObject, tmp_path_factory: pytest.TempPathFactory) -> None:
    check_told(data.draw(spoiled(kind)), tmp_path_factory.mktemp("bad"))
