"""How a single part lies for its picture: along the paper, what is worked on turned to the viewer, upward if possible.

Where several ways show the work alike it lies as on its sheet: the end that is measured from at the left, the top up.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import permutations, product

from planbuild.core.geometry import Axis, Face, Motion, Vec
from planbuild.derive.pictures.studio import USUAL
from planbuild.derive.sheets.lie import is_panel, lie_of
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.edging import Edging
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    EdgeBevel,
    Feature,
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
from planbuild.records.shaped import Dished, Moulding, Sawn
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.records.tails import Sockets, Tails

_UP = 0.3
"""What it is worth that a worked face looks up, against being seen squarely."""
_FACE = 0.2
"""What it is worth that the face side looks up."""
_STANDS = 0.25
"""What it is worth that a part which lies in the piece keeps its top up."""
_FLAT = 0.15
"""What it is worth that a panel lies flat, whichever face is up."""
_STARTS = 0.25
"""What it is worth that the end from which is measured lies at the left."""


def lying(part: Part, wanted: Iterable[str]) -> Motion:
    """The quarter turns that bring the grain across the paper and the worked faces into sight (a heuristic)."""
    ids, start = set(wanted), lie_of(part).start
    features = [feature for feature in part.features if feature.id in ids]
    ways = [way for feature in features for way in ways_of(feature)]
    outlined = any(isinstance(feature, (Arch, Curve, Sawn)) for feature in features)

    def worth(turn: Motion) -> float:
        seen = sum(_worth(turn.direction(way)) for way in ways) / max(len(ways), 1)
        sides = max(_squarely(turn.direction(face.normal)) for face in (part.face, part.face.opposite))
        stands = part.grain is not Axis.BOTTOM_TOP and turn.face(Face.TOP) is Face.TOP
        flat = is_panel(part) and turn.axis(part.thickness_axis) is Axis.BOTTOM_TOP
        found = seen + _FACE * max(turn.direction(part.face.normal)[2], 0.0) + (sides if outlined else 0.0)
        return round(found + _STANDS * stands + _FLAT * flat + _STARTS * (turn.face(start) is Face.LEFT), 6)

    return max(_turns(part.grain), key=worth)


def lie_words(part: Part, turn: Motion) -> str:
    """`top end to the left`, `bottom edge up`: what is not as it stands in the piece, "" if nothing is."""
    if part.made_by:
        return ""
    at_left = next(face for face in (part.grain.low, part.grain.high) if turn.face(face) is Face.LEFT)
    up = next(face for face in Face if turn.face(face) is Face.TOP)
    end = f"{at_left.value} end to the left" if at_left is not Face.LEFT else ""
    side = "face" if up.axis is part.thickness_axis else "edge"
    tipped = f"{up.value} {side} up" if part.grain is not Axis.BOTTOM_TOP and up is not Face.TOP else ""
    return ", ".join(each for each in (end, tipped) if each)


def _turns(grain: Axis) -> list[Motion]:
    """The turns that are no mirrors and lay the grain from left to right; standing still comes first where it does."""
    every = [Motion(sign, order=order) for order in permutations((0, 1, 2)) for sign in product((1, -1), repeat=3)]  # type: ignore[arg-type]
    found = [turn for turn in every if not turn.mirrors and turn.axis(grain) is Axis.LEFT_RIGHT]
    return sorted(found, key=lambda turn: (turn.order != (0, 1, 2), turn.sign.count(-1)))


def _worth(way: Vec) -> float:
    return max(_squarely(way), 0.0) + _UP * max(way[2], 0.0)


def _squarely(way: Vec) -> float:
    return sum(a * b for a, b in zip(way, USUAL.toward, strict=True))


def ways_of(feature: Feature) -> list[Vec]:
    """The directions from which a feature is seen."""
    if isinstance(feature, Mortise | AngledMortise):
        return [feature.face.normal] * 2
    if isinstance(feature, Edging):
        return [feature.edge.normal]
    if isinstance(feature, (Groove, Hole, Pocket, Arch, Curve, Bevel, Sawn, Dished)):
        return [feature.face.normal]
    if isinstance(feature, Tenon):
        return [] if feature.mitre is None else [_across(feature.mitre.short, feature.end)]
    if isinstance(feature, Tails):
        return [feature.end.normal]
    if isinstance(feature, Sockets):
        return [feature.face.normal]
    if isinstance(feature, EndCut | CornerSlot):
        return [feature.end.normal]
    if isinstance(feature, Taper):
        return [face.normal for face in feature.faces]
    if isinstance(feature, Rabbet | EdgeBevel):
        return [face.normal for face in feature.edge]
    if isinstance(feature, (Chamfer, RoundOver, Moulding)):
        return [_across(*edge) for edge in feature.edges]
    return []


def _across(first: Face, second: Face) -> Vec:
    """Half way between two faces (not of unit length: 0.7 of each)."""
    x, y, z = (0.7 * (a + b) for a, b in zip(first.normal, second.normal, strict=True))
    return x, y, z
