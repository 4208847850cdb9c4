"""Small designs for the tests of placing: a head that all share, sizes in inches, faults by code."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import pytest

from planbuild.core.diagnostics import Collector, Diagnostic, Refused
from planbuild.core.geometry import Axis, Box
from planbuild.read import read_design
from planbuild.records.design import Design
from planbuild.records.piece import Part
from planbuild.resolve.layout import LaidOut, lay_out

HEAD = """\
format: 1
title: Trial
contact: trial@plans.example
licence: free
units: inch
stock:
  board: {species: white ash, rough: 4/4, thickness: 3/4}
  post: {species: white ash, rough: 8/4, thickness: 1-3/4}
"""


@dataclass(frozen=True)
class Trial:
    """A small design laid out, and what was found (joints that are missing left aside)."""

    design: Design
    laid: LaidOut
    found: tuple[Diagnostic, ...]

    @property
    def codes(self) -> list[str]:
        return [each.code for each in self.found]

    def one(self, code: str) -> Diagnostic:
        (found,) = [each for each in self.found if each.code == code]
        return found

    def body(self, part: str) -> tuple[tuple[Fraction, Fraction], ...]:
        """(low, high) in x, y, z of the drawn copy, inches, exact."""
        spans = self.laid.setting_out.spans(part)
        assert spans is not None, self.found
        return tuple((spans[axis][0] / self.laid.setting_out.unit, spans[axis][1] / self.laid.setting_out.unit) for axis in Axis)

    def part(self, part: str) -> Part:
        return next(each for each in self.laid.parts if each.id == part)

    def copies(self, part: str) -> dict[str, tuple[float, ...]]:
        """Hand -> (x, y, z) of the low corner of each standing copy, inches."""
        found = self.part(part)
        return {copy.hand: _low(copy.motion.box(found.body)) for copy in found.copies}


def _low(box: Box) -> tuple[float, ...]:
    return tuple(round(box.along(axis).low / 25.4, 6) for axis in Axis)


def letters(text: str, found: Diagnostic) -> str:
    """The letters of the small design that a finding points at."""
    assert found.span is not None
    line = (HEAD + text).splitlines()[found.span.line - 1]
    return line[found.span.column - 1 : found.span.column - 1 + found.span.length]


@pytest.fixture
def design_of(tmp_path: Path) -> Callable[..., Design]:
    def read(text: str, units: str = "inch", board: str = "3/4", species: str = "white ash") -> Design:
        file = tmp_path / "trial.yaml"
        head = HEAD.replace("units: inch", f"units: {units}").replace("thickness: 3/4", f"thickness: {board}")
        file.write_text(head.replace("white ash, rough: 4/4", f"{species}, rough: 4/4") + text, "utf-8")
        return read_design(file)

    return read


@pytest.fixture
def lay(design_of: Callable[..., Design]) -> Callable[..., Trial]:
    """Lays a small design out; the head above is put before it."""

    def laid_out(text: str, **head: str) -> Trial:
        report = Collector()
        design = design_of(text, **head)
        laid = lay_out(design, report)
        found = tuple(each for each in Refused(tuple(report.found)).diagnostics if not each.code.startswith("joint-"))
        return Trial(design, laid, found)

    return laid_out
