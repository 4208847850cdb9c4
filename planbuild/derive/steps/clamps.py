"""Clamps of a glue-up: how many, and how long they must open."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import floor

from planbuild.core import tables
from planbuild.core.geometry import Axis
from planbuild.core.units import Unit
from planbuild.derive import phrases
from planbuild.derive.steps.assembly import Joining, Link, hull_of
from planbuild.joints.proportions import habit_length
from planbuild.records.edition import Edition
from planbuild.records.features import Hole
from planbuild.records.piece import Part, Piece
from planbuild.records.solids import Key


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
    """Along each direction in which glued joints close: one over each part that runs that way, more along a long seam,
    across the whole group.  Panels are closed by what is around them, and screws hold by themselves."""
    box = hull_of(piece, joining.groups[0])
    needed: dict[float, Clamps] = {}
    for axis in Axis:
        count = sum(_pressed(piece, edition, joining, axis).values())
        each = Clamps(count, box.size(axis) + 2 * habit_length("caul", edition.ruler))
        if count:  # those that reach the same length are used at the same time
            length = each.capacity(edition)
            needed[length] = Clamps(count + needed[length].count if length in needed else count, each.span)
    return tuple(needed.values())


def pressed(piece: Piece, edition: Edition, joining: Joining) -> tuple[str, ...]:
    """The parts over which clamps are laid."""
    found = [key[0] for axis in Axis for key in _pressed(piece, edition, joining, axis)]
    return tuple(dict.fromkeys(found))


def _pressed(piece: Piece, edition: Edition, joining: Joining, axis: Axis) -> dict[Key, int]:
    """How many clamps go over each part along one direction."""
    links = [each for each in joining.glued if abs(each.way[axis.value]) > 0.5]
    found: dict[Key, int] = {}
    for link in (each for each in links if each.joint.kind != "panel in groove" and not _is_screwed(piece, each)):
        over = link.contact.b if link.joint.kind in _CORNERS else link.contact.a
        seam = max(link.contact.shoulder.size(each) for each in Axis) if link.contact.face_glued else 0.0
        many = 1 + floor(seam / habit_length("clamp_spacing", edition.ruler))
        found[over] = found.get(over, 0) + 1 if link.joint.kind == "lapped dovetail" else max(found.get(over, 0), many)
    return found


def _is_screwed(piece: Piece, link: Link) -> bool:
    """Whether screws go through one of its parts into the other, and hold them while the glue takes."""
    parts = (piece.part(link.contact.a[0]), piece.part(link.contact.b[0]))
    bored = [{f.purpose for f in each.features if isinstance(f, Hole) and f.joint == link.joint.id} for each in parts]
    return {"clearance", "pilot"} <= bored[0] | bored[1] and all(bored)


_CORNERS = ("finger joint", "through dovetail", "half-blind dovetail")
"""Joints whose clamps go over the board that is entered: it runs from one side to the other."""


def clamp_text(edition: Edition, clamps: Clamps) -> str:
    """`five clamps of 18 in`."""
    return f"{phrases.counted(clamps.count, 'clamp')} of {phrases.with_unit(edition.ruler, clamps.capacity(edition))}"
