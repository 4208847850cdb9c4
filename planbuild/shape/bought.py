"""The simple solids of things bought, each where it stands."""

from __future__ import annotations

from collections.abc import Sequence

import cadquery as cq

from planbuild.core.poses import Pose
from planbuild.records.hardware import Lump, key_of
from planbuild.records.piece import Piece
from planbuild.records.solids import Key
from planbuild.shape import kernel
from planbuild.shape.placing import placed as placed_solid


def bought(piece: Piece) -> dict[Key, cq.Shape]:
    """Every thing whose size is known, by its key."""
    return {
        key_of(placed, index): _turned(_solid(each.lumps), each.turned)
        for placed in piece.hardware
        for index, each in enumerate(placed.bought)
    }


def _turned(solid: cq.Shape, pose: Pose | None) -> cq.Shape:
    return cq.Shape.cast(placed_solid(solid.wrapped, pose)) if pose else solid


def _solid(lumps: Sequence[Lump]) -> cq.Shape:
    """Its blocks and bars in one; a catch and the plate it closes on are two solids in one shape."""
    first, *others = (_lump(each) for each in lumps)
    return cq.Shape.cast(kernel.fuse(first, others).Shape() if others else first)


def _lump(lump: Lump) -> kernel.Shape:
    if lump.round is None:
        return kernel.block(lump.box)
    axis = lump.round
    first, second = axis.others
    base = kernel.lift(axis, lump.box.along(axis).low, (lump.box.along(first).middle, lump.box.along(second).middle))
    return kernel.cylinder(base, axis.high.normal, lump.box.size(first) / 2, lump.box.size(axis))
