"""Which places of a piece are worth a dimension on its three views: those that decide the look.

A heuristic: across, where the piece stands on the floor; upright, the undersides of what shows in the view.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from planbuild.core.geometry import TINY, Axis, Box, Span1, hull
from planbuild.derive.views.view import View
from planbuild.records.piece import Piece
from planbuild.records.solids import Key

_SHOWS = 0.3
"""A part counts if so much of its box is seen."""

Places = tuple[float, ...]
"""Positions along an axis in order, mm in the frame of the piece; neighbours make a chain."""


def bodies(piece: Piece) -> dict[Key, Box]:
    """Every part of the design where it stands, shoulder to shoulder."""
    return {(p.id, i): p.box(i, p.body) for p in piece.parts if not p.made_by for i in range(len(p.copies))}


def across(piece: Piece, axis: Axis) -> Places:
    """The outer faces of what stands on the floor, between the ends of the piece; one side only if both are alike."""
    found = bodies(piece)
    whole = hull(list(found.values()))
    feet = hull([box for box in found.values() if box.z.low < whole.z.low + TINY])
    ends = (whole.along(axis).low, feet.along(axis).low, feet.along(axis).high, whole.along(axis).high)
    places = _merged(list(ends))
    return places[:-1] if len(places) == 4 and _alike(places) else places


def upright(piece: Piece, view: View) -> Places:
    """Undersides of the parts that show in a view, between floor and top."""
    shown = [box.z for key, box in bodies(piece).items() if _share(view, key, box) > _SHOWS]
    whole = hull(list(bodies(piece).values())).z
    top = [span.low for span in shown if not _floor_to_top(span, whole) and span.high < whole.high - TINY]
    return _merged([*top, whole.low, whole.high])


def _floor_to_top(span: Span1, whole: Span1) -> bool:
    """Posts say nothing about heights that the parts between them do not say."""
    return span.low < whole.low + TINY and span.size > whole.size / 2


def _share(view: View, key: Key, box: Box) -> float:
    """How much of a box's outline is seen; straight views only."""
    flat = [axis for axis in Axis if abs(view.camera.toward[axis.value]) < 0.5]
    seen: Mapping[Key, object] = view.visible
    area = box.size(flat[0]) * box.size(flat[1])
    return float(seen[key].area) / area  # type: ignore[attr-defined]


def _merged(ends: list[float]) -> Places:
    """In order, each once."""
    found: list[float] = []
    for end in sorted(ends):
        if not found or end - found[-1] > TINY:
            found.append(end)
    return tuple(found)


def _alike(places: Places) -> bool:
    """True if the places mirror each other about their middle."""
    middle = places[0] + places[-1]
    return all(abs(a + b - middle) < TINY for a, b in zip(places, reversed(places), strict=True))


def chain(places: Places) -> list[tuple[float, float]]:
    return list(pairwise(places))
