"""A small design laid out, for the tests of placing: a head that all share, sizes in inches, faults by code."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.geometry import Axis, Box
from planbuild.records.design import Design
from planbuild.records.piece import Part
from planbuild.resolve.layout import LaidOut

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
