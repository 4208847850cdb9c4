"""How findings speak of lengths."""

from __future__ import annotations

from planbuild.core.geometry import Axis, Box
from planbuild.core.units import Ruler, Unit


def told(ruler: Ruler, mm: float) -> str:
    """A length with its unit; in mm where it is too small for the ruler."""
    if ruler.steps(mm) == 0 and round(mm, 3) != 0:
        return f"{mm:.3f} mm"
    return f"{ruler.plain(mm)} {ruler.unit.symbol}"


def size_of_box(ruler: Ruler, box: Box) -> str:
    """`1-1/8 in x 3/8 in x 2 in`: left-right, front-back, bottom-top."""
    return " x ".join(told(ruler, box.size(axis)) for axis in Axis)


def told_area(ruler: Ruler, mm2: float) -> str:
    """An area in square inches or square centimetres."""
    return f"{mm2 / 25.4**2:.2f} sq in" if ruler.unit is Unit.INCH else f"{mm2 / 100:.1f} cm²"
