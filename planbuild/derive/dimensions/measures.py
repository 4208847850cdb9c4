"""What fixes each kind of feature, as a maker would say it: one function a kind, in a table.

A kind of feature is added by writing one function and naming it in `KINDS`.  Every function gives the
numbers that fix the feature fully, in the order in which they are laid out at the bench.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from planbuild.core.geometry import Face, Span1
from planbuild.derive.dimensions import moulded_measures, opening_measures, shape_measures, slanted_measures
from planbuild.derive.dimensions.corner_measures import of_corner_slot
from planbuild.derive.dimensions.edging_measures import of_edging
from planbuild.derive.dimensions.measure import Datum, Measure, Weight, linear
from planbuild.derive.dimensions.pocket_measures import of_pocket
from planbuild.derive.dimensions.sawn_measures import of_sawn
from planbuild.derive.dimensions.tail_measures import of_sockets, of_tails
from planbuild.derive.dimensions.tenon_measures import of_tenon
from planbuild.derive.dimensions.where import stands_at, third
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.edging import Edging
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    EdgeBevel,
    Groove,
    Hole,
    Mortise,
    Rabbet,
    RoundOver,
    Taper,
    Tenon,
)
from planbuild.records.piece import Part
from planbuild.records.pockets import Pocket
from planbuild.records.shaped import Dished, Moulding, Sawn, Turned
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.records.tails import Sockets, Tails

KINDS: dict[type, Callable[[Part, Any, Datum], Iterator[Measure]]] = {
    Tenon: of_tenon,
    Mortise: opening_measures.of_mortise,
    AngledMortise: slanted_measures.of_angled_mortise,
    Groove: opening_measures.of_groove,
    Rabbet: opening_measures.of_rabbet,
    Edging: of_edging,
    Hole: opening_measures.of_hole,
    Tails: of_tails,
    Sockets: of_sockets,
    Taper: shape_measures.of_taper,
    Chamfer: shape_measures.of_chamfer,
    RoundOver: shape_measures.of_round_over,
    Arch: shape_measures.of_arch,
    Curve: shape_measures.of_curve,
    Bevel: shape_measures.of_bevel,
    EdgeBevel: shape_measures.of_edge_bevel,
    Sawn: of_sawn,
    EndCut: slanted_measures.of_end_cut,
    CornerSlot: of_corner_slot,
    Pocket: of_pocket,
    Moulding: moulded_measures.of_moulding,
    Dished: moulded_measures.of_dished,
    Turned: moulded_measures.of_turned,
}


def measures_of(part: Part, datum: Datum) -> tuple[Measure, ...]:
    """Every number that fixes a part, features in order of work, the board itself last; some may follow from others.

    What is cut at the end that is measured from comes before its twin, so that what both share is said of it.
    """
    features = sorted(part.features, key=lambda f: stands_at(part, f) is datum[part.grain].opposite)
    found = [each for feature in features for each in KINDS[type(feature)](part, feature, datum)]
    return (*found, *_of_body(part, datum))


def _of_body(part: Part, datum: Datum) -> Iterator[Measure]:
    """What the board is planed and cut to is always printed; with tenons the length of the whole closes their chain."""
    ends = (part.grain.low, part.grain.high)
    for axis, word in ((part.thickness_axis, "thickness"), (part.width_axis, "width")):
        other = third(axis, part.grain)
        span = _from(datum[axis], part.body.along(axis))
        yield linear("body", word, axis, span, part.body, (*ends, other.low, other.high), Weight.PLANED)
    sides = tuple(face for face in Face if face.axis is not part.grain)
    tenons = ends_with_tenons(part)
    if tenons:
        word = "between shoulders" if tenons > 1 else "shoulder to end"
        yield linear("body", word, part.grain, _from(datum[part.grain], part.body.along(part.grain)), part.body, sides)
    whole = _from(datum[part.grain], part.extent.along(part.grain))
    yield linear("body", "length", part.grain, whole, part.extent, sides, Weight.OVERALL if tenons else Weight.PLANED)


def ends_with_tenons(part: Part) -> int:
    """At how many of its two ends wood stands beyond the shoulder."""
    return sum(abs(part.extent.at(face) - part.body.at(face)) > 0 for face in (part.grain.low, part.grain.high))


def _from(face: Face, span: Span1) -> tuple[float, float]:
    """The two ends of a stretch, that at the datum face first."""
    return (span.low, span.high) if face.sign < 0 else (span.high, span.low)
