"""Clamps of a glue-up: how many, and how long they must open."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import floor

from planbuild.core import tables
from planbuild.core.geometry import Axis
from planbuild.core.units import Unit
from planbuild.derive import phrases
from planbuild.derive.steps.assembly import Joining, hull_of
from planbuild.joints.proportions import habit_length
from planbuild.records.edition import Edition
from planbuild.records.piece import Part, Piece


@dataclass(frozen=True)
class Clamps:
    """`count` clamps that reach over `span` (work and the blocks at both ends).  Units: mm."""

    count: int
    span: float

    def capacity(self, edition: Edition) -> float:
        """The next usual length of bar clamp.  Units: mm."""
        column = "inch" if edition.ruler.unit is Unit.INCH else "mm"
        lengths = [float(Fraction(row[column]) * edition.ruler.unit.mm) for row in tables.rows("clamps")]
        return next((each for each in lengths if each >= self.span), self.span)


def panel_clamps(piece: Piece, edition: Edition, part: Part) -> Clamps:
    """Across the strips, one at each end and more between them at the usual spacing; three at least."""
    length, width, _ = part.finished
    count = max(3, floor((length + part.rough_length) / habit_length("clamp_spacing", edition.ruler)) + 1)
    return Clamps(count, width + part.rough_width + 2 * habit_length("caul", edition.ruler))


def layer_clamps(edition: Edition, part: Part) -> Clamps:
    """Over boards glued face to face, all along them; three at least."""
    length, _, thickness = part.finished
    count = max(3, floor((length + part.rough_length) / habit_length("clamp_spacing", edition.ruler)) + 1)
    return Clamps(count, thickness + 2 * habit_length("caul", edition.ruler))


def edging_clamps(edition: Edition, part: Part) -> Clamps:
    """Across a part with a strip on its edge; two at least."""
    length, width, _ = part.finished
    count = max(2, floor(max(length, width) / habit_length("clamp_spacing", edition.ruler)) + 1)
    return Clamps(count, min(length, width) + habit_length("caul", edition.ruler))


def frame_clamps(piece: Piece, edition: Edition, joining: Joining) -> tuple[Clamps, ...]:
    """Along each direction in which glued joints close: one clamp over each entering part, across the whole group."""
    box = hull_of(piece, joining.groups[0])
    found = []
    for axis in Axis:
        entering = {link.contact.a for link in joining.glued if abs(link.way[axis.value]) > 0.5}
        if entering:
            found.append(Clamps(len(entering), box.size(axis) + 2 * habit_length("caul", edition.ruler)))
    return tuple(found)


def clamp_text(edition: Edition, clamps: Clamps) -> str:
    """`five clamps of 18 in`."""
    return f"{phrases.counted(clamps.count, 'clamp')} of {phrases.with_unit(edition.ruler, clamps.capacity(edition))}"
