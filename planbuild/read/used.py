"""Which things of a series a design uses: those that this version cannot build are refused only then."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from planbuild.core.diagnostics import Diagnostic, Related
from planbuild.read.nodes import Block, Entry, Node, Row, Scalar
from planbuild.read.report import Report
from planbuild.read.schema import NOT_BUILT
from planbuild.read.vocabulary import PROSE

NAMED = ("sizes", "stock", "items", "details", "finishes")
_NAME = re.compile(r"[a-z][a-z0-9_]*")


def refuse_used(design: Block, file: str, apart: Mapping[str, Diagnostic], report: Report) -> None:
    """Reports `not-built-yet` for each thing of `apart` that the design reaches, directly or through the series."""
    shared = {e.name: e.value for section in NAMED for e in design.section(section) if e.span.file != file}
    told = {each.name for each in design.section("details")}  # what uses a detail has told of it when it was bound
    waiting: list[Node] = [each.value for each in _own(design, file)]
    seen: set[str] = set()
    while waiting:
        for word in _words(waiting.pop()):
            for name in (name for name in _NAME.findall(word.text) if name in shared and name not in seen):
                seen.add(name)
                waiting.append(shared[name])
                if name in apart and name not in told:
                    report.add(_refusal(name, word, apart[name]))


def _own(design: Block, file: str) -> Iterator[Entry]:
    """What the design itself says, section by section."""
    for entry in design.entries:
        if isinstance(entry.value, Block):
            yield from (each for each in entry.value.entries if each.span.file == file)
        elif entry.span.file == file:
            yield entry


def _words(node: Node) -> Iterator[Scalar]:
    """Every text in a node that is not a sentence."""
    if isinstance(node, Scalar):
        yield node
    elif isinstance(node, Row):
        for item in node.items:
            yield from _words(item)
    elif isinstance(node, Block):
        for entry in node.entries:
            if entry.name not in PROSE:
                yield from _words(entry.value)


def _refusal(name: str, use: Scalar, reason: Diagnostic) -> Diagnostic:
    related = (Related(reason.span, reason.message),) if reason.span else ()
    message = f'"{name}" of the series cannot be built yet.'
    return Diagnostic(NOT_BUILT, message, span=use.span, label="used here", related=related)
