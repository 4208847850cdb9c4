"""How parts of a step stand before they go home: units pulled back along their way, an arrow behind each.

Copies that move alike are one unit; what is driven in afterwards (wedges, buttons) is a unit of its own.
Units: model mm; arrows in paper mm.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import shapely
from shapely import Geometry

from planbuild.core.geometry import Axis, Box, Vec, hull
from planbuild.derive.dimension_lines import Ink
from planbuild.derive.paint import Frame
from planbuild.derive.pictures.explosion import Link, offsets
from planbuild.derive.scene import Scene
from planbuild.derive.views.view import Camera
from planbuild.records.drawing import Fill, Pen, Point, Stroke, Tint, line, ring
from planbuild.records.legibility import segments
from planbuild.records.piece import Piece
from planbuild.records.solids import Key

_CLEAR = 0.09
"""Air between parted units, as a share of the longest side of the scene."""
_SHAFT, _HEAD, _WING, _AIR = 11.0, 3.6, 1.25, 2.0
"""Arrow: whole length, head, half its width, and the air before the wood.  Paper mm."""
REACH = _SHAFT + _AIR + 0.5
"""How far an arrow may reach beyond the wood, paper mm."""

Units = dict[Key, list[Key]]


def pulled_back(piece: Piece, scene: Scene, boxes: Mapping[Key, Box], links: Sequence[Link]) -> dict[Key, Vec]:
    """The shift of every copy in the scene."""
    units = _units(piece, scene, boxes)
    unit_of = {key: unit for unit, keys in units.items() for key in keys}
    hulls = {unit: hull([boxes[key] for key in keys]) for unit, keys in units.items()}
    between = [
        Link(unit_of[each.moving], unit_of[each.mate], each.axis, each.sign, each.engaged)
        for each in links
        if unit_of[each.moving] != unit_of[each.mate] and _is_opened(scene, each)
    ]
    whole = hull(list(hulls.values()))
    clear = _CLEAR * max(whole.size(axis) for axis in Axis)
    shifts = offsets(hulls, between, dict.fromkeys(Axis, clear))
    return {key: shifts[unit] for unit, keys in units.items() for key in keys}


def _is_opened(scene: Scene, link: Link) -> bool:
    """True if one of the two moves along the way on which the joint closes."""
    ways = (scene.moves.get(link.moving), scene.moves.get(link.mate))
    return any(way and abs(way[link.axis.value]) > 0.5 for way in ways)


def _units(piece: Piece, scene: Scene, boxes: Mapping[Key, Box]) -> Units:
    """Copies that move the same way together, new made parts apart, all that stays still as one."""
    found: dict[tuple[object, ...], list[Key]] = {}
    for key in boxes:
        way = scene.moves.get(key)
        made = key in scene.new and bool(piece.part(key[0]).made_by)
        found.setdefault((tuple(round(v) for v in way) if way else None, made), []).append(key)
    return {(f"unit {n}", 0): keys for n, keys in enumerate(found.values())}


def arrows(
    piece: Piece, scene: Scene, boxes: Mapping[Key, Box], moved: Mapping[Key, Vec], camera: Camera, frame: Frame
) -> Ink:
    """An arrow behind each unit that moves, two where the unit is wide: the largest copies carry them."""
    ink = Ink()
    for keys in _units(piece, scene, boxes).values():
        way = scene.moves.get(keys[0])
        if way is None:
            continue
        count = 1 if piece.part(keys[0][0]).made_by else 2
        largest = sorted(keys, key=lambda k: (-round(boxes[k].volume), -camera.depth(boxes[k].centre), k))[:count]
        for key in largest:
            ink = ink.plus(_arrow(_tail(boxes[key], moved[key], way), way, camera, frame))
    return ink


def around(ink: Ink) -> Geometry:
    """The paper that arrows take up, with a little air."""
    lines = [shapely.LineString(segment) for stroke in ink.strokes for segment in segments(stroke.path)]
    heads = [shapely.LineString(segment) for fill in ink.covers for segment in segments(fill.path)]
    return shapely.union_all([*lines, *heads]).buffer(_WING)


def _tail(box: Box, by: Vec, way: Vec) -> Vec:
    """The middle of the face that looks back along the way."""
    x, y, z = (c + b - w * box.size(axis) / 2 for c, b, w, axis in zip(box.centre, by, way, Axis, strict=True))
    return x, y, z


def _arrow(tail: Vec, way: Vec, camera: Camera, frame: Frame) -> Ink:
    tip, ahead = frame.point(camera.flat(tail)), camera.flat(way)
    size = math.hypot(*ahead)
    if size < 0.2:
        return Ink()
    u, v = ahead[0] / size, -ahead[1] / size
    end = (tip[0] - _AIR * u, tip[1] - _AIR * v)

    def back(by: float, aside: float = 0.0) -> Point:
        return end[0] - by * u - aside * v, end[1] - by * v + aside * u

    head = ring(end, back(_HEAD, _WING), back(_HEAD, -_WING))
    return Ink((Stroke(Pen.MOVE, line(back(_HEAD * 0.8), back(_SHAFT))),), (Fill(Tint.ACCENT, head),), ())
