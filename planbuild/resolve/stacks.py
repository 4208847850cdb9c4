"""Openings one beside the other with rails between them: as large as they come out, all alike or by their shares."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from planbuild.core.geometry import Axis
from planbuild.records.design import RepeatSaid, Said
from planbuild.records.spaces import OrdinalRow
from planbuild.resolve.between import ends_between
from planbuild.resolve.copies import row_direction, row_refused
from planbuild.resolve.ledger import Row
from planbuild.resolve.places import Places
from planbuild.resolve.sayings import figure


@dataclass(frozen=True)
class Stack:
    """Openings of `size` in one row, as it is wanted of them; mm."""

    size: Fraction
    row: Row


def stack(id: str, said: RepeatSaid, places: Places) -> Stack:
    """What the rails leave free, in equal openings or by shares.  Reports `place-row`; raises Poisoned."""
    axis = row_direction(id, said, places)
    figures, own = _shares(id, said, places)
    space = ends_between(said.between, axis, places)
    rail = _rail(said.rails, axis, places) if said.rails else Fraction(0)
    left = space.high - space.low - (len(figures) - 1) * rail
    if left <= 0:
        room = figure(space.high - space.low, places.unit)
        message = f"{len(figures) - 1} rails of {figure(rail, places.unit)} leave no opening in {room}."
        raise places.refuse("place-row", said.count or said.shares[0], message, hints=("Take fewer openings.",))
    sizes = [left * each / sum(figures) for each in figures]
    lows = [space.low + place * rail + sum(sizes[:place], Fraction(0)) for place in own]
    hands = said.hands if isinstance(said, OrdinalRow) else ()
    gap = None if hands else rail
    return Stack(sizes[own[0]], Row(lows[0], tuple(each - lows[0] for each in lows), gap, hands))


def _shares(id: str, said: RepeatSaid, places: Places) -> tuple[Sequence[Fraction], Sequence[int]]:
    """The share of each opening of the whole row, and which places are wanted."""
    others = [name for name in ("gap", "most_gap", "near_gap", "ends") if getattr(said, name) is not None]
    if isinstance(said, OrdinalRow):
        if said.between and not (said.at or others or said.count):
            return said.figures, said.places
        told = "is divided by shares: only `along`, `between` and `rails` go with them"
        raise row_refused(id, said, told, "`repeat: {shares: [1, 1, 2], along: bottom-top, between: [...], rails: rail}`", places)
    if said.count is None or said.rails is None or not said.between or said.at or others:
        told = "stands between rails: only `count`, `along` and `between` go with them"
        raise row_refused(id, said, told, "`repeat: {count: 3, along: bottom-top, between: [...], rails: rail}`", places)
    count = places.count(said.count, least=2)
    return [Fraction(1)] * count, range(count)


def _rail(said: Said, axis: Axis, places: Places) -> Fraction:
    """How much of the space one rail takes; never asked where it stands, since that may hang on the openings."""
    path = places.named(said)
    if path is None:
        message = f'"{said.text}" is no part that could stand between openings.'
        raise places.refuse("place-row", said, message, "the name of the rails")
    return places.extent(path, axis, said)
