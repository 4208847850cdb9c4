"""How far a beam bends that lies on two supports, free to turn there: the textbook formulas.

The ends of a shelf in a housing are a little stiffer than that, so it is the safe side.  Units: mm, N, MPa;
`stiffness` is E I, N mm2, the sum where beams lie side by side.
"""

from __future__ import annotations


def inertia(width: float, height: float) -> float:
    """Second moment of area of a rectangle bent across its height, mm4."""
    return width * height**3 / 12


def sag_even(load: float, span: float, stiffness: float) -> float:
    """In the middle, under a load (N in all) spread evenly over the span: 5 W L3 / (384 E I)."""
    return 5 * load * span**3 / (384 * stiffness)


def sag_middle(load: float, span: float, stiffness: float) -> float:
    """In the middle, under a load there: P L3 / (48 E I)."""
    return load * span**3 / (48 * stiffness)
