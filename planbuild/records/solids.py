"""One solid for each part: the only record that holds CAD objects."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planbuild.core.geometry import Box, Vec

if TYPE_CHECKING:
    import cadquery as cq

Key = tuple[str, int]
"""One standing copy of a part: (part id, index of the copy)."""


@dataclass(frozen=True)
class PartSolid:
    """The drawn copy of a part.

    `joined` is the part with its joints cut while it is still square, before any shaping; `cut` the
    part as it leaves the bench (kerfs straight); `fitted` the same part in the finished piece (a wedged
    tenon spread in its mortise).  They are the very same object where nothing differs.
    Units: mm, mm3.
    """

    part: str
    joined: cq.Shape
    cut: cq.Shape
    fitted: cq.Shape
    volume: float
    centre: Vec
    box: Box


@dataclass(frozen=True)
class Solids:
    """`of` gives the drawn copy of each part, `placed` every copy where it stands in the piece."""

    of: Mapping[str, PartSolid]
    placed: Mapping[Key, cq.Shape]

    def keys(self) -> Iterator[Key]:
        return iter(self.placed)
