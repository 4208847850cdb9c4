"""Standard scales: the largest one at which something fits.

Metric series: ISO 5455.  Inch series: the graduations of an architect's scale, from full size by
6, 3, 1 1/2, 1, 3/4, 1/2, 3/8 and 1/4 in to the foot (common practice).
"""

from __future__ import annotations

from planbuild.core.units import Unit

_REDUCED = {
    Unit.MM: (1, 2, 5, 10, 20, 50, 100),
    Unit.INCH: (1, 2, 4, 8, 12, 16, 24, 32, 48, 96),
}

_TWICE = 0.5


def standard_scale(width: float, height: float, room: tuple[float, float], unit: Unit) -> int:
    """N of the largest scale 1:N at which `width` x `height` (model mm) fits into `room` (paper mm)."""
    series = _REDUCED[unit]
    return next((n for n in series if width / n <= room[0] + 1e-9 and height / n <= room[1] + 1e-9), series[-1])


def scales(unit: Unit, enlarged: bool = False) -> tuple[float, ...]:
    """N of every standard scale 1:N, the largest first; `enlarged` for details, which may be drawn 2:1."""
    return ((_TWICE,) if enlarged else ()) + _REDUCED[unit]


def scale_text(n: float) -> str:
    return f"1:{n:g}" if n >= 1 else f"{1 / n:g}:1"
