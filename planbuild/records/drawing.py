"""A neutral drawing in paper mm: what is drawn, before any file format is chosen.

x runs right, y runs DOWN, the origin is the upper left corner.  Pens, tints and text roles are names;
the theme gives them width, colour and dash.  Drawings can thus be measured and tested without a page.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

Point = tuple[float, float]


class Pen(Enum):
    """Line kinds by meaning.  Source of the two-width hierarchy: ISO 128-2."""

    OUTLINE = "outline"
    """Edge of a part against another part or the ground: the heaviest of a picture."""
    VISIBLE = "visible"
    """Any other visible edge."""
    SMOOTH = "smooth"
    """Where a curved surface runs into a flat one: very light."""
    HIDDEN = "hidden"
    DIMENSION = "dimension"
    """Dimension and extension lines."""
    LEADER = "leader"
    CENTRE = "centre"
    CUTTING = "cutting"
    """Trace of a section plane."""
    SECTION = "section"
    """Outline of cut wood."""
    HATCH = "hatch"
    BREAK = "break"
    MOVE = "move"
    """Arrow of a motion (accent)."""
    GUIDE = "guide"
    """Thin chain along which a part was pulled out."""


class Tint(Enum):
    """Fills by meaning: flat tones by the direction in which a face looks, and the notice of what is new."""

    UP = "up"
    FRONT = "front"
    SIDE = "side"
    NEW_UP = "new up"
    NEW_FRONT = "new front"
    NEW_SIDE = "new side"
    PALE_UP = "pale up"
    PALE_FRONT = "pale front"
    PALE_SIDE = "pale side"
    """What stood there before this step."""
    BOUGHT_UP = "bought up"
    BOUGHT_FRONT = "bought front"
    BOUGHT_SIDE = "bought side"
    """Hinges, knobs and whatever else is no wood of the piece."""
    CUT = "cut"
    """Cut wood in a section."""
    PAPER = "paper"
    INK = "ink"
    """Filled arrowheads and dots."""
    ACCENT = "accent"


class Anchor(Enum):
    START = "start"
    MIDDLE = "middle"
    END = "end"


class TextRole(Enum):
    DIMENSION = "dimension"
    NOTE = "note"
    TITLE = "title"
    MARK = "mark"


@dataclass(frozen=True)
class Step:
    """One step of a path: `M`, `L` with one point, `C` with three (cubic), `Z` with none."""

    verb: str
    points: tuple[Point, ...] = ()


Path = tuple[Step, ...]


@dataclass(frozen=True)
class Stroke:
    pen: Pen
    path: Path


@dataclass(frozen=True)
class Fill:
    """A filled region (even-odd rule, so that holes are rings of the same path)."""

    tint: Tint
    path: Path


@dataclass(frozen=True)
class Text:
    """One line of lettering; `at` is on its base line, `height` its capital height (mm), `angle`
    degrees counter-clockwise.  `refers` is the id of the part it is a mark of, or of the dimension
    it states; "" otherwise."""

    text: str
    at: Point
    height: float
    role: TextRole
    anchor: Anchor = Anchor.MIDDLE
    angle: float = 0.0
    bold: bool = False
    refers: str = ""


@dataclass(frozen=True)
class Drawing:
    """Fills are painted first, then strokes, then `covers` (paper-white or ink shapes under marks and
    arrowheads) and texts.  `alt` says in words what is seen; `scale` is printed text ("1:4"), "" if none."""

    id: str
    width: float
    height: float
    fills: tuple[Fill, ...]
    strokes: tuple[Stroke, ...]
    covers: tuple[Fill, ...]
    cover_strokes: tuple[Stroke, ...]
    """Strokes painted after the covers (rims of mark circles)."""
    texts: tuple[Text, ...]
    alt: str
    scale: str = ""


def line(*points: Point) -> Path:
    """An open path through the points."""
    first, *rest = points
    return (Step("M", (first,)), *(Step("L", (p,)) for p in rest))


def ring(*points: Point) -> Path:
    """A closed path through the points."""
    return (*line(*points), Step("Z"))


_KAPPA = 0.5522847498307936
"""4/3 * (sqrt(2) - 1): control distance of the cubic nearest to a quarter circle (off by 0.03 % of r)."""


def circle(centre: Point, radius: float) -> Path:
    x, y = centre
    r, k = radius, radius * _KAPPA
    return (
        Step("M", ((x + r, y),)),
        Step("C", ((x + r, y + k), (x + k, y + r), (x, y + r))),
        Step("C", ((x - k, y + r), (x - r, y + k), (x - r, y))),
        Step("C", ((x - r, y - k), (x - k, y - r), (x, y - r))),
        Step("C", ((x + k, y - r), (x + r, y - k), (x + r, y))),
        Step("Z"),
    )
