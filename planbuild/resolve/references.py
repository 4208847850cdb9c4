"""What a name means: a size, a face or measure of the frame or of a part's standing copy.

Placing, a bare face word is the frame's; shaping, it is the part's own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from planbuild.core.geometry import Axis, Face
from planbuild.core.spelling import did_you_mean
from planbuild.records.design import Design
from planbuild.resolve.copies import HandFault, Spread
from planbuild.resolve.expressions.faults import Misread, Poisoned, Stretch
from planbuild.resolve.expressions.grammar import FACES, Reference, Step
from planbuild.resolve.expressions.values import LENGTH, Place, Quantity, Value
from planbuild.resolve.ledger import FaceOf, FrameOf, Ledger, MeasureOf, MirrorOf, RowOf, SizeOf, StockOf
from planbuild.resolve.orientation import Lie

_FRAME_MEASURES = {"width": Axis.LEFT_RIGHT, "depth": Axis.FRONT_BACK, "height": Axis.BOTTOM_TOP}
_PART_MEASURES = ("length", "width", "thickness")


class Placing:
    """Names as they are meant where parts are placed."""

    def __init__(
        self, design: Design, unit: Fraction, parts: Mapping[str, Lie], spreads: Mapping[str, Spread], ledger: Ledger
    ) -> None:
        self._design, self._unit, self._parts, self.spreads, self.ledger = design, unit, parts, spreads, ledger

    @property
    def unit(self) -> Fraction:
        return self._unit

    # ------------------------------------------------------------ the names of a value

    def meaning(self, reference: Reference, axis: Axis | None) -> Value:
        if not reference.steps:
            return self._frame(reference, axis)
        if len(reference.steps) > 1:
            inner = reference.steps[1].name
            message = f'"{inner}" is looked for inside "{reference.steps[0].name}", which holds no parts of its own.'
            raise Misread("ref-unknown", message, reference.at)
        step = reference.steps[0]
        if step.name in self._design.parts:
            return self._part(step, reference, axis)
        if step.hands:
            raise _no_hand(reference.at, f'"{step.name}" is no part: it has no {step.hands[0]} one.')
        if step.name == "frame":
            return self._frame(reference, axis)
        if step.name in self._design.sizes:
            return self._size(step.name, reference)
        if step.name in self._design.stock:
            return self._stock(step.name, reference)
        raise self._unknown(step.name, reference)

    def origin_of(self, reference: Reference) -> str:
        name = reference.steps[0].name if reference.steps else ""
        size = self._design.sizes.get(name)
        return f'"{name}" is 0 ({size.value.span.line}:{size.value.span.column})' if size else ""

    # ------------------------------------------------------------ frame, sizes, stock

    def _frame(self, reference: Reference, axis: Axis | None) -> Value:
        last = reference.last
        if last in FACES:
            face = Face(last)
            return Place(face.axis, self.frame_at(face), face)
        if last == "middle":
            direction = self._some_direction(reference, axis)
            return Place(direction, self.frame_at(direction.high) / 2)
        if last in _FRAME_MEASURES:
            direction = _FRAME_MEASURES[last]
            return Quantity(self.ledger.ask(FrameOf("frame", direction)) / self.unit, LENGTH)
        if last:
            raise Misread("ref-measure", f"The frame has no {last}.", reference.at, "width, depth or height")
        raise self._which_face("frame", reference, axis)

    def frame_at(self, face: Face) -> Fraction:
        return self.ledger.ask(FrameOf("frame", face.axis)) if face.sign > 0 else Fraction(0)

    def _size(self, name: str, reference: Reference) -> Value:
        if reference.last:
            message = f'"{name}" is a size; it has no {reference.last}.'
            raise Misread("ref-measure", message, reference.at, hints=(f"Write `{name}`.",))
        value = self.ledger.ask(SizeOf(name))
        # A name is no bare number, even if its value was written as one.
        return replace(value, literal=False) if isinstance(value, Quantity) else value

    def _stock(self, name: str, reference: Reference) -> Value:
        if reference.last != "thickness":
            message = f'"{name}" is stock: only its thickness is known.'
            raise Misread("ref-measure", message, reference.at, hints=(f"Write `{name}.thickness`.",))
        return Quantity(self.ledger.ask(StockOf(name)) / self.unit, LENGTH)

    # ------------------------------------------------------------ parts

    def _part(self, step: Step, reference: Reference, axis: Axis | None) -> Value:
        if step.name not in self._parts:
            raise Poisoned
        if reference.level is not None:
            face = f"{step.name}.{reference.last or 'left'}"
            message = f'"{step.name}" does not lean: its faces have the same place at every height.'
            raise Misread("ref-at", message, reference.at, hints=(f"Write `{face}`.",))
        last = reference.last
        if last in FACES:
            face_of = Face(last)
            return Place(face_of.axis, self.standing(step, face_of, reference.at), face_of)
        if last == "middle":
            direction = self._some_direction(reference, axis)
            low, high = (self.standing(step, face, reference.at) for face in (direction.low, direction.high))
            return Place(direction, (low + high) / 2)
        if last:
            return self._measure(step, reference)
        raise self._which_face(step.name, reference, axis)

    def is_part(self, name: str) -> bool:
        return name in self._design.parts

    def standing(self, step: Step, face: Face, at: Stretch) -> Fraction:
        """Where a face of one copy of a part stands, mm; `face` as seen in the piece.  Raises Misread, Poisoned."""
        spread = self.spreads.get(step.name)
        if spread is None:
            raise Poisoned
        row = self.ledger.ask(RowOf(step.name)) if spread.row_axis and step.hands else None
        try:
            copy = spread.chosen(step.hands, row.count if row else 1)
        except HandFault as fault:
            raise _no_hand(at, str(fault), fault.hint) from None
        if face.axis in copy.mirrored:
            middle = self.ledger.ask(MirrorOf(step.name, face.axis))
            return 2 * middle - self.ledger.ask(FaceOf(step.name, face.opposite))
        shift = row.shifts[copy.place] if row and face.axis is spread.row_axis else Fraction(0)
        return self.ledger.ask(FaceOf(step.name, face)) + shift

    def _measure(self, step: Step, reference: Reference) -> Value:
        lie, last = self._parts[step.name], reference.last
        if last not in _PART_MEASURES:
            direction = _FRAME_MEASURES[last]
            own = f"{step.name}.{lie.measure_of(direction)}"
            message = f'A board has no {last}. "{step.name}" runs {_runs(lie.grain)}, so its {last} is `{own}`.'
            raise Misread("ref-measure", message, reference.at, hints=(f"Write `{own}`.",))
        return Quantity(self.ledger.ask(MeasureOf(step.name, lie.axis_of(last), last)) / self.unit, LENGTH)

    # ------------------------------------------------------------ refusing

    def _some_direction(self, reference: Reference, axis: Axis | None) -> Axis:
        if axis is None:
            raise Misread("ref-direction", "The middle in which direction? None is asked for here.", reference.at)
        return axis

    def _which_face(self, name: str, reference: Reference, axis: Axis | None) -> Misread:
        faces = [axis.low, axis.high] if axis else [Face.LEFT, Face.RIGHT]
        said = " ".join((*reference.steps[-1].hands, name)) if reference.steps else name
        hint = " or ".join(f"`{said}.{face.value}`" for face in faces)
        what = "the frame" if name == "frame" else "a part"
        message = f'"{name}" is {what}; {"a place" if axis else "a value"} is wanted.'
        measures = "" if axis else f", or a measure such as `{said}.width`"
        return Misread("ref-which-face", message, reference.at, hints=(f"Say a face: {hint}{measures}.",))

    def _unknown(self, name: str, reference: Reference) -> Misread:
        known = [*self._design.parts, *self._design.sizes, *self._design.stock, "frame"]
        return Misread("ref-unknown", f'No part, size or stock "{name}".', reference.at, hints=did_you_mean(name, known))


class Shaping:
    """Names as they are meant where a part is shaped: a bare face word is the part's own."""

    def __init__(self, placing: Placing, own: str) -> None:
        self._placing, self._own = placing, own

    @property
    def unit(self) -> Fraction:
        return self._placing.unit

    def meaning(self, reference: Reference, axis: Axis | None) -> Value:
        if not reference.steps:
            reference = Reference(reference.at, (Step((), self._own),), reference.last)
        return self._placing.meaning(reference, axis)

    def origin_of(self, reference: Reference) -> str:
        return self._placing.origin_of(reference)


def _no_hand(at: Stretch, message: str, hint: str = "") -> Misread:
    return Misread("ref-no-hand", message, at, hints=(f"Use {hint}.",) if hint else ())


def _runs(grain: Axis) -> str:
    return "up" if grain is Axis.BOTTOM_TOP else grain.words
