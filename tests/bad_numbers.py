"""Designs with one number said badly: each number of a text in turn, and what may come of it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.pipeline import Clock, resolve_file
from planbuild.prove import prove
from planbuild.shape import kernel, shape

NUMBER = re.compile(r"(?<![\w:./-])\d+(?:\.\d+)?(?![\w:./])|(?<!\d)\d+:\d+(?!\d)")
"""A plain number, or a slope."""
NEVER = ("-5", "1e-9", "100000000")
"""No size, place or count of furniture, or not said as this language says it."""
PERHAPS = ("0", "0.000000001")
"""No size; but a place may lie at an edge, and a clearance be none."""
NO_SLOPE = ("0:1", "1:0", "-1:8", "1:1000000000", "1000000:1")


def spoiled(text: str) -> Iterator[tuple[str, str]]:
    """The text with each of its numbers said badly in every way, and what was said."""
    for found in NUMBER.finditer(text):
        for bad in NO_SLOPE if ":" in found[0] else (*NEVER, *PERHAPS):
            yield text[: found.start()] + bad + text[found.end() :], bad


def told(design: str, file: Path) -> tuple[Sequence[Diagnostic], bool]:
    """The errors that are told of a design, and whether its solids (if it came to any) are all whole."""
    file.write_text(design, "utf-8")
    try:
        piece = resolve_file(file, Clock())
        solids = shape(piece)
        found = prove(piece, solids).diagnostics
    except Refused as refused:
        return [each for each in refused.diagnostics if each.stops], True
    whole = all(_is_whole(solids.of[part.id].cut.wrapped) for part in piece.parts)
    return [each for each in found if each.stops], whole


def _is_whole(solid: kernel.Shape) -> bool:
    return len(kernel.solids_of(solid)) == 1 and kernel.is_valid(solid)
