"""For whom a design is printed: paper, unit, projection.  An input of derive and publish, never looked up."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from planbuild.core.units import Ruler


class Projection(Enum):
    """Arrangement of views.  Source: ISO 5456-2, ASME Y14.3."""

    FIRST = "first angle"
    THIRD = "third angle"


@dataclass(frozen=True)
class Paper:
    """A sheet, upright.  Units: mm.  Source: ISO 216 (A4), ASME Y14.1 size A (Letter)."""

    name: str
    width: float
    height: float


LETTER = Paper("Letter", 215.9, 279.4)
A4 = Paper("A4", 210.0, 297.0)

MARGIN_SIDE, MARGIN_TOP, MARGIN_FOOT = 16.0, 14.0, 18.0
"""Home printers leave the last 5 mm white, punch holes take 12 mm (common practice)."""


@dataclass(frozen=True)
class Edition:
    """`date` is ISO 8601 and an input, so that the same design gives the same bytes."""

    id: str
    paper: Paper
    ruler: Ruler
    projection: Projection
    date: str

    @property
    def text_width(self) -> float:
        return self.paper.width - 2 * MARGIN_SIDE

    @property
    def text_height(self) -> float:
        return self.paper.height - MARGIN_TOP - MARGIN_FOOT
