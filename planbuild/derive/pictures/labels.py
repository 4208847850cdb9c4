"""Where marks stand: in circles outside the picture or inside a large visible face, leaders short and straight.

Every mark has candidate places, each with a cost (`label_places`); a search takes the cheapest set in which no circle
meets another and no leader crosses another (`label_search`).  The costs are a heuristic; the result is deterministic.
Criteria after the survey of Bekos, Niedermann and Noellenburg 2019.  Units: paper mm, y down.
"""

from __future__ import annotations

from dataclasses import dataclass

from shapely import Geometry

from planbuild.core.lettering import text_width
from planbuild.records.drawing import Point

RADIUS = 3.4
HEIGHT = 2.5
"""Circle and capital height of a mark."""
AIR = 1.0


@dataclass(frozen=True)
class Site:
    """What is to be marked: the text, the part, and where it is seen (the visible faces of each copy that shows)."""

    text: str
    refers: str
    copies: tuple[tuple[Geometry, ...], ...]


@dataclass(frozen=True)
class Label:
    """A mark at `centre`; its leader ends at `end` inside the part, None where the circle stands on the part itself."""

    text: str
    refers: str
    centre: Point
    end: Point | None
    cost: float = 0.0
    """How bad this place is: about the length of the leader where it is good."""

    @property
    def half_width(self) -> float:
        return half_width(self.text)


def half_width(text: str) -> float:
    """Half the width of the outline round a mark: a circle, drawn out to both sides for long marks."""
    return max(RADIUS, text_width(text, HEIGHT, True) / 2 + 1.3)
