"""Can each part be set out from its printed dimensions alone: nothing missing, nothing said twice?

Per part and axis the planes are nodes and each printed distance joins two of them: one group is complete,
a distance inside a group is redundant (after Hillyard and Braid 1978, for planes square to three axes).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.geometry import TINY, Axis
from planbuild.proofread.planes import Plane, planes_of
from planbuild.records.facts import Dimension, Facts, PartFacts
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Arch, Bevel, Chamfer, Curve, Feature, Hole, Part, Piece, RoundOver


class Groups:
    """Positions along one axis, merged at 0.01 mm, in groups joined by printed distances (union-find)."""

    def __init__(self) -> None:
        self._spots: list[float] = []
        self._parent: list[int] = []

    def spot(self, at: float) -> int:
        """The group that a position is in."""
        for i, known in enumerate(self._spots):
            if abs(known - at) <= TINY:
                return self._root(i)
        self._spots.append(at)
        self._parent.append(len(self._parent))
        return len(self._parent) - 1

    def join(self, a: float, b: float) -> bool:
        """Joins two positions; False if they were already in one group."""
        first, second = self.spot(a), self.spot(b)
        self._parent[second] = first
        return first != second

    def _root(self, i: int) -> int:
        while self._parent[i] != i:
            i = self._parent[i]
        return i


def completeness(facts: Facts, piece: Piece) -> Findings:
    """Reports `sheet-incomplete`, `sheet-redundant`."""
    found: list[Diagnostic] = []
    for part in piece.parts:
        printed = facts.part(part.id)
        for axis in Axis:
            found += _axis(part, printed, axis)
        found += _forms(part, printed)
    count = sum(len(p.dimensions) for p in facts.parts)
    told = f"{3 * len(piece.parts)} sets of planes, each joined by printed sizes"
    proof = Proof("Every part is fully dimensioned, each size once", count, told)
    return Findings(tuple(found), (proof,))


def _axis(part: Part, printed: PartFacts, axis: Axis) -> Iterator[Diagnostic]:
    groups = Groups()
    lines = [d for d in printed.dimensions if d.axis == axis.words and not d.bracketed]
    for d in lines:
        if not groups.join(*d.ends):
            yield _redundant(part, axis, d)
    planes = [p for p in planes_of(part) if p.axis is axis]
    home = groups.spot(planes[0].at)
    loose = [p for p in planes if groups.spot(p.at) != home]
    if loose:
        yield _incomplete(part, axis, planes[0], loose)


def _redundant(part: Part, axis: Axis, d: Dimension) -> Diagnostic:
    message = f'"{part.name}": {d.states} of {d.feature} ({d.text}, {axis.words}) follows from other printed sizes.'
    return Diagnostic("sheet-redundant", message, span=part.origin, expected="each size once; a reference in brackets")


def _incomplete(part: Part, axis: Axis, start: Plane, loose: Sequence[Plane]) -> Diagnostic:
    names = ", ".join(dict.fromkeys(p.words for p in loose))
    message = f'"{part.name}": no printed size leads {axis.words} from {start.words} to {names}.'
    return Diagnostic("sheet-incomplete", message, span=part.origin, expected="every plane of a part joined by printed sizes")


_FORMS: dict[type[Feature], str] = {
    Chamfer: "size",
    RoundOver: "radius",
    Hole: "diameter",
    Bevel: "angle",
    Curve: "points",
    Arch: "rise",
}
"""Kinds of feature that are fixed by a number of their own besides their planes."""


def _forms(part: Part, printed: PartFacts) -> Iterator[Diagnostic]:
    stated = {d.feature for d in printed.dimensions}
    for feature in part.features:
        if feature.id not in stated:
            word = _FORMS.get(type(feature), "size")
            message = f'"{part.name}": the {feature.kind} {feature.id} has no printed {word}.'
            yield Diagnostic("sheet-incomplete", message, span=feature.origin, expected=f"the {word} of each {feature.kind}")
