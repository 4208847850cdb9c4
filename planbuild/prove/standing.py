"""The finished piece as the proofs look at it: every copy where it stands, its box, its flat faces."""

from __future__ import annotations

from functools import cache, cached_property
from typing import TYPE_CHECKING

from planbuild.core.geometry import Box
from planbuild.core.units import Ruler
from planbuild.prove.measuring import FlatFace, box_around, flat_faces
from planbuild.records.piece import Copy, Part, Piece
from planbuild.records.solids import Key, Solids

if TYPE_CHECKING:
    import cadquery as cq


class Standing:
    """A piece and its solids, with what is measured once and used by several proofs.

    `ruler` is that of the pages, for the printable lines of the proofs; faults are told to the designer, in the
    unit of the design.
    """

    def __init__(self, piece: Piece, solids: Solids, ruler: Ruler | None = None) -> None:
        self.piece, self.solids, self.ruler = piece, solids, ruler or piece.ruler
        self.faces = cache(self._faces)

    def part(self, key: Key) -> Part:
        return self.piece.part(key[0])

    def copy(self, key: Key) -> Copy:
        return self.part(key).copies[key[1]]

    def solid(self, key: Key) -> cq.Shape:
        return self.solids.placed[key]

    def name(self, key: Key) -> str:
        """`back right leg`: a copy as it is called."""
        return f"{self.copy(key).hand} {self.part(key).name}".strip()

    @cached_property
    def boxes(self) -> dict[Key, Box]:
        """The tight box around every standing solid."""
        drawn = {part.id: box_around(self.solids.of[part.id].fitted.wrapped) for part in self.piece.parts}
        return {key: self._box(key, drawn[key[0]]) for key in self.solids.placed}

    def _box(self, key: Key, drawn: Box) -> Box:
        """A part that is not square to the piece is measured where it stands: the box around a turned box would be too large."""
        askew = self.part(key).is_askew(key[1])
        return box_around(self.solid(key).wrapped) if askew else self.copy(key).motion.box(drawn)

    def _faces(self, key: Key) -> tuple[FlatFace, ...]:
        return flat_faces(self.solid(key))
