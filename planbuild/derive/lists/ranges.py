"""The sizes that a reader may change, with how far and to what end."""

from __future__ import annotations

from planbuild.records.edition import Edition
from planbuild.records.facts import SizeRange
from planbuild.records.piece import NamedSize, Piece


def ranges(piece: Piece, edition: Edition) -> tuple[SizeRange, ...]:
    """Sizes with a range, in the order of the design."""
    return tuple(_range(each, edition) for each in piece.sizes if each.low is not None or each.high is not None)


def _range(size: NamedSize, edition: Edition) -> SizeRange:
    return SizeRange(size.name, edition.ruler.printed(size.value), _text(size, edition), size.help, size.why)


def _text(size: NamedSize, edition: Edition) -> str:
    printed = edition.ruler.printed
    if size.low is None:
        return f"up to {printed(size.high or 0.0)}"
    return f"from {printed(size.low)}" if size.high is None else f"{printed(size.low)} to {printed(size.high)}"
