"""Which standing copies are in each other's way: measured by the proofs, used to plan the order of work."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from planbuild.core.geometry import Vec
from planbuild.records.solids import Key
from planbuild.together import Blocking, Mesh, Move, moves_out

CLEAR = 0.5
"""Whoever goes less far than this, mm, before it meets another does not move at all."""


@dataclass(frozen=True, eq=False)
class Freedom:
    """`held` speaks of the copies in the order of `keys`, each as it leaves the bench (kerfs straight)."""

    keys: tuple[Key, ...]
    held: Blocking
    bodies: tuple[Mesh, ...]

    @cached_property
    def _place(self) -> dict[Key, int]:
        return {key: place for place, key in enumerate(self.keys)}

    def knows(self, way: Vec) -> bool:
        return way in self.held.ways

    def in_the_way(self, moving: Iterable[Key], rest: Iterable[Key], way: Vec) -> tuple[Key, ...]:
        """Those of the rest that what moves off along a way would meet, however far it goes, the nearest first.

        Copies that stand in each other as they are (a wedge in its straight kerf) are left to what their joints say.
        """
        rows = [self._place[key] for key in moving if key in self._place]
        gaps = self.held.gap(way)
        found = []
        for key in rest:
            place = self._place.get(key)
            met = [gaps[row, place] for row in rows if place is not None and not self.held.shared[row, place]]
            nearest = min(met, default=float("inf"))
            if nearest < float("inf"):
                found.append((nearest, key))
        return tuple(key for _, key in sorted(found))

    def out_in_moves(self, moving: Iterable[Key], rest: Iterable[Key], way: Vec) -> tuple[Move, ...]:
        """Straight moves one after the other that take it out, the first along a way; empty if none are found."""
        moved, stays = ([self.bodies[self._place[key]] for key in keys if key in self._place] for keys in (moving, rest))
        if not moved or not stays:
            return ()
        return moves_out(np.concatenate(moved), stays, self.held.ways, first=way)
