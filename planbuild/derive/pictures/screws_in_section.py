"""The screw in the section of a screwed joint: head, shank and thread where they sit, so that the hole explains itself.

Drawn from the hole and the length that the joint states; the shapes of head and thread are a draughtsman's, in
proportion to the shank (common practice).  Units: model mm in the plane of the section.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from planbuild.core.geometry import Axis, Box, Face
from planbuild.derive.paint import Frame
from planbuild.derive.pictures.joint_places import Place
from planbuild.derive.pictures.section import Plane
from planbuild.derive.pictures.studio import Studio
from planbuild.derive.views.view import Camera, Flat
from planbuild.records.drawing import Fill, Pen, Stroke, Tint, line, ring
from planbuild.records.features import Hole
from planbuild.records.legibility import PaperBox, box_of
from planbuild.records.piece import Joint

_SHANK = 0.92
"""Of the hole it passes freely."""
_HEAD, _HIGH, _SHOULDER = 0.95, 0.55, 0.35
"""Half width, height and height of the side of a round head, in shanks."""
_PLAIN = 0.4
"""Of its length a wood screw has no thread on this share, at least."""
_PITCH, _POINT = 0.45, 0.9
"""Distance of the threads and length of the point, in shanks."""


@dataclass(frozen=True)
class Screw:
    """Its outline and the lines of its thread in the view."""

    outline: tuple[Flat, ...]
    thread: tuple[tuple[Flat, Flat], ...]

    def box(self, frame: Frame) -> PaperBox:
        return box_of([frame.point(p) for p in self.outline])

    def fill(self, frame: Frame) -> Fill:
        return Fill(Tint.BOUGHT_FRONT, ring(*(frame.point(p) for p in self.outline)))

    def strokes(self, frame: Frame) -> tuple[Stroke, ...]:
        lines = (Stroke(Pen.SMOOTH, line(*(frame.point(p) for p in each))) for each in self.thread)
        return (*lines, Stroke(Pen.VISIBLE, ring(*(frame.point(p) for p in self.outline))))


def screw_in(studio: Studio, joint: Joint, spot: Place, plane: Plane, hole: Hole, stands: Box, camera: Camera) -> Screw | None:
    """The screw in the hole that the saw meets; `stands` is the wood it goes through.  None if it is seen end on."""
    key = next(key for key in spot.keys if hole in studio.part(key).features)
    head = studio.part(key).copies[key[1]].motion.face(hole.face)
    if head.axis is plane.axis:
        return None
    seat = stands.at(head) - head.sign * (hole.counterbore[1] if hole.counterbore else 0.0)
    room = abs(seat - stands.at(head.opposite))
    stated = dict(joint.numbers).get("screw length")
    length = min(stated, room) if isinstance(stated, float) else room
    shank = _SHANK * hole.diameter
    place = _Place(head, seat, stands, plane, camera)
    profile = [*_head(hole, shank), (length - _POINT * shank, shank / 2), (length, 0.0)]
    outline = [place.at(s, r) for s, r in profile] + [place.at(s, -r) for s, r in reversed(profile[:-1])]
    return Screw(tuple(outline), tuple(_thread(place, shank, length)))


@dataclass(frozen=True)
class _Place:
    """Where the head sits, and which way the screw goes from there."""

    head: Face
    seat: float
    stands: Box
    plane: Plane
    camera: Camera

    def at(self, along: float, aside: float) -> Flat:
        """The place so far in from the seat and so far aside of the centre line."""
        square = next(axis for axis in Axis if axis not in (self.head.axis, self.plane.axis))
        where = {
            self.head.axis: self.seat - self.head.sign * along,
            square: self.stands.along(square).middle + aside,
            self.plane.axis: self.plane.at,
        }
        return self.camera.flat((where[Axis.LEFT_RIGHT], where[Axis.FRONT_BACK], where[Axis.BOTTOM_TOP]))


def _head(hole: Hole, shank: float) -> list[Flat]:
    """From the middle of the head to the shank: a cone in its countersink, else a round head on its seat."""
    if hole.countersink:
        return [(0.0, hole.countersink[0] / 2), (hole.countersink_depth, shank / 2)]
    wide = _HEAD * shank
    return [(-_HIGH * shank, 0.6 * wide), (-_SHOULDER * shank, wide), (0.0, wide), (0.0, shank / 2)]


def _thread(place: _Place, shank: float, length: float) -> Iterator[tuple[Flat, Flat]]:
    """Slanted lines across the shank, from where the thread begins to the point."""
    start, end = _PLAIN * length, length - _POINT * shank
    count = max(int((end - start) / (_PITCH * shank)), 1)
    stations = [start + (end - start) * i / count for i in range(count + 1)]
    for low, high in pairwise(stations):
        yield place.at(low, -shank / 2), place.at(high, shank / 2)
