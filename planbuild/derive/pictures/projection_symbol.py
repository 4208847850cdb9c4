"""The sign that tells how views are arranged: a truncated cone and its view from the left."""

from __future__ import annotations

from planbuild.records.drawing import Drawing, Pen, Stroke, circle, line, ring
from planbuild.records.edition import Edition, Projection

_SMALL, _LARGE = 2.5, 5.0
_LENGTH = 5.0
_GAP = 3.0
_PAST = 1.0


def projection_symbol(edition: Edition) -> Drawing:
    """The symbol of the edition's arrangement of views.  Source: ISO 5456-2.  Units: paper mm."""
    third = edition.projection is Projection.THIRD
    width, height = _LENGTH + _GAP + _LARGE + 2 * _PAST, _LARGE + 2 * _PAST
    middle = height / 2
    cone = _PAST + _LARGE + _GAP if third else _PAST
    rings = _PAST + _LARGE / 2 if third else cone + _LENGTH + _GAP + _LARGE / 2
    frustum = ring(
        (cone, middle - _SMALL / 2),
        (cone + _LENGTH, middle - _LARGE / 2),
        (cone + _LENGTH, middle + _LARGE / 2),
        (cone, middle + _SMALL / 2),
    )
    outline = [frustum, circle((rings, middle), _SMALL / 2), circle((rings, middle), _LARGE / 2)]
    centre = [
        line((cone - _PAST, middle), (cone + _LENGTH + _PAST, middle)),
        line((rings - _LARGE / 2 - _PAST, middle), (rings + _LARGE / 2 + _PAST, middle)),
        line((rings, 0.0), (rings, height)),
    ]
    strokes = [Stroke(Pen.VISIBLE, path) for path in outline] + [Stroke(Pen.CENTRE, path) for path in centre]
    alt = f"Symbol of {edition.projection.value} projection."
    return Drawing("projection", width, height, (), tuple(strokes), (), (), (), alt)
