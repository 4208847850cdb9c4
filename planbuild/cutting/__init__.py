"""Cutting layouts: pieces out of sheets, boards and sticks, for the least cost; it knows nothing of furniture.

The model: rectangles are cut from stock rectangles by cuts from edge to edge, each as wide as the saw's kerf. The aim
is the least sum of costs of the stock that is used. `lay_out` answers, `check` looks the answer over on its own.
"""

from planbuild.cutting.check import complaints
from planbuild.cutting.lay_out import lay_out
from planbuild.cutting.model import (
    QUICK,
    USUAL,
    Cut,
    Effort,
    Flaw,
    Item,
    Layout,
    Offcut,
    Placed,
    Problem,
    Sheet,
    Stock,
    Verdict,
    Way,
)

__all__ = [
    "QUICK",
    "USUAL",
    "Cut",
    "Effort",
    "Flaw",
    "Item",
    "Layout",
    "Offcut",
    "Placed",
    "Problem",
    "Sheet",
    "Stock",
    "Verdict",
    "Way",
    "complaints",
    "lay_out",
]
