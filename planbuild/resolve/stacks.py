"""Openings one beside the other with rails between them: as large as they come out, all alike."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from planbuild.core.geometry import Axis
from planbuild.records.design import RepeatSaid
from planbuild.resolve.between import ends_between
from planbuild.resolve.copies import row_direction, row_refused
from planbuild.resolve.ledger import Row
from planbuild.resolve.places import Places
from planbuild.resolve.sayings import figure


@dataclass(frozen=True)
class Stack:
    """`count` openings of `size` from `low` on, a rail of `rail` between each two; mm."""

    low: Fraction
    size: Fraction
    rail: Fraction
    count: int

    @property
    def row(self) -> Row:
        return Row(self.low, tuple((self.size + self.rail) * place for place in range(self.count)), self.rail)


def stack(id: str, said: RepeatSaid, places: Places) -> Stack:
    """What the rails leave free, in equal openings.  Reports `place-row`; raises Poisoned."""
    others = [name for name in ("gap", "most_gap", "near_gap", "ends") if getattr(said, name) is not None]
    if said.count is None or said.rails is None or not said.between or said.at or others:
        told = "stands between rails: only `count`, `along` and `between` go with them"
        raise row_refused(id, said, told, "`repeat: {count: 3, along: bottom-top, between: [...], rails: rail}`", places)
    axis, count = row_direction(id, said, places), places.count(said.count, least=2)
    space, rail = ends_between(said.between, axis, places), _rail(said, axis, places)
    size = (space.high - space.low - (count - 1) * rail) / count
    if size <= 0:
        room = figure(space.high - space.low, places.unit)
        message = f'{count - 1} rails of {figure(rail, places.unit)} leave no opening in {room}.'
        raise places.refuse("place-row", said.count, message, hints=("Take fewer openings.",))
    return Stack(space.low, size, rail, count)


def _rail(said: RepeatSaid, axis: Axis, places: Places) -> Fraction:
    """How much of the space one rail takes; never asked where it stands, since that may hang on the openings."""
    assert said.rails is not None
    path = places.named(said.rails)
    if path is None:
        message = f'"{said.rails.text}" is no part that could stand between openings.'
        raise places.refuse("place-row", said.rails, message, "the name of the rails")
    return places.extent(path, axis, said.rails)
