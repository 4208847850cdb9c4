"""Photos named in a design: each must lie in the design's folder; nothing else of the disk is ever shown."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path, PurePosixPath

from planbuild.core.files import PHOTO_LIMIT, FileFault, inside
from planbuild.read.nodes import Block, Broken, Entry, Node, Row, Scalar
from planbuild.read.report import Report

KINDS = (".jpg", ".jpeg", ".png")


def placed_photos(block: Block, root: Path, file: str, report: Report) -> Block:
    """The block with every `photo` told relative to the design's folder, wherever it was written.

    Reports: file-outside, file-missing, file-not-plain, file-too-big, photo-kind.
    """
    home = Path(file).parent

    def placed(node: Node) -> Node:
        if isinstance(node, Block):
            entries = (Entry(each.key, photo(each) if each.name == "photo" else placed(each.value)) for each in node.entries)
            return Block(tuple(entries), node.span)
        return Row(tuple(placed(each) for each in node.items), node.span) if isinstance(node, Row) else node

    def photo(entry: Entry) -> Node:
        word = entry.value
        if isinstance(word, Block):  # the long form: `{value: knob.jpg, help: "..."}`
            entries = (Entry(each.key, photo(each) if each.name == "value" else each.value) for each in word.entries)
            return Block(tuple(entries), word.span)
        if not isinstance(word, Scalar):
            return word
        beside = Path(word.span.file).parent.relative_to(home)
        return _checked(word, str(PurePosixPath(beside.as_posix()) / word.text), root, report)

    checked = placed(block)
    assert isinstance(checked, Block)
    return checked


def _checked(word: Scalar, name: str, root: Path, report: Report) -> Node:
    try:
        inside(root, name, PHOTO_LIMIT)
    except FileFault as fault:
        report.add(replace(fault.diagnostic, span=word.span))
        return Broken(word.span)
    if PurePosixPath(name).suffix.lower() not in KINDS:
        report.fault("photo-kind", word.span, f'"{word.text}" is not a photo this version can print.', expected=", ".join(KINDS))
        return Broken(word.span)
    return Scalar(name, word.span, word.quoted)
