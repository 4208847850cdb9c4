"""What parts are made of: boards as the yard sells them, sheets as they come from the press, and what is glued up of them.

Units: mm.
"""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.diagnostics import Span
from planbuild.core.woods import Wood


@dataclass(frozen=True)
class GlueUp:
    """A panel of `strips` equal strips of `strip_width`, glued edge to edge, in so many `layers`, glued face to face.

    `rings` are alternate or same; `match` is "" or how neighbours are laid (bookmatched, slip); `splines` the
    thickness of a loose tongue in each edge joint, 0 for none.
    """

    strips: int
    strip_width: float
    rings: str
    match: str = ""
    layers: int = 1
    splines: float = 0.0


@dataclass(frozen=True)
class Sheet:
    """What a sheet is beside its thickness.

    `sold_as` is the thickness by which it is asked for; `size` that of a whole sheet, along the grain of its faces
    first; `measured` is False where its thickness is only what such a sheet usually has.
    """

    sold_as: str
    size: tuple[float, float]
    grain: bool
    core: str
    faces: int
    measured: bool

    def yields(self, length: float, width: float, spare: float = 0.01) -> bool:
        """Whether a part comes out of a whole sheet: along its grain, or either way round if it has none."""
        ways = [(length, width)] if self.grain else [(length, width), (width, length)]
        return any(one <= self.size[0] + spare and other <= self.size[1] + spare for one, other in ways)


@dataclass(frozen=True)
class Price:
    """What one `per` (board foot, m3, sheet) costs, in the money of whoever wrote it."""

    figure: float
    per: str


@dataclass(frozen=True)
class Stock:
    """Wood to buy: `thickness` is the finished one, `rough` the rough one it is planed from.

    `quarters` is the trade's name (`8/4`, `27 mm`), `cut` is flat, rift or quarter; a sheet has neither, is as thick when it
    is bought as it stays, and its `species` is what the sheet is called.
    """

    id: str
    origin: Span
    species: str
    quarters: str
    rough: float
    thickness: float
    cut: str
    why: str = ""
    sheet: Sheet | None = None
    leaves: int = 1
    """Thin boards sawn out of the thickness of one rough board."""
    leaf: float = 0.0
    """How thick such a one is when sawn; 0 where boards are not resawn."""
    lengths: tuple[float, ...] = ()
    """In which the boards are sold, shortest first; empty if nothing is said."""
    widths: tuple[float, float] | None = None
    """The narrowest and the widest board that is sold."""
    price: Price | None = None
    note: str = ""
    own: Wood | None = None
    """The wood as the design describes it, where it is not one of the table."""

    @property
    def sawn(self) -> float:
        """How thick a blank is before it is planed."""
        return self.leaf or self.rough
