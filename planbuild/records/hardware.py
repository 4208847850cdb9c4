"""Things bought: what they are, where they are put, and the simple solid that stands for each.

A thing bought is drawn as a few blocks and round bars, never as its maker draws it: large enough to show that it
has room, and where it goes.  Units: mm; boxes lie where the thing stands in the piece.
"""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import Axis, Box, Face, Vec, hull
from planbuild.core.poses import Pose
from planbuild.records.photos import Photo

SLIDE, CASTOR = "slide", "castor"
BOLT, CAM = "bolt and barrel nut", "cam and pin"
"""The two kinds of knock-down fittings, by the trade's words."""

Figure = float | str | tuple[float, ...]
"""A field of an item: a length, a text as it was written, or the lengths of `2 x 3/4`."""


@dataclass(frozen=True)
class Item:
    """Something bought: its kind and fields as printed (`gauge`, `length`, `head`, ...), sizes in mm."""

    id: str
    origin: Span
    kind: str
    name: str
    fields: tuple[tuple[str, Figure], ...]
    why: str = ""
    note: str = ""
    photo: Photo | None = None


@dataclass(frozen=True)
class Lump:
    """A block, or the round bar along `round` that fills it."""

    box: Box
    round: Axis | None = None


@dataclass(frozen=True)
class Bought:
    """One thing as it stands: `on` are the standing copies of parts that hold it, the one that carries it first."""

    on: tuple[tuple[str, int], ...]
    lumps: tuple[Lump, ...]
    turned: Pose | None = None
    """How it is turned with the block that holds it; its lumps lie as the block is placed straight."""

    @property
    def box(self) -> Box:
        """The box around it; a thing without a solid has none and is never asked."""
        straight = hull([each.box for each in self.lumps])
        return self.turned.around(straight) if self.turned else straight


@dataclass(frozen=True)
class Placed:
    """An item put on a part by `hardware:`; `count` over all copies, `at` the middle of each where it stands."""

    id: str
    origin: Span
    item: str
    on: str
    face: Face
    at: tuple[Vec, ...]
    count: int
    bought: tuple[Bought, ...] = ()
    """Those whose size is known, each with its solid."""
    screws: tuple[tuple[str, int], ...] = ()
    """(item id, count): what fixes it."""
    meets: str = ""
    """The part that holds its other half, or that it carries: the cabinet side of a hinge, the shelf on its pins."""
    brings: str = ""
    """The part that it puts in its place: the door that it hangs, the shelf that it carries."""
    way: Vec = (0.0, 0.0, 0.0)
    """The way in which that part goes home, its drawn copy."""
    cuts: tuple[tuple[str, str], ...] = ()
    """(part id, feature id): what is cut for it."""
    note: str = ""
    why: str = ""
    photo: Photo | None = None

    @property
    def takes(self) -> tuple[tuple[str, int], ...]:
        """(item id, count): the thing itself and what fixes it."""
        return ((self.item, self.count), *self.screws)


def key_of(placed: Placed, index: int) -> tuple[str, int]:
    """The key of a thing bought among the solids; no part has a name with a space."""
    return f"hardware {placed.id}", index
