"""Shared joints, parts and shapes: `like:` filled in, so that nothing later knows of details.

A field beside `like` replaces the detail's field of that name, whole; a detail may itself be like another.
"""

from __future__ import annotations

from enum import Enum

from planbuild.core.diagnostics import Related
from planbuild.core.spelling import did_you_mean
from planbuild.read.nodes import Block, Broken, Entry, Node, Row, Scalar, overlay
from planbuild.read.report import Report, listed
from planbuild.read.vocabulary import SHAPES


class Sort(Enum):
    """What a detail can be, told by the field that makes it one."""

    PART = "a part"
    JOINT = "a joint"
    SHAPE = "a shape"


def sort_of(block: Block) -> Sort | None:
    """By `kind`, by `stock`, or by its single shape word; None if it is none of them."""
    if block.get("kind"):
        return Sort.JOINT
    if len(block.entries) == 1 and block.entries[0].name in SHAPES:
        return Sort.SHAPE
    return Sort.PART if block.get("stock") else None


class Details:
    """The details of a design and its series, each filled in once.

    Reports: detail-unknown, detail-circle, detail-sort, read-wrong-type.
    """

    def __init__(self, entries: tuple[Entry, ...], report: Report) -> None:
        self._written = {each.name: each for each in entries}
        self._report = report
        self._whole: dict[str, Block | Broken] = {}
        for name in self._written:
            self._fill(name)

    def whole(self) -> list[tuple[Entry, Block]]:
        """Every detail that could be filled in, with the entry that wrote it."""
        return [(self._written[name], block) for name, block in self._whole.items() if isinstance(block, Block)]

    def filled(self, node: Node, wanted: Sort) -> Node:
        """A part or joint as the design says it, with what it is like filled in."""
        if not isinstance(node, Block) or not node.get("like"):
            return node
        under = self._asked(self._like(node), wanted)
        return _joined(under, node.without("like")) if isinstance(under, Block) else under

    def shapes(self, node: Node) -> Node:
        """The list of shapes with bare names and `like` filled in; each item a block with one shape word."""
        if isinstance(node, Broken):
            return node
        items = node.items if isinstance(node, Row) else (node,)
        return Row(tuple(self._shape(each) for each in items), node.span)

    # -------------------------------------------------------- filling in

    def _fill(self, name: str) -> None:
        """Walks down the chain of likes to one that is whole, then fills in upwards; no recursion, as chains can be long."""
        trail: list[Entry] = []
        while name not in self._whole:
            entry = self._written[name]
            trail.append(entry)
            like = self._like(entry.value) if isinstance(entry.value, Block) and entry.value.get("like") else None
            if not isinstance(like, Scalar) or not self._known(like):
                break
            name = like.text
            if any(each.name == name for each in trail):
                self._circle(trail, name, like)
                break
        for entry in reversed(trail):
            self._whole[entry.name] = self._one(entry)

    def _one(self, entry: Entry) -> Block | Broken:
        own = entry.value
        if not isinstance(own, Block):
            return self._wrong(own)
        if not own.get("like"):
            return own
        like = self._like(own)
        under = self._whole.get(like.text) if isinstance(like, Scalar) else None
        return _joined(under, own.without("like")) if isinstance(under, Block) else Broken(own.span)

    def _shape(self, item: Node) -> Node:
        if isinstance(item, Scalar):
            return _at_use(self._asked(item, Sort.SHAPE), item)
        if isinstance(item, Block) and item.get("like"):
            filled = self.filled(item, Sort.SHAPE)
            like = item.get("like")
            return _at_use(filled, like.value) if like and isinstance(like.value, Scalar) else filled
        return item

    # -------------------------------------------------------- looking up

    def _asked(self, name: Scalar | Broken, wanted: Sort) -> Block | Broken:
        if isinstance(name, Broken) or not self._known(name, wanted):
            return Broken(name.span)
        whole = self._whole[name.text]
        found = sort_of(whole) if isinstance(whole, Block) else None
        if found is wanted:
            return whole
        if found is not None:
            written = Related(self._written[name.text].span, "written")
            message = f'Detail "{name.text}" is {found.value}; {wanted.value} is wanted here.'
            self._report.fault("detail-sort", name.span, message, related=(written,))
        return Broken(name.span)

    def _like(self, block: Block) -> Scalar | Broken:
        entry = block.get("like")
        assert entry
        return entry.value if isinstance(entry.value, Scalar) else self._wrong(entry.value, "the name of one detail")

    def _known(self, name: Scalar, wanted: Sort | None = None) -> bool:
        if name.text in self._written:
            return True
        hints = did_you_mean(name.text, self._written)
        first = name.text.partition(" ")[0]
        if wanted is Sort.SHAPE and first in SHAPES:
            hints = (f"A shape has its fields with it: `{first}: {{...}}`.",)
        expected = listed(self._written) or "none: this design has no details"
        self._report.fault("detail-unknown", name.span, f'No detail "{name.text}".', expected=expected, hints=hints)
        return False

    def _circle(self, trail: list[Entry], name: str, like: Scalar) -> None:
        names = [each.name for each in trail]
        chain = " > ".join([*names[names.index(name) :], name])
        self._report.fault("detail-circle", like.span, f"A circle: {chain}.", hints=("One of them must say its own fields.",))

    def _wrong(self, node: Node, expected: str = "fields: of a joint (`kind`), a part (`stock`) or one shape") -> Broken:
        if not isinstance(node, Broken):
            self._report.wrong_type(node.span, "This cannot be a detail.", expected)
        return Broken(node.span)


def _joined(under: Block, over: Block) -> Block:
    """Fields given beside the `like` of a shape go inside its shape word."""
    if sort_of(under) is not Sort.SHAPE:
        return overlay(under, over)
    (shape,) = under.entries
    inner = overlay(shape.value, over) if isinstance(shape.value, Block) else shape.value
    return Block((Entry(shape.key, inner),), over.span)


def _at_use(shape: Node, use: Scalar) -> Node:
    """The shape's place is where the design uses it; its values keep theirs."""
    if not isinstance(shape, Block):
        return shape
    (entry,) = shape.entries
    return Block((Entry(Scalar(entry.name, use.span), entry.value),), use.span)
