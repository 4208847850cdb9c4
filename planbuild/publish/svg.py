"""A neutral drawing as an SVG picture: one path a pen and a tint, everything in mm, its style inside it.

The layout engine applies no page style inside a picture and is slow with many small elements, so the
strokes of a pen are one path.  It drops text with the `font:` shorthand, so its attributes are longhand.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import groupby
from xml.sax.saxutils import escape, quoteattr

from planbuild.core.lettering import em_for
from planbuild.publish.fonts import FAMILY
from planbuild.publish.rings import wound
from planbuild.publish.tokens import Inks, Line
from planbuild.records.drawing import Drawing, Fill, Path, Pen, Stroke, Text

_PAINT_ORDER = (
    Pen.HATCH, Pen.GUIDE, Pen.SMOOTH, Pen.HIDDEN, Pen.CENTRE, Pen.DIMENSION, Pen.LEADER,
    Pen.BREAK, Pen.VISIBLE, Pen.OUTLINE, Pen.SECTION, Pen.CUTTING, Pen.MOVE,
)  # fmt: skip
"""Light lines first: where lines coincide the heavier kind shows (precedence of lines, ISO 128)."""

RIM = 0.5
"""Room for half a line along the edge of a drawing, which would be clipped otherwise."""


def svg(drawing: Drawing, inks: Inks) -> str:
    """The drawing as an SVG document, larger by `RIM` all round.  Units: mm on paper, also in width and height."""
    width, height = number(drawing.width + 2 * RIM), number(drawing.height + 2 * RIM)
    view = f"{number(-RIM)} {number(-RIM)} {width} {height}"
    body = [
        *_fills(drawing.fills, inks),
        *_strokes(drawing.strokes, inks.pens),
        *_covers(drawing.covers, inks),
        *_strokes(drawing.cover_strokes, inks.pens),
        *(_text(each, inks) for each in drawing.texts),
    ]
    head = f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" viewBox="{view}">'
    return "\n".join([head, f"<title>{escape(drawing.alt)}</title>", *body, "</svg>\n"])


def number(value: float) -> str:
    """A coordinate to a thousandth of a mm, without idle zeros."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _path(path: Path) -> str:
    return "".join(step.verb + " ".join(f"{number(x)} {number(y)}" for x, y in step.points) for step in path)


def _fills(fills: Iterable[Fill], inks: Inks) -> list[str]:
    """One path a tint, in the order in which the tints first appear."""
    by_tint: dict[str, list[Path]] = {}
    for fill in fills:
        by_tint.setdefault(inks.tints[fill.tint], []).append(fill.path)
    return [_filled(paths, colour) for colour, paths in by_tint.items()]


def _covers(covers: Iterable[Fill], inks: Inks) -> list[str]:
    """One path for each run of a tint: covers hide what is under them, so their order stands."""
    runs = groupby(covers, key=lambda fill: inks.tints[fill.tint])
    return [_filled([fill.path for fill in run], colour) for colour, run in runs]


def _filled(paths: list[Path], colour: str) -> str:
    """Several even-odd regions as one path that fills their union."""
    return f'<path fill="{colour}" d="{"".join(_path(wound(path)) for path in paths)}"/>'


def _strokes(strokes: Iterable[Stroke], pens: Mapping[Pen, Line]) -> list[str]:
    by_pen: dict[Pen, list[str]] = {}
    for stroke in strokes:
        by_pen.setdefault(stroke.pen, []).append(_path(stroke.path))
    return [_stroked("".join(by_pen[pen]), pens[pen]) for pen in _PAINT_ORDER if pen in by_pen]


def _stroked(data: str, line: Line) -> str:
    dash = f' stroke-dasharray="{" ".join(number(each) for each in line.dash)}"' if line.dash else ""
    cap = "butt" if line.dash else "round"
    style = f'stroke="{line.colour}" stroke-width="{number(line.width)}" stroke-linecap="{cap}" stroke-linejoin="round"{dash}'
    return f'<path fill="none" {style} d="{data}"/>'


def _text(text: Text, inks: Inks) -> str:
    x, y = number(text.at[0]), number(text.at[1])
    turn = f' transform="rotate({number(-text.angle)} {x} {y})"' if text.angle else ""
    size = number(em_for(text.height, text.bold))
    face = f'font-family={quoteattr(FAMILY)} font-size="{size}" font-weight="{600 if text.bold else 400}"'
    paint = f'text-anchor="{text.anchor.value}" fill="{inks.lettering[text.role]}"'
    return f'<text x="{x}" y="{y}" {face} {paint}{turn}>{escape(text.text)}</text>'
