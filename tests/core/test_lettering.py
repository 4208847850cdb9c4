"""Widths of lettering against the face's own tables, read another way."""

from __future__ import annotations

import font_source_sans_pro as package
import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

from planbuild.core.lettering import em_for, text_width
from planbuild.core.units import THIN_SPACE


@pytest.mark.parametrize("bold", [False, True])
def test_a_capital_is_as_high_as_asked(bold: bool) -> None:
    """The outline of a flat capital at the size that `em_for` gives."""
    font = TTFont(package.SourceSansProSemibold if bold else package.SourceSansPro)
    pen = BoundsPen(font.getGlyphSet())
    font.getGlyphSet()["H"].draw(pen)
    assert pen.bounds[3] / font["head"].unitsPerEm * em_for(3.5, bold) == pytest.approx(3.5, rel=0.01)


def test_width_grows_with_height_and_with_text() -> None:
    assert text_width("16", 5.0) == pytest.approx(2 * text_width("16", 2.5))
    assert text_width("166", 2.5) == pytest.approx(text_width("16", 2.5) + text_width("6", 2.5))


def test_figures_are_all_of_one_width() -> None:
    """So that columns of figures line up."""
    assert len({round(text_width(figure, 2.5), 6) for figure in "0123456789"}) == 1


def test_fractions_and_thin_spaces_have_widths() -> None:
    plain, spaced = text_width("\u00b9\u2044\u2082", 2.5), text_width(THIN_SPACE, 2.5)
    assert 0 < spaced < plain < text_width("1/2", 2.5) * 1.2


def test_semibold_is_wider() -> None:
    assert text_width("A12", 2.5, bold=True) > text_width("A12", 2.5)
