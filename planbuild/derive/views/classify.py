"""Outline or inner edge: a line on the border of what is seen of its body is outline.

Source of the distinction: readers find occlusion borders first (Cole et al. 2008; Sheng et al. 2021).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np
import shapely
from shapely import Geometry
from shapely.ops import substring

from planbuild.derive.views.lines import Run
from planbuild.derive.views.view import LineKind
from planbuild.records.solids import Key

_NEAR = 0.08
"""So near to the border (mm) a line is on it: chord of a curve and of its facets together."""
SHORT = 0.6
"""A piece shorter than this (mm) counts with its neighbour."""

Stretch = tuple[float, float]


def told_apart(runs: Sequence[Run], visible: Mapping[Key, Geometry]) -> list[Run]:
    """The runs with outlines known as such; a run that is outline in part is cut there.  Hidden ones pass unchanged."""
    zones = {key: shapely.boundary(seen).buffer(_NEAR, quad_segs=2) for key, seen in visible.items()}
    lines = shapely.linestrings(np.concatenate([r.points for r in runs]), indices=_owners(runs)) if runs else np.array([])
    on = shapely.intersection(lines, np.array([zones[r.key] for r in runs], dtype=object))
    found: list[Run] = []
    for run, line, along in zip(runs, lines, on, strict=True):
        found += [run] if run.kind is LineKind.HIDDEN else _cut(run, line, along)
    return found


def _owners(runs: Sequence[Run]) -> np.ndarray[tuple[int], np.dtype[np.int_]]:
    return np.repeat(np.arange(len(runs)), [len(r.points) for r in runs])


def _cut(run: Run, line: Geometry, along: Geometry) -> Iterator[Run]:
    whole, on = line.length, along.length
    if whole - on < SHORT or (whole < 3 * SHORT and on > whole / 2):
        yield Run(LineKind.OUTLINE, run.key, run.points)
    elif on < SHORT:
        yield run
    else:
        for kind, (start, stop) in _stretches(line, along, run.kind):
            yield Run(kind, run.key, np.array(substring(line, start, stop).coords))


def _stretches(line: Geometry, along: Geometry, inner: LineKind) -> Iterator[tuple[LineKind, Stretch]]:
    """The whole length, cut into outline and inner stretches."""
    end = 0.0
    for start, stop in _outlined(line, along):
        if start > end:
            yield inner, (end, start)
        yield LineKind.OUTLINE, (start, stop)
        end = stop
    if end < line.length:
        yield inner, (end, line.length)


def _outlined(line: Geometry, along: Geometry) -> list[Stretch]:
    """Stretches on the border, in order, short gaps closed and short pieces left out."""
    found = sorted(_stretch(line, part) for part in shapely.get_parts(along) if part.geom_type == "LineString")
    joined: list[Stretch] = []
    for start, stop in found:
        if joined and start - joined[-1][1] < SHORT:
            joined[-1] = (joined[-1][0], max(stop, joined[-1][1]))
        else:
            joined.append((start if start > SHORT else 0.0, stop))
    snapped = [(a, line.length if line.length - b < SHORT else b) for a, b in joined]
    return [(a, b) for a, b in snapped if b - a >= SHORT]


def _stretch(line: Geometry, part: Geometry) -> Stretch:
    ends = [line.project(shapely.Point(p)) for p in (part.coords[0], part.coords[-1])]
    return min(ends), max(ends)
