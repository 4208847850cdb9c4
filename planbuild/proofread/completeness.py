"""Can each part be set out from its printed dimensions alone: nothing missing, nothing said twice?

Per part and axis the planes are nodes and each printed distance joins two of them: one group is complete,
a distance inside a group is redundant (after Hillyard and Braid 1978, for planes square to three axes).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planbuild.core.diagnostics import Diagnostic, Span
from planbuild.core.geometry import TINY, Axis
from planbuild.proofread.needs import Need
from planbuild.proofread.numbers import needs_of
from planbuild.proofread.planes import Plane, planes_of
from planbuild.records.drawing import Drawing
from planbuild.records.facts import Dimension, Facts, PartFacts
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Part, Piece


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
    """Reports `sheet-incomplete`, `sheet-redundant`, `sheet-undrawn`."""
    found: list[Diagnostic] = []
    for part in piece.parts:
        printed = facts.part(part.id)
        for axis in Axis:
            found += _axis(part, printed, axis)
        found += _unsaid(part, printed)
        found += _undrawn(part, printed, facts.drawings.get(printed.sheet))
    count = sum(len(p.dimensions) for p in facts.parts)
    needs = sum(len(needs_of(part)) for part in piece.parts)
    told = f"{3 * len(piece.parts)} sets of planes, each joined by printed sizes; {needs} numbers, none to be worked out"
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


def _unsaid(part: Part, printed: PartFacts) -> Iterator[Diagnostic]:
    """Numbers that a maker would have to work out."""
    for need in needs_of(part):
        if not any(need.is_met_by(each) for each in printed.dimensions):
            message = f'"{part.name}": the {need.words} of {need.feature} is not printed ({_size(need)}).'
            yield Diagnostic("sheet-incomplete", message, span=_origin(part, need), expected="each number as it is set out")


def _size(need: Need) -> str:
    if need.axis is None:
        return f"{need.value:g}"
    return " or ".join(f"{high - low:.2f} mm {need.axis.words}" for low, high in need.spans[:2])


def _origin(part: Part, need: Need) -> Span:
    return next((each.origin for each in part.features if each.id == need.feature), part.origin)


def _undrawn(part: Part, printed: PartFacts, drawing: Drawing | None) -> Iterator[Diagnostic]:
    """Figures that the facts name but the drawing lacks."""
    words = {text.text for text in drawing.texts} if drawing else set()
    for each in printed.dimensions:
        if each.view != "note" and each.text not in words:
            message = f'"{part.name}": {each.states} of {each.feature} ({each.text}) is not on its drawing.'
            yield Diagnostic("sheet-undrawn", message, span=part.origin, expected="every figure of the facts drawn")
