"""The copies of a part: mirrored about the frame's middle, evenly spaced, and how they are called."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import product

from planbuild.core.geometry import Axis, Motion
from planbuild.records.design import PartSaid, RepeatSaid, Said
from planbuild.records.piece import Copy
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.ledger import Row
from planbuild.resolve.sayings import Sayings

LOW_HIGH: dict[Axis, tuple[str, str]] = {
    Axis.LEFT_RIGHT: ("left", "right"),
    Axis.FRONT_BACK: ("front", "back"),
    Axis.BOTTOM_TOP: ("lower", "upper"),
}
"""How the two hands of a mirrored part are called; the drawn one is the first."""

SPOKEN = (Axis.BOTTOM_TOP, Axis.FRONT_BACK, Axis.LEFT_RIGHT)
"""The order in which hands are spoken: upper back right."""


class HandFault(Exception):
    """A hand that a part has not; `hint` names ones that it has."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.hint = hint


@dataclass(frozen=True)
class One:
    """One copy: the directions in which it is mirrored, and its place in the row."""

    mirrored: frozenset[Axis] = frozenset()
    place: int = 0


@dataclass(frozen=True)
class Spread:
    """The directions in which a part is mirrored and that along which it is repeated, if any."""

    part: str
    mirrors: tuple[Axis, ...] = ()
    row_axis: Axis | None = None
    abouts: Mapping[Axis, Said] = field(default_factory=dict)
    """What is said of the middle about which it is mirrored; the frame's where nothing is."""

    def hands(self, hands: tuple[str, ...]) -> dict[Axis | None, str]:
        """Each hand by what it chooses: a mirrored direction, or None for the place in the row.  Raises HandFault."""
        found: dict[Axis | None, str] = {}
        for hand in hands:
            axis = next((axis for axis in self.mirrors if hand in LOW_HIGH[axis]), None)
            in_row = self.row_axis is not None and (hand in ("first", "last") or hand[0].isdigit())
            if (axis is None and not in_row) or axis in found:
                raise HandFault(self._no_such(hand), self._some_hands())
            found[axis] = hand
        return found

    def chosen(self, hands: tuple[str, ...], count: int) -> One:
        """The copy that is meant when placing: a hand left out means the drawn one.  Raises HandFault."""
        found = self.hands(hands)
        mirrored = frozenset(axis for axis in self.mirrors if found.get(axis) == LOW_HIGH[axis][1])
        return One(mirrored, _place(found.get(None, "first"), count, self))

    def _no_such(self, hand: str) -> str:
        told = []
        if self.mirrors:
            told.append(f"mirrored {' and '.join(axis.words for axis in self.mirrors)}")
        if self.row_axis:
            told.append(f"repeated {self.row_axis.words}")
        how = f"{self.part} is {', '.join(told)}" if told else f"there is one {self.part} only"
        return f'There is no "{hand} {self.part}": {how}.'

    def _some_hands(self) -> str:
        words = [f"`{hand} {self.part}`" for axis in self.mirrors for hand in LOW_HIGH[axis]]
        words += [f"`{hand} {self.part}`" for hand in ("first", "last") if self.row_axis]
        return " or ".join(words) or f"`{self.part}`"


def _place(hand: str, count: int, spread: Spread) -> int:
    """The place in the row that a hand names.  Raises HandFault."""
    if hand in ("first", "last"):
        return 0 if hand == "first" else count - 1
    place = int(hand.rstrip("stndrh")) - 1
    if not 0 <= place < count:
        raise HandFault(f'There is no "{hand} {spread.part}": there are {count}.', f"`last {spread.part}`")
    return place


def spread(id: str, said: PartSaid, sayings: Sayings) -> Spread:
    """How a part is copied.  Reports `place-mirror-twice`, `word-unknown`; raises Poisoned."""
    axes: list[Axis] = []
    abouts: dict[Axis, Said] = {}
    for word in mirror_words(said):
        axis = sayings.axis(word)
        if axis in axes:
            raise sayings.refuse("place-mirror-twice", word, f'"{id}" is mirrored {axis.words} twice.', hints=("Say it once.",))
        axes.append(axis)
        if isinstance(said.mirror, Mapping):
            abouts[axis] = said.mirror[word.text]
    row_axis = row_direction(id, said.repeat, sayings) if said.repeat else None
    if said.repeat and row_axis in axes:
        message = f'"{id}" is mirrored and repeated {row_axis.words}: its copies would have two names.'
        at = said.repeat.along or Said("repeat", said.repeat.origin)
        raise sayings.refuse("place-mirror-twice", at, message, hints=("Repeat the part over the whole width.",))
    return Spread(id, tuple(sorted(axes, key=lambda each: each.value)), row_axis, abouts)


def mirror_words(said: PartSaid) -> tuple[Said, ...]:
    """The directions in which a part is mirrored, as they are written."""
    if isinstance(said.mirror, Mapping):
        return tuple(Said(word, about.span) for word, about in said.mirror.items())
    return said.mirror


def row_direction(id: str, said: RepeatSaid, sayings: Sayings) -> Axis:
    """The way a row runs.  Reports `place-row`, `word-unknown`; raises Poisoned."""
    if said.along is not None:
        return sayings.axis(said.along)
    if len(said.at) == 1:
        return sayings.face(Said(next(iter(said.at)), said.origin)).axis
    raise row_refused(id, said, "does not say which way its row runs", "`along` a direction, or `at` places of one face", sayings)


def row_refused(id: str, said: RepeatSaid, told: str, expected: str, sayings: Sayings) -> Poisoned:
    """Reports a fault of a row as a whole; the answer is to be raised."""
    return sayings.refuse("place-row", Said("repeat", said.origin), f'"{id}" {told}.', expected)


def every_copy(spread: Spread, count: int) -> tuple[One, ...]:
    """All copies, the drawn one first: rows one after the other, the left and right hand changing fastest."""
    flips = product((False, True), repeat=len(spread.mirrors))
    mirrorings = [frozenset(a for a, flip in zip(reversed(spread.mirrors), each, strict=True) if flip) for each in flips]
    return tuple(One(mirrored, place) for mirrored in mirrorings for place in range(count))


def copies(spread: Spread, row: Row | None, middles: Mapping[Axis, Fraction]) -> tuple[Copy, ...]:
    """The copies as they stand, in the order of `every_copy`; `middles` are those about which it is mirrored, mm."""
    count = row.count if row else 1
    return tuple(Copy(_called(spread, one, count), _motion(spread, one, row, middles)) for one in every_copy(spread, count))


def selected(spread: Spread, count: int, hands: tuple[str, ...]) -> tuple[int, ...]:
    """Indices of the copies that are meant when joining: a hand left out means both.  Raises HandFault."""
    found = spread.hands(hands)
    place = _place(found[None], count, spread) if None in found else None
    return tuple(
        index
        for index, one in enumerate(every_copy(spread, count))
        if all(LOW_HIGH[axis][axis in one.mirrored] == hand for axis, hand in found.items() if axis is not None)
        and place in (None, one.place)
    )


def _called(spread: Spread, one: One, count: int) -> str:
    words = [LOW_HIGH[axis][axis in one.mirrored] for axis in SPOKEN if axis in spread.mirrors]
    return " ".join(words + ([ordinal(one.place, count)] if spread.row_axis else []))


def ordinal(place: int, count: int) -> str:
    """`first`, `2nd`, ..., `last`."""
    if place in (0, count - 1):
        return "last" if place else "first"
    number = place + 1
    ending = "th" if 10 < number % 100 < 20 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def _motion(spread: Spread, one: One, row: Row | None, middles: Mapping[Axis, Fraction]) -> Motion:
    shift = [float(2 * middles[axis]) if axis in one.mirrored else 0.0 for axis in Axis]
    if row and spread.row_axis:
        shift[spread.row_axis.value] += float(row.shifts[one.place])
    x, y, z = (-1 if axis in one.mirrored else 1 for axis in Axis)
    return Motion((x, y, z), (shift[0], shift[1], shift[2]))
