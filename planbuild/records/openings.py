"""Openings of a piece, and the blocks in them, as they stand.  Boxes are those of the drawn copy, mm."""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import Box, Face, Motion
from planbuild.core.poses import Pose
from planbuild.records.photos import Photo


@dataclass(frozen=True)
class Moves:
    """How a block moves in use.  `goes_in` is the side from which it is put in; `trapped`: it is built in while its
    opening is closed.  It `opens` toward a side by a length (mm), or `swings` toward it about an edge by an angle (degrees)."""

    goes_in: Face | None = None
    trapped: bool = False
    opens: Face | None = None
    swings: Face | None = None
    about: Face | None = None
    by: float = 0.0


@dataclass(frozen=True)
class Opening:
    """A clear space; `motions` say where its copies stand, the drawn one first."""

    id: str
    name: str
    origin: Span
    box: Box
    motions: tuple[Motion, ...]
    photo: Photo | None = None


@dataclass(frozen=True)
class Block:
    """A block in its place: what it is called, its frame, the parts it holds (also those of blocks in it)."""

    id: str
    name: str
    kind: str
    origin: Span
    box: Box
    hands: tuple[str, ...]
    motions: tuple[Motion, ...]
    parts: tuple[str, ...]
    moves: Moves | None = None
    note: str = ""
    why: str = ""
    photo: Photo | None = None
    turned: tuple[Pose, ...] = ()
    """How each copy is turned once it is placed straight; () for a block that stands square."""
