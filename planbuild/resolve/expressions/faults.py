"""How a value is refused: with the exact letters that cannot be read."""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic, Span
from planbuild.records.design import Said


@dataclass(frozen=True)
class Stretch:
    """Letters `start` to `end` of a value's text, counted from 0."""

    start: int
    end: int

    def to(self, other: Stretch) -> Stretch:
        return Stretch(min(self.start, other.start), max(self.end, other.end))


class Misread(Exception):
    """A value that cannot be understood, at a stretch of its own text."""

    def __init__(self, code: str, message: str, at: Stretch, expected: str = "", hints: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.code, self.message, self.at = code, message, at
        self.expected, self.hints = expected, hints

    def told(self, said: Said) -> Diagnostic:
        """The finding, pointing into the text that was said."""
        return Diagnostic(self.code, self.message, span=span_in(said, self.at), expected=self.expected, hints=self.hints)


class Poisoned(Exception):
    """What was asked for rests on something already reported: whoever asks stays silent."""


def span_in(said: Said, at: Stretch) -> Span:
    """The place in the file of a stretch of a value; of the whole value where it does not stand there letter for letter."""
    whole = said.span
    if whole.length != len(said.text) or at.start >= whole.length:
        return whole
    return Span(whole.file, whole.line, whole.column + at.start, min(max(1, at.end - at.start), whole.length - at.start))
