"""Every copy where it stands: the drawn solid carried there by one motion."""

from __future__ import annotations

from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
from OCP.gp import gp_Trsf
from OCP.TopLoc import TopLoc_Location

from planbuild.core.poses import Pose
from planbuild.shape.kernel import Shape


def placed(solid: Shape, stands: Pose) -> Shape:
    """The solid after a motion.  A mirrored one is rebuilt, so that its inside stays inside."""
    trsf = _trsf(stands)
    if stands.mirrors:
        return BRepBuilderAPI_Transform(solid, trsf, True).Shape()
    return solid.Moved(TopLoc_Location(trsf))


def _trsf(stands: Pose) -> gp_Trsf:
    """The motion as the kernel wants it, row by row."""
    trsf = gp_Trsf()
    trsf.SetValues(*(number for row, far in zip(stands.rows, stands.shift, strict=True) for number in (*row, far)))
    return trsf
