"""What is said of a thing in one direction: faces, sizes, middle.  Two facts a direction place it.

Gathering only counts what was said; a fact's value is worked out when it is asked for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from functools import partial

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import Axis, Face
from planbuild.records.design import GlueUpSaid, PartSaid, RepeatSaid, Said
from planbuild.records.spaces import PlacedBlock, SpaceSaid
from planbuild.resolve.between import ends_between
from planbuild.resolve.expressions.values import Place
from planbuild.resolve.ledger import FaceOf, RowOf, StockOf
from planbuild.resolve.orientation import Clear, Lie
from planbuild.resolve.places import Places
from planbuild.resolve.sayings import AXES, tried
from planbuild.resolve.scopes import holder
from planbuild.resolve.stacks import stack

MOST_LAYERS = 8
"""Boards glued face to face into one part (a choice of ours)."""


class About(Enum):
    LOW = "low face"
    HIGH = "high face"
    SIZE = "size"
    MIDDLE = "middle"


@dataclass(frozen=True)
class Fact:
    """One thing said; `words` is how it is told in a message, `work` gives it in mm."""

    about: About
    words: str
    span: Span
    work: Callable[[], Fraction]


class Facts:
    """The facts that anything placed can have: its faces, its middle, its row."""

    def __init__(self, id: str, placed: PartSaid | SpaceSaid, lie: Lie | Clear, places: Places) -> None:
        self.id, self.placed, self.lie, self.places = id, placed, lie, places

    def gathered(self, axis: Axis) -> tuple[Fact, ...]:
        """All that is said in a direction, in the order in which it is read."""
        return (*self._faces(axis), *self._spanned(axis), *self._centred(axis), *self._row(axis), *self._size(axis))

    def _spanned(self, axis: Axis) -> list[Fact]:
        """Two faces at once, where something gives both."""
        return []

    def _size(self, axis: Axis) -> list[Fact]:
        return []

    # ------------------------------------------------------------ faces

    def _faces(self, axis: Axis) -> list[Fact]:
        found = []
        for face, about in _sides(axis):
            said = self.said_of(face)
            if said is not None:
                found.append(Fact(about, f"{face.value} {said.text}", said.span, partial(self._put, said, face)))
        return found

    def said_of(self, face: Face) -> Said | None:
        said: Said | None = getattr(self.placed, face.value)
        return said

    def _put(self, said: Said, face: Face) -> Fraction:
        """Where a face is put: at a place, or a plain length inside the frame's face of the same name."""
        found = self.places.place(said, face.axis)
        return found.mm if isinstance(found, Place) else self.places.frame_at(face, said.scope) - face.sign * found

    def is_plain(self, face: Face) -> bool:
        """True if a face is put by a plain length."""
        said = self.said_of(face)
        return said is not None and not isinstance(self.places.place(said, face.axis), Place)

    # ------------------------------------------------------------ middle, row

    def _centred(self, axis: Axis) -> list[Fact]:
        for word, saids in self.placed.centred.items():
            if AXES.get(word) is axis:
                on = f" on {' and '.join(each.text for each in saids)}" if saids else ""
                span = saids[0].span if saids else self.placed.origin
                return [Fact(About.MIDDLE, f"centred {word}{on}", span, partial(self._middle, saids, axis))]
        return []

    def _middle(self, saids: tuple[Said, ...], axis: Axis) -> Fraction:
        if not saids:
            return self.places.placing.within(holder(self.id)).frame_middle(axis)
        if len(saids) > 2:
            raise self.places.refuse("place-centred", saids[2], "Halfway lies between two places, not more.", "one or two")
        return sum((self.places.centre_line(said, axis, self.middle) for said in saids), Fraction(0)) / len(saids)

    def middle(self, axis: Axis) -> Fraction:
        """Where the middle lies in another direction: slanted faces and lines are met there."""
        ledger = self.places.placing.ledger
        return (ledger.ask(FaceOf(self.id, axis.low)) + ledger.ask(FaceOf(self.id, axis.high))) / 2

    def _row(self, axis: Axis) -> list[Fact]:
        repeat = self.placed.repeat
        if repeat is None or self.places.spread_of(self.id).row_axis is not axis:
            return []
        return [Fact(About.LOW, f"repeat along {axis.words}", repeat.origin, self._row_start)]

    def _row_start(self) -> Fraction:
        return self.places.placing.ledger.ask(RowOf(self.id)).start

    def _sized(self, measure: str, said: Said) -> Fact:
        work = partial(self.places.size, said, f'The {measure} of "{self.id}"')
        return Fact(About.SIZE, f"{measure} {said.text}", said.span, work)


class PartFacts(Facts):
    """The facts of a part: also between what it lies, what it fills, its sizes."""

    def __init__(self, id: str, said: PartSaid, lie: Lie, places: Places) -> None:
        super().__init__(id, said, lie, places)
        self.said, self.lie_of = said, lie

    def _spanned(self, axis: Axis) -> list[Fact]:
        return [*self._between(axis), *self._fills(axis)]

    def _between(self, axis: Axis) -> list[Fact]:
        if not self.said.between or axis is not self.lie_of.grain:
            return []
        span = self.said.between[0].span
        words = f"between {' and '.join(each.text for each in self.said.between)}"
        return [Fact(about, words, span, partial(self._end, face)) for face, about in _sides(axis)]

    def _end(self, face: Face) -> Fraction:
        ends = ends_between(self.said.between, face.axis, self.places, self.middle)
        return (ends.low if face.sign < 0 else ends.high) - face.sign * self._gap()

    def _gap(self) -> Fraction:
        return self.places.length(self.said.gap) if self.said.gap else Fraction(0)

    def _fills(self, axis: Axis) -> list[Fact]:
        """`fills` gives both faces along length and width; a face that is given itself wins over its side."""
        said = self.said.fills
        if said is None or axis is self.lie_of.face.axis:
            return []
        return [
            Fact(about, f"fills {said.text}", said.span, partial(self._side, said, face))
            for face, about in _sides(axis)
            if self.said_of(face) is None
        ]

    def _side(self, said: Said, face: Face) -> Fraction:
        return side_of_space(said, face, self.places) - face.sign * self._gap()

    def _size(self, axis: Axis) -> list[Fact]:
        measure = self.lie_of.measure_of(axis)
        said: Said | None = getattr(self.said, measure)
        if said is not None:
            return [self._sized(measure, said)]
        if measure == "thickness":
            stock = self.said.stock
            return [Fact(About.SIZE, f"its thickness from {stock.text}", stock.span, self._stock_thickness)]
        return []

    def _stock_thickness(self) -> Fraction:
        return layers_of(self.said, self.places) * self.places.placing.ledger.ask(StockOf(self.said.stock.text))

def layers_of(said: PartSaid, places: Places) -> int:
    """Boards glued face to face into a part; 1 where the count is at fault (reported)."""
    wanted = said.glue_up.layers if isinstance(said.glue_up, GlueUpSaid) else None
    return (tried(places.count, wanted, 2, MOST_LAYERS) or 1) if wanted else 1


class OpeningFacts(Facts):
    """The facts of an opening: also its width, depth and height."""

    def _size(self, axis: Axis) -> list[Fact]:
        measure = self.lie.measure_of(axis)
        said: Said | None = getattr(self.placed, measure)
        stacked = [self._stacked(repeat)] if (repeat := self._rails(axis)) else []
        return [*stacked, *([self._sized(measure, said)] if said else [])]

    def _rails(self, axis: Axis) -> RepeatSaid | None:
        """The row in this direction, if rails divide it."""
        repeat = self.placed.repeat
        if repeat is None or (repeat.rails is None and not repeat.shares):
            return None
        return repeat if self.places.spread_of(self.id).row_axis is axis else None

    def _stacked(self, repeat: RepeatSaid) -> Fact:
        return Fact(About.SIZE, "what its rails leave", repeat.origin, lambda: stack(self.id, repeat, self.places).size)


class BlockFacts(Facts):
    """The facts of a block: the faces of the opening that it fills, or the sizes of its own frame."""

    def __init__(self, id: str, block: PlacedBlock, lie: Clear, places: Places) -> None:
        super().__init__(id, block.said, lie, places)
        self.block = block

    def _spanned(self, axis: Axis) -> list[Fact]:
        into = self.block.said.into
        if into is None or self.block.frame:
            return []
        return [Fact(about, f"in {into.text}", into.span, partial(self._side, into, face)) for face, about in _sides(axis)]

    def _side(self, into: Said, face: Face) -> Fraction:
        return side_of_space(into, face, self.places)

    def _size(self, axis: Axis) -> list[Fact]:
        measure = self.lie.measure_of(axis)
        return [self._sized(measure, getattr(self.block.frame, measure))] if self.block.frame else []


def side_of_space(said: Said, face: Face, places: Places) -> Fraction:
    """A face of a space that is filled: the frame or an opening.  Reports `place-fills`; raises Poisoned."""
    if said.text == "frame":
        return places.frame_at(face, said.scope)
    path = places.named(said)
    if path is None or not places.is_opening(path, said):
        expected = ", ".join(("frame", *places.openings(said.scope)))
        raise places.refuse("place-fills", said, f'"{said.text}" is no space that can be filled.', expected)
    return places.standing(path, face, said)


def _sides(axis: Axis) -> tuple[tuple[Face, About], tuple[Face, About]]:
    return (axis.low, About.LOW), (axis.high, About.HIGH)
