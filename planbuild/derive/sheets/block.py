"""A piece of a sheet that is laid out by itself and then moved to its place.  Units: paper mm, y down."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from planbuild.derive.dimension_lines import Ink
from planbuild.derive.dimensions.paper import around
from planbuild.records.drawing import Drawing, Fill, Path, Point, Step, Stroke, Text
from planbuild.records.legibility import PaperBox, path_box, text_box


@dataclass(frozen=True)
class Block:
    """`view` is the outline of the view in it, by which neighbours in projection are lined up."""

    ink: Ink
    fills: tuple[Fill, ...]
    view: PaperBox

    @property
    def box(self) -> PaperBox:
        """Around all its ink."""
        paths = [*(stroke.path for stroke in self.ink.strokes), *(fill.path for fill in (*self.ink.covers, *self.fills))]
        return around([*(path_box(path) for path in paths), *(text_box(text) for text in self.ink.texts)])

    @property
    def width(self) -> float:
        return self.box[2] - self.box[0]

    @property
    def height(self) -> float:
        return self.box[3] - self.box[1]

    def moved(self, dx: float, dy: float) -> Block:
        left, top, right, bottom = self.view
        fills = tuple(Fill(each.tint, _shift(each.path, dx, dy)) for each in self.fills)
        return Block(moved(self.ink, dx, dy), fills, (left + dx, top + dy, right + dx, bottom + dy))

    def at(self, left: float, top: float) -> Block:
        """With the upper left corner of its ink at a place."""
        return self.moved(left - self.box[0], top - self.box[1])

    def plus(self, other: Block) -> Block:
        """Both, lined up on the view of the first."""
        return Block(self.ink.plus(other.ink), self.fills + other.fills, self.view)


def moved(ink: Ink, dx: float, dy: float) -> Ink:
    return Ink(
        tuple(Stroke(each.pen, _shift(each.path, dx, dy)) for each in ink.strokes),
        tuple(Fill(each.tint, _shift(each.path, dx, dy)) for each in ink.covers),
        tuple(_moved_text(each, dx, dy) for each in ink.texts),
    )


def _moved_text(text: Text, dx: float, dy: float) -> Text:
    return replace(text, at=(text.at[0] + dx, text.at[1] + dy))


def _shift(path: Path, dx: float, dy: float) -> Path:
    def there(p: Point) -> Point:
        return p[0] + dx, p[1] + dy

    return tuple(Step(step.verb, tuple(there(p) for p in step.points)) for step in path)


def merged(id: str, blocks: Iterable[Block], width: float, height: float, alt: str, scale: str) -> Drawing:
    """The blocks as one drawing."""
    found = list(blocks)
    strokes = tuple(stroke for block in found for stroke in block.ink.strokes)
    covers = tuple(cover for block in found for cover in block.ink.covers)
    texts = tuple(text for block in found for text in block.ink.texts)
    fills = tuple(fill for block in found for fill in block.fills)
    return Drawing(id, width, height, fills, strokes, covers, (), texts, alt, scale)
