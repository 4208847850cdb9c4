"""What a name means: a size, a face or measure of the frame or of a standing copy of a part, an opening or a block.

Placing, a bare face word is the frame's; shaping, it is the part's own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from planbuild.core.geometry import Axis, Face
from planbuild.core.spelling import did_you_mean
from planbuild.records.design import Design
from planbuild.resolve.copies import HandFault, Spread, in_row, place_in_row
from planbuild.resolve.expressions.faults import Misread, Poisoned, Stretch
from planbuild.resolve.expressions.grammar import FACES, Reference, Step
from planbuild.resolve.expressions.values import LENGTH, Place, Quantity, Value
from planbuild.resolve.ledger import FaceOf, FrameOf, Ledger, MeasureOf, MirrorOf, RowOf, SizeOf, StanceOf, StockOf
from planbuild.resolve.orientation import Clear, Lie
from planbuild.resolve.poses import exact, has_one_place, slant_of
from planbuild.resolve.scopes import full, held_in, known_in, levels, sizes_of, stock_called
from planbuild.resolve.turn_words import turned_block

_FRAME_MEASURES = {"width": Axis.LEFT_RIGHT, "depth": Axis.FRONT_BACK, "height": Axis.BOTTOM_TOP}


Path = tuple[Step, ...]
"""The names of a path with their hands: `left door`, `hinge_stile`."""


@dataclass(frozen=True)
class Met:
    """A slanted face that something meets over a spot, by the spot's places in other directions, mm."""

    face: Face
    spot: Mapping[Axis, Fraction]

    def home(self, middles: Mapping[Axis, Fraction], shifts: Mapping[Axis, Fraction]) -> Met:
        """The spot as it lies to the drawn copy, given where this one is mirrored and how far it is shifted."""
        moved = {axis: place - shifts.get(axis, Fraction(0)) for axis, place in self.spot.items()}
        return Met(self.face, {axis: 2 * middles[axis] - place if axis in middles else place for axis, place in moved.items()})


class Placing:
    """Names as they are meant where things are placed, in the design itself or, with a `scope`, inside a block."""

    def __init__(
        self,
        design: Design,
        unit: Fraction,
        lies: Mapping[str, Lie | Clear],
        spreads: Mapping[str, Spread],
        ledger: Ledger,
        scope: str = "",
    ) -> None:
        self._design, self._unit, self._lies, self.spreads, self.ledger = design, unit, lies, spreads, ledger
        self._scope = scope
        self._sizes = sizes_of(design)

    @property
    def unit(self) -> Fraction:
        return self._unit

    def within(self, scope: str) -> Placing:
        if scope == self._scope:
            return self
        return Placing(self._design, self._unit, self._lies, self.spreads, self.ledger, scope)

    # ------------------------------------------------------------ the names of a value

    def meaning(self, reference: Reference, axis: Axis | None) -> Value:
        if not reference.steps:
            return self._frame(reference, axis)
        reference = replace(reference, steps=self.of_size(reference.steps))
        if self.is_thing(reference.steps):
            return self._thing(reference, axis)
        self._refuse_absent(reference)
        if len(reference.steps) > 1:
            raise self._unheld(reference)
        step = reference.steps[0]
        if step.hands:
            raise _no_hand(reference.at, f'"{step.name}" is no part: it has no {step.hands[0]} one.')
        if step.name == "frame":
            return self._frame(reference, axis)
        if full(self._scope, step.name) in self._sizes:
            return self._size(full(self._scope, step.name), reference)
        stock = stock_called(self._design, self._scope, step.name)
        if stock is not None:
            return self._stock(stock, reference)
        raise self._unknown(step.name, reference)

    def origin_of(self, reference: Reference) -> str:
        name = reference.steps[0].name if reference.steps else ""
        size = self._sizes.get(full(self._scope, name))
        return f'"{name}" is 0 ({size.value.span.line}:{size.value.span.column})' if size else ""

    # ------------------------------------------------------------ frame, sizes, stock

    def _frame(self, reference: Reference, axis: Axis | None) -> Value:
        last = reference.last
        if last in FACES:
            face = Face(last)
            return Place(face.axis, self.frame_at(face), face)
        if last == "middle":
            direction = self._some_direction(reference, axis)
            return Place(direction, self.frame_middle(direction))
        if last in _FRAME_MEASURES:
            direction = _FRAME_MEASURES[last]
            return Quantity((self.frame_at(direction.high) - self.frame_at(direction.low)) / self.unit, LENGTH)
        if last:
            raise Misread("ref-measure", f"The frame has no {last}.", reference.at, "width, depth or height")
        raise self._which_face("frame", reference, axis)

    def frame_at(self, face: Face) -> Fraction:
        """A face of the frame, which inside a block is its own: that of the opening that it fills."""
        if self._scope:
            return self.ledger.ask(FaceOf(self._scope, face))
        return self.ledger.ask(FrameOf("frame", face.axis)) if face.sign > 0 else Fraction(0)

    def frame_middle(self, axis: Axis) -> Fraction:
        return (self.frame_at(axis.low) + self.frame_at(axis.high)) / 2

    def _size(self, id: str, reference: Reference) -> Value:
        if reference.last:
            name = reference.steps[0].name
            message = f'"{name}" is a size; it has no {reference.last}.'
            raise Misread("ref-measure", message, reference.at, hints=(f"Write `{name}`.",))
        value = self.ledger.ask(SizeOf(id))
        # A name is no bare number, even if its value was written as one.
        return replace(value, literal=False) if isinstance(value, Quantity) else value

    def _stock(self, id: str, reference: Reference) -> Value:
        if reference.last != "thickness":
            name = reference.steps[0].name
            message = f'"{name}" is stock: only its thickness is known.'
            raise Misread("ref-measure", message, reference.at, hints=(f"Write `{name}.thickness`.",))
        return Quantity(self.ledger.ask(StockOf(id)) / self.unit, LENGTH)

    # ------------------------------------------------------------ parts, openings, blocks

    def _thing(self, reference: Reference, axis: Axis | None) -> Value:
        path, name = reference.steps, _spoken(reference.steps)
        if self.id_of(path) not in self._lies:
            raise Poisoned
        last = reference.last
        if last in FACES:
            face_of = Face(last)
            return Place(face_of.axis, self.face(path, face_of, reference.at), face_of)
        if last == "middle":
            direction = self._some_direction(reference, axis)
            low, high = (self.standing(path, face, reference.at) for face in (direction.low, direction.high))
            return Place(direction, (low + high) / 2)
        if last:
            return self._measure(path, reference)
        raise self._which_face(name, reference, axis)

    def id_of(self, path: Path) -> str:
        return full(self._scope, ".".join(step.name for step in path))

    def of_size(self, path: Path) -> Path:
        """The path through the openings and blocks of the size that its hands mean, that of the first where there is none."""
        return self.of_sizes(path)[0]

    def of_sizes(self, path: Path) -> list[Path]:
        """The same for every size that is meant: all of them where no hand chooses a place in the row."""
        found: list[Path] = [()]
        for step in path:
            found = [(*done, each) for done in found for each in self._sizes_of_step(done, step)]
        return found

    def _sizes_of_step(self, done: Path, step: Step) -> list[Step]:
        """A step as one of each size, with its hand counted among those of that size."""
        sizes = self._design.unlike.get(self.id_of((*done, step)), ())
        count = sum(len(places) for _, places in sizes)
        hand = next((hand for hand in step.hands if in_row(hand)), None)
        if not sizes or hand is None:
            return [Step(step.hands, name) for name, _ in sizes] or [step]
        place = place_in_row(hand, count)
        for name, places in sizes:
            if place in places:
                others = (each for each in step.hands if each != hand)
                return [Step((*others, f"{places.index(place) + 1}th"), name)]
        return [step]

    def is_thing(self, path: Path) -> bool:
        """True for a part, an opening or a block."""
        id = self.id_of(path)
        return any(id in section for section in (self._design.parts, self._design.openings, self._design.blocks))

    def is_opening(self, path: Path) -> bool:
        return self.id_of(path) in self._design.openings

    def openings(self) -> tuple[str, ...]:
        return tuple(held_in(self._scope, self._design.openings))

    # ------------------------------------------------------------ what is turned or leans

    def face(self, path: Path, face: Face, at: Stretch) -> Fraction:
        """Where a face of one copy of a thing stands, mm, if it has one place.  Raises Misread, Poisoned."""
        if self.is_slanted(path, face):
            raise self._leaning(path, face, at)
        return self.standing(path, face, at)

    def leans(self, path: Path) -> bool:
        said = self._design.parts.get(self.id_of(path))
        return said is not None and said.lean is not None

    def grain_of(self, path: Path) -> Axis | None:
        lie = self._lies.get(self.id_of(path))
        return lie.grain if isinstance(lie, Lie) else None

    def is_slanted(self, path: Path, face: Face) -> bool:
        """True for a face that lies at no single place, because its part is turned or leans."""
        said, grain = self._design.parts.get(self.id_of(path)), self.grain_of(path)
        return said is not None and grain is not None and not has_one_place(said, grain, face)

    def _leaning(self, path: Path, face: Face, at: Stretch) -> Misread:
        name, grain = _spoken(path), self.grain_of(path)
        message = f'"{name}" {"leans" if self.leans(path) else "is turned"}, so its {face.value} has no single place.'
        hint = f"Its ends and its `middle` have: write `{name}.middle`, and a length beside it."
        said = self._design.parts.get(self.id_of(path))
        if said and said.lean and grain:
            slant = slant_of(said, grain, face)
            level = "6 above bottom" if slant is Axis.BOTTOM_TOP else f"6 inside {slant.low.value}"
            hint = f"Write `{name}.{face.value} at {level}`."
        return Misread("place-leaning", message, at, hints=(hint,))

    def at_level(self, reference: Reference, level: Value) -> Value:
        reference = replace(reference, steps=self.of_size(reference.steps))
        path, name = reference.steps, _spoken(reference.steps)
        face = Face(reference.last) if reference.last in FACES else None
        grain = self.grain_of(path) if self.is_thing(path) else None
        if face is None or grain is None or not self.is_slanted(path, face):
            message = f'"{name}" does not lean: its faces have the same place at every height.'
            raise Misread("ref-at", message, reference.at, hints=(f"Write `{name}.{reference.last or 'left'}`.",))
        said = self._design.parts[self.id_of(path)]
        slant = slant_of(said, grain, face)
        if not isinstance(level, Place) or level.axis is not slant:
            message = f"A place {slant.words} is wanted after `at`: the face is slanted that way."
            raise Misread("ref-direction", message, reference.at)
        return Place(face.axis, self.slanted(path, face, reference.at, {level.axis: level.mm}), face)

    def slanted(self, path: Path, face: Face, at: Stretch, spot: Mapping[Axis, Fraction]) -> Fraction:
        """Where a slanted face of one copy lies along its direction, mm, over a spot: given by its two other places, or by
        the place along its part alone and then on the middle of the face."""
        return self._standing(path, 1, face, at, frozenset(), Met(face, dict(spot)))

    def _met(self, id: str, met: Met) -> Fraction:
        stance, lie = self.ledger.ask(StanceOf(id)), self._lies[id]
        assert isinstance(lie, Lie)
        spot = {axis: float(place) for axis, place in met.spot.items()}
        if len(spot) < 2:
            (slant,) = spot
            spot |= {axis: stance.centre(slant, spot[slant])[axis.value] for axis in Axis if axis not in spot}
        return exact(stance.place(met.face, spot))

    def straight_face(self, id: str, face: Face) -> Fraction:
        """A face of the straight body of a part: one that leans is as much longer as it leans."""
        said = self._design.parts.get(id)
        if said and said.lean:
            return exact(self.ledger.ask(StanceOf(id)).body.at(face))
        return self.ledger.ask(FaceOf(id, face))

    # ------------------------------------------------------------ copies

    def standing(self, path: Path, face: Face, at: Stretch) -> Fraction:
        """Where a face of one copy of a thing stands, mm; `face` as seen in the piece.  Raises Misread, Poisoned.

        The copy is sought from the outside in: that of the block first, in it that of its part.
        """
        turn = turned_block(self._design, self.id_of(path), self._scope)
        if turn and face.axis is not turn[1]:
            message = f'"{_spoken(path)}" is turned with its block, so its {face.value} has no single place out here.'
            hint = f'Place what belongs to it inside "{turn[0]}", where it stands straight.'
            raise Misread("place-leaning", message, at, hints=(hint,))
        return self._standing(path, 1, face, at, frozenset())

    def _standing(
        self, path: Path, depth: int, face: Face, at: Stretch, around: frozenset[Axis], met: Met | None = None
    ) -> Fraction:
        if depth > len(path):
            id = self.id_of(path)
            return self._met(id, replace(met, face=face)) if met else self.ledger.ask(FaceOf(id, face))
        id, hands = self.id_of(path[:depth]), path[depth - 1].hands
        spread = self.spreads.get(id)
        if spread is None:
            raise Poisoned
        row = self.ledger.ask(RowOf(id)) if spread.row_axis and hands else None
        try:
            copy = spread.chosen(hands, row.count if row else 1, around)
        except HandFault as fault:
            raise _no_hand(at, str(fault), fault.hint) from None
        around = around ^ copy.mirrored
        if met:
            middles = {axis: self.ledger.ask(MirrorOf(id, axis)) for axis in copy.mirrored}
            met = met.home(middles, {spread.row_axis: row.shifts[copy.place]} if row and spread.row_axis else {})
        if face.axis in copy.mirrored:
            middle = self.ledger.ask(MirrorOf(id, face.axis))
            return 2 * middle - self._standing(path, depth + 1, face.opposite, at, around, met)
        shift = row.shifts[copy.place] if row and face.axis is spread.row_axis else Fraction(0)
        return self._standing(path, depth + 1, face, at, around, met) + shift

    def _measure(self, path: Path, reference: Reference) -> Value:
        id, last, name = self.id_of(path), reference.last, _spoken(path)
        lie = self._lies[id]
        if last in lie.measures:
            return Quantity(self.ledger.ask(MeasureOf(id, lie.axis_of(last), last)) / self.unit, LENGTH)
        if isinstance(lie, Clear):
            message = f'"{name}" is a space, no board: it has no {last}.'
            raise Misread("ref-measure", message, reference.at, "width, depth or height")
        own = f"{name}.{lie.measure_of(_FRAME_MEASURES[last])}"
        message = f'A board has no {last}. "{name}" runs {_runs(lie.grain)}, so its {last} is `{own}`.'
        raise Misread("ref-measure", message, reference.at, hints=(f"Write `{own}`.",))

    def extent(self, path: Path, axis: Axis) -> Fraction:
        """How far the straight body of a part or opening reaches along a direction, mm, wherever it stands."""
        id = self.id_of(path)
        return self.ledger.ask(MeasureOf(id, axis, self._lies[id].measure_of(axis)))

    # ------------------------------------------------------------ refusing

    def _some_direction(self, reference: Reference, axis: Axis | None) -> Axis:
        if axis is None:
            raise Misread("ref-direction", "The middle in which direction? None is asked for here.", reference.at)
        return axis

    def _which_face(self, name: str, reference: Reference, axis: Axis | None) -> Misread:
        faces = [axis.low, axis.high] if axis else [Face.LEFT, Face.RIGHT]
        said = " ".join((*reference.steps[0].hands, name)) if reference.steps else name
        hint = " or ".join(f"`{said}.{face.value}`" for face in faces)
        what = "the frame" if name == "frame" else self._sort(reference.steps)
        message = f'"{name}" is {what}; {"a place" if axis else "a value"} is wanted.'
        measures = "" if axis else f", or a measure such as `{said}.width`"
        return Misread("ref-which-face", message, reference.at, hints=(f"Say a face: {hint}{measures}.",))

    def _sort(self, path: Path) -> str:
        id = self.id_of(path)
        return "an opening" if id in self._design.openings else "a block" if id in self._design.blocks else "a part"

    def refuse_absent(self, path: Path, at: Stretch) -> None:
        """Raises Misread if a thing, or a block around it, is left out by its `when`."""
        for id in levels(self.id_of(path)):
            when = self._design.absent.get(id)
            if when:
                message = f'"{_spoken(path)}" is not there: it says `when: {when.text}`.'
                raise Misread("ref-absent", message, at, hints=("Say the same `when` here.",))

    def _refuse_absent(self, reference: Reference) -> None:
        self.refuse_absent(reference.steps, reference.at)

    def _unheld(self, reference: Reference) -> Misread:
        """A path whose end is not in the block."""
        outer, inner = reference.steps[0].name, reference.steps[-1].name
        holding = self.id_of(reference.steps[:-1])
        if holding in self._design.blocks:
            held = [*known_in(self._design, holding)]
            return Misread("ref-unknown", f'Block "{outer}" holds no "{inner}".', reference.at, hints=did_you_mean(inner, held))
        message = f'"{inner}" is looked for inside "{outer}", which holds no parts of its own.'
        return Misread("ref-unknown", message, reference.at)

    def _unknown(self, name: str, reference: Reference) -> Misread:
        known = [*known_in(self._design, self._scope)]
        hints = did_you_mean(name, known)
        if self._scope and not hints and name in known_in(self._design, ""):
            hints = (f'A block sees nothing outside: let it take `{name}`, and give it under `with`.',)
        return Misread("ref-unknown", f'No part, size or stock "{name}".', reference.at, hints=hints)


def _spoken(path: Path) -> str:
    """`door.hinge_stile`: a path without its hands."""
    return ".".join(step.name for step in path)


class Shaping:
    """Names as they are meant where a part is shaped: a bare face word is the part's own.

    Its own faces are those of its straight body, however it stands.
    """

    def __init__(self, placing: Placing, own: str) -> None:
        self._placing, self._own = placing, own

    @property
    def unit(self) -> Fraction:
        return self._placing.unit

    def within(self, scope: str) -> Shaping:
        return Shaping(self._placing.within(scope), self._own)

    def meaning(self, reference: Reference, axis: Axis | None) -> Value:
        if not reference.steps:
            own = Reference(reference.at, (Step((), self._own),), reference.last)
            return self._own_face(own) or self._placing.within("").meaning(own, axis)
        if self._placing.id_of(reference.steps) == self._own:
            return self._own_face(reference) or self._placing.meaning(reference, axis)
        return self._placing.meaning(reference, axis)

    def at_level(self, reference: Reference, level: Value) -> Value:
        return self._placing.at_level(reference, level)

    def _own_face(self, reference: Reference) -> Value | None:
        """A face of the part's straight body; None if something else is meant."""
        if reference.last not in FACES:
            return None
        face = Face(reference.last)
        return Place(face.axis, self._placing.straight_face(self._own, face), face)

    def origin_of(self, reference: Reference) -> str:
        return self._placing.origin_of(reference)


def _no_hand(at: Stretch, message: str, hint: str = "") -> Misread:
    return Misread("ref-no-hand", message, at, hints=(f"Use {hint}.",) if hint else ())


def _runs(grain: Axis) -> str:
    return "up" if grain is Axis.BOTTOM_TOP else grain.words
