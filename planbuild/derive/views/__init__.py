"""Views of solids: exact lines by hidden-line removal, and the visible regions of every face.

Lines and regions are found in different ways; where they disagree (`check.suspects`) the kernel's lines
are at fault and the visible ones are taken from the regions instead.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from planbuild.core.diagnostics import Diagnostic
from planbuild.derive.views.borders import border_lines
from planbuild.derive.views.check import suspects
from planbuild.derive.views.classify import told_apart
from planbuild.derive.views.lines import Run, lines_of
from planbuild.derive.views.merge import merged
from planbuild.derive.views.regions import Seen, look
from planbuild.derive.views.view import Body, Camera, Line, LineKind, View


def project(bodies: Sequence[Body], camera: Camera, hidden: bool = False) -> View:
    """What the camera sees of the bodies, which must not overlap.  Units: model mm, u right, v up.

    With `hidden` the lines that are covered come too, except where a visible line lies over them.
    """
    return project_checked(bodies, camera, "", hidden)[0]


def project_checked(
    bodies: Sequence[Body], camera: Camera, name: str, hidden: bool = False
) -> tuple[View, tuple[Diagnostic, ...]]:
    """The same view, and `view-suspect` diagnostics (with its `name`) if it cannot be trusted even so."""
    seen = look(bodies, camera)
    # A body that is wholly hidden has no visible line, and what hides it hides all behind it.
    drawn = bodies if hidden else [body for body in bodies if not shapely.is_empty(seen.visible[body.key])]
    runs = lines_of(drawn, camera, hidden)
    view = assembled(camera, seen, runs)
    if not suspects(view, name):
        return view, ()
    view = assembled(camera, seen, border_lines(seen) + [run for run in runs if run.kind is LineKind.HIDDEN])
    return view, suspects(view, name)


def assembled(camera: Camera, seen: Seen, runs: Sequence[Run]) -> View:
    """A view of regions and raw lines: outlines told from edges, each line once."""
    lines = tuple(_line(run) for run in merged(told_apart(runs, seen.visible)))
    return View(camera, lines, seen.regions, seen.visible, _box(lines))


def _line(run: Run) -> Line:
    return Line(run.kind, run.key, tuple((float(u), float(v)) for u, v in run.points))


def _box(lines: Sequence[Line]) -> tuple[float, float, float, float]:
    if not lines:
        return 0.0, 0.0, 0.0, 0.0
    points = np.array([p for line in lines for p in line.points])
    (low_u, low_v), (high_u, high_v) = points.min(axis=0), points.max(axis=0)
    return float(low_u), float(low_v), float(high_u), float(high_v)
