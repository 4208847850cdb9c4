"""How wide a line of lettering is: advance widths of the packaged typeface, so that text can be placed before it is set.

Source of the face: the font package `font-source-sans-pro` (Source Sans Pro, SIL Open Font License).
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from planbuild.core.units import FRACTION_BAR, THIN_SPACE

FRACTION = re.compile(f"[⁰¹²³⁴⁵⁶⁷⁸⁹]+{FRACTION_BAR}[₀₁₂₃₄₅₆₇₈₉]+")
"""A fraction as set type, see `core.units.set_fraction`."""
FRACTION_SIZE, FRACTION_DROP, FRACTION_AIR = 1.2, 0.05, 0.07
"""Fractions are set larger by the first, so that their figures are 1.8 mm high where capitals are 2.5 mm (the least
height in ISO 3098-1), and lower by the second (share of an em), so that they stand on the middle of the line; the
bar gets the third (share of an em) on both sides, so that large figures stay clear of it."""

_SPACES = {THIN_SPACE: 0.2}
"""Spaces that are set otherwise than the face has them, as a share of an em (a fifth: the usual thin space)."""

_SET_OTHERWISE = frozenset("\n\u2300")
"""Signs that are printed though the face has none: the end of a line, and ⌀, which is set as Ø."""


@dataclass(frozen=True)
class Typeface:
    """Measures of one weight as shares of an em: capital height, descent below the base line, advances."""

    capital: float
    descent: float
    advances: Mapping[str, float]


@cache
def face(bold: bool = False) -> Typeface:
    """The regular or the semibold weight."""
    import font_source_sans_pro as package
    from fontTools.ttLib import TTFont

    font = TTFont(package.SourceSansProSemibold if bold else package.SourceSansPro, lazy=True)
    em = font["head"].unitsPerEm
    widths = font["hmtx"].metrics
    advances = {chr(code): widths[name][0] / em for code, name in font.getBestCmap().items()}
    return Typeface(font["OS/2"].sCapHeight / em, -font["hhea"].descent / em, {**advances, **_SPACES})


def composed(text: str) -> str:
    """With a letter and its accent as one sign (Unicode's form NFC), since the face draws them as one."""
    return unicodedata.normalize("NFC", text)


def without_letter(text: str) -> str:
    """The first sign of a text that the face cannot print, "" if it can print them all."""
    if text.isascii():
        return ""
    known = face().advances
    return next((sign for sign in text if sign not in known and sign not in _SET_OTHERWISE), "")


@cache
def text_width(text: str, height: float, bold: bool = False) -> float:
    """Width of a line of text whose capitals are `height` high.  Units: both the same.  Unknown signs count as an em."""
    of = face(bold)
    fractions = FRACTION.findall(text)
    larger = sum(_advance(of, found) for found in fractions) * (FRACTION_SIZE - 1) + 2 * FRACTION_AIR * len(fractions)
    return (_advance(of, text) + larger) * em_for(height, bold)


def _advance(of: Typeface, text: str) -> float:
    return sum(of.advances.get(sign, 1.0) for sign in text)


def em_for(height: float, bold: bool = False) -> float:
    """The type size (em) that gives capitals of `height`."""
    return height / face(bold).capital
