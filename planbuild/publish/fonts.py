"""The type that every page and drawing is set in: four packaged faces, with true fractions.

Source: font package `font-source-sans-pro` (SIL Open Font License 1.1).  Raised and lowered figures are
given the shapes that the face keeps for fractions: same size and width, but standing on the base line
and under the cap line.  Only what signs point to is changed, and only for embedding under a name of our own.
"""

from __future__ import annotations

import io
from dataclasses import dataclass

from planbuild.core.units import THIN_SPACE

FAMILY = "Plan Sans"

_FIGURES = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_RAISED = dict(zip("⁰¹²³⁴⁵⁶⁷⁸⁹", (f"{name}.numr" for name in _FIGURES), strict=True))
_LOWERED = dict(zip("₀₁₂₃₄₅₆₇₈₉", (f"{name}.dnom" for name in _FIGURES), strict=True))
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
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap.update({ord(sign): glyph for sign, glyph in _SIGNS.items() if glyph in glyphs})
    file = io.BytesIO()
    font.save(file, reorderTables=False)
    return file.getvalue()
