"""The copies of a part: mirrored about a middle, evenly spaced, held by blocks with copies of their own; how they are called."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import product

from planbuild.core.geometry import Axis, Motion
from planbuild.records.design import PartSaid, RepeatSaid, Said
from planbuild.records.piece import Copy
from planbuild.records.spaces import SpaceSaid, ordinal
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
            if (axis is None and not (self.row_axis is not None and in_row(hand))) or axis in found:
                raise HandFault(self._no_such(hand), self._some_hands())
            found[axis] = hand
        return found

    def chosen(self, hands: tuple[str, ...], count: int, around: frozenset[Axis] = frozenset()) -> One:
        """The copy that is meant when placing: a hand left out means the drawn one.  `around` are the directions in which
        the block around it is mirrored.  Raises HandFault."""
        found = self.hands(hands)
        mirrored = frozenset(axis for axis in self.mirrors if axis in found and self._is_mirrored(axis, found[axis], around))
        place = _place(found.get(None, "first"), count, self)
        return One(mirrored, count - 1 - place if None in found and self.row_axis in around else place)

    def _is_mirrored(self, axis: Axis, hand: str, around: frozenset[Axis]) -> bool:
        return (hand == LOW_HIGH[axis][1]) is not (axis in around)

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


def in_row(hand: str) -> bool:
    """True for a hand that chooses a place in a row."""
    return hand in ("first", "last") or hand[0].isdigit()


def place_in_row(hand: str, count: int) -> int:
    """The place that a hand means in a row of so many, whether there is one or not."""
    if hand in ("first", "last"):
        return 0 if hand == "first" else count - 1
    return int(hand.rstrip("stndrh")) - 1


def _place(hand: str, count: int, spread: Spread) -> int:
    """The place in the row that a hand names.  Raises HandFault."""
    place = place_in_row(hand, count)
    if not 0 <= place < count:
        raise HandFault(f'There is no "{hand} {spread.part}": there are {count}.', f"`last {spread.part}`")
    return place


def spread(id: str, said: PartSaid | SpaceSaid, sayings: Sayings) -> Spread:
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


def mirror_words(said: PartSaid | SpaceSaid) -> tuple[Said, ...]:
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


@dataclass(frozen=True)
class Level:
    """One step of a part's copies: those of a block around it, or its own.  `middles` are those of its mirrors, mm."""

    spread: Spread
    row: Row | None
    middles: Mapping[Axis, Fraction]
    row_name: str = ""
    """How all in its row are called, where those of another size have another id."""

    @property
    def count(self) -> int:
        return self.row.count if self.row else 1

    @property
    def ones(self) -> tuple[One, ...]:
        return every_copy(self.spread, self.count)

    @property
    def name(self) -> str:
        return (self.row_name or self.spread.part.rpartition(".")[2]).replace("_", " ")


@dataclass(frozen=True)
class _Standing:
    """One copy with the copies of the blocks around it, as each is called; `mirrored` are the directions in which what
    it holds is seen the other way round."""

    hands: tuple[tuple[str, str], ...] = ()
    motion: Motion = Motion()
    mirrored: frozenset[Axis] = frozenset()

    @property
    def called(self) -> str:
        """`left drawer's right`, `left`: the last hand is the part's own, or that of the block if it has none."""
        *outer, last = [(name, hand) for name, hand in self.hands if hand] or [("", "")]
        return " ".join([*(f"{hand} {name}'s" for name, hand in outer), last[1]])


def copies(levels: Sequence[Level]) -> tuple[Copy, ...]:
    """The copies of a part, the outermost block first: each copy of the block holds all of what is in it."""
    return tuple(Copy(each.called, each.motion) for each in _all_standing(levels))


def _all_standing(levels: Sequence[Level]) -> list[_Standing]:
    found = [_Standing()]
    for level in levels:
        found = [_held(outer, one, level) for outer in found for one in level.ones]
    return found


def _held(outer: _Standing, one: One, level: Level) -> _Standing:
    seen = as_seen(one, level.spread, level.count, outer.mirrored)
    hands = (*outer.hands, (level.name, _called(level, seen)))
    motion = outer.motion.after(_motion(level.spread, one, level.row, level.middles))
    return _Standing(hands, motion, outer.mirrored ^ one.mirrored)


def as_seen(one: One, spread: Spread, count: int, mirrored: frozenset[Axis]) -> One:
    """A copy as it is called in a block that is mirrored itself: its left one is the one that stands at the left there."""
    swapped = one.mirrored ^ frozenset(axis for axis in spread.mirrors if axis in mirrored)
    return One(swapped, count - 1 - one.place if spread.row_axis in mirrored else one.place)


def selected(levels: Sequence[Level], hands: Sequence[tuple[str, ...]]) -> tuple[int, ...]:
    """Indices of the copies that are meant when joining, with the hands said at each level: one left out means all.

    Raises HandFault.
    """
    wanted = [_wanted(level, said) for level, said in zip(levels, hands, strict=True)]
    chains = product(*(level.ones for level in levels))
    return tuple(index for index, chain in enumerate(chains) if _fits(chain, levels, wanted))


def _wanted(level: Level, hands: tuple[str, ...]) -> tuple[dict[Axis, bool], int | None]:
    """Which side of each mirrored direction, and which place in the row.  Raises HandFault."""
    found = level.spread.hands(hands)
    place = _place(found[None], level.count, level.spread) if None in found else None
    return {axis: LOW_HIGH[axis][1] == hand for axis, hand in found.items() if axis is not None}, place


def _fits(chain: Sequence[One], levels: Sequence[Level], wanted: Sequence[tuple[dict[Axis, bool], int | None]]) -> bool:
    mirrored: frozenset[Axis] = frozenset()
    for one, level, (sides, place) in zip(chain, levels, wanted, strict=True):
        seen = as_seen(one, level.spread, level.count, mirrored)
        if place not in (None, seen.place) or any((axis in seen.mirrored) is not high for axis, high in sides.items()):
            return False
        mirrored = mirrored ^ one.mirrored
    return True


def _called(level: Level, one: One) -> str:
    spread, row = level.spread, level.row
    words = [LOW_HIGH[axis][axis in one.mirrored] for axis in SPOKEN if axis in spread.mirrors]
    hands = row.hands if row else ()
    return " ".join(words + ([hands[one.place] if hands else ordinal(one.place, level.count)] if spread.row_axis else []))


def _motion(spread: Spread, one: One, row: Row | None, middles: Mapping[Axis, Fraction]) -> Motion:
    shift = [float(2 * middles[axis]) if axis in one.mirrored else 0.0 for axis in Axis]
    if row and spread.row_axis:
        shift[spread.row_axis.value] += float(row.shifts[one.place])
    x, y, z = (-1 if axis in one.mirrored else 1 for axis in Axis)
    return Motion((x, y, z), (shift[0], shift[1], shift[2]))
