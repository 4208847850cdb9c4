"""What the author says of a wood that no table knows, each value still text with its place."""

from __future__ import annotations

from planbuild.records.said import Model, Said


class CutsSaid(Model):
    """A number for each way a board is sawn."""

    flat: Said
    quarter: Said | None = None


class SpeciesSaid(Model):
    """`density` is that at 12 % moisture; `shrinks` from green to dry; `moves` is the change of size per point of moisture.

    `source` is where the numbers are from; it is printed.
    """

    density: Said
    source: Said
    kind: Said | None = None
    stiffness: Said | None = None
    strength: Said | None = None
    hardness: Said | None = None
    shrinks: CutsSaid | None = None
    moves: CutsSaid | None = None
