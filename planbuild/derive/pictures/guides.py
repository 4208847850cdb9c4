"""Thin chains along which parts were pulled out, drawn on bare paper only and never more than needed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import shapely

from planbuild.core.geometry import Axis, Box, Vec
from planbuild.derive.paint import Frame
from planbuild.derive.pictures.explosion import Link
from planbuild.derive.views.view import Flat, View
from planbuild.records.drawing import Pen, Stroke, line
from planbuild.records.solids import Key

_AIR = 0.6
"""A chain ends this far before the wood, paper mm."""
_LEAST = 2.5
_LIMIT = 2
"""So many chains for parts that leave together in one direction: the outermost ones."""


def guide_strokes(
    view: View, frame: Frame, links: Sequence[Link], boxes: Mapping[Key, Box], moved: Mapping[Key, Vec]
) -> tuple[Stroke, ...]:
    """Chains from where each part is drawn to where it goes home."""
    wood = frame.shape(shapely.union_all(list(view.visible.values()))).buffer(_AIR)
    found: list[Stroke] = []
    for link in _outermost(links, boxes, moved, view):
        start, stop = (frame.point(p) for p in _ends(link, boxes, moved, view))
        bare = shapely.LineString([start, stop]).difference(wood)
        found += [Stroke(Pen.GUIDE, line(*part.coords)) for part in shapely.get_parts(bare) if part.length >= _LEAST]
    return tuple(found)


def _ends(link: Link, boxes: Mapping[Key, Box], moved: Mapping[Key, Vec], view: View) -> tuple[Flat, Flat]:
    """The middle of the joint, moved with the part and moved with its mate, in the view."""
    spot = _meeting(boxes[link.moving], boxes[link.mate], link.axis)
    by, to = moved[link.moving], moved[link.mate]
    home = tuple(s + (b if axis is link.axis else a) for s, a, b, axis in zip(spot, by, to, Axis, strict=True))
    away = tuple(s + a for s, a in zip(spot, by, strict=True))
    return view.camera.flat((away[0], away[1], away[2])), view.camera.flat((home[0], home[1], home[2]))


def _meeting(a: Box, b: Box, axis: Axis) -> Vec:
    """The middle of what two boxes share, or of where they meet."""
    common = a.meet(b)
    return common.centre


def _outermost(links: Sequence[Link], boxes: Mapping[Key, Box], moved: Mapping[Key, Vec], view: View) -> list[Link]:
    """Of the links of parts that were moved alike the two that lie furthest apart on the paper."""
    groups: dict[tuple[object, ...], list[Link]] = {}
    for link in links:
        by = tuple(round(v, 3) for v in moved[link.moving])
        to = round(moved[link.mate][link.axis.value], 3)
        groups.setdefault((link.moving[0], link.axis, link.sign, by, to), []).append(link)
    kept = []
    for group in groups.values():
        ordered = sorted(group, key=lambda each: _ends(each, boxes, moved, view)[0])
        kept += ordered if len(ordered) <= _LIMIT else [ordered[0], ordered[-1]]
    return kept


