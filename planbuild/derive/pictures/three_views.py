"""Front, side and top in projection relation, with overall sizes and the positions that decide the look."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from planbuild.core.geometry import Axis, Face
from planbuild.derive.dimension_lines import ARROW, ARROW_HALF, Along, Ink
from planbuild.derive.dimensions.layout import Side, Wanted, arrange
from planbuild.derive.dimensions.paper import Paper
from planbuild.derive.paint import BOLD, Frame, fills, strokes
from planbuild.derive.pictures.ink_boxes import ink_box, moved_ink
from planbuild.derive.pictures.piece_scales import piece_scales
from planbuild.derive.pictures.positions import Places, across, chain, upright
from planbuild.derive.pictures.section import Plane
from planbuild.derive.pictures.studio import Studio, keys_of
from planbuild.derive.pictures.tones import one_wood
from planbuild.derive.sheets.scales import scale_text
from planbuild.derive.views.view import STRAIGHT, View
from planbuild.records.drawing import Anchor, Drawing, Fill, Pen, Point, Stroke, Text, TextRole, Tint, line, ring
from planbuild.records.edition import Projection
from planbuild.records.legibility import PaperBox

_GAP = 15.0
"""Between two views; a trace of a section plane needs it too."""
_CLEAR = 4.0
"""Between the front and the heights beside the side view."""
_RIM = 0.5
_NARROW = (0.0, 5.0, 6.0)
"""Steps of a chain that are shorter on paper need room beside the view; they give way to a larger scale."""
LETTERING_TITLE = 3.5
_TRACE, _SHAFT = 4.0, 7.0
"""Thick end of a trace, and length of its arrow."""


@dataclass(frozen=True)
class _Placed:
    view: View
    frame: Frame

    @property
    def box(self) -> PaperBox:
        low_u, low_v, high_u, high_v = self.view.box
        (left, bottom), (right, top) = self.frame.point((low_u, low_v)), self.frame.point((high_u, high_v))
        return left, top, right, bottom


def three_views(studio: Studio, plane: Plane | None, width: float, height: float) -> Drawing:
    """The three views at the largest standard scale; `plane` of the section is traced on the top view.  Units: paper mm."""
    third = studio.edition.projection is Projection.THIRD
    faces = (Face.FRONT, Face.RIGHT if third else Face.LEFT, Face.TOP)
    every = studio.bodies([*keys_of(studio.piece), *studio.bought])
    views = [studio.see(f"three views, {face.value}", every, STRAIGHT[face]) for face in faces]
    scale, placed, ink, tall = _largest(studio, views, plane, width, height)
    return Drawing(
        "three_views",
        width,
        tall,
        tuple(fill for each in placed for fill in fills(each.view, each.frame, one_wood(studio))),
        tuple(s for each in placed for s in strokes(each.view, each.frame, lambda key: BOLD)) + ink.strokes,
        ink.covers,
        (),
        ink.texts,
        _alt(studio, faces),
        scale_text(scale),
    )


_Set = tuple[Fraction, list[_Placed], Ink, float]


def _largest(studio: Studio, views: Sequence[View], plane: Plane | None, width: float, height: float) -> _Set:
    """The scale, the views on the paper, what is written around them, and the height of it all."""
    series = piece_scales(studio.edition.ruler.unit)
    for scale, least in product(series, _NARROW):
        between = _between(studio, views, float(scale))
        trial = _laid_out(studio, views, float(scale), (0.0, 0.0), between)
        ink = _written(studio, trial, plane, least)
        left, top, right, bottom = ink_box(ink, [each.box for each in trial])
        wide, tall = right - left + 2 * _RIM, bottom - top + 2 * _RIM
        if wide <= width and tall <= height:
            break
    # Laid out once and moved: laid out again elsewhere, what was a tie may fall the other way.
    by = ((width - wide) / 2 + _RIM - left, _RIM - top)
    return scale, _laid_out(studio, views, float(scale), by, between), moved_ink(ink, by), tall


def _between(studio: Studio, views: Sequence[View], scale: float) -> float:
    """Room between front and side for the heights, which stand there."""
    side = _laid_out(studio, views, scale, (0.0, 0.0), 0.0)[1]
    heights = _chained(studio, side, Axis.BOTTOM_TOP, upright(studio.piece, side.view), Side.LEFT)
    return max(_GAP, side.box[0] - ink_box(arrange(heights, side.box, Paper()))[0] + _CLEAR)


def _laid_out(studio: Studio, views: Sequence[View], scale: float, corner: Point, between: float) -> list[_Placed]:
    """Front, side beside it, top above it (third angle) or below it (first); the front's upper left corner is given."""
    front, side, top = (view.box for view in views)
    beside = (front[2] - front[0]) * scale + between
    third = studio.edition.projection is Projection.THIRD
    above = -(top[3] - top[1]) * scale - _GAP if third else (front[3] - front[1]) * scale + _GAP
    shifts = ((0.0, 0.0), (beside, 0.0), (0.0, above))
    return [
        _Placed(view, Frame(scale, corner[0] + x - view.box[0] * scale, corner[1] + y + view.box[3] * scale))
        for view, (x, y) in zip(views, shifts, strict=True)
    ]


def _written(studio: Studio, placed: Sequence[_Placed], plane: Plane | None, least: float) -> Ink:
    """Dimensions (steps of a chain that are at least so long on paper), trace and titles."""
    third = studio.edition.projection is Projection.THIRD
    ink = _dimensions(studio, placed, Side.BELOW if third else Side.ABOVE, least)
    return ink.plus(_trace(placed[2], plane) if plane else Ink()).plus(_titles(placed, plane, third))


# ---------------------------------------------------------------- dimensions


def _dimensions(studio: Studio, placed: Sequence[_Placed], level: Side, least: float) -> Ink:
    """Chains between what stands on the floor, heights of what shows from the side, and the three overall sizes."""
    front, side, _ = placed
    piece, paper = studio.piece, Paper()
    wanted = _chained(studio, front, Axis.LEFT_RIGHT, across(piece, Axis.LEFT_RIGHT), level, least)
    ink = arrange(wanted, front.box, paper)
    wanted = _chained(studio, side, Axis.FRONT_BACK, across(piece, Axis.FRONT_BACK), level, least)
    wanted += _chained(studio, side, Axis.BOTTOM_TOP, upright(piece, side.view), Side.LEFT)
    return ink.plus(arrange(wanted, side.box, paper))


def _chained(studio: Studio, on: _Placed, axis: Axis, places: Places, side: Side, least: float = 0.0) -> list[Wanted]:
    """The chain and the overall size along one axis, figures from rounded places so that they add up."""
    whole = studio.piece.frame.along(axis)
    steps = [(low, high) for low, high in chain(places) if (high - low) * on.frame.scale >= least]
    pairs = [*steps, (whole.low, whole.high)]
    return [_wanted(studio, on, axis, low, high, side) for low, high in dict.fromkeys(pairs)]


def _wanted(studio: Studio, on: _Placed, axis: Axis, low: float, high: float, side: Side) -> Wanted:
    ruler = studio.edition.ruler
    text = ruler.printed(ruler.rounded(high) - ruler.rounded(low))
    along = 0 if side.along is Along.ACROSS else 1
    ends = sorted(_on_paper(on, axis, place)[along] for place in (low, high))
    reach = (on.box[1 - along], on.box[3 - along])
    return Wanted(f"{axis.words} {ruler.plain(low)} to {ruler.plain(high)}", text, (ends[0], ends[1]), (reach, reach), (side,))


def _on_paper(on: _Placed, axis: Axis, place: float) -> Point:
    x, y, z = (place if each is axis else 0.0 for each in Axis)
    return on.frame.point(on.view.camera.flat((x, y, z)))


# ---------------------------------------------------------------- trace and titles


_BESIDE = 2.2
"""From the tail of an arrow to the middle of its letter beside it; one above or below is higher than it is wide."""


def _trace(top: _Placed, plane: Plane) -> Ink:
    """Where the section goes: a thin chain with thick ends, arrows in the direction of sight, letters."""
    across = plane.axis is Axis.LEFT_RIGHT
    at = _on_paper(top, plane.axis, plane.at)[0 if across else 1]
    low, high = (top.box[1], top.box[3]) if across else (top.box[0], top.box[2])
    sight = (1.0 if across else -1.0) * -plane.face.sign

    def place(along: float, square: float) -> Point:
        return (square, along) if across else (along, square)

    ink = Ink((Stroke(Pen.CENTRE, line(place(low - 1, at), place(high + 1, at))),))
    for end, out in ((low, -1.0), (high, 1.0)):
        thick = line(place(end + out, at), place(end + out * (1 + _TRACE), at))
        tail, tip = end + out * (1 + _TRACE / 2), at
        shaft = line(place(tail, tip - sight * _SHAFT), place(tail, tip - sight * ARROW))
        head = ring(place(tail, tip), *(place(tail + s * ARROW_HALF, tip - sight * ARROW) for s in (-1, 1)))
        x, y = place(tail, tip - sight * (_SHAFT + _BESIDE + (0.0 if across else LETTERING_TITLE / 4)))
        letter = Text("A", (x, y + LETTERING_TITLE / 2), LETTERING_TITLE, TextRole.TITLE)
        ink = ink.plus(Ink((Stroke(Pen.CUTTING, thick), Stroke(Pen.DIMENSION, shaft)), (Fill(Tint.INK, head),), (letter,)))
    return ink


def _titles(placed: Sequence[_Placed], plane: Plane | None, third: bool) -> Ink:
    """The name of each view at a corner where no dimension is."""
    texts = []
    faces = (Face.FRONT, Face.RIGHT if third else Face.LEFT, Face.TOP)
    for each, face in zip(placed, faces, strict=True):
        left, top, right, bottom = each.box
        name = face.value.capitalize() + (" side" if face.axis is Axis.LEFT_RIGHT else "")
        above = third or face is Face.TOP
        traced = plane is not None and face is Face.TOP and plane.face.sign < 0
        x, anchor = (right, Anchor.END) if traced else (left, Anchor.START)
        texts.append(Text(name, (x, top - 2.0 if above else bottom + 2.0 + 2.5), 2.5, TextRole.TITLE, anchor))
    return Ink(texts=tuple(texts))


def _alt(studio: Studio, faces: Sequence[Face]) -> str:
    frame, ruler = studio.piece.frame, studio.edition.ruler
    sizes = [ruler.printed(frame.size(axis), True) for axis in Axis]
    seen = ", ".join(face.value for face in faces)
    return f"Views of the whole piece from {seen}: {sizes[0]} wide, {sizes[1]} deep, {sizes[2]} high."
