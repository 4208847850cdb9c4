"""One solid for each part: the only record that holds CAD objects."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from planbuild.core.geometry import Box, Vec
from planbuild.records.piece import Part

if TYPE_CHECKING:
    import cadquery as cq

Key = tuple[str, int]
"""One standing copy of a part: (part id, index of the copy)."""


@dataclass(frozen=True)
class PartSolid:
    """The drawn copy of a part.

    `cut` is the part as it leaves the bench (kerfs straight), `fitted` the same part in the finished piece
    (a wedged tenon spread in its mortise).  They are the very same object where nothing differs.
    Units: mm, mm3.
    """

    part: str
    cut: cq.Shape
    fitted: cq.Shape
    volume: float
    centre: Vec
    box: Box


@dataclass(frozen=True)
class Solids:
    """`of` gives the drawn copy of each part, `placed` every copy where it stands in the piece.

    `unfinished` cuts a part on its way: one that has only the features that are cut so far, and the body of
    its blank.  Only the order of work knows which of these are wanted, so they are cut when asked for.
    """

    of: Mapping[str, PartSolid]
    placed: Mapping[Key, cq.Shape]
    unfinished: Callable[[Part], cq.Shape]
    bought: Mapping[Key, cq.Shape] = field(default_factory=dict)
    """Hardware where it stands, by `records.hardware.key_of`: simple solids, never a part of the piece."""
    straight: Solids | None = None
    """The same with every turned block straight (see `Piece.straight`)."""

    @property
    def as_cut(self) -> Solids:
        """Every block straight."""
        return self.straight or self

    def keys(self) -> Iterator[Key]:
        return iter(self.placed)
