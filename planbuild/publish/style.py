"""The style of one edition: the theme's colours as custom properties, its style sheets, and the fixed paper."""

from __future__ import annotations

from planbuild.publish.theme import Theme
from planbuild.records.edition import MARGIN_FOOT, MARGIN_SIDE, MARGIN_TOP, Edition


def styles_for(theme: Theme, edition: Edition) -> list[str]:
    """Style sheets in the order of the cascade.  Drawings were made for this text area, so the paper comes last."""
    colours = "".join(f"--{name.replace('_', '-')}: {colour}; " for name, colour in theme.tokens.colours.items())
    area = f"--text-width: {edition.text_width:g}mm; --text-height: {edition.text_height:g}mm; "
    size = f"size: {edition.paper.width:g}mm {edition.paper.height:g}mm !important"
    margin = f"margin: {MARGIN_TOP:g}mm {MARGIN_SIDE:g}mm {MARGIN_FOOT:g}mm !important"
    return [f":root {{ {colours}{area}}}", *theme.styles, f"@page {{ {size}; {margin} }}"]
