"""The planes that a maker must be able to set out on a part, gathered from its features.

Apart from the room that chooses dimensions, so that what was forgotten there is found here.
Units: mm, positions in the frame of the piece.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from planbuild.core.geometry import Axis, Box
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.edging import Edging
from planbuild.records.features import Arch, EdgeBevel, Feature, Groove, Hole, Mortise, Rabbet, Taper, Tenon
from planbuild.records.piece import Part
from planbuild.records.pockets import Pocket
from planbuild.records.shaped import Dished, Sawn, Turned
from planbuild.records.slanted import AngledMortise
from planbuild.records.tails import Sockets, Tails


@dataclass(frozen=True)
class Plane:
    """One plane: where it lies along its axis, and what it belongs to, in words."""

    axis: Axis
    at: float
    words: str


def planes_of(part: Part) -> tuple[Plane, ...]:
    """Every plane of the body and of the features, those of the body first."""
    found = [*_faces(part.body, "the body"), *_faces(part.extent, "the whole part")]
    for feature in part.features:
        found += _PLANES.get(type(feature), _none)(part, feature)
    return tuple(found)


def _faces(box: Box, words: str) -> Iterator[Plane]:
    for axis in Axis:
        yield Plane(axis, box.along(axis).low, words)
        yield Plane(axis, box.along(axis).high, words)


def _none(part: Part, feature: Feature) -> Iterator[Plane]:
    """Chamfers, rounds and free curves have no plane to set out; they are checked by their own numbers."""
    yield from ()


def _of_tenon(part: Part, f: Tenon) -> Iterator[Plane]:
    if f.round:
        yield from _of_round(f.block, f.end.axis, f"the round tenon {f.id}")
        yield from _of_kerfs(f)
        return
    yield from _faces(f.block, f"the tenon {f.id}")
    if f.mitre:
        shoulder = f.block.at(f.end.opposite)
        yield Plane(f.end.axis, shoulder + f.end.sign * f.mitre.start, f"the mitre of {f.id}")
    yield from _of_kerfs(f)
    if f.haunch:
        yield from _faces(f.haunch.box, f"the haunch of {f.id}")
    for hole in f.pegs:
        yield Plane(f.end.axis, f.block.at(f.end.opposite) + f.end.sign * hole.start, f"the middle of a peg hole of {f.id}")
        yield Plane(hole.across, hole.plane, f"the middle of a peg hole of {f.id}")
    if f.keyway:
        inner = f.block.at(f.end.opposite) + f.end.sign * f.keyway.start
        yield Plane(f.end.axis, inner, f"the inner wall of the key mortise of {f.id}")
        yield Plane(f.end.axis, inner + f.end.sign * f.keyway.length, f"the outer wall of the key mortise of {f.id}")
        for side in (-1, 1):
            yield Plane(f.keyway.across, f.keyway.plane + side * f.keyway.width / 2, f"a wall of the key mortise of {f.id}")


def _of_kerfs(f: Tenon) -> Iterator[Plane]:
    for kerf in f.wedging.kerfs if f.wedging else ():
        yield Plane(kerf.across, kerf.plane, f"a kerf of {f.id}")
        yield Plane(f.end.axis, f.block.at(f.end) - f.end.sign * kerf.depth, f"the bottom of the kerfs of {f.id}")


def _of_round(box: Box, along: Axis, words: str) -> Iterator[Plane]:
    """The middle line and both ends of what is round."""
    for axis in Axis:
        if axis is along:
            yield Plane(axis, box.along(axis).low, words)
            yield Plane(axis, box.along(axis).high, words)
        else:
            yield Plane(axis, box.along(axis).middle, words)


def _of_void(part: Part, f: Mortise | Groove | Rabbet) -> Iterator[Plane]:
    yield from _faces(f.void, f"the {f.kind} {f.id}")


def _of_mortise(part: Part, f: Mortise) -> Iterator[Plane]:
    if f.round:
        yield from _of_round(f.void, f.face.axis, f"the round mortise {f.id}")
    else:
        yield from _of_void(part, f)
    if f.flare and f.flare_axis:
        for face in (f.flare_axis.low, f.flare_axis.high):
            yield Plane(f.flare_axis, f.void.at(face) + face.sign * f.flare, f"the flare of {f.id}")
    if f.flare and f.flare_from is not None:
        yield Plane(f.face.axis, f.flare_from, f"the start of the flare of {f.id}")


def _of_angled_mortise(part: Part, f: AngledMortise) -> Iterator[Plane]:
    """Its middle on the face; its sides lie in no plane square to the part."""
    for axis in f.face.axis.others:
        yield Plane(axis, f.mouth[axis.value], f"the middle of {f.id}")


def _of_edging(part: Part, f: Edging) -> Iterator[Plane]:
    yield Plane(f.edge.axis, part.body.at(f.edge) - f.edge.sign * f.thickness, f"the seam of {f.id}")


def _of_hole(part: Part, f: Hole) -> Iterator[Plane]:
    for axis in f.face.axis.others:
        yield Plane(axis, f.centre[axis.value], f"the hole {f.id}")
    if f.depth is not None:
        yield Plane(f.face.axis, f.centre[f.face.axis.value] - f.face.sign * f.depth, f"the hole {f.id}")


def _of_comb(part: Part, f: Tails | Sockets) -> Iterator[Plane]:
    """The base line, the tips, the ends of the row, and of its tails what no note about a row of like ones tells."""
    words = f"the {f.kind} {f.id}"
    mouth = f.mouth if isinstance(f, Sockets) else None
    for axis in Axis:
        span = mouth if mouth and axis is f.comb.spread else f.comb.block.along(axis)
        yield Plane(axis, span.low, words)
        yield Plane(axis, span.high, words)
    for tail in () if f.comb.even else f.comb.tails:
        yield Plane(f.comb.spread, tail.low, words)
        yield Plane(f.comb.spread, tail.high, words)


def _of_corner_slot(part: Part, f: CornerSlot) -> Iterator[Plane]:
    """Its walls along the edge of the corner; the others do not lie square to the part."""
    yield Plane(f.axis, f.across.low, f"a wall of {f.id}")
    yield Plane(f.axis, f.across.high, f"a wall of {f.id}")


def _of_pocket(part: Part, f: Pocket) -> Iterator[Plane]:
    """The middle of its mouth on the face; its walls do not lie square to the part."""
    inward = f.deep / math.tan(math.radians(f.angle))
    yield Plane(f.end.axis, f.exit[f.end.axis.value] - f.end.sign * inward, f"the middle of {f.id}")
    (side,) = (axis for axis in Axis if axis not in (f.face.axis, f.end.axis))
    yield Plane(side, f.exit[side.value], f"the middle of {f.id}")


def _of_taper(part: Part, f: Taper) -> Iterator[Plane]:
    yield Plane(part.grain, f.start, f"the start of {f.id}")
    for axis, leaving in f.leaving:
        faces = [face for face in f.faces if face.axis is axis]
        cut = (part.body.size(axis) - leaving) / len(faces)
        for face in faces:
            yield Plane(axis, part.body.at(face) - face.sign * cut, f"the end of {f.id}")


def _of_arch(part: Part, f: Arch) -> Iterator[Plane]:
    for at in (f.start, f.stop):
        yield Plane(part.grain, at, f"the end of {f.id}")
    yield Plane(f.face.axis, part.body.at(f.face) - f.face.sign * f.rise, f"the crown of {f.id}")


def _of_edge_bevel(part: Part, f: EdgeBevel) -> Iterator[Plane]:
    for face, size, words in zip(f.edge, (f.margin, f.depth), ("margin", "edge"), strict=True):
        yield Plane(face.axis, part.body.at(face) - face.sign * size, f"the {words} of {f.id}")
    if f.step:
        yield Plane(f.edge[1].axis, part.body.at(f.edge[1]) - f.edge[1].sign * f.step, f"the step of {f.id}")


def _of_dished(part: Part, f: Dished) -> Iterator[Plane]:
    for axis in f.face.axis.others:
        yield Plane(axis, f.centre[axis.value], f"the middle of {f.id}")
    yield Plane(f.face.axis, f.centre[f.face.axis.value] - f.face.sign * f.depth, f"the bottom of {f.id}")


def _of_turned(part: Part, f: Turned) -> Iterator[Plane]:
    for station in f.stations:
        yield Plane(part.grain, station.at, f"a station of {f.id}")


def _of_sawn(part: Part, f: Sawn) -> Iterator[Plane]:
    """Every corner, and the floor; a corner of the board that is an arc is checked by its radius."""
    for corner in () if any(each.arc for each in f.corners) else f.corners:
        for axis, at in zip(f.face.axis.others, corner.at, strict=True):
            yield Plane(axis, at, f"a corner of {f.id}")
    if f.depth is not None:
        yield Plane(f.face.axis, part.body.at(f.face) - f.face.sign * f.depth, f"the floor of {f.id}")


_PLANES: dict[type[Feature], Callable[[Part, Any], Iterator[Plane]]] = {
    Tenon: _of_tenon,
    Mortise: _of_mortise,
    AngledMortise: _of_angled_mortise,
    Groove: _of_void,
    Rabbet: _of_void,
    Edging: _of_edging,
    Hole: _of_hole,
    Tails: _of_comb,
    Sockets: _of_comb,
    CornerSlot: _of_corner_slot,
    Pocket: _of_pocket,
    Taper: _of_taper,
    Arch: _of_arch,
    EdgeBevel: _of_edge_bevel,
    Sawn: _of_sawn,
    Dished: _of_dished,
    Turned: _of_turned,
}
