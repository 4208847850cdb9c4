"""Ends sawn at an angle, or at two: said in words here; ends that meet a leaned part follow it without a word."""

from __future__ import annotations

import math

from planbuild.core.geometry import Axis
from planbuild.records.shapes_said import EndCutSaid
from planbuild.records.slanted import EndCut
from planbuild.resolve.blank import Blank, said_of
from planbuild.resolve.sayings import AXES

STEEPEST = 75.0
"""Degrees from square; beyond it a saw only scrapes along the board (a choice of ours)."""


def end_cut(said: EndCutSaid, blank: Blank) -> EndCut:
    """The longest corner stays where the end of the board is.

    Reports `shape-face`, `shape-end-cut`, `shape-edge-twice`, `shape-eats`; raises Poisoned.
    """
    end = blank.end(said.end)
    if end in blank.ends_cut:
        raise blank.sayings.refuse("shape-edge-twice", said.end, f'The {end.value} end of "{blank.id}" is already cut.')
    slopes = _slopes(said, blank)
    lost = 2 * sum(math.tan(math.radians(abs(angle))) * float(blank.size(axis)) / 2 for axis, angle in slopes)
    long = float(blank.size(blank.grain)) - sum(blank.ends_cut.values())
    if lost >= long:
        word = next(iter(said.angles.values()))
        message = f'The cut runs through the whole of "{blank.id}".'
        raise blank.sayings.refuse("shape-eats", word, message, "a smaller angle")
    blank.ends_cut[end] = lost
    at = float(blank.at(end)) - end.sign * lost / 2
    return EndCut(blank.unique("end_cut", end.value), **said_of(said), end=end, at=at, slopes=slopes)


def _slopes(said: EndCutSaid, blank: Blank) -> tuple[tuple[Axis, float], ...]:
    """Both directions across the grain, square where nothing is said."""
    found = dict.fromkeys(blank.grain.others, 0.0)
    for word, angle in said.angles.items():
        axis = AXES.get(word)
        if axis is None or axis not in found:
            known = " or ".join(each.words for each in found)
            message = f'"{word}" is no direction across the grain of "{blank.id}".'
            raise blank.sayings.refuse("shape-face", angle, message, known)
        degrees = blank.sayings.degrees(angle)
        if not 0 < abs(degrees) <= STEEPEST:
            message = f"`{angle.text}` from square is no cut for a saw."
            raise blank.sayings.refuse("shape-end-cut", angle, message, f"an angle from square of at most {STEEPEST:g} deg")
        found[axis] = degrees
    return tuple(found.items())
