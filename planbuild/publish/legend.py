"""How to read the sheets: the lines, signs and tints of this plan's drawings, each with a sample and a few words.

What no drawing holds is not explained, and everything that a drawing holds is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from planbuild.publish import samples
from planbuild.records.drawing import Drawing, Pen, Stroke, TextRole, Tint
from planbuild.records.facts import Facts


@dataclass(frozen=True)
class Entry:
    """One sample and what it means."""

    sample: Drawing
    words: str


TINTS = (
    ("wood", (Tint.UP, Tint.FRONT, Tint.SIDE), "wood: lightest where it looks up"),
    ("new", (Tint.NEW_UP, Tint.NEW_FRONT, Tint.NEW_SIDE), "new in this step"),
    ("standing", (Tint.PALE_UP, Tint.PALE_FRONT, Tint.PALE_SIDE), "already there"),
)


def legend(facts: Facts) -> tuple[Entry, ...]:
    """What this plan uses, in the order in which it is explained; light construction lines explain themselves."""
    drawings = tuple(facts.drawings.values())
    return tuple(Entry(sample(), words) for used, sample, words in _KNOWN if used(drawings)) + tuple(_tints(drawings))


_Drawings = tuple[Drawing, ...]


def _tints(drawings: _Drawings) -> Iterator[Entry]:
    used = {fill.tint for drawing in drawings for fill in drawing.fills}
    for name, tints, words in TINTS:
        if used & set(tints):
            yield Entry(samples.tint_sample(tints, name), words)


def _strokes(drawings: _Drawings) -> Iterator[Stroke]:
    return (stroke for drawing in drawings for stroke in (*drawing.strokes, *drawing.cover_strokes))


def _drawn_with(*pens: Pen) -> Callable[[_Drawings], bool]:
    return lambda drawings: any(stroke.pen in pens for stroke in _strokes(drawings))


def _running(drawings: _Drawings) -> bool:
    """A dimension line is straight but for the ring at the start of running sizes."""
    curved = (stroke for stroke in _strokes(drawings) if stroke.pen is Pen.DIMENSION)
    return any(step.verb == "C" for stroke in curved for step in stroke.path)


def _bracketed(drawings: _Drawings) -> bool:
    figures = (text for drawing in drawings for text in drawing.texts if text.role is TextRole.DIMENSION)
    return any(text.text.startswith("(") for text in figures)


def _written(words: str) -> Callable[[_Drawings], bool]:
    return lambda drawings: any(text.text == words for drawing in drawings for text in drawing.texts)


def _line(pen: Pen) -> Callable[[], Drawing]:
    return lambda: samples.line_sample(pen)


_Known = tuple[Callable[[_Drawings], bool], Callable[[], Drawing], str]
_KNOWN: tuple[_Known, ...] = (
    (_drawn_with(Pen.VISIBLE, Pen.OUTLINE), _line(Pen.VISIBLE), "edge you see"),
    (_drawn_with(Pen.HIDDEN), _line(Pen.HIDDEN), "edge behind wood"),
    (_drawn_with(Pen.BREAK), _line(Pen.BREAK), "stretch left out"),
    (_drawn_with(Pen.CENTRE), _line(Pen.CENTRE), "centre line"),
    (_drawn_with(Pen.CUTTING), samples.trace_sample, "cut for section A–A; arrows show the way you look"),
    (_drawn_with(Pen.SECTION), samples.cut_sample, "cut wood, with its grain"),
    (_drawn_with(Pen.DIMENSION), samples.size_sample, "size, from arrow to arrow"),
    (_running, samples.running_sample, "running sizes: each counts from the ring"),
    (_bracketed, samples.bracket_sample, "follows from other sizes; to check with"),
    (_written("face side"), samples.face_side_sample, "face side"),
    (_written("face edge"), samples.face_edge_sample, "face edge"),
    (_written("grain"), samples.grain_sample, "way of the grain"),
    (_drawn_with(Pen.MOVE), _line(Pen.MOVE), "way a part goes home"),
    (_drawn_with(Pen.GUIDE), _line(Pen.GUIDE), "where a part was pulled from"),
)
