"""Pieces that were published with their drawings and stock bills, declared from the numbers that are printed there."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import pytest

from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.core.geometry import Axis, hull
from planbuild.derive.lists.bill import bill
from planbuild.derive.steps import order_faults
from planbuild.pipeline import Clock, resolve_file
from planbuild.prove import prove
from planbuild.records.findings import Findings
from planbuild.records.piece import Part, Piece
from planbuild.records.solids import Solids
from planbuild.shape import shape

INCH = 25.4
FOLDER = Path(__file__).parent


@dataclass(frozen=True)
class Published:
    """A published piece as it was declared and placed; it is cut and proved when that is asked for."""

    piece: Piece

    @cached_property
    def solids(self) -> Solids:
        return shape(self.piece)

    @cached_property
    def findings(self) -> Findings:
        return prove(self.piece, self.solids)

    @property
    def boards(self) -> tuple[Part, ...]:
        return tuple(part for part in self.piece.parts if not part.made_by)

    @property
    def overall(self) -> tuple[float, ...]:
        """Width, depth, height in inches, as the parts stand."""
        whole = hull([part.box(copy, part.extent) for part in self.piece.parts for copy in range(len(part.copies))])
        return tuple(round(whole.size(axis) / INCH, 4) for axis in Axis)

    @property
    def pieces(self) -> int:
        return sum(len(part.copies) for part in self.piece.parts)

    @property
    def board_feet(self) -> tuple[float, float]:
        """By volume, and with what is under an inch counted as an inch; to three places, as the bills are added up."""
        lines = bill(self.piece)
        return round(sum(line.by_volume for line in lines), 3), round(sum(line.counted for line in lines), 3)

    @property
    def bill_lines(self) -> list[tuple[int, tuple[float, ...]]]:
        """How many, and thickness, width, length as ordered, inches; parts of one size are one line.  Largest first."""
        found: dict[tuple[float, ...], int] = {}
        for part in self.piece.parts:
            size = tuple(round(each / INCH, 5) for each in part.ordered)
            found[size] = found.get(size, 0) + len(part.copies)
        return sorted(((count, size) for size, count in found.items()), key=lambda line: line[1], reverse=True)

    def gap(self, one: str, other: str) -> float:
        """Between the solids of the first copies, inches."""
        return round(self.solids.placed[one, 0].distance(self.solids.placed[other, 0]) / INCH, 5)

    def finished(self, part: str) -> tuple[float, ...]:
        """Thickness, width, length in inches."""
        length, width, thickness = self.piece.part(part).finished
        return tuple(round(each / INCH, 5) for each in (thickness, width, length))

    def between_shoulders(self, part: str) -> float:
        board = self.piece.part(part)
        return round(board.body.size(board.grain) / INCH, 5)

    @property
    def errors(self) -> list[Diagnostic]:
        return [each for each in (*self.findings.diagnostics, *order_faults(self.piece)) if each.stops]


Text = Callable[[str], str]


@pytest.fixture
def declared(tmp_path: Path) -> Callable[..., Path]:
    """The file of a piece; with changes (from, to) a copy of it that reads otherwise."""

    def path_of(name: str, *changes: tuple[str, str]) -> Path:
        text = (FOLDER / f"{name}.yaml").read_text("utf-8")
        for old, new in changes:
            assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {name}"
            text = text.replace(old, new)
        path = tmp_path / f"{name}.yaml"
        path.write_text(text, "utf-8")
        return path

    return path_of


@pytest.fixture
def published(declared: Callable[..., Path]) -> Callable[..., Published]:
    def built(name: str, *changes: tuple[str, str]) -> Published:
        return Published(resolve_file(declared(name, *changes), Clock()))

    return built


@pytest.fixture
def refused(declared: Callable[..., Path]) -> Callable[..., tuple[Diagnostic, ...]]:
    """What is told of a piece that cannot be built."""

    def faults(name: str, *changes: tuple[str, str]) -> tuple[Diagnostic, ...]:
        with pytest.raises(Refused) as refusal:
            resolve_file(declared(name, *changes), Clock())
        return tuple(each for each in refusal.value.diagnostics if each.stops)

    return faults
