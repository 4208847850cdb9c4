"""Fractions of a page set larger, as they are in drawings: see `core.lettering`.

Done on the finished HTML, so that no template has to think of it.
"""

from __future__ import annotations

import re

from planbuild.core.lettering import FRACTION, FRACTION_DROP, FRACTION_SIZE

STYLE = f".fraction {{ font-size: {FRACTION_SIZE}em; line-height: 1mm; vertical-align: -{FRACTION_DROP}em }}"

_TEXT = re.compile(r">[^<]+<")
"""A run of text between tags; escaped text holds no angle bracket."""


def larger_fractions(html: str) -> str:
    """The HTML with each fraction of the body's text in a span of class `fraction`; attributes stay as they are."""
    head, body, rest = html.partition("<body")
    return head + body + _TEXT.sub(lambda text: FRACTION.sub(r'<span class="fraction">\g<0></span>', text.group()), rest)
