"""The blank each part is cut from: rough length, width and thickness, and how many blanks there are.

Apart from the cut list so that wood to buy, steps and tables speak of the same blanks.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from planbuild.core.geometry import Axis
from planbuild.core.units import Ruler, Unit
from planbuild.joints.proportions import habit_length
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.edging import core_of, edgings_of
from planbuild.records.features import Taper, Tenon
from planbuild.records.piece import Part, Piece
from planbuild.records.shaped import Sawn


@dataclass(frozen=True)
class Blank:
    """`each` is (length along the grain, width, rough thickness) of one of `count` like pieces.  Units: mm.

    A panel's blanks are its strips; that of an edged part is its sheet; small parts that a joint calls for are all sawn
    from one blank.
    """

    part: str
    stock: str
    each: tuple[float, float, float]
    count: int


def blank_of(piece: Piece, part: Part, ruler: Ruler) -> Blank:
    """Finished size plus the allowances of the part; the thickness is that of the rough board, or of the leaf sawn from it."""
    rough = piece.stock_of(part).sawn
    if part.made_by:
        size = _offcut(piece, part) if is_from_offcut(piece, part) else _strip(piece, part, ruler)
        return Blank(part.id, part.stock, (*size, rough), 1)
    core = core_of(part.extent, edgings_of(part.features))
    length, width = core.size(part.grain), core.size(part.width_axis)
    strips = part.glue_up.strips if part.glue_up else 1
    wide = part.glue_up.strip_width if part.glue_up else width
    count = strips * (part.glue_up.layers if part.glue_up else 1) * len(part.copies)
    return Blank(part.id, part.stock, (length + part.rough_length, wide + part.rough_width, rough), count)


def is_from_offcut(piece: Piece, part: Part) -> bool:
    """Whether a part is made from an offcut: nothing but parts that joints call for is cut from its stock."""
    return bool(part.made_by) and all(each.made_by for each in piece.parts if each.stock == part.stock)


def is_key(piece: Piece, part: Part) -> bool:
    """Whether a part is a key that draws a tenon tight, and stays as long as it is made."""
    return any(isinstance(f, Tenon) and f.keyway and f.keyway.key == part.id for each in piece.parts for f in each.features)


def is_corner_key(piece: Piece, part: Part) -> bool:
    """Whether a part is a key across a mitre, let in when the corner is glued, and trimmed flush."""
    slots = (f for each in piece.parts for f in each.features if isinstance(f, CornerSlot))
    return any(slot.deep is None and slot.mate.part == part.id for slot in slots)


def is_spline(piece: Piece, part: Part) -> bool:
    """Whether a part is a spline, that goes into both faces of a mitre as it is glued."""
    slots = (f for each in piece.parts for f in each.features if isinstance(f, CornerSlot))
    return any(slot.deep is not None and slot.mate.part == part.id for slot in slots)


def is_edge_spline(piece: Piece, part: Part) -> bool:
    """Whether a part is a strip in the grooves of two boards that are glued edge to edge."""
    return any(each.id == part.made_by and each.kind == "edge glue" for each in piece.joints)


def is_let_in(piece: Piece, part: Part) -> bool:
    """Whether a part is a key that lies in the faces of two boards across their seam."""
    cuts = (f for each in piece.parts for f in each.features if isinstance(f, Sawn))
    return any(cut.joint and cut.mate and cut.mate.part == part.id for cut in cuts)


def is_wedge(piece: Piece, part: Part) -> bool:
    """Whether a part is a wedge that spreads a tenon, and is sawn flush when it is home."""
    return any(isinstance(f, Tenon) and f.wedging and f.wedging.wedge == part.id for each in piece.parts for f in each.features)


def is_peg(piece: Piece, part: Part) -> bool:
    """Whether a part is a peg that goes through a tenon, and is sawn flush when it is home."""
    return any(isinstance(f, Tenon) and any(h.peg == part.id for h in f.pegs) for each in piece.parts for f in each.features)


def planed_axis(part: Part) -> Axis:
    """Of a small part: the thickness of the wood it is sawn from, the way across the grain in which it does not taper."""
    tapered = {axis for each in part.features if isinstance(each, Taper) for axis, _ in each.leaving}
    return next((axis for axis in part.grain.others if axis not in tapered), part.thickness_axis)


def _strip(piece: Piece, part: Part, ruler: Ruler) -> tuple[float, float]:
    """Length and width of the strip from which all copies are cut off one after another, with saw cuts and an end
    to hold it by, rounded up to whole inches or centimetres."""
    step = 25.4 if ruler.unit is Unit.INCH else 10.0
    cut = len(part.copies) * (part.finished[0] + piece.practice.kerf)
    return ceil((cut + habit_length("ends_held", ruler)) / step) * step, part.finished[1] + part.rough_width


def _offcut(piece: Piece, part: Part) -> tuple[float, float]:
    """Length and width of the offcut from which all copies are sawn side by side."""
    (sawn,) = (axis for axis in part.grain.others if axis is not planed_axis(part))
    wide = len(part.copies) * (part.extent.size(sawn) + piece.practice.kerf)
    return part.finished[0] + part.rough_length, wide + part.rough_width
