"""Lengths as makers print them: reduced fractions of an inch, or tenths of a millimetre.

Model lengths are mm everywhere; only this file turns them into printed text.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

MM_PER_INCH = Fraction(254, 10)
"""Exact by definition: the international yard and pound agreement of 1959."""

THIN_SPACE = "\u202f"
"""Narrow and unbreakable: 1 1/4 is one figure, and no line may end inside it."""
FRACTION_BAR = "\u2044"
_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_LOWERED = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")


class Unit(Enum):
    INCH = "inch"
    MM = "mm"

    @property
    def mm(self) -> Fraction:
        return MM_PER_INCH if self is Unit.INCH else Fraction(1)

    @property
    def symbol(self) -> str:
        return "in" if self is Unit.INCH else "mm"


@dataclass(frozen=True)
class Ruler:
    """The unit and the step to which every printed length is rounded (1/32 in, 0.5 mm)."""

    unit: Unit
    step: Fraction

    def steps(self, mm: float) -> int:
        """The nearest whole number of steps; halves go up (away from zero)."""
        exact = abs(Fraction(mm).limit_denominator(10**9)) / self.unit.mm / self.step
        whole = int(exact + Fraction(1, 2))
        return whole if mm >= 0 else -whole

    def rounded(self, mm: float) -> float:
        """The length that the printed figure states.  Units: mm."""
        return float(self.steps(mm) * self.step * self.unit.mm)

    def printed(self, mm: float, with_unit: bool = False) -> str:
        """The figure as set type: `1 ¹⁄₁₆`, `38 ¾` as raised and lowered figures, or `19.5`."""
        figure = self._inches(mm) if self.unit is Unit.INCH else self._decimal(mm)
        return f"{figure} {self.unit.symbol}" if with_unit else figure

    def plain(self, mm: float) -> str:
        """The figure as it is typed in a design file: `1-1/16`, `38-3/4`, `19.5`."""
        if self.unit is Unit.MM:
            return self._decimal(mm)
        whole, part = divmod(abs(self.steps(mm)) * self.step, 1)
        pieces = ([str(whole)] if whole or not part else []) + ([str(part)] if part else [])
        return ("-" if self.steps(mm) < 0 else "") + "-".join(pieces)

    def _inches(self, mm: float) -> str:
        sign = "−" if self.steps(mm) < 0 else ""
        whole, part = divmod(abs(self.steps(mm)) * self.step, 1)
        if not part:
            return f"{sign}{whole}"
        fraction = set_fraction(part)
        return f"{sign}{whole}{THIN_SPACE}{fraction}" if whole else f"{sign}{fraction}"

    def _decimal(self, mm: float) -> str:
        text = f"{float(self.steps(mm) * self.step):.3f}".rstrip("0").rstrip(".")
        return text if text not in ("", "-0") else "0"


def set_fraction(part: Fraction) -> str:
    """A proper fraction as raised numerator, bar and lowered denominator."""
    return str(part.numerator).translate(_RAISED) + FRACTION_BAR + str(part.denominator).translate(_LOWERED)


def drill_text(size: float, ruler: Ruler) -> str:
    """A drill by the name under which it is sold: sixty-fourths of an inch or half millimetres, whatever the plan
    rounds to.  Units: mm in."""
    step = Fraction(1, 64) if ruler.unit is Unit.INCH else Fraction(1, 2)
    return Ruler(ruler.unit, step).printed(size)


def slope_text(slope: float) -> str:
    """`1:8` for a slope given as rise over run."""
    return f"1:{float(Fraction(1 / slope).limit_denominator(100)):g}"
