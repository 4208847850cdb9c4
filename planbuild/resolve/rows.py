"""Copies in a row: evenly spaced between two things, or each at a place of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from planbuild.core.diagnostics import Diagnostic, Severity, Span
from planbuild.core.geometry import Axis, Face
from planbuild.records.design import RepeatSaid, Said
from planbuild.resolve.between import ends_between
from planbuild.resolve.copies import row_direction, row_refused
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.expressions.tokens import in_figures
from planbuild.resolve.expressions.values import Place
from planbuild.resolve.ledger import Row
from planbuild.resolve.places import Places
from planbuild.resolve.sayings import figure

ENDS = ("gap", "flush", "half", "centred")
"""What is left at both ends of a row: a whole gap, nothing, half a gap, or what is over where the gap is given."""

MOST = 1000
"""Copies that a row may come to where its count follows from its gaps."""


@dataclass(frozen=True)
class _Room:
    """The space of a row along its axis, mm, and the size of what stands in it."""

    low: Fraction
    size: Fraction
    each: Fraction

    def gap(self, count: int, ends: str) -> Fraction:
        return (self.size - count * self.each) / gaps_of(count, ends)


def spaced(id: str, said: RepeatSaid, size: Fraction, places: Places) -> Row:
    """The row of a repeated part of `size`.  Lengths in mm.  Reports `place-row`; raises Poisoned."""
    if said.at:
        return _by_hand(id, said, size, places)
    ways = [name for name in _WAYS if getattr(said, name) is not None]
    ways = ["gap"] if ways == ["count", "gap"] else ways  # so many, so far apart: what is over is left at both ends
    if len(ways) != 1:
        told = f"has {' and '.join(ways)} for its row" if ways else "does not say how many stand in its row"
        raise row_refused(id, said, told, f"one of: {', '.join(_WAYS)}", places)
    if not said.between:
        raise row_refused(id, said, "does not say between what its row stands", "`between`", places)
    room = _room(said, size, row_direction(id, said, places), places)
    return _WAYS[ways[0]](id, said, room, places)


def gaps_of(count: int, ends: str) -> int:
    """How many gaps a row has; a half gap at each end counts as one together."""
    return {"gap": count + 1, "flush": count - 1, "half": count, "centred": count - 1}[ends]


def _room(said: RepeatSaid, size: Fraction, axis: Axis, places: Places) -> _Room:
    space = ends_between(said.between, axis, places)
    return _Room(space.low, space.high - space.low, size)


# ---------------------------------------------------------------- how many


def _counted(id: str, said: RepeatSaid, room: _Room, places: Places) -> Row:
    assert said.count is not None
    count, ends = places.count(said.count, least=2), _ends(said, places)
    return _even_row(id, said.count, count, ends, room, places)


def _at_most(id: str, said: RepeatSaid, room: _Room, places: Places) -> Row:
    """As few as leave no gap wider than was said."""
    assert said.most_gap is not None
    most, ends = places.size(said.most_gap, f'The gap between two of "{id}"'), _ends(said, places)
    count = next((each for each in range(2, MOST) if room.gap(each, ends) <= most), MOST)
    return _even_row(id, said.most_gap, count, ends, room, places)


def _near(id: str, said: RepeatSaid, room: _Room, places: Places) -> Row:
    """As many as bring the gap nearest to what was said; of two equally near the fewer."""
    assert said.near_gap is not None
    near, ends = places.size(said.near_gap, f'The gap between two of "{id}"'), _ends(said, places)
    counts = [each for each in range(2, MOST) if room.gap(each, ends) > 0]
    count = min(counts, key=lambda each: abs(room.gap(each, ends) - near), default=2)
    return _even_row(id, said.near_gap, count, ends, room, places)


def _given(id: str, said: RepeatSaid, room: _Room, places: Places) -> Row:
    """The gap is given: as many as fit, or as many as said; what is over is left at both ends."""
    assert said.gap is not None
    gap = places.size(said.gap, f'The gap between two of "{id}"')
    if said.ends is not None and places.choice(said.ends, ENDS, "way to end a row") != "centred":
        raise places.refuse("place-row", said.ends, "A row with a given gap has a remainder at its ends.", "`ends: centred`")
    most = int((room.size + gap) / (room.each + gap))
    count = places.count(said.count, least=2) if said.count else most
    if count > most:
        raise _too_many(id, said.count or said.gap, count, most, room, places)
    if not 2 <= count <= MOST:
        told = f'{count if count < 2 else "too many"} of "{id}" would stand there, with gaps of {figure(gap, places.unit)}.'
        raise places.refuse("place-row", said.gap, told.capitalize(), f"2 to {MOST} of them")
    over = room.size - count * room.each - (count - 1) * gap
    return _row(room.low + over / 2, count, room.each + gap, gap)


_WAYS: dict[str, Callable[[str, RepeatSaid, _Room, Places], Row]] = {
    "count": _counted,
    "gap": _given,
    "most_gap": _at_most,
    "near_gap": _near,
}
"""The fields that say how many stand in a row."""


def _ends(said: RepeatSaid, places: Places) -> str:
    ends = places.choice(said.ends, ENDS, "way to end a row") if said.ends else "gap"
    if ends == "centred" and said.ends:
        message = "Nothing is over where the gaps follow from the count."
        raise places.refuse("place-row", said.ends, message, "`gap`, `flush` or `half`")
    return ends


def _even_row(id: str, at: Said, count: int, ends: str, room: _Room, places: Places) -> Row:
    gap = room.gap(count, ends)
    if gap <= 0:
        raise _too_many(id, at, count, int(room.size / room.each), room, places)
    before = {"gap": gap, "flush": Fraction(0), "half": gap / 2}[ends]
    return _row(room.low + before, count, room.each + gap, gap)


def _too_many(id: str, at: Said, count: int, fit: int, room: _Room, places: Places) -> Poisoned:
    each, whole = figure(room.each, places.unit), figure(room.size, places.unit)
    message = f'{count} of "{id}", each {each}, do not fit in {whole}.'
    return places.refuse("place-row", at, message, hints=(f"Not more than {fit} would fit.",))


def _row(start: Fraction, count: int, pitch: Fraction, gap: Fraction) -> Row:
    return Row(start, tuple(pitch * place for place in range(count)), gap)


# ---------------------------------------------------------------- placed by hand


def _by_hand(id: str, said: RepeatSaid, size: Fraction, places: Places) -> Row:
    if len(said.at) != 1 or any(getattr(said, name) is not None for name in (*_WAYS, "ends")) or said.between:
        raise row_refused(id, said, "is placed by hand and in another way", "`at` places of one face alone", places)
    word, listed = next(iter(said.at.items()))
    face = places.face(Said(word, said.origin))
    if row_direction(id, said, places) is not face.axis:
        told = f"has places for its {face.value}, which lie another way than its row"
        raise row_refused(id, said, told, "one direction", places)
    starts = [_low(_place(each, face, places), face, size) for each in listed]
    if len(starts) < 2:
        raise row_refused(id, said, "has one place only", "two or more, or no `repeat`", places)
    for one, other, where in zip(starts, starts[1:], listed[1:], strict=False):
        if other < one + size:
            message = f'This "{id}" would stand in the one before it.'
            raise places.refuse("place-row", where, message, "places in their order, from the left, front or bottom")
    return Row(starts[0], tuple(each - starts[0] for each in starts))


def _place(said: Said, face: Face, places: Places) -> Fraction:
    found = places.place(said, face.axis)
    return found.mm if isinstance(found, Place) else places.frame_at(face, said.scope) - face.sign * found


def _low(at: Fraction, face: Face, size: Fraction) -> Fraction:
    return at - size if face.sign > 0 else at


# ---------------------------------------------------------------- gaps off the printed step


def off_step(id: str, said: RepeatSaid, row: Row, size: Fraction, step: Fraction, places: Places) -> Diagnostic | None:
    """A note if the gaps do not lie on the printed step (mm), with the nearest size of the part that comes out even."""
    if row.gap is None or said.gap is not None or (row.gap / step).denominator == 1:
        return None
    gap, fine = (in_figures(each / places.unit) for each in (row.gap, step))
    message = f'The gaps between the copies of "{id}" come to {gap}, which is not on the step of {fine}.'
    even = next(_even(row.gap, row.count, size, said, step), None)
    hint = f'With "{id}" {figure(even[0], places.unit)} the gaps come out at {figure(even[1], places.unit)}.' if even else ""
    return Diagnostic("place-off-step", message, Severity.NOTE, _span(said), hints=(hint,) if hint else ())


def _span(said: RepeatSaid) -> Span:
    return said.count.span if said.count else said.origin


def _even(gap: Fraction, count: int, size: Fraction, said: RepeatSaid, step: Fraction) -> Iterator[tuple[Fraction, Fraction]]:
    """Sizes on the step, nearest first, whose gaps lie on the step too."""
    gaps = gaps_of(count, said.ends.text if said.ends else "gap")
    space = count * size + gaps * gap
    near = round(size / step)
    for away in range(1, 33):
        for steps in (near - away, near + away):
            even = (space - count * steps * step) / gaps
            if steps > 0 and even > 0 and (even / step).denominator == 1:
                yield steps * step, even
