"""Views of solids: exact lines by hidden-line removal, and the visible regions of every face.

`project` draws; `check.suspects` compares the two, which are found in different ways.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from planbuild.derive.views.classify import told_apart
from planbuild.derive.views.lines import Run, lines_of
from planbuild.derive.views.merge import merged
from planbuild.derive.views.regions import look
from planbuild.derive.views.view import Body, Camera, Line, View


def project(bodies: Sequence[Body], camera: Camera, hidden: bool = False) -> View:
    """What the camera sees of the bodies, which must not overlap.  Units: model mm, u right, v up.

    With `hidden` the lines that are covered come too, except where a visible line lies over them.
    """
    seen = look(bodies, camera)
    lines = tuple(_line(run) for run in merged(told_apart(lines_of(bodies, camera, hidden), seen.visible)))
    return View(camera, lines, seen.regions, seen.visible, _box(lines))


def _line(run: Run) -> Line:
    return Line(run.kind, run.key, tuple((float(u), float(v)) for u, v in run.points))


def _box(lines: Sequence[Line]) -> tuple[float, float, float, float]:
    if not lines:
        return 0.0, 0.0, 0.0, 0.0
    points = np.array([p for line in lines for p in line.points])
    (low_u, low_v), (high_u, high_v) = points.min(axis=0), points.max(axis=0)
    return float(low_u), float(low_v), float(high_u), float(high_v)
