"""The top of a file: a mapping whose first line is `format: 1`."""

from __future__ import annotations

from planbuild.core.diagnostics import Span
from planbuild.read.nodes import Block, Broken, Node, Scalar
from planbuild.read.report import Report
from planbuild.read.vocabulary import FORMAT


def checked_top(node: Node | None, file: str, report: Report) -> Block | None:
    """The file's block, or None after reporting read-not-a-design, read-format-missing or read-format-later."""
    start = Span(file, 1, 1)
    if not isinstance(node, Block):
        if not isinstance(node, Broken):
            what = "is empty" if node is None else "holds no named fields"
            expected = "`format: 1`, then `title: ...` and the other fields"
            report.fault("read-not-a-design", start, f"The file {what}.", expected=expected)
        return None
    first, wanted = node.get("format"), f"`format: {FORMAT}` as the first line"
    if not first:
        report.fault("read-format-missing", start, "The file does not say its format.", expected=wanted, hints=("Add it.",))
    elif isinstance(first.value, Scalar) and first.value.text != FORMAT:
        span = first.value.span
        message = f"Format {first.value.text} is not known to this version."
        report.fault("read-format-later", span, message, expected=f"`format: {FORMAT}`")
    elif node.entries[0] is not first:
        report.fault("read-format-missing", first.span, "`format` stands further down.", expected=wanted)
    return node
