"""How a single part lies for its picture: along the paper, what is worked on turned to the viewer, upward if possible."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import permutations, product

from planbuild.core.geometry import Axis, Face, Motion, Vec
from planbuild.derive.pictures.studio import USUAL
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
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

_UP = 0.3
"""What it is worth that a worked face looks up, against being seen squarely."""
_FACE = 0.2
"""What it is worth that the face side looks up."""


def lying(part: Part, wanted: Iterable[str]) -> Motion:
    """The quarter turns that bring the grain across the paper and the worked faces into sight (a heuristic)."""
    ids = set(wanted)
    ways = [way for feature in part.features if feature.id in ids for way in ways_of(feature)]
    face = part.face.normal

    def worth(turn: Motion) -> float:
        seen = sum(_worth(turn.direction(way)) for way in ways) / max(len(ways), 1)
        return round(seen + _FACE * max(turn.direction(face)[2], 0.0), 6)

    return max(_turns(part.grain), key=worth)


def _turns(grain: Axis) -> list[Motion]:
    """The turns that are no mirrors and lay the grain from left to right; standing still comes first where it does."""
    every = [Motion(sign, order=order) for order in permutations((0, 1, 2)) for sign in product((1, -1), repeat=3)]  # type: ignore[arg-type]
    found = [turn for turn in every if not turn.mirrors and turn.axis(grain) is Axis.LEFT_RIGHT]
    return sorted(found, key=lambda turn: (turn.order != (0, 1, 2), turn.sign.count(-1)))


def _worth(way: Vec) -> float:
    seen = sum(a * b for a, b in zip(way, USUAL.toward, strict=True))
    return max(seen, 0.0) + _UP * max(way[2], 0.0)


def ways_of(feature: Feature) -> list[Vec]:
    """The directions from which a feature is seen."""
    if isinstance(feature, Mortise):
        return [feature.face.normal] * 2
    if isinstance(feature, (Groove, Hole, Arch, Curve, Bevel)):
        return [feature.face.normal]
    if isinstance(feature, Tenon):
        return [] if feature.mitre is None else [_across(feature.mitre.short, feature.end)]
    if isinstance(feature, Taper):
        return [face.normal for face in feature.faces]
    if isinstance(feature, Rabbet):
        return [face.normal for face in feature.edge]
    if isinstance(feature, (Chamfer, RoundOver)):
        return [_across(*edge) for edge in feature.edges]
    return []


def _across(first: Face, second: Face) -> Vec:
    """Half way between two faces (not of unit length: 0.7 of each)."""
    x, y, z = (0.7 * (a + b) for a, b in zip(first.normal, second.normal, strict=True))
    return x, y, z
