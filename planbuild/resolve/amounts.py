"""A figure with a unit that is no length: loads, times, shares of moisture, coverage."""

from __future__ import annotations

import re
from collections.abc import Mapping

from planbuild.records.design import Said
from planbuild.resolve.sayings import Sayings

_AMOUNT = re.compile(r"(\d+(?:\.\d+)?)\s+(\S.*)|(\d+(?:\.\d+)?)(%)")

_STUCK = re.compile(r"(\d+(?:\.\d+)?)([A-Za-z]\S*)")

LARGEST = 100_000.0
"""Of whatever unit: more is a slip (a choice of ours)."""

NEWTONS = {"lb": 4.4482216152605, "kg": 9.80665, "N": 1.0}
"""Weight of a pound and a kilogram at standard gravity (exact: pound 0.45359237 kg, gravity 9.80665 m/s2, CGPM 1901)."""

MM = {"ft": 304.8, "in": 25.4, "m": 1000.0}
MINUTES = {"min": 1.0, "h": 60.0}
TIMES = ("min", "h", "hours", "day", "days", "week", "weeks")
PER_CENT = {"%": 1.0}
COVERAGE = {"m2/l": 1.0}


def amount(said: Said, units: Mapping[str, float], what: str, sayings: Sayings) -> float:
    """The figure times what its unit stands for.  Reports `amount-unit`; raises Poisoned."""
    figure, unit = amount_said(said, tuple(units), what, sayings)
    return figure * units[unit]


def amount_said(said: Said, units: tuple[str, ...], what: str, sayings: Sayings) -> tuple[float, str]:
    """The figure and its unit.  Reports `amount-unit`, `amount-size`; raises Poisoned."""
    match = _AMOUNT.fullmatch(said.text.strip())
    if match and (match[2] or match[4]) in units:
        figure = float(match[1] or match[3])
        if 0 < figure <= LARGEST:
            return figure, match[2] or match[4]
        raise sayings.refuse("amount-size", said, f"`{said.text}` is no {what}.", f"a figure above 0, at most {LARGEST:g}")
    stuck = _STUCK.fullmatch(said.text.strip())
    hints = (f"Write `{stuck[1]} {stuck[2]}`.",) if stuck and stuck[2] in units else ()
    expected = f"a figure and a unit: {', '.join(f'`8 {unit}`' for unit in units)}"
    raise sayings.refuse("amount-unit", said, f"`{said.text}` is no {what}.", expected, hints)
