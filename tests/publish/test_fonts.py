"""The embedded faces: fractions as true fractions, widths as the drawings reckoned with, stable bytes."""

from __future__ import annotations

import io

import font_source_sans_pro
import pytest
from fontTools.ttLib import TTFont

from planbuild.core.lettering import FRACTION_SIZE, em_for, text_width
from planbuild.core.units import THIN_SPACE
from planbuild.publish.fonts import FACES, font_bytes

FONTS = {face.name: TTFont(io.BytesIO(font_bytes(face))) for face in FACES}


def box(font: TTFont, sign: str) -> tuple[float, float]:
    """Lowest and highest point of a sign, as shares of an em."""
    glyph = font["glyf"][font.getBestCmap()[ord(sign)]]
    return glyph.yMin / font["head"].unitsPerEm, glyph.yMax / font["head"].unitsPerEm


@pytest.mark.parametrize("name", FONTS)
def test_numerators_hang_from_the_cap_line_and_denominators_stand_on_the_base_line(name: str) -> None:
    font = FONTS[name]
    capital = font["OS/2"].sCapHeight / font["head"].unitsPerEm
    for raised, lowered in zip("⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉", strict=True):
        assert box(font, raised)[1] == pytest.approx(capital + 0.09, abs=0.05)
        assert box(font, lowered)[0] == pytest.approx(-0.06, abs=0.03)
    assert box(font, "⁄")[0] < 0 < capital < box(font, "⁄")[1]


@pytest.mark.parametrize(("name", "bold"), [("SourceSansPro-Regular", False), ("SourceSansPro-Semibold", True)])
def test_text_is_as_wide_as_the_drawings_reckon(name: str, bold: bool) -> None:
    font, text = FONTS[name], f"38{THIN_SPACE}¹³⁄₁₆ A4"
    advances = [font["hmtx"][font.getBestCmap()[ord(sign)]][0] / font["head"].unitsPerEm for sign in text]
    assert sum(advances) * em_for(2.5, bold) == pytest.approx(text_width(text, 2.5, bold), rel=0.002)


def test_raised_figures_are_as_high_as_lowered_ones_and_no_other_sign_changes() -> None:
    for face, font in zip(FACES, FONTS.values(), strict=True):
        for raised, lowered in zip("⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉", strict=True):
            heights = [high - low for low, high in (box(font, raised), box(font, lowered))]
            assert heights[0] == pytest.approx(heights[1], abs=0.002)
        packaged = TTFont(f"{font_source_sans_pro.font_directory}/{face.name}.ttf")
        assert box(font, "%") == box(packaged, "%") and box(font, "½") == box(packaged, "½")


@pytest.mark.parametrize("name", ["SourceSansPro-Regular", "SourceSansPro-Semibold"])
def test_figures_stay_clear_of_the_fraction_bar(name: str) -> None:
    """The bar leans: at the foot of a numerator and at the head of a denominator it is nearest."""
    font = FONTS[name]
    em, bar = font["head"].unitsPerEm, font["glyf"]["fraction"]
    points = bar.getCoordinates(font["glyf"])[0]
    foot = max(x for x, y in points if y == bar.yMin), min(x for x, y in points if y == bar.yMin)
    head = max(x for x, y in points if y == bar.yMax), min(x for x, y in points if y == bar.yMax)

    def edge(y: float, side: int) -> float:
        share = (y - bar.yMin) / (bar.yMax - bar.yMin)
        return foot[side] + share * (head[side] - foot[side])

    for raised, lowered in zip("⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉", strict=True):
        above, below = (font["glyf"][font.getBestCmap()[ord(sign)]] for sign in (raised, lowered))
        before = edge(above.yMin, 1) + font["hmtx"][font.getBestCmap()[ord(raised)]][0] - above.xMax
        after = font["hmtx"]["fraction"][0] + below.xMin - edge(below.yMax, 0)
        assert min(before, after) > 0.03 * em, (raised, before, after)


def test_figures_of_a_fraction_keep_the_least_height_of_lettering() -> None:
    # ISO 3098-1: 1.8 mm, here where capitals are 2.5 mm high.
    low, high = box(FONTS["SourceSansPro-Regular"], "₁")
    assert (high - low) * em_for(2.5) >= 1.75 and FRACTION_SIZE > 1


def test_bytes_are_stable() -> None:
    assert font_bytes(FACES[0]) == font_bytes(FACES[0])
