"""Slanted pockets for screws: a wide bore that ends in a step, and a narrow one that goes on through the end."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planbuild.core.geometry import TINY, Vec
from planbuild.core.poses import along
from planbuild.records.pockets import Pocket
from planbuild.shape import kernel
from planbuild.shape.kernel import OVERSHOOT, Fault, Shape
from planbuild.shape.workpiece import Cut, Workpiece


def cut_pocket(pocket: Pocket, work: Workpiece) -> Iterator[Cut]:
    """Both bores take as much as straight ones as long as their middle line (a slanted cut through a cylinder)."""
    steep = math.radians(pocket.angle)
    if pocket.bore < pocket.width / 2 / math.tan(steep) - TINY:
        raise Fault("The step of the pocket is not wholly in the wood.", "use a longer pocket or a thicker part")
    past = OVERSHOOT + pocket.width / math.tan(steep)
    wide = math.pi / 4 * pocket.width**2 * pocket.bore
    yield Cut([_bored(pocket, pocket.mouth, past, pocket.width, pocket.bore + past)], wide, [pocket.room])
    long = pocket.shoulder + OVERSHOOT + pocket.diameter
    narrow = math.pi / 4 * pocket.diameter**2 * pocket.shoulder
    yield Cut([_bored(pocket, pocket.floor, OVERSHOOT / 2, pocket.diameter, long + OVERSHOOT / 2)], narrow, [pocket.room])


def _bored(pocket: Pocket, start: Vec, back: float, width: float, long: float) -> Shape:
    """A cylinder along the bit that begins a little before a point of its middle line."""
    x, y, z = along(start, pocket.way, -back)
    return kernel.cylinder((x, y, z), pocket.way, width / 2, long)
