"""Lines of solids by the kernel's exact hidden-line removal, as polylines in the view, each knowing its body."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from planbuild.derive.views.faces import Points, edge_points
from planbuild.derive.views.view import Body, Camera, LineKind
from planbuild.records.solids import Key


@dataclass(frozen=True)
class Run:
    """A raw line: n x 2 points, not yet told apart into outline and inner edge."""

    kind: LineKind
    key: Key
    points: Points


def lines_of(bodies: Sequence[Body], camera: Camera, hidden: bool) -> list[Run]:
    """Visible lines of all bodies, in their order, and the hidden ones if wanted (smooth ones never)."""
    from OCP.HLRBRep import HLRBRep_HLRToShape

    extract = HLRBRep_HLRToShape(_hidden_line_removal(bodies, camera))
    found: list[Run] = []
    for body in bodies:
        wanted = [
            (LineKind.EDGE, extract.VCompound),
            (LineKind.EDGE, extract.OutLineVCompound),
            (LineKind.SMOOTH, extract.Rg1LineVCompound),
        ]
        if hidden:
            wanted += [(LineKind.HIDDEN, extract.HCompound), (LineKind.HIDDEN, extract.OutLineHCompound)]
        for kind, compound in wanted:
            found += [Run(kind, body.key, points) for points in _polylines(compound(body.shape.wrapped))]  # type: ignore[attr-defined]
    return found


def _hidden_line_removal(bodies: Sequence[Body], camera: Camera) -> Any:
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
    from OCP.HLRAlgo import HLRAlgo_Projector
    from OCP.HLRBRep import HLRBRep_Algo

    algorithm = HLRBRep_Algo()
    for body in bodies:
        algorithm.Add(body.shape.wrapped)  # type: ignore[attr-defined]
    algorithm.Projector(HLRAlgo_Projector(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*camera.toward), gp_Dir(*camera.right))))
    algorithm.Update()
    algorithm.Hide()
    return algorithm


def _polylines(compound: Any) -> Iterator[Points]:
    from OCP.BRepLib import BRepLib
    from OCP.TopAbs import TopAbs_EDGE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    if compound is None or compound.IsNull():
        return
    BRepLib.BuildCurves3d_s(compound)
    explorer = TopExp_Explorer(compound, TopAbs_EDGE)
    while explorer.More():
        yield edge_points(TopoDS.Edge_s(explorer.Current()))[:, :2]
        explorer.Next()
