"""What is said of a part in one direction: faces, sizes, middle.  Two facts a direction place it.

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
from planbuild.records.design import PartSaid, Said
from planbuild.resolve.between import ends_between
from planbuild.resolve.expressions.values import Place
from planbuild.resolve.ledger import RowOf, StockOf
from planbuild.resolve.orientation import Lie
from planbuild.resolve.places import Places
from planbuild.resolve.sayings import AXES


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
    """The facts of one part."""

    def __init__(self, id: str, said: PartSaid, lie: Lie, places: Places) -> None:
        self.id, self.said, self.lie, self.places = id, said, lie, places

    def gathered(self, axis: Axis) -> tuple[Fact, ...]:
        """All that is said in a direction, in the order in which it is read."""
        found = [*self._faces(axis), *self._between(axis), *self._fills(axis), *self._centred(axis), *self._row(axis)]
        return (*found, *self._size(axis))

    # ------------------------------------------------------------ faces

    def _faces(self, axis: Axis) -> list[Fact]:
        found = []
        for face, about in _sides(axis):
            said = self.said_of(face)
            if said is not None:
                found.append(Fact(about, f"{face.value} {said.text}", said.span, partial(self._put, said, face)))
        return found

    def said_of(self, face: Face) -> Said | None:
        said: Said | None = getattr(self.said, face.value)
        return said

    def _put(self, said: Said, face: Face) -> Fraction:
        """Where a face is put: at a place, or a plain length inside the frame's face of the same name."""
        found = self.places.place(said, face.axis)
        return found.mm if isinstance(found, Place) else self.places.placing.frame_at(face) - face.sign * found

    def is_plain(self, face: Face) -> bool:
        """True if a face is put by a plain length."""
        said = self.said_of(face)
        return said is not None and not isinstance(self.places.place(said, face.axis), Place)

    # ------------------------------------------------------------ between, fills

    def _between(self, axis: Axis) -> list[Fact]:
        if not self.said.between or axis is not self.lie.grain:
            return []
        span = self.said.between[0].span
        words = f"between {' and '.join(each.text for each in self.said.between)}"
        return [Fact(about, words, span, partial(self._end, face)) for face, about in _sides(axis)]

    def _end(self, face: Face) -> Fraction:
        ends = ends_between(self.said.between, face.axis, self.places)
        return (ends.low if face.sign < 0 else ends.high) - face.sign * self._gap()

    def _gap(self) -> Fraction:
        return self.places.length(self.said.gap) if self.said.gap else Fraction(0)

    def _fills(self, axis: Axis) -> list[Fact]:
        """`fills` gives both faces along length and width; a face that is given itself wins over its side."""
        said = self.said.fills
        if said is None or axis is self.lie.face.axis:
            return []
        return [
            Fact(about, f"fills {said.text}", said.span, partial(self._side, said, face))
            for face, about in _sides(axis)
            if self.said_of(face) is None
        ]

    def _side(self, said: Said, face: Face) -> Fraction:
        if said.text != "frame":
            raise self.places.refuse("place-fills", said, f'"{said.text}" is no space that can be filled.', "frame")
        return self.places.placing.frame_at(face) - face.sign * self._gap()

    # ------------------------------------------------------------ middle, row, size

    def _centred(self, axis: Axis) -> list[Fact]:
        for word, saids in self.said.centred.items():
            if AXES.get(word) is axis:
                on = f" on {' and '.join(each.text for each in saids)}" if saids else ""
                span = saids[0].span if saids else self.said.origin
                return [Fact(About.MIDDLE, f"centred {word}{on}", span, partial(self._middle, saids, axis))]
        return []

    def _middle(self, saids: tuple[Said, ...], axis: Axis) -> Fraction:
        if not saids:
            return self.places.placing.frame_at(axis.high) / 2
        if len(saids) > 2:
            raise self.places.refuse("place-centred", saids[2], "Halfway lies between two places, not more.", "one or two")
        return sum((self.places.centre_line(said, axis) for said in saids), Fraction(0)) / len(saids)

    def _row(self, axis: Axis) -> list[Fact]:
        repeat = self.said.repeat
        if repeat is None or self.places.spread_of(self.id).row_axis is not axis:
            return []
        return [Fact(About.LOW, f"repeat along {axis.words}", repeat.origin, self._row_start)]

    def _row_start(self) -> Fraction:
        return self.places.placing.ledger.ask(RowOf(self.id)).start

    def _size(self, axis: Axis) -> list[Fact]:
        measure = self.lie.measure_of(axis)
        said: Said | None = getattr(self.said, measure)
        if said is not None:
            what = f'The {measure} of "{self.id}"'
            return [Fact(About.SIZE, f"{measure} {said.text}", said.span, partial(self.places.size, said, what))]
        if measure == "thickness":
            stock = self.said.stock
            return [Fact(About.SIZE, f"its thickness from {stock.text}", stock.span, self._stock_thickness)]
        return []

    def _stock_thickness(self) -> Fraction:
        return self.places.placing.ledger.ask(StockOf(self.said.stock.text))


def _sides(axis: Axis) -> tuple[tuple[Face, About], tuple[Face, About]]:
    return (axis.low, About.LOW), (axis.high, About.HIGH)
