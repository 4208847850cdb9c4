"""The type that every page and drawing is set in: four packaged faces, with true fractions.

Source: font package `font-source-sans-pro` (SIL Open Font License 1.1).  Raised and lowered figures are
given the shapes that the face keeps for fractions, standing on the base line and under the cap line, set
larger so that they can be read at the bench.  The face is changed only for embedding, under a name of our own.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import Any

from planbuild.core.lettering import FRACTION_AIR, FRACTION_DROP, FRACTION_SIZE
from planbuild.core.units import THIN_SPACE

FAMILY = "Plan Sans"

_FIGURES = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_RAISED = dict(zip("⁰¹²³⁴⁵⁶⁷⁸⁹", (f"{name}.numr" for name in _FIGURES), strict=True))
_LOWERED = dict(zip("₀₁₂₃₄₅₆₇₈₉", (f"{name}.dnom" for name in _FIGURES), strict=True))
_FRACTION_GLYPHS = {*_RAISED.values(), *_LOWERED.values(), "fraction"}
_SIGNS = {**_RAISED, **_LOWERED, THIN_SPACE: "space", "\u2300": "Oslash"}
"""Sign to glyph.  The face's word space is a fifth of an em, the usual thin space; ⌀ is set as Ø."""


@dataclass(frozen=True)
class FontFile:
    """A face by its name in the package, and how a style sheet asks for it."""

    name: str
    weight: int
    style: str

    @property
    def url(self) -> str:
        return f"plan:font/{self.name}.ttf"

    @property
    def rule(self) -> str:
        style = f"font-weight: {self.weight}; font-style: {self.style}"
        return f'@font-face {{ font-family: "{FAMILY}"; {style}; src: url({self.url}) }}'


FACES = (
    FontFile("SourceSansPro-Regular", 400, "normal"),
    FontFile("SourceSansPro-It", 400, "italic"),
    FontFile("SourceSansPro-Semibold", 600, "normal"),
    FontFile("SourceSansPro-SemiboldIt", 600, "italic"),
)


def font_bytes(face: FontFile) -> bytes:
    """The face with its fraction figures, ready to be embedded.  Stable bytes."""
    import font_source_sans_pro as package
    from fontTools.ttLib import TTFont

    font = TTFont(f"{package.font_directory}/{face.name}.ttf", lazy=True, recalcBBoxes=False, recalcTimestamp=False)
    glyphs = set(font.getGlyphOrder())
    for name, outline in {name: _outline_of(font, name) for name in _built_of_figures(font)}.items():
        _outline(font, name, *outline)  # first, since raised figures, `%` and others borrow the outlines of lowered ones
    for name in sorted(glyphs & _FRACTION_GLYPHS):
        _enlarge(font, name)
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap.update({ord(sign): glyph for sign, glyph in _SIGNS.items() if glyph in glyphs})
    file = io.BytesIO()
    font.save(file, reorderTables=False)
    return file.getvalue()


def _enlarge(font: Any, name: str) -> None:
    """Sets a figure of fractions larger and lower, as `core.lettering` measures it; the bar with air on both sides."""
    table, metrics, em = font["glyf"], font["hmtx"], font["head"].unitsPerEm
    air = round(FRACTION_AIR * em) if name == "fraction" else 0
    coordinates, ends, flags = _outline_of(font, name)
    coordinates.scale((FRACTION_SIZE, FRACTION_SIZE))
    coordinates.translate((air, -FRACTION_DROP * em))
    coordinates.toInt()
    _outline(font, name, coordinates, ends, flags)
    metrics[name] = (round(metrics[name][0] * FRACTION_SIZE) + 2 * air, table[name].xMin)


def _built_of_figures(font: Any) -> list[str]:
    """Signs that borrow the outlines of fraction figures: each is to be as large as it is, or enlarged once."""
    table = font["glyf"]
    composed = [name for name in table if table[name].isComposite()]
    return [name for name in composed if any(part.glyphName in _FRACTION_GLYPHS for part in table[name].components)]


def _outline_of(font: Any, name: str) -> Any:
    """Coordinates, ends of contours and flags of a sign, whatever it is composed of."""
    return font["glyf"][name].getCoordinates(font["glyf"])


def _outline(font: Any, name: str, coordinates: Any, ends: Any, flags: Any) -> None:
    """Gives a sign an outline of its own.  Hints no longer fit and are left out."""
    from fontTools.ttLib.tables._g_l_y_f import Glyph
    from fontTools.ttLib.tables.ttProgram import Program

    table = font["glyf"]
    own = Glyph()
    own.numberOfContours, own.coordinates, own.endPtsOfContours, own.flags = len(ends), coordinates, ends, flags
    own.program = Program()
    own.program.fromBytecode(b"")
    own.recalcBounds(table)
    table[name] = own
