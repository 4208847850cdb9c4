"""Scales of whole pieces: those of the part sheets, and on inch paper those that lie between them."""

from __future__ import annotations

from fractions import Fraction

from planbuild.core.units import Unit
from planbuild.derive.paint import ViewBox
from planbuild.derive.sheets.scales import series

_BETWEEN = (Fraction(1, 10), Fraction(1, 12), Fraction(1, 20), Fraction(1, 24))
"""Tenths and twentieths (ISO 5455, and an engineer's scale), an inch and half an inch to the foot (an architect's
scale; common practice)."""


def piece_scales(unit: Unit) -> tuple[Fraction, ...]:
    """The scales for views of a whole piece, the largest first."""
    return tuple(sorted({*series(unit), *(_BETWEEN if unit is Unit.INCH else ())}, reverse=True))


def largest_scale(box: ViewBox, width: float, height: float, unit: Unit) -> Fraction:
    """The largest at which a view fits; the smallest of all if none does.  Units: model mm in `box`, paper mm else."""
    scales = piece_scales(unit)
    across, along = box[2] - box[0], box[3] - box[1]
    return next((s for s in scales if across * s <= width and along * s <= height), scales[-1])
