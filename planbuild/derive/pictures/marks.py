"""Marks as ink: a circle with the mark in it, a thin leader, a dot where it ends."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

import shapely
from shapely import Geometry

from planbuild.derive.dimension_lines import Ink
from planbuild.derive.paint import Frame
from planbuild.derive.pictures.compose import Written
from planbuild.derive.pictures.label_search import flaws, place
from planbuild.derive.pictures.labels import HEIGHT, RADIUS, Label, Site
from planbuild.derive.pictures.studio import Studio
from planbuild.derive.views.view import View
from planbuild.records.drawing import Fill, Path, Pen, Point, Step, Stroke, Text, TextRole, Tint, circle, line
from planbuild.records.legibility import PaperBox
from planbuild.records.solids import Key

_DOT = 0.42
_KAPPA = 0.5522847498307936


_NOTHING = Ink()
_LEAST = 0.3
"""A face of less than this (mm2 on paper) is no place for a leader to end."""


def sites(studio: Studio, view: View, frame: Frame, parts: Sequence[str], among: Sequence[Key] = ()) -> list[Site]:
    """One site for each part named, with the visible faces of each copy on paper; copies `among` these if any are."""
    faces: dict[Key, list[Geometry]] = {}
    for region in view.regions:
        face = frame.shape(shapely.Polygon(region.rings[0], region.rings[1:]))
        if face.area > _LEAST:
            faces.setdefault(region.key, []).append(face)
    return [Site(studio.piece.part(id).mark, id, _copies(faces, id, among)) for id in parts]


def _copies(faces: Mapping[Key, list[Geometry]], id: str, among: Sequence[Key]) -> tuple[tuple[Geometry, ...], ...]:
    keys = [key for key in sorted(faces) if key[0] == id]
    wanted = [key for key in keys if key in among] or keys
    return tuple(tuple(faces[key]) for key in wanted)


def marked(found: Sequence[Site], taken: Geometry, room: PaperBox, before: Ink = _NOTHING, faults: float = 0.0) -> Written:
    """Marks for the sites on top of what was written `before` (its `faults` count); `taken` is the paper that is not free."""
    labels = place(found, taken, room)
    ink, rims = mark_ink(labels)
    return Written(before.plus(ink), rims, faults + flaws(labels, found))


def drawn(view: View, frame: Frame) -> Geometry:
    """All that the picture covers, on paper."""
    return frame.shape(shapely.union_all(list(view.visible.values())))


def mark_ink(labels: Iterable[Label]) -> tuple[Ink, tuple[Stroke, ...]]:
    """Leaders, dots, discs and letters; and the rims, which are painted last."""
    ink, rims = Ink(), []
    for label in labels:
        outline = _pill(label.centre, label.half_width)
        leader, dot = _leader(label)
        base = label.centre[0], label.centre[1] + HEIGHT / 2
        text = Text(label.text, base, HEIGHT, TextRole.MARK, bold=True, refers=label.refers)
        ink = ink.plus(Ink(leader, (*dot, Fill(Tint.PAPER, outline)), (text,)))
        rims.append(Stroke(Pen.LEADER, outline))
    return ink, tuple(rims)


def _leader(label: Label) -> tuple[tuple[Stroke, ...], tuple[Fill, ...]]:
    if label.end is None:
        return (), ()
    return (Stroke(Pen.LEADER, line(_rim(label), label.end)),), (Fill(Tint.INK, circle(label.end, _DOT)),)


def _rim(label: Label) -> Point:
    """Where the leader leaves the outline of the mark."""
    assert label.end is not None
    dx, dy = label.end[0] - label.centre[0], label.end[1] - label.centre[1]
    away = math.hypot(dx, dy)
    return label.centre[0] + dx * RADIUS / away, label.centre[1] + dy * RADIUS / away


def _pill(centre: Point, half: float) -> Path:
    """A circle, or one drawn out to both sides."""
    if half <= RADIUS:
        return circle(centre, RADIUS)
    x, y = centre
    r, k, flat = RADIUS, RADIUS * _KAPPA, half - RADIUS
    a, b = x - flat, x + flat
    return (
        Step("M", ((a, y - r),)),
        Step("L", ((b, y - r),)),
        Step("C", ((b + k, y - r), (b + r, y - k), (b + r, y))),
        Step("C", ((b + r, y + k), (b + k, y + r), (b, y + r))),
        Step("L", ((a, y + r),)),
        Step("C", ((a - k, y + r), (a - r, y + k), (a - r, y))),
        Step("C", ((a - r, y - k), (a - k, y - r), (a, y - r))),
        Step("Z"),
    )
