"""A part on the bench: its solid, which of its surfaces is which face, and every cut checked.

After each cut: valid, one piece, and as much wood gone as the numbers say.  Faces are followed through the
kernel's own history, so that "the bottom front edge" is still known when the bottom has become an arch.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from planbuild.core.geometry import Axis, Box, Face, Span1
from planbuild.records.piece import Part
from planbuild.shape import kernel
from planbuild.shape.edging import seamed
from planbuild.shape.kernel import NOTHING, OVERSHOOT, Fault, Shape


@dataclass(frozen=True)
class Cut:
    """What one feature takes away: `tools` are cut off together and should take `volume`.

    `slack` is how much less or more is still right (corners, ends that run out); where another cut was made
    in one of the `regions` before, any lesser volume is.  `fresh` names the face of the part that the new
    surface is; cut square to the axis `sides`, each new surface is the face to which it looks.
    """

    tools: Sequence[Shape]
    volume: float
    regions: Sequence[Box]
    fresh: Face | None = None
    slack: float = 0.0
    sides: Axis | None = None


@dataclass
class Workpiece:
    """The part as far as it is made.  Units: mm, mm3."""

    part: Part
    solid: Shape
    faces: dict[Face, list[Shape]]
    volume: float
    cut_before: list[Box] = field(default_factory=list)

    @property
    def body(self) -> Box:
        return self.part.body

    def take(self, cut: Cut) -> None:
        """Cuts; leaves the piece as it was if that fails.  Raises Fault."""
        operation = kernel.cut(self.solid, cut.tools)
        solid = _sound(operation.Shape())
        volume, _ = kernel.volume_and_centre(solid)
        try:
            self._check(self.volume - volume, cut, 1e-6 * self.volume)
        except Fault:
            self._check(_shared(self.solid, cut.tools), cut, 0.0)
        self.faces = {face: _followed(operation, solid, held) for face, held in self.faces.items()}
        if cut.fresh or cut.sides:
            for surface in _followed(operation, solid, [f for tool in cut.tools for f in kernel.faces_of(tool)]):
                self.faces[cut.fresh or _looks(surface, cut.sides)].append(surface)
        self.solid, self.volume = solid, volume
        self.cut_before += cut.regions

    def _check(self, taken: float, cut: Cut, doubt: float) -> None:
        noise = doubt + 1e-4 * cut.volume
        if taken <= noise / 10:
            raise Fault("It takes nothing off: it does not meet the wood.", "look at where it is placed")
        if taken > cut.volume + cut.slack + noise:
            raise Fault(f"It takes {100 * (taken / cut.volume - 1):.1f} % more wood than its sizes say.")
        crossing = any(region.meet(before).is_solid for region in cut.regions for before in self.cut_before)
        if not crossing and taken < cut.volume - cut.slack - noise:
            raise Fault(f"Only {100 * taken / cut.volume:.0f} % of it lies in the wood.", "look at where it is placed")

    def add(self, tool: Shape, volume: float) -> None:
        """Leaves wood standing: joins a tenon to the body.  Raises Fault."""
        solid = _sound(kernel.fuse(self.solid, [tool]).Shape())
        grown, _ = kernel.volume_and_centre(solid)
        if abs(grown - self.volume - volume) > 1e-6 * grown + 1e-4 * volume:
            own, _ = kernel.volume_and_centre(tool)
            fresh = own - _shared(self.solid, [tool])
            if abs(fresh - volume) > 1e-4 * volume:
                raise Fault(f"It adds {100 * fresh / volume:.1f} % of the wood that its sizes say.")
        self.solid, self.volume = solid, grown


def _looks(surface: Shape, axis: Axis | None) -> Face:
    """The face of a board to which a surface looks that was cut square to an axis."""
    x, y, z = kernel.middle_of(surface)
    out = kernel.outward(surface, kernel.point((x, y, z)))
    away = (out.X(), out.Y(), out.Z())
    return max((face for face in Face if face.axis is not axis), key=lambda face: face.sign * away[face.axis.value])


def _shared(solid: Shape, tools: Sequence[Shape]) -> float:
    """Volume of the wood that tools meet.

    Slower than to compare the piece before and after, but sure: beside an arc or a curve the kernel's volume of
    a whole board is off by some hundred-thousandths, which can be more than a small cut.
    """
    volume, _ = kernel.volume_and_centre(kernel.common(solid, tools))
    return volume


@kernel.guarded
def finished(work: Workpiece) -> Shape:
    """The solid without seams between faces that lie in one plane, but for those of its edging.  Raises Fault."""
    return _sound(seamed(kernel.smoothed(work.solid), work.part))


def pushed_out(void: Box, body: Box) -> Box:
    """The void with each side that lies on the body's surface, or past it, set well outside."""
    spans = {}
    for axis in Axis:
        inner, outer = void.along(axis), body.along(axis)
        low = outer.low - OVERSHOOT if inner.low < outer.low + NOTHING else inner.low
        high = outer.high + OVERSHOOT if inner.high > outer.high - NOTHING else inner.high
        spans[axis] = Span1(low, high)
    return Box.of(spans)


def _sound(shape: Shape) -> Shape:
    solid = kernel.only_solid(shape)
    if not kernel.is_valid(solid):
        raise Fault("The cut leaves a solid that is not sound.", "try a slightly different size")
    return solid


def _followed(operation: Any, solid: Shape, held: list[Shape]) -> list[Shape]:
    """What became of some faces in an operation, as the surfaces of the new solid (turned its way out)."""
    made = [new for face in held for new in kernel.descendants(operation, face)]
    return [surface for surface in kernel.faces_of(solid) if any(surface.IsSame(each) for each in made)]
