"""The sections of a design that are written in more ways than their fields tell: sizes, items, shapes, joints."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any

from planbuild.core.spelling import did_you_mean
from planbuild.joints import base
from planbuild.read.details import Details, Sort, sort_of
from planbuild.read.nodes import Block, Broken, Entry, Node, Row, Scalar
from planbuild.read.report import listed
from planbuild.read.schema import ABSENT, Binder, Where
from planbuild.read.vocabulary import LATER_JOINT_FIELDS, SHAPES
from planbuild.records.design import (
    AddedStepsSaid,
    AssemblySaid,
    CoatingSaid,
    EditionSaid,
    HardwareSaid,
    ItemSaid,
    JointSaid,
    LoadSaid,
    MatchingSaid,
    Model,
    OwnStepSaid,
    PartSaid,
    RevisionSaid,
    SheetSaid,
    SizeSaid,
    StepSaid,
    StockSaid,
)
from planbuild.records.shapes_said import ShapeSaid
from planbuild.records.spaces import BlockSaid, OpeningSaid
from planbuild.records.woods_said import SpeciesSaid

NOUNS: dict[type[Model], str] = {
    SizeSaid: "size",
    StockSaid: "stock",
    SpeciesSaid: "species",
    ItemSaid: "item",
    PartSaid: "part",
    OpeningSaid: "opening",
    BlockSaid: "block",
    JointSaid: "joint",
    HardwareSaid: "hardware",
    AssemblySaid: "assembly",
    StepSaid: "step",
    OwnStepSaid: "step",
    MatchingSaid: "matching",
    LoadSaid: "load on",
    CoatingSaid: "finish",
    RevisionSaid: "revision",
    EditionSaid: "edition",
}

ADD = "add"
"""Among the steps: what it holds is no planned step."""

Kinds = Mapping[str, base.JointKind]


class Sections:
    """Binds what the plain binder cannot: each method is for one model."""

    def __init__(self, binder: Binder, details: Details, kinds: Kinds, stock: Entry | None) -> None:
        self.binder, self.details, self.kinds, self.stock = binder, details, kinds, stock
        binder.nouns.update(NOUNS)
        binder.special.update(
            {
                SizeSaid: self.size,
                StockSaid: self.wood,
                ItemSaid: self.item,
                ShapeSaid: self.shape,
                JointSaid: self.joint,
                PartSaid: self.part,
            }
        )
        binder.special.update({OpeningSaid: partial(self.space, OpeningSaid), BlockSaid: partial(self.space, BlockSaid)})
        binder.special[HardwareSaid] = self.hardware
        binder.special[StepSaid] = self.step

    def size(self, node: Node, where: Where) -> Any:
        """`2`, or `{value: 2, from: 1, to: 3}`."""
        if isinstance(node, Scalar):
            return self.binder.make(SizeSaid, {"value": self.binder.said(node)}, where)
        return self._fields(node, SizeSaid, where)

    def wood(self, node: Node, where: Where) -> Any:
        """A sheet says `sheet`, solid wood its `species`."""
        sheet = isinstance(node, Block) and node.get("sheet")
        return self._fields(node, SheetSaid if sheet else StockSaid, where)

    def item(self, node: Node, where: Where) -> Any:
        """Which fields an item has depends on its kind; only their form is known here."""
        if not isinstance(node, Block):
            return self._fields(node, ItemSaid, where)
        own = tuple(each for each in node.entries if each.name in ("item", "why", "note", "photo"))
        rest = Block(tuple(each for each in node.entries if each not in own), node.span)
        return self.binder.model(Block((*own, Entry(Scalar("fields", node.span), rest)), node.span), ItemSaid, where)

    def space(self, model: type[Model], node: Node, where: Where) -> Any:
        """An opening or a block: `centred` has a shorter way to be said."""
        if not isinstance(node, Block):
            return self._fields(node, model, where)
        entries = tuple(Entry(each.key, self._prepared(each)) for each in node.entries)
        return self.binder.model(Block(entries, node.span), model, where)

    def hardware(self, node: Node, where: Where) -> Any:
        """`at: [a, b]` or `at: middle` gives places along a direction that they tell themselves."""
        if not isinstance(node, Block):
            return self._fields(node, HardwareSaid, where)
        entries = tuple(Entry(each.key, _along(each)) if each.name == "at" else each for each in node.entries)
        return self.binder.model(Block(entries, node.span), HardwareSaid, where)

    def step(self, node: Node, where: Where) -> Any:
        """Under `add` stand steps of the designer's own."""
        if where.name != f'{NOUNS[StepSaid]} "{ADD}"' or not isinstance(node, Block):
            return self._fields(node, StepSaid, where)
        added = self.binder.mapping(node, OwnStepSaid, where)
        return added if added is ABSENT else self.binder.make(AddedStepsSaid, {"added": added}, where)

    def part(self, node: Node, where: Where) -> Any:
        return self._part(node, where)

    def _part(self, node: Node, where: Where, required: bool = True) -> Any:
        filled = self.details.filled(node, Sort.PART)
        if not isinstance(filled, Block):
            return self._fields(filled, PartSaid, where)
        self._known_stock(filled.get("stock"))
        entries = tuple(Entry(each.key, self._prepared(each)) for each in filled.entries)
        return self.binder.model(Block(entries, filled.span), PartSaid, where, required=required)

    def _known_stock(self, entry: Entry | None) -> None:
        """Silent where the section of the stock is no mapping: that has been told."""
        word = entry.value if entry else None
        entries = self.stock.value.entries if self.stock and isinstance(self.stock.value, Block) else ()
        known = tuple(each.name for each in entries)
        if isinstance(word, Scalar) and word.text not in known and (known or not self.stock):
            self._unknown("stock-missing", word, f'No stock "{word.text}" in this design or its series.', known)

    def _prepared(self, entry: Entry) -> Node:
        """Fields of a part that have a shorter way to be said."""
        if entry.name == "shape":
            return self.details.shapes(entry.value)
        if entry.name == "centred":
            return _centred(entry.value)
        return entry.value

    def shape(self, node: Node, where: Where) -> Any:
        """`chamfer: {...}`, with details filled in by the part that has it."""
        if not isinstance(node, Block) or len(node.entries) != 1:
            return self._fields(node, None, where)
        (entry,) = node.entries
        return self._shape(entry)

    def _shape(self, entry: Entry, required: bool = True) -> Any:
        inner = Where(entry.span, f'shape "{entry.name}"')
        if entry.name not in SHAPES:
            self._unknown("shape-unknown", entry.key, f'No shape "{entry.name}".', tuple(SHAPES))
            return ABSENT
        if not isinstance(entry.value, Block):
            return self._fields(entry.value, SHAPES[entry.name], inner)
        return self.binder.model(entry.value, SHAPES[entry.name], inner, required=required)

    def joint(self, node: Node, where: Where) -> Any:
        return self._joint(self.details.filled(node, Sort.JOINT), where)

    def _joint(self, node: Node, where: Where, required: bool = True) -> Any:
        if not isinstance(node, Block):
            return self._fields(node, JointSaid, where)
        kind = node.get("kind")
        if kind is None or not isinstance(kind.value, Scalar):
            return self.binder.model(node, JointSaid, where, required=required)
        name = kind.value.text
        if name in self.kinds:
            later = LATER_JOINT_FIELDS.get(name, ())
            return self.binder.model(node, self.kinds[name].said, where, required=required, later=later)
        self._unknown("joint-unknown-kind", kind.value, f'No joint "{name}".', tuple(self.kinds))
        return ABSENT

    # -------------------------------------------------------- details

    def check_details(self) -> None:
        """Every detail, used or not: it must be a joint, a part or a shape, and its fields must be known."""
        for entry, block in self.details.whole():
            sort = sort_of(block)
            where = Where(entry.span, f'detail "{entry.name}"')
            if sort is None:
                message = f'Detail "{entry.name}" is none of the three sorts.'
                expected = "a joint (with `kind`), a part (with `stock`) or one shape"
                self.binder.report.fault("detail-sort", entry.span, message, expected=expected)
            else:
                self.binder.aside(entry, partial(self._detail, sort, block, where))

    def _detail(self, sort: Sort, block: Block, where: Where) -> Any:
        if sort is Sort.SHAPE:
            return self._shape(block.entries[0], required=False)
        return self._part(block, where, required=False) if sort is Sort.PART else self._joint(block, where, required=False)

    # -------------------------------------------------------- common

    def _fields(self, node: Node, model: type[Model] | None, where: Where) -> Any:
        if isinstance(node, Broken):
            return ABSENT
        if isinstance(node, Block) and model:
            return self.binder.model(node, model, where)
        expected = "one shape with its fields: `chamfer: {...}`" if model is None else "fields, each `name: value`"
        return self.binder.wrong(node, expected, where)

    def _unknown(self, code: str, word: Scalar, message: str, known: tuple[str, ...]) -> None:
        self.binder.report.fault(code, word.span, message, expected=listed(known), hints=did_you_mean(word.text, known))


def _along(at: Entry) -> Node:
    """Places that name no direction stand under the key itself; the long form of one value is such a place."""
    plain = isinstance(at.value, Row | Scalar) or (isinstance(at.value, Block) and at.value.get("value") is not None)
    return Block((Entry(at.key, at.value),), at.value.span) if plain else at.value


def _centred(node: Node) -> Node:
    """`left-right` alone, or a list of directions, is about the frame's middle: no name beside the direction."""
    words = node.items if isinstance(node, Row) else (node,)
    if not all(isinstance(each, Scalar) for each in words):
        return node
    return Block(tuple(Entry(each, Row((), each.span)) for each in words if isinstance(each, Scalar)), node.span)
