"""Fractions of a page are set larger, wherever a template wrote them, and only in text."""

from __future__ import annotations

import pytest

from planbuild.core.lettering import text_width
from planbuild.publish.fractions import larger_fractions


def test_text_of_the_body_only() -> None:
    html = '<title>¹⁄₂</title><body data-x="¹⁄₂"><p>a ¹³⁄₁₆ b</p><img alt="¹⁄₂"></body>'
    larger = '<p>a <span class="fraction">¹³⁄₁₆</span> b</p>'
    assert larger_fractions(html) == html.replace("<p>a ¹³⁄₁₆ b</p>", larger)


def test_widths_reckon_with_the_larger_fraction() -> None:
    whole, both = text_width("12\u2009", 2.5), text_width("12\u2009¹⁄₂", 2.5)
    # One raised and one lowered figure of 0.367 em and a bar of 0.086 em, set at 1.2 (measures of the packaged face).
    assert both - whole == pytest.approx(1.2 * (2 * 0.367 + 0.086) * 2.5 / 0.66, abs=0.01)
