"""Every copy where it stands: the drawn solid carried there by one motion."""

from __future__ import annotations

from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
from OCP.gp import gp_Trsf
from OCP.TopLoc import TopLoc_Location

from planbuild.core.geometry import Motion
from planbuild.shape.kernel import Shape


def placed(solid: Shape, motion: Motion) -> Shape:
    """The solid after a motion.  A mirrored one is rebuilt, so that its inside stays inside."""
    trsf = _trsf(motion)
    if motion.mirrors:
        return BRepBuilderAPI_Transform(solid, trsf, True).Shape()
    return solid.Moved(TopLoc_Location(trsf))


def _trsf(motion: Motion) -> gp_Trsf:
    """The motion as the kernel wants it, column by column from where it takes the unit vectors."""
    columns = [motion.direction(unit) for unit in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))]
    shift = motion.point((0.0, 0.0, 0.0))
    trsf = gp_Trsf()
    trsf.SetValues(*(number for row in range(3) for number in (*(c[row] for c in columns), shift[row])))
    return trsf
