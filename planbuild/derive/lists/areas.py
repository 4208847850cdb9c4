"""Areas that decide amounts: wood to be finished, faces to be glued.  Estimates from the bodies, and said so."""

from __future__ import annotations

from collections.abc import Iterable

from planbuild.core.geometry import Axis, Face
from planbuild.records.edging import edgings_of
from planbuild.records.piece import Part, Piece, Surface


def face_area(part: Part, face: Face) -> float:
    """One face of the body, joints and shapes not taken off.  Units: m2."""
    one, two = face.axis.others
    return part.body.size(one) * part.body.size(two) * 1e-6


def surface(part: Part) -> float:
    """All six faces of the body of one copy.  Units: m2."""
    return sum(2 * face_area(part, axis.high) for axis in Axis)


def surface_area(piece: Piece, surfaces: Iterable[Surface]) -> float:
    """Parts and faces of parts, all copies; what joints hide is counted in.  Units: m2."""
    found = dict.fromkeys(surfaces)
    whole = {part for part, face in found if face is None}
    return sum(
        (face_area(piece.part(part), face) if face else surface(piece.part(part))) * len(piece.part(part).copies)
        for part, face in found
        if face is None or part not in whole
    )


def finished_area(piece: Piece, without: Iterable[Surface] = ()) -> float:
    """All copies of all parts, less what is left bare or has another finish.  Units: m2."""
    return surface_area(piece, ((each.id, None) for each in piece.parts)) - surface_area(piece, without)


def glued_area(piece: Piece) -> float:
    """Faces spread with glue in the joints (as each joint states) and on the edges of the panels.  Units: m2."""
    joints = sum(contact.glue_area for joint in piece.joints if joint.glue for contact in joint.contacts) * 1e-6
    return joints + sum((_edges(each) + _edging(each)) * len(each.copies) for each in piece.parts)


def _edging(part: Part) -> float:
    """The edge of the sheet under each strip.  Units: m2."""
    return sum(each.strip.volume / each.thickness for each in edgings_of(part.features)) * 1e-6


def _edges(part: Part) -> float:
    """One edge of each joint of a panel, as long and thick as the finished panel, and one face of each two layers.

    Units: m2.
    """
    if part.glue_up is None:
        return 0.0
    length, width, thickness = part.finished
    return ((part.glue_up.strips - 1) * length * thickness + (part.glue_up.layers - 1) * length * width) * 1e-6
