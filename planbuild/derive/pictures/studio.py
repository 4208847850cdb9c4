"""Where pictures are taken: the piece and its solids, the usual cameras, and a check of every view."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import cast

from planbuild.core.diagnostics import Collector
from planbuild.core.geometry import Axis, Box, Vec
from planbuild.derive.pictures.explosion import Link, links, standing
from planbuild.derive.views import project_checked
from planbuild.derive.views.view import Body, Camera, View, pictorial
from planbuild.records.edition import Edition
from planbuild.records.findings import Proof
from planbuild.records.hardware import Bought, key_of
from planbuild.records.piece import Part, Piece
from planbuild.records.solids import Key, Solids

TURN, TILT = -30.0, 24.0
"""The one viewpoint of all pictures: from the left front, a little above (a stable viewpoint: Heiser et al. 2004)."""
USUAL = pictorial(TURN, TILT)
OTHERS = tuple(pictorial(turn, tilt) for tilt in (TILT, -20.0) for turn in (30.0, -150.0, 150.0))
"""Cameras to fall back on, in this order, where the usual one does not show what matters."""
_NUDGES = ((0.0, 0.0), (0.9, 0.4), (-0.7, 0.8))

NOWHERE: Vec = (0.0, 0.0, 0.0)


@dataclass(frozen=True)
class Studio:
    """All that pictures are made from; faults of views are added to `report`, what is measured in pictures to `proofs`."""

    piece: Piece
    solids: Solids
    edition: Edition
    report: Collector
    proofs: list[Proof] = field(default_factory=list)

    @cached_property
    def boxes(self) -> Mapping[Key, Box]:
        """The box of every standing copy, tenons included."""
        return standing(self.piece)

    @cached_property
    def links(self) -> Sequence[Link]:
        """Everything that goes home along an axis."""
        return links(self.piece)

    def bodies(self, keys: Iterable[Key]) -> list[Body]:
        """The standing copies as they are in the finished piece, and hardware in its place."""
        return [Body(key, self.solids.bought[key] if key in self.solids.bought else self.solids.placed[key]) for key in keys]

    @cached_property
    def bought(self) -> Mapping[Key, Bought]:
        """Every thing bought that has a solid."""
        return {key_of(placed, i): each for placed in self.piece.hardware for i, each in enumerate(placed.bought)}

    def on_the_way(self, part: Part) -> object:
        """The solid of a part as far as it is made (a `cadquery.Shape`); each is cut once."""
        if part == self.piece.part(part.id):
            return self.solids.of[part.id].cut
        if part not in self._cut_once:
            self._cut_once[part] = self.solids.unfinished(part)
        return self._cut_once[part]

    @cached_property
    def _cut_once(self) -> dict[Part, object]:
        return {}

    def see(self, name: str, bodies: Sequence[Body], camera: Camera, hidden: bool = False) -> View:
        """The view called `name`; if it cannot be trusted and is pictorial, from a hair beside.  Reports `view-suspect`."""
        straight = max(abs(c) for c in camera.toward) > 1 - 1e-6
        tries = [camera] if straight else [nudged(camera, *by) for by in _NUDGES]
        for each in tries:
            view, faults = project_checked(bodies, each, name, hidden)
            if not faults:
                return view
        for fault in faults:
            self.report.add(fault)
        return view

    def part(self, key: Key) -> Part:
        return self.piece.part(key[0])

    def grain(self, key: Key) -> Axis:
        """The way the grain of a standing copy runs."""
        part = self.part(key)
        return part.copies[key[1]].motion.axis(part.grain)


def moved_bodies(bodies: Iterable[Body], moved: Mapping[Key, Vec]) -> list[Body]:
    """Bodies shifted by their entries in `moved`."""
    import cadquery as cq

    found = []
    for body in bodies:
        by, shape = moved.get(body.key, NOWHERE), cast("cq.Shape", body.shape)
        found.append(body if by == NOWHERE else Body(body.key, shape.moved(cq.Location(cq.Vector(*by)))))
    return found


def turned_over(camera: Camera) -> Camera:
    """The camera that sees the piece upside down, as if it had been turned over about its left-right axis."""
    return Camera(_over(camera.right), _over(camera.up))


def _over(way: Vec) -> Vec:
    return way[0], -way[1], -way[2]


def nudged(camera: Camera, turn: float, tilt: float) -> Camera:
    """The camera a little further round and higher, in degrees."""
    if not turn and not tilt:
        return camera
    if camera.up[2] < 0:
        return turned_over(nudged(turned_over(camera), turn, tilt))
    x, y, z = camera.toward
    was_turn, was_tilt = math.degrees(math.atan2(x, -y)), math.degrees(math.asin(z))
    return pictorial(was_turn + turn, was_tilt + tilt)


def keys_of(piece: Piece) -> list[Key]:
    """Every standing copy, in the order of the parts."""
    return [(part.id, i) for part in piece.parts for i in range(len(part.copies))]
