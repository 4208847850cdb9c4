"""Blocks put in place: what each holds joins the design under its path, and every value of it knows that path.

A block sees what it takes and what it holds, nothing else.  So the names of stock and items that it takes are put in
here, once for all; sizes and choices stay with the block, to be looked up where its values are worked out.
"""

from __future__ import annotations

import posixpath
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from planbuild import joints
from planbuild.core.diagnostics import Related
from planbuild.core.files import FileFault, read_text
from planbuild.core.spelling import did_you_mean
from planbuild.read.bounds import within_bounds
from planbuild.read.details import Details
from planbuild.read.names import check_names
from planbuild.read.nodes import Block, Broken, Entry, Scalar
from planbuild.read.photos import placed_photos
from planbuild.read.report import Report
from planbuild.read.schema import ABSENT, Binder, Where
from planbuild.read.sections import Sections
from planbuild.read.shares import Sizes, blocks_of_sizes, openings_of_sizes, steps_of_sizes, unequal
from planbuild.read.source import read_source
from planbuild.read.steps_of_blocks import steps_of_block
from planbuild.read.taking import Given, Taking, takings
from planbuild.read.top import checked_top
from planbuild.records.blocks import BlockFileSaid
from planbuild.records.design import Design, Said
from planbuild.records.spaces import BlockSaid, FrameSaid, PlacedBlock

DEEPEST = 4
"""Blocks within blocks: a piece of cases of drawers of dividers has three."""

MOST = 60
"""Blocks put in place in one design; each is read and bound anew."""

HELD = ("parts", "openings", "sizes", "joints", "hardware", "assemblies", "stock", "items", "steps")
"""Sections of a block that join those of the design."""

OWN = ("block", "summary", "units", "frame", "moves", "takes", "details", "blocks", *HELD)
"""What only a block says; a block that is written where it is used says it beside `in`, `mirror` and so on."""


@dataclass(frozen=True)
class _Text:
    """The words of one block: its node, the file in which they stand (relative to the design's folder), its name."""

    node: Block
    file: str
    name: str
    key: str
    """What tells it from all others: a file, or a file and a name in it."""


@dataclass(frozen=True)
class _Room:
    """Where blocks are used: the path of the block around them, the texts that led there, what its names stand for."""

    path: str
    file: str
    section: Block
    binder: Binder
    stock: Mapping[str, str]
    items: Mapping[str, str]
    absent: frozenset[str] = frozenset()
    """Items that the block around them takes and was not given."""
    trail: tuple[str, ...] = ()

    def full(self, name: str) -> str:
        return f"{self.path}.{name}" if self.path else name


@dataclass
class _Gathered:
    """All that the blocks hold, by section and full name."""

    blocks: dict[str, PlacedBlock] = field(default_factory=dict)
    held: dict[str, dict[str, Any]] = field(default_factory=lambda: {section: {} for section in HELD})
    unlike: dict[str, Sizes] = field(default_factory=dict)
    """As in `Design`."""
    count: int = 0


def with_blocks(design: Design, written: Block, root: Path, report: Report) -> Design:
    """The design with all that its blocks hold.  `root` is its folder.

    Reports: file-*, block-form, block-unknown, block-circle, block-units, block-takes, block-not-taken, block-choice,
    stock-missing, item-missing, read-too-many, and what a section can be at fault with.
    """
    sizes = unequal(design.openings, report)
    design = design.model_copy(update={"openings": openings_of_sizes(design.openings, sizes), "unlike": sizes})
    entry = written.get("blocks")
    if entry is None:
        return design
    if not isinstance(entry.value, Block):
        if not isinstance(entry.value, Broken):
            report.wrong_type(entry.value.span, "`blocks` cannot be this.", "named entries, each `name: {use: ..., in: ...}`")
        return design
    stock, items = ({id: id for id in section} for section in (design.stock, design.items))
    binder = Binder(report, design.file)
    Sections(binder, Details((), report), joints.KINDS, None)
    room = _Room("", Path(design.file).name, entry.value, binder, stock, items)
    gathered = _Gathered(unlike=dict(sizes))
    _Carpenter(design, root, report, gathered).furnish(room)
    held = {section: {**getattr(design, section), **found} for section, found in gathered.held.items()}
    held["steps"] = steps_of_sizes(held["steps"], gathered.unlike)
    return design.model_copy(update={**held, "blocks": gathered.blocks, "unlike": gathered.unlike})


class _Carpenter:
    """Puts blocks into rooms."""

    def __init__(self, design: Design, root: Path, report: Report, gathered: _Gathered) -> None:
        self.design, self.root, self.report, self.gathered = design, root, report, gathered
        self.folder = Path(design.file).parent

    def furnish(self, room: _Room) -> None:
        for entry in room.section.entries:
            self.gathered.count += 1
            if self.gathered.count > MOST:
                message = "More blocks than a piece has are put in place, one within the other."
                self.report.fault("read-too-many", entry.span, message, expected=f"at most {MOST}")
                return
            self._put(entry, room)

    def _put(self, entry: Entry, room: _Room) -> None:
        where = Where(entry.span, f'block "{entry.name}"')
        if not isinstance(entry.value, Block):
            if not isinstance(entry.value, Broken):
                self.report.wrong_type(entry.value.span, f"{where.name} cannot be this.", "`{use: file.yaml, in: opening}`")
            return
        said = room.binder.value(entry.value.without(*OWN), BlockSaid, where)
        text = self._text(entry, room)
        if said is ABSENT or text is None or not self._may_enter(text, entry, room):
            return
        sizes = self.gathered.unlike.get(room.full(said.into.text)) if said.into and not said.repeat else None
        if not sizes:
            self._instance(entry, said, text, room)
            return
        each = blocks_of_sizes(entry.name, said, sizes)
        self.gathered.unlike[room.full(entry.name)] = tuple((name, places) for name, _, places in each)
        for name, own, _ in each:
            self.gathered.count += name != entry.name
            self._instance(replace(entry, key=replace(entry.key, text=name)), own, text, room)

    # -------------------------------------------------------- the words of a block

    def _text(self, entry: Entry, room: _Room) -> _Text | None:
        node = entry.value
        assert isinstance(node, Block)
        use = node.get("use")
        own = [each for each in node.entries if each.name in OWN]
        if use is None:
            if not node.get("parts"):
                message = f'Block "{entry.name}" says neither whose text it uses nor parts of its own.'
                self.report.fault("block-form", entry.span, message, expected="`use: blocks/drawer.yaml`, or `parts`")
                return None
            return self._written(entry, room)
        if own:
            message = f'Block "{entry.name}" uses another text and has `{own[0].name}` of its own.'
            self.report.fault("block-form", own[0].span, message, hints=("Say it there, or leave `use` out.",))
            return None
        if not isinstance(use.value, Scalar):
            return None
        beside = room.section.get(use.value.text)
        if beside and isinstance(beside.value, Block) and beside.value.get("parts"):
            return self._written(beside, room)
        return self._of_file(use.value, room)

    def _written(self, entry: Entry, room: _Room) -> _Text:
        node = entry.value
        assert isinstance(node, Block)
        own = Block(tuple(each for each in node.entries if each.name in OWN), node.span)
        return _Text(own, room.file, entry.name, f"{room.file}:{entry.name}:{entry.span.line}")

    def _of_file(self, use: Scalar, room: _Room) -> _Text | None:
        if not use.text.endswith((".yaml", ".yml")):
            names = [each.name for each in room.section.entries if isinstance(each.value, Block) and each.value.get("parts")]
            message, expected = f'No block "{use.text}" is written here.', "the path of a block file, `blocks/drawer.yaml`"
            self.report.fault("block-unknown", use.span, message, expected=expected, hints=did_you_mean(use.text, names))
            return None
        name = posixpath.normpath(posixpath.join(posixpath.dirname(room.file), use.text))
        node = self._node(use, name)
        if node is None:
            return None
        if not node.get("block"):
            message = "The file is used as a block and does not say `block`."
            self.report.fault("block-form", node.span, message, expected="`block: drawer`, what it is called")
            return None
        block = placed_photos(within_bounds(node.without("format"), self.report), self.root, self.design.file, self.report)
        return _Text(block, name, "", name)

    def _node(self, use: Scalar, name: str) -> Block | None:
        """The file as it is written; `name` is relative to the design's folder.  Reports file-*, read-*."""
        shown = str(self.folder / name)
        try:
            text = read_text(self.root, use.text if name.startswith("..") else name)
        except FileFault as fault:
            found = fault.diagnostic
            self.report.add(replace(found, span=found.span or use.span))
            return None
        return checked_top(read_source(text, shown, self.report), shown, self.report)

    def _may_enter(self, text: _Text, entry: Entry, room: _Room) -> bool:
        if text.key in room.trail:
            chain = " > ".join([*room.trail[room.trail.index(text.key) :], text.key])
            message, hint = f"A circle: {chain}.", "A block cannot hold itself; one of them must do without the other."
            self.report.fault("block-circle", entry.span, message, hints=(hint,))
            return False
        if len(room.trail) >= DEEPEST:
            message = f"More than {DEEPEST} blocks lie one within the other."
            self.report.fault("read-too-many", entry.span, message, expected=f"at most {DEEPEST}")
            return False
        return True

    # -------------------------------------------------------- one block in its place

    def _instance(self, entry: Entry, said: BlockSaid, text: _Text, room: _Room) -> None:
        path = room.full(entry.name)
        check_names(text.node, self.report)
        outer = Given(said, {"stock": room.stock, "item": room.items}, room.absent)
        taken = takings(text.node.get("takes"), outer, entry, self.report, path)
        _add_own(taken, text.node, path)
        binder, sections = self._binder(text, path, taken)
        sections.check_details()
        where = Where(text.node.span if text.name == "" else entry.span, f'block "{text.name or entry.name}"')
        apart = ("details", "blocks", "takes")
        block = binder.model(text.node.without(*apart), BlockFileSaid, where, also=apart)
        if not isinstance(block, BlockFileSaid):
            return
        self._check_units(block, text)
        self._gather(path, text.name, block, said, taken)
        inner = text.node.get("blocks")
        if inner and isinstance(inner.value, Block):
            absent = frozenset(name for name, given in taken.things.items() if not given)
            self.furnish(_Room(path, text.file, inner.value, binder, taken.stock, taken.items, absent, (*room.trail, text.key)))

    def _binder(self, text: _Text, path: str, taken: Taking) -> tuple[Binder, Sections]:
        binder = Binder(self.report, str(self.folder / text.file), scope=path, stands_for=taken.stands_for)
        details = Details(text.node.section("details"), self.report)
        return binder, Sections(binder, details, joints.KINDS, _as_section(taken.stock, text.node))

    def _gather(self, path: str, name: str, block: BlockFileSaid, said: BlockSaid, taken: Taking) -> None:
        kind = block.block.text if block.block else name.replace("_", " ")
        frame = block.frame if isinstance(block.frame, FrameSaid) else None
        if isinstance(block.frame, Said) and block.frame.text != "opening":
            message, expected = f"`frame: {block.frame.text}` is none.", "`opening`, or `{width: ..., depth: ..., height: ...}`"
            self.report.fault("block-form", block.frame.span, message, expected=expected)
        if frame and said.into:
            message = f'"{path}" has a frame of its own: it is placed by its faces, and fills no opening.'
            self.report.fault("block-form", said.into.span, message, expected="`left`, `front`, `bottom` and so on")
        said = said if said.photo or not block.photo else said.model_copy(update={"photo": block.photo})
        given = (taken.stock, taken.sizes, taken.choices, taken.things)
        self.gathered.blocks[path] = PlacedBlock(said, kind, frame, block.moves, *given, block.sources)
        sizes = unequal(block.openings, self.report)
        block = block.model_copy(update={"openings": openings_of_sizes(block.openings, sizes)})
        self.gathered.unlike.update({f"{path}.{name}": each for name, each in sizes.items()})
        for section, found in self.gathered.held.items():
            if section != "steps":
                found.update({f"{path}.{name}": value for name, value in getattr(block, section).items()})
        self.gathered.held["steps"].update(steps_of_block(path, kind, block, self.report))

    def _check_units(self, block: BlockFileSaid, text: _Text) -> None:
        """A length without a unit would be misread."""
        if block.units and block.units.text != self.design.units.text:
            message = f"The block is written in {block.units.text}, the design in {self.design.units.text}."
            related = (Related(self.design.units.span, "units of the design"),)
            hint = "Write its lengths with their unit and leave `units` out."
            self.report.fault("block-units", block.units.span, message, hints=(hint,), related=related)


def _add_own(taken: Taking, node: Block, path: str) -> None:
    """Stock and items that a block describes itself, beside those that it takes."""
    for section, names in (("stock", taken.stock), ("items", taken.items)):
        names.update({entry.name: f"{path}.{entry.name}" for entry in node.section(section)})


def _as_section(stock: Mapping[str, str], node: Block) -> Entry:
    """The stock that a block takes or describes, as one section."""
    known = tuple(Entry(Scalar(name, node.span), Block((), node.span)) for name in stock)
    return Entry(Scalar("stock", node.span), Block(known, node.span))
