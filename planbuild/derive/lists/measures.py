"""Sizes of joinery as a maker speaks of them: width, length and depth of a mortise, shoulders of a tenon.

Read from the features alone; used by lists and steps alike.
"""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Face
from planbuild.records.features import Groove, Mortise, Rabbet, Tenon
from planbuild.records.piece import Part


@dataclass(frozen=True)
class MortiseSize:
    """`width` is that of the chisel, `length` the long way of the mouth.  Units: mm."""

    width: float
    length: float
    depth: float


def mortise_size(mortise: Mortise) -> MortiseSize:
    across = [mortise.void.size(axis) for axis in mortise.face.axis.others]
    return MortiseSize(min(across), max(across), mortise.void.size(mortise.face.axis))


@dataclass(frozen=True)
class TenonSize:
    """`thickness` the smaller, `width` the larger way of its section; `shoulders` by the face they are cut from.  Units: mm.

    `thin_axis` is the direction of the thickness, square to the cheeks.
    """

    thickness: float
    width: float
    length: float
    shoulders: tuple[tuple[Face, float], ...]
    thin_axis: Axis


def tenon_size(part: Part, tenon: Tenon) -> TenonSize:
    """Section, length beyond the shoulder, and the shoulders that are cut (bare faces left out)."""
    axes = tenon.end.axis.others
    thin = min(axes, key=tenon.block.size)
    wide = next(axis for axis in axes if axis is not thin)
    faces = [face for axis in (thin, wide) for face in (axis.low, axis.high)]
    cuts = tuple((face, abs(part.body.at(face) - tenon.block.at(face))) for face in faces)
    return TenonSize(
        tenon.block.size(thin),
        tenon.block.size(wide),
        tenon.block.size(tenon.end.axis),
        tuple((face, depth) for face, depth in cuts if depth > TINY),
        thin,
    )


def cheeks(part: Part, tenon: Tenon) -> tuple[float, float]:
    """Wood taken off each broad face of the board to leave the tenon.  Units: mm."""
    axis = tenon_size(part, tenon).thin_axis
    return abs(part.body.at(axis.low) - tenon.block.at(axis.low)), abs(part.body.at(axis.high) - tenon.block.at(axis.high))


def edge_shoulders(part: Part, tenon: Tenon) -> tuple[tuple[Face, float], ...]:
    """The shoulders across the width of the tenon, for example top 1/2 and bottom 1/4."""
    size = tenon_size(part, tenon)
    return tuple((face, depth) for face, depth in size.shoulders if face.axis is not size.thin_axis)


@dataclass(frozen=True)
class GrooveSize:
    """`inset` is from `edge` of the part to the nearest wall of the groove.  Units: mm."""

    width: float
    depth: float
    length: float
    edge: Face
    inset: float
    stopped: bool


def groove_size(part: Part, groove: Groove) -> GrooveSize:
    along = groove.run(part.body, part.grain)
    across = next(axis for axis in groove.face.axis.others if axis is not along)
    low = groove.void.along(across).low - part.body.along(across).low
    high = part.body.along(across).high - groove.void.along(across).high
    edge, inset = (across.low, low) if low < high else (across.high, high)
    run = groove.void.size(along)
    stopped = run < part.body.size(along) - TINY
    return GrooveSize(groove.void.size(across), groove.void.size(groove.face.axis), run, edge, inset, stopped)


@dataclass(frozen=True)
class RabbetSize:
    """How far the step reaches in from each of the two faces of its edge.  Units: mm."""

    first: tuple[Face, float]
    second: tuple[Face, float]


def rabbet_size(rabbet: Rabbet) -> RabbetSize:
    one, two = rabbet.edge
    return RabbetSize((one, rabbet.void.size(one.axis)), (two, rabbet.void.size(two.axis)))


def is_corner_notch(part: Part, rabbet: Rabbet) -> bool:
    """Whether a step runs through the thickness of its board: it takes off a corner, as beside a stopped housing."""
    return rabbet.run(part.body, part.grain) is part.face.axis


def from_face(part: Part, mortise: Mortise) -> tuple[Face, float]:
    """Where the mortise lies across the part: its nearest wall from the reference face it is gauged from.

    The gauge runs along the grain on the face side if that bounds the mortised face, else on the face edge,
    else on the nearer long face.  Units: mm.
    """
    axis = next(a for a in mortise.face.axis.others if a is not part.grain)
    chosen = next((face for face in (part.face, part.edge) if face.axis is axis), axis.low)
    return chosen, abs(part.body.at(chosen) - mortise.void.at(chosen))
