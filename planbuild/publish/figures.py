"""Figures as type: a fraction that someone typed is set like the fractions that the plan itself prints."""

from __future__ import annotations

import re
from fractions import Fraction

from planbuild.core.units import THIN_SPACE, set_fraction

_TYPED = re.compile(r"(?<![\w/.=-])(?:(\d+)[- ])?(\d+)/(2|4|8|16|32|64)(?![\d/])")
"""`3/4`, `1-1/16`, `1 1/2`, of a rule; dates, addresses and words around a slash are something else."""


_UNIT = re.compile(r"(?<=[0-9₀-₉]) (?=(?:%|(?:in|ft|mm|cm|m|min|h|lb|kg)(?:\b|²)))")


def figures_set(text: str) -> str:
    """The text with fractions set, and every figure on one line with its unit."""
    return _UNIT.sub("\u00a0", fractions_set(text))


def fractions_set(text: str) -> str:
    """The text with typed fractions of an inch as set type; `5/4` is the name of a board and stays."""
    return _TYPED.sub(_set, text) if "/" in text else text


def _set(found: re.Match[str]) -> str:
    whole, above, below = found.groups()
    part = Fraction(int(above), int(below))
    if not 0 < part < 1:
        return found.group(0)
    return f"{whole}{THIN_SPACE}{set_fraction(part)}" if whole else set_fraction(part)
