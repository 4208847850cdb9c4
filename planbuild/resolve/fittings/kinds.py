"""The kinds of hardware by the trade's words: the fields that each must say, and which fields are lengths or sizes."""

from __future__ import annotations

from collections.abc import Callable

from planbuild.records.hardware import BOLT, CAM, CASTOR, SLIDE, Item
from planbuild.resolve.fittings import set_on
from planbuild.resolve.fittings.base import Put, Seat

LENGTHS = (
    *("length", "thickness", "knuckle", "diameter", "hole_depth", "projection", "centres", "bolt", "recess", "height"),
    *("cup", "cup_depth", "cup_from_edge", "plate_back"),
    *("slot", "drop", "reach", "pin", "key", "backset"),
)
"""Fields that are one length."""

SIZES = {"leaf": 2, "spigot": 2, "size": 3, "strike": 3, "barrel": 2, "head_size": 2, "cam": 2, "thread": 2, "stem": 2}
"""Fields of several lengths, `2 x 3/4`, and how many each has; all other fields are printed as they are written."""

WANTED: dict[str, tuple[str, ...]] = {
    "wood screw": ("gauge or diameter", "length"),
    "butt hinge": ("leaf", "thickness", "knuckle"),
    "cup hinge": (),
    SLIDE: ("length", "height", "thickness"),
    "shelf pin": ("diameter",),
    "turned knob": ("diameter", "projection"),
    "pull": ("size",),
    "catch": ("size",),
    "stop": ("size",),
    "tip restraint": (),
    "lock": ("size",),
    "glass": ("size",),
    CASTOR: ("size",),
    "figure-eight plate": ("diameter", "centres", "thickness"),
    "table clip": ("thickness", "slot", "drop", "reach"),
    BOLT: ("diameter", "length", "barrel"),
    CAM: (),
    "knock-down fitting": (),
    "other": (),
}
"""Every kind, with the fields without which it cannot be bought or drawn; of `one or other` either will do."""

LEAVES = ("butt hinge", "cup hinge", SLIDE)
"""Kinds that are put between two leaves."""

ON_A_FACE: dict[str, Callable[[Item, Seat], Put]] = {
    "turned knob": set_on.turned_knob,
    "pull": set_on.pull,
    "lock": set_on.lock,
    CASTOR: set_on.castor,
}


def put_on(item: Item, seat: Seat) -> Put:
    """The thing on a face; what has no form of its own is a block of its size."""
    return ON_A_FACE.get(item.kind, set_on.block)(item, seat)
